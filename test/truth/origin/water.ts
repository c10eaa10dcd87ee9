// Water at one atmosphere by the releases of the IAPWS, for the expected values of cases.json:
// SR6-08(2011) for liquid at 0.1 MPa, R7-97(2012) region 4 for boiling; for surface tension the fit
// of Mulero, Cachadina and Parra (2012). The engine's laws are others. Nothing here is of sim/.

/** J/kg/K, Pa, K of SR6-08, table 1. */
const [R, P0, T_R, T_A, T_B] = [461.51805, 1e5, 10, 593, 232];
type Term = readonly [factor: number, power: number];
/** SR6-08, table 2: the terms of v/v_R in (T_R/(593 - T))^n and (T_R/(T - 232))^m. */
const V_CONSTANT = 1.93763157e-2;
const V_ALPHA: readonly Term[] = [
  [6.74458446e3, 4],
  [-2.22521604e5, 5],
  [1.00231247e8, 7],
  [-1.63552118e9, 8],
  [8.32299658e9, 9],
];
const V_BETA: readonly Term[] = [
  [5.78545292e-3, 1],
  [-1.53195665e-2, 2],
  [3.11337859e-2, 3],
  [-4.23546241e-2, 4],
  [3.38713507e-2, 5],
  [-1.19946761e-2, 6],
];
/** The same for its derivative by pressure. */
const VP_ALPHA: readonly Term[] = [
  [-7.5245878e-6, 1],
  [-1.3767418e-2, 3],
  [1.0627293e1, 5],
  [-2.0457795e2, 6],
  [1.2037414e3, 7],
];
const VP_BETA: readonly Term[] = [
  [-3.109147e-6, 1],
  [2.8964919e-5, 3],
  [-1.3112763e-4, 4],
  [3.0410453e-4, 5],
  [-3.9034594e-4, 6],
  [2.3403117e-4, 7],
  [-4.8510101e-5, 9],
];

const total = (terms: readonly Term[], x: number): number =>
  terms.reduce((sum, [a, n]) => sum + a * x ** n, 0);
const slope = (terms: readonly Term[], x: number): number =>
  terms.reduce((sum, [a, n]) => sum + n * a * x ** (n + 1), 0);

const kelvin = (t_C: number): number => t_C + 273.15;
const alpha = (T: number): number => T_R / (T_A - T);
const beta = (T: number): number => T_R / (T - T_B);

function volume(t_C: number): number {
  const T = kelvin(t_C);
  return ((R * T_R) / P0) * (V_CONSTANT + total(V_ALPHA, alpha(T)) + total(V_BETA, beta(T)));
}

/** kg/m3, eq. 2 of SR6-08. */
export const density = (t_C: number): number => 1 / volume(t_C);

/** 1/Pa, isothermal, eq. 3. */
export function compressibility(t_C: number): number {
  const T = kelvin(t_C);
  const byPressure =
    ((R * T_R) / (P0 * P0)) * (total(VP_ALPHA, alpha(T)) + total(VP_BETA, beta(T)));
  return -byPressure / volume(t_C);
}

/** 1/K, eq. 5. */
export function expansion(t_C: number): number {
  const T = kelvin(t_C);
  return ((R / P0) * (slope(V_ALPHA, alpha(T)) - slope(V_BETA, beta(T)))) / volume(t_C);
}

/** Pa s, eq. 7. */
export function viscosity(t_C: number): number {
  const T = kelvin(t_C) / 300;
  return (
    1e-6 * (280.68 * T ** -1.9 + 511.45 * T ** -7.7 + 61.131 * T ** -19.6 + 0.45903 * T ** -40)
  );
}

/** W/m/K, eq. 8. */
export function conductivity(t_C: number): number {
  const T = kelvin(t_C) / 300;
  return 1.663 * T ** -1.15 - 1.7781 * T ** -3.4 + 1.1567 * T ** -6 - 0.432115 * T ** -7.6;
}

/** Pa, R7-97, eq. 30 and table 34. */
export function vapourPressure(t_C: number): number {
  const n = [
    ...[0.11670521452767e4, -0.72421316703206e6, -0.17073846940092e2, 0.1202082470247e5],
    ...[-0.32325550322333e7, 0.1491510861353e2, -0.48232657361591e4, 0.40511340542057e6],
    ...[-0.23855557567849, 0.65017534844798e3],
  ] as const;
  const T = kelvin(t_C);
  const w = T + n[8]! / (T - n[9]!);
  const A = w * w + n[0]! * w + n[1]!;
  const B = n[2]! * w * w + n[3]! * w + n[4]!;
  const C = n[5]! * w * w + n[6]! * w + n[7]!;
  return 1e6 * ((2 * C) / (-B + Math.sqrt(B * B - 4 * A * C))) ** 4;
}

/** N/m, J. Phys. Chem. Ref. Data 41, 043105, water. */
function surfaceTension(t_C: number): number {
  const x = 1 - kelvin(t_C) / 647.096;
  return -0.1306 * x ** 2.471 + 0.2151 * x ** 1.233;
}

/** C at which water is densest: where its expansion is nothing. */
function densest(): number {
  let [lo, hi] = [0, 10];
  for (let k = 0; k < 60; k++) {
    const mid = (lo + hi) / 2;
    if (expansion(mid) < 0) lo = mid;
    else hi = mid;
  }
  return lo;
}

interface At {
  readonly t_C: readonly number[];
}
export const WATER = {
  'water.density': ({ t_C }: At) => t_C.map(density),
  'water.viscosity_mPa_s': ({ t_C }: At) => t_C.map((t) => 1e3 * viscosity(t)),
  'water.vapourPressure': ({ t_C }: At) => t_C.map(vapourPressure),
  'water.compressibility_per_TPa': ({ t_C }: At) => t_C.map((t) => 1e12 * compressibility(t)),
  'water.bulkModulus_GPa': ({ t_C }: At) => t_C.map((t) => 1e-9 / compressibility(t)),
  'water.expansion_1e4_K': ({ t_C }: At) => t_C.map((t) => 1e4 * expansion(t)),
  'water.surfaceTension_mN_m': ({ t_C }: At) => t_C.map((t) => 1e3 * surfaceTension(t)),
  'water.densest_C': densest,
};
