// How grains of one class move where they are: their speed along the pipe, what a flow picks up
// from the wall, and what comes to rest on it. What floats does so along the crown.
// Fits: speeds of rolling and of riding grains are mixed by the share that is off the wall; grains
// stand upright in pipes steeper than 60 degrees; a bed covers half a bore of wall.
import { abs, max, min, sqrt } from '../base/math.ts';
import {
  depositFactor,
  depositVelocity,
  EXCESS_MOST,
  grainHolds,
  pickUp,
  rollingSpeed,
  settlingSpeed,
  suspendedShare,
} from '../laws/solids.ts';
import type { GrainClass } from '../network/debris-plan.ts';

/** Sine and tangent of the angle at which a heap of sand or shavings slides, 32 degrees. */
const REPOSE_SINE = 0.5299;
const REPOSE_TANGENT = 0.6249;
/** Sine of the slope from which grains ride as in an upright pipe, 60 degrees [fit]. */
const UPRIGHT_SINE = 0.866;
/** Share of a layer's room that grains fill. */
const PACKED = 0.6;
/** s. In this the flow clears a wall on which nothing stays any more [fit]. */
const CLEARS_S = 1;

/** A class in a liquid; asked once a column. */
export interface Grain {
  d: number;
  s: number;
  /** m/s, positive down; Pa that hold it on a level wall; kg/m2 of a layer. */
  w: number;
  holds: number;
  layer: number;
  /** kg/m2/s that a flow of twice the threshold picks up; UNASKED until somebody asks. */
  gives: number;
  /** m/s. In a level pipe of this bore nothing stays above it. */
  clears: number;
  bore: number;
  rho: number;
  nu: number;
}

/** Where it is not worked out: few places lie below a flow that picks up and does not clear. */
const UNASKED = -1;

export const grain: Grain = {
  ...{ d: 0, s: 1, w: 0, holds: 0, layer: 0, gives: 0 },
  ...{ clears: 0, bore: 1, rho: 1000, nu: 1e-6 },
};

/** What the flow does to the grains of a place. */
export interface Fate {
  /** m/s along from -> to. */
  speed: number;
  /** Layers that are picked up in the time; below zero the share of all that lies, negated. */
  lift: number;
  /** Share of what moves that comes to rest. */
  rest: number;
}
export const fate: Fate = { speed: 0, lift: 0, rest: 0 };

/** The class that `grain` was worked out for: many columns in turn hold the same liquid. */
let known: GrainClass | null = null;

/** Sets `grain` to a class in a liquid of rho kg/m3 and nu m2/s, in a pipe of this bore. */
export function setGrain(of: GrainClass, bore: number, rho: number, nu: number): void {
  if (of === known && rho === grain.rho && nu === grain.nu) {
    if (bore === grain.bore) return;
    grain.bore = bore;
    grain.clears = depositVelocity(depositFactor(of.d), bore, grain.s);
    return;
  }
  known = of;
  const s = of.density / rho;
  grain.d = of.d;
  grain.s = s;
  grain.rho = rho;
  grain.nu = nu;
  grain.bore = bore;
  grain.w = settlingSpeed(of.d, s, nu);
  grain.holds = grainHolds(of.d, s, rho);
  grain.layer = PACKED * of.density * of.d;
  grain.gives = UNASKED;
  grain.clears = depositVelocity(depositFactor(of.d), bore, s);
}

/** Where grains are: liquid's velocity and shear velocity, m/s, and how the pipe rises. */
export interface Place {
  u: number;
  shear: number;
  sine: number;
  cosine: number;
}
export const place: Place = { u: 0, shear: 0, sine: 0, cosine: 1 };

/**
 * Fills `fate` for `grain` at `place` over dt seconds. Along the wall grains feel the flow's shear
 * and their own weight, against the threshold times the cosine: on a slope this is the threshold
 * of [Soulsby1997], ch. 6.
 */
export function settleFate(dt: number): void {
  const { w, holds, rho, bore } = grain;
  const { u, shear, sine, cosine } = place;
  const fast = abs(u);
  const across = abs(w) * cosine;
  const tau = rho * shear * shear;
  const weight = ((w < 0 ? -holds : holds) * sine) / REPOSE_TANGENT;
  const along = (u < 0 ? -tau : tau) - weight;
  const threshold = holds * cosine;
  const moves = abs(along) > threshold;
  const upright = (abs(sine) - REPOSE_SINE) / (UPRIGHT_SINE - REPOSE_SINE);
  const rides = min(1, max(upright, suspendedShare(shear, across)));
  fate.speed = rides * (u - w * sine);
  if (moves && rides < 1) {
    const rolls = rollingSpeed(sqrt(abs(along) / rho), sqrt(threshold / rho));
    const most = min(rolls, fast + abs(w * sine));
    fate.speed += (1 - rides) * (along < 0 ? -most : most);
  }
  const clear = fast > grain.clears * sqrt(cosine);
  fate.rest = moves || clear ? 0 : (1 - rides) * falls((across * dt) / bore);
  fate.lift = 0;
  if (upright > 0)
    fate.lift = -1; // Too steep for grains to lie.
  else if (clear) fate.lift = -dt / (dt + CLEARS_S);
  else if (moves) {
    if (grain.gives === UNASKED) grain.gives = pickUp(grain.d, 1, grain);
    const excess = threshold > 0 ? min(EXCESS_MOST, abs(along) / threshold - 1) : EXCESS_MOST;
    fate.lift = (grain.gives * excess * sqrt(excess) * dt) / grain.layer;
  }
}

/** Share that has come down in a mixed stream whose fall goes k times through it [Hazen1904]. */
export function falls(k: number): number {
  return k / (1 + k);
}

/** kg of a layer of `grain` on half a bore of wall over `length` m. */
export function layerMass(length: number): number {
  return grain.layer * 0.5 * grain.bore * length;
}
