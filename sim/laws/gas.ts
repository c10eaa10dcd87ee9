// How gas moves in a liquid-carrying pipe of any slope: one closed form of published parts, with
// everything that depends on bore and slope alone worked out once. Flux = alpha (C j + slip phi).
// Leaves neighbours, tees and compressibility to the transport.
import {
  abs,
  acos,
  clamp,
  lerp,
  max,
  min,
  PI,
  pow,
  sin,
  smoothstep,
  sqrt,
  tanh,
} from '../base/math.ts';
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
}

const DEG = PI / 180;

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
    cap: min(0.9, (2 * sqrt(sigma / (drho * G))) / D),
  };
}

/** Velocity that clears a pocket of size n from a falling (or level) section, m/s. */
export function clearingVelocity(sec: GasSection, n: number): number {
  return sec.r * (sec.F_level * pocketConstant(n) + sec.F_rest);
}

/** Velocity of a pocket along the flow, m/s, J = |j|; `rising`: the flow goes up the slope. */
function pocketVelocity(sec: GasSection, J: number, n: number, rising: boolean): number {
  const { r, T, Up } = sec;
  const J0 = r * pocketConstant(n);
  const creep = 0.05 * J; // [fit]
  const level = J > J0 ? max(creep, J - J0 * (J0 / J) * (J0 / J)) : creep;
  if (rising) {
    const C0 = lerp(sec.C0_slow, 1.2, smoothstep(J / r - 3));
    return (1 - T) * level + T * (C0 * J + Up);
  }
  const Jc = clearingVelocity(sec, n);
  const down = J <= Jc ? -Up * (1 - J / Jc) : J - Up - (Jc - Up) * (Jc / J) * (Jc / J);
  return (1 - T) * level + T * down;
}

/** Froude number of the flow from which small bubbles ride in its fast middle [fit]. */
const A_FULL = 0.2;

/**
 * out[0] = C, out[1] = slip u - C j along +x before the end limiter (m/s), out[2] = phi, so that
 * the gas flux is alpha (C j + slip phi). alpha 0..1, j m/s along +x, n pocket size. The end
 * limiter has the form of [Shi2005]. No transcendental function inside.
 */
export function gasDrift(
  sec: GasSection,
  alpha: number,
  j: number,
  n: number,
  out: Float64Array,
): void {
  const { sinTheta } = sec;
  const sign = j < 0 ? -1 : 1;
  const J = abs(j);
  const rising = sinTheta >= 0 ? j : -j;
  // Faded in: a step at rest would make the exchange of a stalled leg flicker with the sign of j.
  const A = rising > 0 ? 1 + (sec.A_up - 1) * smoothstep(rising / (A_FULL * sec.r)) : 1;
  const pocket = sign * pocketVelocity(sec, J, n, sign * sinTheta >= 0);
  const one = 1 - alpha;
  // (1 - alpha)^1.75 = x sqrt(x) sqrt(sqrt(x)), x = 1 - alpha.
  const root = sqrt(one);
  const bubble = A * j + sec.U_b * sinTheta * one * root * sqrt(root);
  const w = smoothstep((alpha - sec.lo) / (sec.hi - sec.lo));
  const u = (1 - w) * bubble + w * pocket;
  const y = clamp((alpha - 0.4) / 0.6, 0, 1);
  const C = A / (1 + (A - 1) * y * y);
  const z = min(1, alpha * C);
  out[0] = C;
  out[1] = u - C * j;
  out[2] = (1 - z) / (1 - z + z * sec.s);
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

const LAYER_STEPS = 256;
const layerTable = new Float64Array(LAYER_STEPS + 1);
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

function lookUp(table: Float64Array, alpha: number): number {
  const x = clamp(alpha, 0, 1) * LAYER_STEPS;
  const i = x >= LAYER_STEPS ? LAYER_STEPS - 1 : x - (x % 1);
  return table[i]! + (x - i) * (table[i + 1]! - table[i]!);
}

/** Thickness over bore of a gas layer along the crown that fills `alpha` of the section. */
export function layerThickness(alpha: number): number {
  return lookUp(layerTable, alpha);
}

/**
 * Gas that levels itself along the crown, m/s along +x: 0.228 r sqrt(dh/D), which at dh = D is the
 * lock exchange of [Benjamin1968]. A layer thinner than twice the capillary length stands [fit].
 */
export function levelling(sec: GasSection, hLeft: number, hRight: number): number {
  const left = hLeft > hRight;
  const drive = left ? hLeft - max(hRight, sec.cap) : hRight - max(hLeft, sec.cap);
  if (drive <= 0) return 0;
  const j = 0.228 * sec.r * sqrt(drive);
  return left ? j : -j;
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
