// Sand and silt in pipes, filters and tanks, for the expected values of cases.json, by hand.
// Nothing here is of sim/.
import { density, viscosity } from './water.ts';

const G = 9.80665;
const nu = (): number => viscosity(20) / density(20);
/** Relative density of sand less that of water, and m of the grains that rows name. */
const HEAVIER = 1.65;
const GRAIN: Readonly<Record<string, number>> = { fine: 2e-4, coarse: 1e-3 };

interface InPipe {
  readonly grain: string;
  readonly bore_mm: number;
}

/** m/s: 0.05 (s-1) rho g d = f/8 rho V^2, Shields 1936 with f 0.316/Re^0.25, Blasius 1913. */
function stirs({ grain, bore_mm }: InPipe): number {
  const stress = 0.05 * HEAVIER * G * GRAIN[grain]!;
  return ((8 * stress * (bore_mm / 1000 / nu()) ** 0.25) / 0.316) ** (1 / 1.75);
}

/** m/s: (s-1) g d^2/(18 nu), Stokes 1851. */
const falls = (d: number): number => (HEAVIER * G * d * d) / (18 * nu());

/** m/s of natural grains: Ferguson and Church 2004. */
const settles = (d: number): number =>
  (HEAVIER * G * d * d) / (18 * nu() + Math.sqrt(0.75 * HEAVIER * G * d ** 3));

interface Drawn {
  readonly grain: string;
  readonly area_m2: number;
  readonly flow_L_s: number;
}

/** Share that stays in a stirred tank: u A/(u A + Q), Hazen 1904. */
function stays({ grain, area_m2, flow_L_s }: Drawn): number {
  const down = settles(GRAIN[grain]!) * area_m2;
  return down / (down + flow_L_s / 1000);
}

interface Turns {
  readonly diameter_mm: number;
  readonly d50_um: number;
  readonly turns: number;
}

export const GRAINS = {
  'grains.stirs_m_s': stirs,
  'grains.falls_m_s': ({ diameter_mm }: { diameter_mm: number }) => falls(diameter_mm / 1000),
  'grains.stays': stays,
  /** Left after each turnover through what keeps half of grains of its own size. */
  'grains.left': ({ diameter_mm, d50_um, turns }: Turns) => {
    if (1000 * diameter_mm !== d50_um) throw new Error('only of its own size is it known');
    return Array.from({ length: turns }, (_, k) => 0.5 ** (k + 1));
  },
  /** kPa more at half and all of the load: a cake's loss goes as its mass, Ruth 1935. */
  'grains.cake_kPa': ({ full_kPa }: { full_kPa: number }) => [full_kPa / 2, full_kPa],
};
