// Where a slip of paper may lie beside a control: inside the drawing, never on the control, and on
// as little else as can be. Plain geometry in CSS pixels.

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

/** Something better not covered; `cost` for each pixel covered, against a pixel of distance. */
export interface Obstacle extends Rect {
  readonly cost: number;
}

const GAP = 10;

export function overlap(a: Rect, b: Rect): number {
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}

/** Positions tried lie this far apart, px. */
const GRID = 14;
/** What a slip off to the side counts, against one that is as far away but straight beside. */
const ASKEW = 0.12;
/** From about this far, px, distance counts by its square: a slip is for the hand that is there. */
const FAR = 24;

/** Distance between two boxes that do not overlap, along the axis on which they are apart. */
function gap(a: Rect, b: Rect): number {
  const x = Math.max(a.x - b.x - b.w, b.x - a.x - a.w);
  const y = Math.max(a.y - b.y - b.h, b.y - a.y - a.h);
  return Math.max(0, x) + Math.max(0, y);
}

/** Positions from `lo` to `hi`, both of them among the rest. */
function steps(lo: number, hi: number): number[] {
  if (hi <= lo) return [lo];
  const count = Math.ceil((hi - lo) / GRID);
  return Array.from({ length: count + 1 }, (_, k) => lo + ((hi - lo) * k) / count);
}

/**
 * Top left corner for a slip of this size near `target`, inside `room`: never on the target, off
 * the `others` where it can be, and as near as that leaves. Where the room is too small to keep
 * off the target, the corner of the room.
 */
export function placeBeside(
  target: Rect,
  slip: { readonly w: number; readonly h: number },
  room: Rect,
  others: readonly Obstacle[],
): { readonly left: number; readonly top: number } {
  const keptOff = {
    x: target.x - GAP, y: target.y - GAP, w: target.w + 2 * GAP, h: target.h + 2 * GAP,
  };
  const xs = steps(room.x, room.x + room.w - slip.w);
  const ys = steps(room.y, room.y + room.h - slip.h);
  let best = { left: room.x, top: room.y };
  let least = Infinity;
  for (const y of ys) {
    for (const x of xs) {
      const at = { x, y, ...slip };
      if (overlap(at, keptOff) > 0) continue;
      const askew = Math.abs(x + slip.w / 2 - target.x - target.w / 2)
        + Math.abs(y + slip.h / 2 - target.y - target.h / 2);
      const apart = gap(at, target);
      let cost = apart + apart * apart / FAR + ASKEW * askew;
      for (const other of others) cost += other.cost * overlap(at, other);
      if (cost < least) [best, least] = [{ left: x, top: y }, cost];
    }
  }
  return best;
}

/** Ends of the shortest line between two boxes, in the middle of the stretch they share. */
export function leaderBetween(a: Rect, b: Rect): readonly [number, number, number, number] {
  const ends = (a0: number, a1: number, b0: number, b1: number): [number, number] => {
    if (a1 < b0) return [a1, b0];
    if (b1 < a0) return [a0, b1];
    const middle = (Math.max(a0, b0) + Math.min(a1, b1)) / 2;
    return [middle, middle];
  };
  const [x1, x2] = ends(a.x, a.x + a.w, b.x, b.x + b.w);
  const [y1, y2] = ends(a.y, a.y + a.h, b.y, b.y + b.h);
  return [x1, y1, x2, y2];
}
