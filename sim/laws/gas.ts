// How gas moves in a liquid-carrying pipe of any slope: one closed form of published parts, with
// everything that depends on bore and slope alone worked out once. Flux = alpha (C j + slip phi).
// Leaves neighbours, tees and compressibility to the transport.
import { abs, acos, clamp, max, min, PI, pow, sin, smoothstep, sqrt, tanh } from '../base/math.ts';
import { G } from '../base/units.ts';

/** Constants of one bore and slope. Angles by their sine; +x goes up where sinTheta > 0. */
export interface GasSection {
  readonly D: number;
  readonly sinTheta: number;
  /** m/s: sqrt(g D drho/rho_l). */
  readonly r: number;
  /** 0 level .. 1 inclined. */
  readonly T: number;
  /** m/s: drift of a long pocket up the slope in still liquid. */
  readonly Up: number;
  /** m/s: rise of small bubbles. */
  readonly U_b: number;
  /** Shape of the clearing Froude number: F_c = level * a(n) + rest. */
  readonly F_level: number;
  readonly F_rest: number;
  /** Share of the flow that small bubbles take with them where it rises: 1 level, 1.2 inclined. */
  readonly A_up: number;
  /** C0 of slow rising flow. */
  readonly C0_slow: number;
  /** Alpha at which bubbles begin to act as pockets, and where they do fully. */
  readonly lo: number;
  readonly hi: number;
  /** sqrt(rho_g/rho_l). */
  readonly s: number;
  /** m/s: onset of air being carried off by the jump below a pocket. */
  readonly onset: number;
  /** Thinnest layer, as a share of the bore, that surface tension lets spread. */
  readonly cap: number;
  /** Gas share of a layer of that thickness. */
  readonly capShare: number;
  /** m/s along +x: rise of small bubbles up the slope. */
  readonly bubble: number;
  /** m/s: how fast a layer as thick as the bore levels itself along the crown. */
  readonly spread: number;
}

export const AIR_DENSITY = 1.2; // kg/m3, at 20 C and one atmosphere.
const DEG = PI / 180;
/** Sine of the slope up to which a gas layer levels itself along the crown: 10 degrees. */
const LEVELLING_SINE = 0.17365;

/**
 * Rise of a long bubble in a vertical pipe over r: 0.34/(1 + 3805/Eo^3.06)^0.58 [Viana2003], for
 * buoyancy Reynolds numbers over 200 (water in any bore over 6 mm). Eo > 0; not clamped.
 */
export function verticalFroude(Eo: number): number {
  return 0.34 / pow(1 + 3805 / pow(Eo, 3.06), 0.58);
}

/**
 * Speed of a cavity's front in a level pipe over r: 0.54 - 1.76 Eo^-0.56 [Weber1981, recalled].
 * Eo > 0; held at 0 where surface tension stops the front (Eo < 8).
 */
export function levelFroude(Eo: number): number {
  return max(0, 0.54 - 1.76 * pow(Eo, -0.56));
}

/** Constant a(n) of [Escarameia2005] for a pocket of n = 4V/(pi D^3), 0 to 2. Recalled. */
export function pocketConstant(n: number): number {
  if (n < 0.06) return 0.45;
  if (n < 0.12) return 0.5;
  return n < 0.3 ? 0.57 : 0.61; // [Escarameia2005]
}

function angleOf(sine: number): number {
  return PI / 2 - acos(clamp(abs(sine), 0, 1));
}

/**
 * Constants for bore D (m), slope sine, densities (kg/m3) and surface tension (N/m).
 * Drift: [Bendiksen1984] blend of [Viana2003] and [Weber1981]; bubbles: [Harmathy1960];
 * clearing: [Escarameia2005] to 22.5 degrees, 0.38 r vertical [Martin1976], between a fit.
 */
export function gasSection(
  D: number,
  sinTheta: number,
  rho_l: number,
  rho_g: number,
  sigma: number,
): GasSection {
  const drho = rho_l - rho_g;
  const r = sqrt((G * D * drho) / rho_l);
  const Eo = (drho * G * D * D) / sigma;
  const b = angleOf(sinTheta);
  const sb = abs(sinTheta);
  const cb = sqrt(max(0, 1 - sb * sb));
  const T = tanh(sb / sin(DEG));
  const U_b = 1.53 * sqrt(sqrt((G * sigma * drho) / (rho_l * rho_l)));
  const w = smoothstep((b - 22.5 * DEG) / (67.5 * DEG));
  const slopePart = 0.56 * sqrt(min(sb, sin(22.5 * DEG)));
  const st = smoothstep((b - 45 * DEG) / (30 * DEG));
  const cap = min(0.9, (2 * sqrt(sigma / (drho * G))) / D);
  return {
    D,
    sinTheta,
    r,
    T,
    Up: r * (verticalFroude(Eo) * sb + levelFroude(Eo) * cb * T),
    U_b,
    F_level: 1 - w,
    F_rest: slopePart * (1 - w) + 0.38 * w,
    A_up: 1 + 0.2 * T, // 1.2 of [ZuberFindlay1965], faded out towards the level [fit].
    C0_slow: 1.05 + 0.15 * sb * sb,
    lo: 0.1 * st,
    hi: 0.05 + 0.2 * st,
    s: sqrt(rho_g / rho_l),
    onset: cb < 1e-6 ? 1e9 : r * 1.071 * sqrt(sb / cb), // [KalinskeBliss1943]
    cap,
    capShare: segmentShare(cap),
    bubble: U_b * sinTheta,
    spread: sb >= LEVELLING_SINE ? 0 : (1 - sb / LEVELLING_SINE) * 0.228 * r, // [Benjamin1968]
  };
}

