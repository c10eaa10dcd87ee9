// The surge of a valve that shuts at the end of a pipe, for the expected values of cases.json: by
// Joukowsky's product, and by the method of characteristics (Wylie and Streeter 1993, ch. 3), which
// follows the wave itself. Nothing here is of sim/.
import { lame } from './walls.ts';
import { compressibility, density, viscosity } from './water.ts';

const PSI = 6894.757;
const NU = 0.45;
const RHO = density(20);

/** Weisbach 1855, a cock by degrees shut: loss coefficient less that of the open cock. */
const COCK = [
  ...([
    [5, 0.05],
    [10, 0.29],
    [15, 0.75],
    [20, 1.56],
    [25, 3.1],
    [30, 5.47],
    [35, 9.68],
  ] as const),
  ...([
    [40, 17.3],
    [45, 31.2],
    [50, 52.6],
    [55, 106],
    [60, 206],
    [65, 486],
  ] as const),
] as const;
/** Degrees shut at which it is shut. */
const SHUT = 82.5;

export interface Slam {
  readonly bore_mm: number;
  readonly wall_mm: number;
  readonly length_m: number;
  readonly modulus_MPa: number;
  /** Gauge, of the reservoir that drives the water. */
  readonly head_kPa: number;
  readonly loss_k_open: number;
  /** In which the handle goes all the way. */
  readonly shut_s: number;
}

/** m/s: water in a thick elastic tube that cannot lengthen. */
function waveSpeed(i: Slam): number {
  const wall = lame({ D: i.bore_mm / 1000, e: i.wall_mm / 1000 }, NU, 'restrained').area;
  return 1 / Math.sqrt(RHO * (compressibility(20) + wall / (i.modulus_MPa * 1e6)));
}

/** Loss coefficient of the cock; Infinity where it is shut. ln K runs straight between points. */
function lossK(shut: number, open: number): number {
  if (shut >= SHUT) return Infinity;
  if (shut <= 5) return open + (COCK[0][1] * shut) / 5;
  let k = 1;
  while (k < COCK.length - 1 && shut > COCK[k]![0]) k++;
  const [[a, Ka], [b, Kb]] = [COCK[k - 1]!, COCK[k]!];
  return open + Math.exp(Math.log(Ka) + (Math.log(Kb / Ka) * (shut - a)) / (b - a));
}

/** f of a smooth pipe: laminar, or Swamee and Jain 1976. */
function factor(V: number, D: number): number {
  const Re = (RHO * Math.abs(V) * D) / viscosity(20);
  return Re < 2300 ? 64 / Math.max(Re, 1) : 0.25 / Math.log10(5.74 / Re ** 0.9) ** 2;
}

/** m/s through pipe and open valve, by halving. */
function steady(i: Slam): number {
  const D = i.bore_mm / 1000;
  let [lo, hi] = [0, 20];
  for (let k = 0; k < 60; k++) {
    const V = (lo + hi) / 2;
    const K = (factor(V, D) * i.length_m) / D + i.loss_k_open;
    if ((K * RHO * V * V) / 2 < 1000 * i.head_kPa) lo = V;
    else hi = V;
  }
  return lo;
}

/** Joukowsky: rho a dV of all the flow, psi. */
const joukowsky = (i: Slam): number => (RHO * waveSpeed(i) * steady(i)) / PSI;

const REACHES = 60;

/** psi above what stood there: characteristics along 60 reaches, the valve a moving orifice. */
function characteristics(i: Slam): number {
  const D = i.bore_mm / 1000;
  const a = waveSpeed(i);
  const dx = i.length_m / REACHES;
  const V0 = steady(i);
  const loss = (V: number) => (factor(V, D) * dx * RHO * V * Math.abs(V)) / (2 * D);
  let V = new Array<number>(REACHES + 1).fill(V0);
  let p = V.map((_, k) => 1000 * i.head_kPa - k * loss(V0));
  const before = p[REACHES]!;
  let most = before;
  const dt = dx / a;
  for (let t = dt; t < i.shut_s + (6 * i.length_m) / a; t += dt) {
    const plus = p.map((pk, k) => pk + RHO * a * V[k]! - loss(V[k]!));
    const minus = p.map((pk, k) => pk - RHO * a * V[k]! + loss(V[k]!));
    const nextV = [...V];
    const nextP = [...p];
    for (let k = 1; k < REACHES; k++) {
      nextP[k] = (plus[k - 1]! + minus[k + 1]!) / 2;
      nextV[k] = (plus[k - 1]! - minus[k + 1]!) / (2 * RHO * a);
    }
    nextP[0] = 1000 * i.head_kPa;
    nextV[0] = (nextP[0] - minus[1]!) / (RHO * a);
    // p = K rho V |V| / 2 at the valve, with p + rho a V what arrives.
    const K = lossK((90 * t) / i.shut_s, i.loss_k_open);
    const arrives = plus[REACHES - 1]!;
    const root = Math.sqrt(a * a + (2 * K * Math.abs(arrives)) / RHO);
    nextV[REACHES] = K === Infinity ? 0 : (Math.sign(arrives) * (root - a)) / K;
    nextP[REACHES] = arrives - RHO * a * nextV[REACHES];
    [V, p] = [nextV, nextP];
    most = Math.max(most, p[REACHES]!);
  }
  return (most - before) / PSI;
}

export const SURGE = {
  'surge.joukowsky_psi': joukowsky,
  'surge.characteristics_psi': characteristics,
};
