// Bores as broken drawings: both legs of a circuit hang in one hole, heights below the header in
// a scale of their own with depth marks. Here are holes and the legs' corners; bores.ts says
// where each hole stands.
import type { Circuit } from './circuits.ts';
import type { Knot } from './path.ts';
import type { BoreMark } from './types.ts';

export interface DepthScale {
  readonly top_m: number;
  readonly bottom_m: number;
  /** Drawn height from top to bottom. */
  readonly room: number;
}

/** One scale for all bores of a field: from the highest start to the deepest bend. */
export function depthScale(circuits: readonly Circuit[], room: number): DepthScale {
  const tops = circuits.map(({ profile, lie }) => profile.z[profile.s.indexOf(lie.a)]!);
  const lows = circuits.map(({ profile }) => Math.min(...profile.z));
  return { top_m: Math.max(...tops), bottom_m: Math.min(...lows), room };
}

const MARKS_m = [5, 10, 20, 25, 50] as const;

export interface HoleAt {
  readonly x: number;
  readonly top: number;
  readonly leg: number;
  readonly width: number;
}

export function holeOf(circuit: Circuit, scale: DepthScale, at: HoleAt): BoreMark {
  const perMetre = scale.room / (scale.top_m - scale.bottom_m);
  const y = (z: number): number => at.top + (scale.top_m - z) * perMetre;
  const low = Math.min(...circuit.profile.z);
  const step = MARKS_m.find((m) => m * perMetre >= 44) ?? 100;
  const count = Math.floor(-low / step);
  const marks = Array.from({ length: count }, (_, k) => ({
    depth_m: (k + 1) * step,
    y: y(-(k + 1) * step),
  })).filter((m) => m.y > at.top + 20);
  return {
    circuit: circuit.id,
    x: at.x,
    leg: at.leg,
    top: at.top,
    bottom: y(low),
    top_m: scale.top_m,
    bottom_m: low,
    width: at.width,
    marks,
  };
}

export const holeY = (hole: BoreMark, z: number): number =>
  hole.top + ((hole.top_m - z) * (hole.bottom - hole.top)) / (hole.top_m - hole.bottom_m);

/** Which way each stretch of the legs runs: a new leg begins where the pipe turns round. */
function legNumbers(z: readonly number[]): number[] {
  const out = [0];
  let leg = 0;
  let way = -1;
  for (let i = 1; i < z.length; i++) {
    const d = z[i]! - z[i - 1]!;
    if (Math.abs(d) > 1 && Math.sign(d) !== way) {
      way = Math.sign(d);
      leg++;
    }
    out.push(leg);
  }
  return out;
}

/** Corners of the legs from `from` to `to` metres; `start` is -1 where leg one stands left. */
export function legKnots(
  circuit: Circuit,
  hole: BoreMark,
  range: { from: number; to: number; start: -1 | 1 },
): Knot[] {
  const { profile, lie } = circuit;
  const inner = profile.s.flatMap((s, k) =>
    s > range.from && s < range.to && s >= lie.a && s <= lie.b ? [{ s, z: profile.z[k]! }] : [],
  );
  const z = (s: number): number => {
    let i = 0;
    while (i < profile.s.length - 2 && s > profile.s[i + 1]!) i++;
    const t = (s - profile.s[i]!) / (profile.s[i + 1]! - profile.s[i]!);
    return profile.z[i]! + (profile.z[i + 1]! - profile.z[i]!) * Math.min(1, Math.max(0, t));
  };
  const points = [{ s: range.from, z: z(range.from) }, ...inner, { s: range.to, z: z(range.to) }];
  const legs = legNumbers(points.map((p) => p.z));
  const last = Math.max(1, legs.at(-1)!);
  const xOf = (leg: number): number => hole.x + range.start * hole.leg * (1 - (2 * leg) / last);
  const knots: Knot[] = [];
  points.forEach((p, k) => {
    const y = Math.min(hole.bottom, Math.max(hole.top, holeY(hole, p.z)));
    const before = legs[k - 1];
    if (before !== undefined && before !== legs[k]) {
      const turn = knots.at(-1)!;
      const r = hole.leg;
      knots[knots.length - 1] = { ...turn, x: xOf(before), r };
      knots.push({ x: xOf(legs[k]!), y: turn.y, s: turn.s + 1e-3, r });
    }
    knots.push({ x: xOf(legs[k]!), y, s: p.s, r: 4 });
  });
  return knots;
}