/** Velocity that clears a pocket of size n from a falling (or level) section, m/s. */
export function clearingVelocity(sec: GasSection, n: number): number {
  return sec.r * (sec.F_level * pocketConstant(n) + sec.F_rest);
}

/** Froude number of the flow from which small bubbles ride in its fast middle [fit]. */
const A_FULL = 0.2;

/** Places in the numbers that `drift` takes and gives. */
export const DRIFT = { alpha: 0, j: 1, n: 2, C: 3, slip: 4, phi: 5, size: 6 } as const;

/**
 * C, slip u - C j along +x before the end limiter (m/s) and phi, so that the gas flux is
 * alpha (C j + slip phi); from alpha 0..1, j m/s along +x and the pocket's size n. The end limiter
 * has the form of [Shi2005]. Called for every wet cell in every tick, so its numbers come and go
 * in a list: a call that takes or gives a number by itself costs more than the sum.
 */
export function drift(sec: GasSection, io: Float64Array): void {
  const alpha = io[0]!;
  const j = io[1]!;
  const rising = sec.sinTheta >= 0 ? j : -j;
  let A = 1;
  if (rising > 0) {
    // Faded in: a step at rest would make the exchange of a stalled leg flicker with j's sign.
    const t = rising / (A_FULL * sec.r);
    A += (sec.A_up - 1) * (t >= 1 ? 1 : t * t * (3 - 2 * t));
  }
  const x = (alpha - sec.lo) / (sec.hi - sec.lo);
  const w = x <= 0 ? 0 : x >= 1 ? 1 : x * x * (3 - 2 * x);
  let u = 0;
  if (w < 1) {
    // (1 - alpha)^1.75 = x sqrt(x) sqrt(sqrt(x)), x = 1 - alpha.
    const one = 1 - alpha;
    const root = sqrt(one);
    u = (1 - w) * (A * j + sec.bubble * one * root * sqrt(root));
  }
  if (w > 0) {
    pocketSpeed(sec, io);
    u += w * io[4]!;
  }
  const y = alpha <= 0.4 ? 0 : (alpha - 0.4) / 0.6;
  const C = A / (1 + (A - 1) * y * y);
  const full = 1 - alpha * C;
  io[3] = C;
  io[4] = u - C * j;
  io[5] = full <= 0 ? 0 : full / (full + (1 - full) * sec.s);
}

/** io[4] = velocity of a long pocket of size io[2] along +x, m/s, in a flow of io[1] m/s. */
function pocketSpeed(sec: GasSection, io: Float64Array): void {
  const { r, T, Up } = sec;
  const j = io[1]!;
  const n = io[2]!;
  const J = j < 0 ? -j : j;
  const a = n < 0.06 ? 0.45 : n < 0.12 ? 0.5 : n < 0.3 ? 0.57 : 0.61; // [Escarameia2005]
  const J0 = r * a;
  const creep = 0.05 * J; // [fit]
  const past = J > J0 ? J - J0 * (J0 / J) * (J0 / J) : creep;
  const level = past > creep ? past : creep;
  let inclined = 0;
  if (j < 0 ? sec.sinTheta <= 0 : sec.sinTheta >= 0) {
    const x = J / r - 3;
    const t = x <= 0 ? 0 : x >= 1 ? 1 : x * x * (3 - 2 * x);
    inclined = (sec.C0_slow + (1.2 - sec.C0_slow) * t) * J + Up;
  } else {
    const Jc = r * (sec.F_level * a + sec.F_rest);
    inclined = J <= Jc ? -Up * (1 - J / Jc) : J - Up - (Jc - Up) * (Jc / J) * (Jc / J);
  }
  const speed = (1 - T) * level + T * inclined;
  io[4] = j < 0 ? -speed : speed;
}

const io = new Float64Array(DRIFT.size);

