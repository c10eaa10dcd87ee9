// Tanks, pumps, heat and frost, for the expected values of cases.json, as one does them by hand.
// Nothing here is of sim/.
import { printed, rows } from './printed.ts';
import { conductivity, density, vapourPressure, viscosity } from './water.ts';

const G = 9.80665;
const ATM = 101325;
const circle = (D: number): number => (Math.PI * D * D) / 4;
/** J/kg/K and J/kg: water by handbooks, iron, the melting of ice. */
const [C_WATER_0, C_WATER_20, C_IRON, MELTING] = [4205, 4184, 460, 333600];

/** m, (p_atm - p_v)/(rho g) + z - h. */
const npsh = (i: { over_m: number; loss_m: number; vapour_Pa: number }): number =>
  (ATM - i.vapour_Pa) / (density(20) * G) + i.over_m - i.loss_m;

interface Pump {
  readonly Hd: number;
  readonly Qd_L_s: number;
  readonly eta: number;
  readonly suction_kPa: number;
  readonly npsh_m: number;
}

/** What is left of the head where the suction gives just what is required: 3 % are lost. */
function starved({ suction_kPa, npsh_m }: Pump): number {
  const given = (1000 * suction_kPa + ATM - vapourPressure(20)) / (density(20) * G);
  if (!(Math.abs(given / npsh_m - 1) < 1e-3)) throw new Error(`${given} m given`);
  return 1 - 3 / 100;
}

/** K/min: all of the power at shut-off, rho g H0 Q/(2 eta), into 2.5 L of water, 5 kg of iron. */
function casing({ Hd, Qd_L_s, eta }: Pump): number {
  const power = (density(20) * G * ((4 * Hd) / 3) * (Qd_L_s / 1000)) / (2 * eta);
  return (60 * power) / (0.0025 * density(20) * C_WATER_20 + 5 * C_IRON);
}

/** Strength of all over that of the dose: a tank, a loop, three fittings of half a litre. */
function mixed(i: { tank_L: number; bore_mm: number; length_m: number }): [number, number] {
  const loop = circle(i.bore_mm / 1000) * i.length_m * 1000;
  const x = i.tank_L / (i.tank_L + loop + 3 * 0.5);
  return [x, x];
}

/** m/s of a small bubble, by balance of buoyancy and the drag of Schiller and Naumann 1935. */
function rise(d: number): number {
  const [rho, mu] = [density(20), viscosity(20)];
  let u = 0.01;
  for (let k = 0; k < 500; k++) {
    const Re = (rho * u * d) / mu;
    const Cd = (24 / Re) * (1 + 0.15 * Re ** 0.687);
    u = (u + Math.sqrt((4 * G * d) / (3 * Cd))) / 2;
  }
  return u;
}

/** Share of bubbles of half a millimetre that a stirred tank does not let rise, Hazen 1904. */
function under(i: { bore_mm: number; velocity: number; area_m2: number }): number {
  const Q = i.velocity * circle(i.bore_mm / 1000);
  return Q / (rise(0.0005) * i.area_m2 + Q);
}

/** Minutes for water of 5 C in a 38/48 mm hose to 0.05 C, then to a tenth of ice, air at -10 C. */
function freezing(): [number, number] {
  const kg = 1000 * circle(0.038); // A metre of it.
  const wall = Math.log(48 / 38) / (2 * Math.PI * 0.16);
  const outside = 1 / (25 * Math.PI * 0.048);
  const inside = 1 / (3.66 * Math.PI * conductivity(2.5));
  const R = wall + outside + inside;
  const cooling = kg * C_WATER_0 * R * Math.log((5 + 10) / (0.05 + 10));
  return [cooling / 60, (0.1 * MELTING * kg * R) / 10 / 60];
}

interface Slush {
  readonly fluid: string;
  readonly x: number;
  readonly t_C: number;
}

/** Lever rule: ice = 1 - x/x_l, x_l straight between two printed freezing points. */
function slush({ fluid, x, t_C }: Slush): number {
  const table = fluid === 'propylene_glycol' ? 'ASHRAE propylene glycol' : `CRC ${fluid}`;
  const points = rows(table)
    .filter(([at]) => at.endsWith(' freezes'))
    .map(([at]) => [Number(at.split(' ')[0]), printed(table, at)[0]!] as const);
  const k = points.findIndex(([, t]) => t < t_C);
  const [[x0, t0], [x1, t1]] = [points[k - 1]!, points[k]!];
  return 1 - x / (x0 + ((x1 - x0) * (t_C - t0)) / (t1 - t0));
}

interface Sunny {
  readonly bore_mm: number;
  readonly wall_mm: number;
  readonly sun: number;
  readonly film: number;
}

