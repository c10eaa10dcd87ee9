// Where a technician looks into a clear hose: a stretch of it that nothing else covers.
import { about, type Sheet } from './sheet.ts';
import type { Box, Conduit, Placed, Point } from './types.ts';

export const apart = (a: Box, b: Box, by: number): boolean =>
  a.x + a.w + by <= b.x || b.x + b.w + by <= a.x || a.y + a.h + by <= b.y || b.y + b.h + by <= a.y;

/** Points of all other pipes above the ground, thinned out. */
export function othersOf(sheet: Sheet, own: string): Point[] {
  return sheet.conduits
    .filter((c) => c.id !== own)
    .flatMap((c) => c.points.filter((p, k) => k % 2 === 0 && p.y < sheet.plan.cut + 60));
}

/** How much of the box other pipes take. */
export function crowd(others: readonly Point[], box: Box): number {
  let sum = 0;
  for (const p of others) {
    if (p.x > box.x && p.x < box.x + box.w && p.y > box.y && p.y < box.y + box.h) sum += 2;
  }
  return sum;
}

/** Shifts aside, in shares of the area, where the pipe itself is too close to other parts. */
const OFFSETS = [0, 0.25, -0.25, 0.45, -0.45, 0.65, -0.65, 0.9, -0.9] as const;
const EVERY = 4;

/** The straight stretch that each point lies on: its middle and its length, in points. */
function stretches(pipe: Conduit): { middle: number; length: number }[] {
  const { points } = pipe;
  const out: { middle: number; length: number }[] = [];
  let from = 0;
  for (let k = 1; k <= points.length; k++) {
    const [p, q] = [points[k], points[from]!];
    if (p !== undefined && Math.abs(p.nx * q.ny - p.ny * q.nx) < 0.02) continue;
    for (let i = from; i < k; i++) out.push({ middle: (from + k - 1) / 2, length: k - 1 - from });
    from = k;
  }
  return out;
}

/** Prefers the middle of an upright stretch, where names find room at the side. */
function costAt(sheet: Sheet, pipe: Conduit, k: number, on: { middle: number; length: number }) {
  const p = pipe.points[k]!;
  const upright = Math.abs(p.nx) > 0.9;
  const short = on.length < 14 ? 20 : 0;
  // On the narrow page names find room on the turf, not between the cart's parts.
  const inside = sheet.plan.shape === 'tall' && p.y < sheet.plan.line + 60 ? 9 : 0;
  return inside + Math.abs(k - on.middle) * 0.1 + short - (upright ? 6 : 0);
}

function bestSight(sheet: Sheet, pipe: Conduit, taken: readonly Placed[]): Box | null {
  const { plan } = sheet;
  const side = plan.control;
  const solid: Box[] = [...taken, ...sheet.pumps.map((p) => p.motor)];
  const others = othersOf(sheet, pipe.id);
  const on = stretches(pipe);
  let best: { box: Box; cost: number } | null = null;
  for (let k = 0; k < pipe.points.length; k += EVERY) {
    const p = pipe.points[k]!;
    if (p.y > plan.cut + 4) continue;
    const plain = costAt(sheet, pipe, k, on[k]!);
    for (const off of OFFSETS) {
      const base = plain + Math.abs(off) * 30;
      if (best !== null && base >= best.cost) continue;
      const box = about({ x: p.x + p.nx * off * side, y: p.y + p.ny * off * side }, side);
      if (box.x < 2 || box.x + box.w > plan.width - 2 || box.y < 2) continue;
      if (!solid.every((o) => apart(o, box, 1))) continue;
      const cost = base + crowd(others, box);
      if (best === null || cost < best.cost) best = { box, cost };
    }
  }
  return best?.box ?? null;
}

/** Where a hose can only be looked into within a tank, the tank's own area gives way. */
function trimTanks(sheet: Sheet, box: Box): void {
  sheet.placed.forEach((p, k) => {
    if (p.kind !== 'tank' || apart(p, box, 1)) return;
    const above = box.y - 2 - p.y;
    const below = p.y + p.h - box.y - box.h - 2;
    const trimmed = above >= below ? { ...p, h: above } : { ...p, y: box.y + box.h + 2, h: below };
    sheet.placed[k] = trimmed;
  });
}

export function placeSights(sheet: Sheet): void {
  for (const spec of sheet.site.scenario.instruments) {
    if (spec.kind !== 'sight') continue;
    const pipe = sheet.drawn(spec.link);
    if (pipe === undefined) continue;
    const free = bestSight(sheet, pipe, sheet.placed);
    const box =
      free ??
      bestSight(
        sheet,
        pipe,
        sheet.placed.filter((p) => p.kind !== 'tank'),
      );
    if (box === null) continue;
    if (free === null) trimTanks(sheet, box);
    sheet.place(spec.id, 'sight', box);
  }
}