/** The same with its numbers one by one: out[0] = C, out[1] = slip, out[2] = phi. */
export function gasDrift(
  sec: GasSection,
  alpha: number,
  j: number,
  n: number,
  out: Float64Array,
): void {
  io[0] = alpha;
  io[1] = j;
  io[2] = n;
  drift(sec, io);
  out[0] = io[3]!;
  out[1] = io[4]!;
  out[2] = io[5]!;
}

const driftOut = new Float64Array(3);

/** Gas flux of a uniform section, m/s. */
export function gasFlux(sec: GasSection, alpha: number, j: number, n: number): number {
  gasDrift(sec, alpha, j, n, driftOut);
  return alpha * (driftOut[0]! * j + driftOut[1]! * driftOut[2]!);
}

/** Area share of a segment of depth h/D at the crown. */
function segmentShare(h: number): number {
  const half = acos(1 - 2 * h);
  return (half - (1 - 2 * h) * sqrt(max(0, h - h * h)) * 2) / PI;
}

export const LAYER_STEPS = 256;
/** Thickness over bore of a layer along the crown, by its share of the section in 256 steps. */
export const layerTable = new Float64Array(LAYER_STEPS + 1);
const surfaceTable = new Float64Array(LAYER_STEPS + 1);
for (let i = 0; i <= LAYER_STEPS; i++) {
  let lo = 0;
  let hi = 1;
  for (let k = 0; k < 50; k++) {
    const mid = (lo + hi) / 2;
    if (segmentShare(mid) < i / LAYER_STEPS) lo = mid;
    else hi = mid;
  }
  layerTable[i] = lo;
  surfaceTable[i] = 2 * sqrt(max(0, lo - lo * lo));
}

/** alpha 0..1. */
function lookUp(table: Float64Array, alpha: number): number {
  const x = alpha * LAYER_STEPS;
  const i = x >= LAYER_STEPS ? LAYER_STEPS - 1 : x | 0;
  return table[i]! + (x - i) * (table[i + 1]! - table[i]!);
}

/** Thickness over bore of a gas layer along the crown that fills `alpha` of the section. */
export function layerThickness(alpha: number): number {
  return lookUp(layerTable, clamp(alpha, 0, 1));
}

/**
 * Gas that levels itself along the crown between two cells of gas shares left and right, m/s
 * along +x: 0.228 r sqrt(dh/D), which at dh = D is the lock exchange of [Benjamin1968]. A layer
 * thinner than twice the capillary length stands, and the steeper the pipe, the less [fit].
 */
export function levelling(sec: GasSection, left: number, right: number): number {
  const most = left > right ? left : right;
  if (most <= sec.capShare) return 0;
  const low = lookUp(layerTable, left > right ? right : left);
  const drive = lookUp(layerTable, most) - (low > sec.cap ? low : sec.cap);
  if (drive <= 0) return 0;
  const j = sec.spread * sqrt(drive);
  return left > right ? j : -j;
}

/**
 * Air over water that a hydraulic jump carries off: 0.0025 (Fr1 - 1)^1.8 [Escarameia2007,
 * recalled]. Fr1 to 10, held there; 0 where there is no jump (Fr1 <= 1).
 */
export function jumpEntrainment(Fr1: number): number {
  return Fr1 <= 1 ? 0 : 0.0025 * pow(min(Fr1, 10) - 1, 1.8);
}

/** The same by [KalinskeRobertson1943]: 0.0066 (Fr1 - 1)^1.4. For comparison only. */
export function jumpEntrainmentOld(Fr1: number): number {
  return Fr1 <= 1 ? 0 : 0.0066 * pow(Fr1 - 1, 1.4);
}

/** Froude number of the stream that runs under a pocket of share alpha at mean velocity J. */
export function streamFroude(sec: GasSection, alpha: number, J: number): number {
  const water = max(0.02, 1 - alpha);
  const surface = max(0.05, lookUp(surfaceTable, alpha));
  const depth = (water * PI * sec.D) / (4 * surface);
  return J / water / sqrt(G * depth);
}

/**
 * Gas torn from a pocket held on a falling slope by the jump at its foot, m/s along the flow j;
 * 0 unless the pocket stands, the next cell is full, the flow is above the onset of
 * [KalinskeBliss1943], and bubbles are carried down (J > U_b sin b).
 */
export function entrainment(sec: GasSection, alpha: number, next: number, j: number): number {
  const J = abs(j);
  if (alpha < 0.2 || next > 0.05 || j * sec.sinTheta >= 0) return 0;
  if (J < sec.onset || J < sec.U_b * abs(sec.sinTheta) || J >= clearingVelocity(sec, 1)) return 0;
  return j * jumpEntrainment(streamFroude(sec, alpha, J));
}