/** g/mol and kg/m3 at 20 C of an undiluted alcohol. */
const ALCOHOL: Readonly<Record<string, readonly [number, number]>> = {
  ethanol: [46.07, 789.3],
  methanol: [32.04, 791.3],
};

/** Parts in a million of air over a mixture in balance: Henry's law at the mixture's molality. */
function headspace(i: { alcohol: string; phi: number; t_C: number }): number {
  const [g_mol, rho] = ALCOHOL[i.alcohol]!;
  const molality = (i.phi * rho) / (g_mol / 1000) / ((1 - i.phi) * density(20));
  const [at25, rise] = printed('Sander 2015', i.alcohol);
  const henry = at25! * Math.exp(rise! * (1 / (i.t_C + 273.15) - 1 / 298.15));
  return (1e6 * 1e5 * (molality / henry)) / ATM;
}

interface Cake {
  readonly area_m2: number;
  readonly medium_per_m: number;
  readonly cake_m_kg: number;
  readonly load_kg_m3: number;
  readonly mPa_s: number;
  readonly loss_kPa: number;
  readonly litres: readonly number[];
}

/** s: Ruth's line, t/V = mu alpha c V/(2 A^2 dp) + mu R/(A dp). */
function ruth(i: Cake): number[] {
  const [mu, dp, A] = [i.mPa_s / 1000, 1000 * i.loss_kPa, i.area_m2];
  return i.litres.map((litres) => {
    const V = litres / 1000;
    return (
      V *
      ((mu * i.cake_m_kg * i.load_kg_m3 * V) / (2 * A * A * dp) + (mu * i.medium_per_m) / (A * dp))
    );
  });
}

/** kg/m3 of a mixture of so much specific gravity 20/4 C: over water at its densest. */
function gravity({ x }: { x: readonly number[] }): number[] {
  return x.map((one) => printed('Lange 5.13', `gravity ${one}`)[0]! * density(3.98));
}

/** Straight between the points of a list, in its order. */
function between(points: readonly (readonly [x: number, y: number])[], x: number): number {
  const k = points.findIndex(([at]) => at > x);
  const [[x0, y0], [x1, y1]] = [points[k - 1]!, points[k]!];
  return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
}

const pointsOf = (table: string, suffix: string): (readonly [number, number])[] =>
  rows(table)
    .filter(([at]) => at.endsWith(suffix))
    .map(([at, values]) => [Number(at.slice(0, at.length - suffix.length)), values[0]!] as const)
    .sort(([a], [b]) => a - b);

interface Poured {
  readonly fluid: string;
  readonly neat_L: number;
  readonly water_L: number;
}

/** L: masses of both, and the density straight between what is printed. */
function poured({ fluid, neat_L, water_L }: Poured): number {
  const table = `CRC ${fluid} density`;
  const neat = (neat_L * printed(table, '1')[0]!) / 1000;
  const all = neat + (water_L * density(20)) / 1000;
  return (1000 * all) / between(pointsOf(table, ''), neat / all);
}

interface Sampled {
  readonly fluid: string;
  readonly x: readonly number[];
}

/** Specific gravity, 20/20. */
const floats = ({ fluid, x }: Sampled): number[] =>
  x.map((one) => printed(`CRC ${fluid} density`, String(one))[0]! / density(20));

/**
 * C that a scale for propylene glycol shows of something else: the strength of glycol with the same
 * index, straight between, and what that would freeze at, straight between, from nothing at 0 C.
 */
function prism({ fluid, x }: Sampled): number[] {
  const glycol = pointsOf('CRC index', ' propylene_glycol').map(([y, n]) => [n, y] as const);
  const freezes = [[0, 0] as const, ...pointsOf('ASHRAE propylene glycol', ' freezes')];
  return x.map((one) => {
    const n = printed('CRC index', `${one} ${fluid}`)[0]!;
    return between(freezes, between(glycol, n));
  });
}

export const MIXING = {
  'mixing.poured_L': poured,
  'mixing.floats': floats,
  'mixing.prism_C': prism,
  'mixing.npsh_m': npsh,
  'mixing.headspace_ppm': headspace,
  'mixing.ruth_s': ruth,
  'mixing.gravity': gravity,
  'mixing.starved': starved,
  'mixing.casing_K_min': casing,
  'mixing.stirred': ({ turnovers }: { turnovers: number }) => 1 - Math.exp(-turnovers),
  'mixing.mixed': mixed,
  'mixing.under': under,
  'mixing.freezing_min': freezing,
  'mixing.slush': slush,
  'mixing.kilowatt_K_h': ({ litres }: { litres: number }) =>
    3.6e6 / ((litres / 1000) * density(20) * C_WATER_20),
  /** K: 0.9 G D = h pi D dT, whatever D. */
  'mixing.sunny_K': ({ sun, film }: Sunny) => (0.9 * sun) / (film * Math.PI),
};
