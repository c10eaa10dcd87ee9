// Where a slip of paper may lie beside a control: inside the drawing, never on the control, and on
// as little else as can be. Plain geometry in CSS pixels.

export interface Rect {
  readonly x: number;
  readonly y: number;
  readonly w: number;
  readonly h: number;
}

const GAP = 10;
/** What an overlap counts for each pixel, against a pixel of distance. */
const OVERLAP_COST = 0.3;

export function overlap(a: Rect, b: Rect): number {
  const w = Math.min(a.x + a.w, b.x + b.w) - Math.max(a.x, b.x);
  const h = Math.min(a.y + a.h, b.y + b.h) - Math.max(a.y, b.y);
  return w > 0 && h > 0 ? w * h : 0;
}

const within = (value: number, lo: number, hi: number): number =>
  Math.max(lo, Math.min(Math.max(lo, hi), value));

/**
 * Top left corner for a slip of this size beside `target`, inside `room`, off the `others` where
 * it can be. Below is tried first, then above, right and left; each slid along the edge.
 */
export function placeBeside(
  target: Rect,
  slip: { readonly w: number; readonly h: number },
  room: Rect,
  others: readonly Rect[],
): { readonly left: number; readonly top: number } {
  const middleX = target.x + target.w / 2 - slip.w / 2;
  const middleY = target.y + target.h / 2 - slip.h / 2;
  const below = target.y + target.h + GAP;
  const above = target.y - GAP - slip.h;
  const right = target.x + target.w + GAP;
  const left = target.x - GAP - slip.w;
  const slides = [0, -0.25, 0.25, -0.5, 0.5, -0.75, 0.75, -1, 1];
  const wanted = [
    ...slides.map((share) => [middleX + share * slip.w, below] as const),
    ...slides.map((share) => [middleX + share * slip.w, above] as const),
    ...slides.map((share) => [right, middleY + share * slip.h] as const),
    ...slides.map((share) => [left, middleY + share * slip.h] as const),
  ];
  let best = { left: middleX, top: below };
  let least = Infinity;
  for (const [wantedX, wantedY] of wanted) {
    const x = within(wantedX, room.x, room.x + room.w - slip.w);
    const y = within(wantedY, room.y, room.y + room.h - slip.h);
    const at = { x, y, ...slip };
    const covered = others.reduce((sum, other) => sum + overlap(at, other), 0);
    const far = Math.abs(x + slip.w / 2 - target.x - target.w / 2)
      + Math.abs(y + slip.h / 2 - target.y - target.h / 2);
    const cost = (overlap(at, target) > 0 ? 1e6 : 0) + covered * OVERLAP_COST + far;
    if (cost < least) [best, least] = [{ left: x, top: y }, cost];
  }
  return best;
}
