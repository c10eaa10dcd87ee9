// Water that runs under held pockets, outlets that draw air, and pipes that drain when their pump
// stops, for the expected values of cases.json. Nothing here is of sim/.
import { colebrook } from './pipes.ts';
import { density, viscosity } from './water.ts';

const G = 9.80665;
const circle = (D: number): number => (Math.PI * D * D) / 4;
const nu = (): number => viscosity(20) / density(20);
/** m, of plastic pipe. */
const ROUGH = 1.5e-6;

interface Reach {
  readonly bore_mm: number;
  readonly fall_deg: number;
  readonly velocity: number;
}

/** Share of a circle that is under a chord, and hydraulic diameter over bore, by half angle. */
function part(beta: number): { share: number; hydraulic: number } {
  const area = beta - Math.sin(beta) * Math.cos(beta);
  return { share: area / Math.PI, hydraulic: area / beta };
}

/** m/s of the whole bore that run in uniform flow: u^2 = 2 g S Dh/f, Colebrook by Dh. */
function uniform(D: number, slope: number, beta: number): number {
  const { share, hydraulic } = part(beta);
  const Dh = D * hydraulic;
  let u = 1;
  for (let k = 0; k < 60; k++) {
    const f = colebrook({ Re: (u * Dh) / nu(), e_D: ROUGH / Dh });
    u = Math.sqrt((2 * G * slope * Dh) / f);
  }
  return u * share;
}

/** Height of a pocket over that of its gas alone: the layer's share of the bore is not gas. */
function layer({ bore_mm, fall_deg, velocity }: Reach): number {
  const slope = Math.sin((fall_deg * Math.PI) / 180);
  let [lo, hi] = [0.05, 2];
  for (let k = 0; k < 50; k++) {
    const mid = (lo + hi) / 2;
    if (uniform(bore_mm / 1000, slope, mid) < velocity) lo = mid;
    else hi = mid;
  }
  return 1 / (1 - part(lo).share);
}

/** The same of an upright pipe: a film all around, flow a breadth g d^3/(3 nu), Nusselt 1916. */
function film({ bore_mm, fall_deg, velocity }: Reach): number {
  const D = bore_mm / 1000;
  const fall = G * Math.sin((fall_deg * Math.PI) / 180);
  const d = ((3 * nu() * velocity * D) / 4 / fall) ** (1 / 3);
  return 1 / (1 - (4 * d * (D - d)) / (D * D));
}

/** m: D (1 + 2.3 Fr), ANSI/HI 9.8. */
function vortex({ bore_mm, flow_L_s }: { bore_mm: number; flow_L_s: number }): number {
  const D = bore_mm / 1000;
  const V = flow_L_s / 1000 / circle(D);
  return D * (1 + (2.3 * V) / Math.sqrt(G * D));
}

interface Drain {
  readonly bore_mm: number;
  readonly length_m: number;
  readonly area_m2: number;
  readonly level_mm: number;
}

/** L in all the pipe that ends above the surface, which rises by it; it begins 50 mm up. */
function back({ bore_mm, length_m, area_m2, level_mm }: Drain): number {
  const A = circle(bore_mm / 1000);
  return (1000 * A * (length_m + 0.05 - level_mm / 1000)) / (1 + A / area_m2);
}

interface Siphon {
  readonly bore_mm: number;
  readonly length_m: number;
  readonly level_mm: number;
  readonly end_m: number;
}

/** L/s: g h = V^2/2 (1 + f L/D), Torricelli with friction. */
function siphon({ bore_mm, length_m, level_mm, end_m }: Siphon): number {
  const D = bore_mm / 1000;
  let V = 1;
  for (let k = 0; k < 60; k++) {
    const f = colebrook({ Re: (V * D) / nu(), e_D: ROUGH / D });
    V = Math.sqrt((2 * G * (level_mm / 1000 - end_m)) / (1 + (f * length_m) / D));
  }
  return 1000 * V * circle(D);
}

export const LAYERS = {
  'layers.layer': layer,
  'layers.film': film,
  'layers.vortex_m': vortex,
  'layers.back_L': back,
  'layers.siphon_L_s': siphon,
};
