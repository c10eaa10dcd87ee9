// What carries the cart's parts, by rule: a deck on four wheels, a barrow under a pump whose tank
// stands on the ground, or a trailer with a mast beside a tall tank.
import { cartY } from './plan.ts';
import type { Sheet } from './sheet.ts';
import type { FrameMark, Rig } from './types.ts';

/** A tank whose floor is lower than this stands on the ground, m. */
const STANDS_m = 0.2;
/** A tank taller than this has a mast beside it, m. */
const TALL_m = 1;

interface Load {
  readonly left: number;
  readonly right: number;
  readonly low: number;
}

function loadOf(sheet: Sheet): { load: Load | null; rig: Rig } {
  const { plan, site } = sheet;
  const carried = sheet.tanks.filter((t) => t.y + t.h < cartY(plan, STANDS_m));
  const pumps = sheet.pumps.filter((p) => p.y < plan.line);
  const spans = [
    ...carried.map((t) => ({ left: t.x - 34, right: t.x + t.w + 30, low: t.y + t.h + 14 })),
    ...pumps.map((p) => ({
      left: p.x - p.r - 14,
      right: p.motor.x + p.motor.w + 18,
      low: p.y + p.r,
    })),
  ];
  const tall = carried.some((t) => t.height_m > TALL_m);
  const rig = site.hints.rig ?? (carried.length === 0 ? 'barrow' : tall ? 'mast' : 'deck');
  if (spans.length === 0) return { load: null, rig };
  const low = Math.min(cartY(plan, 0.14), Math.max(...spans.map((s) => s.low)));
  return {
    load: {
      left: Math.min(...spans.map((s) => s.left)),
      right: Math.max(...spans.map((s) => s.right)),
      low,
    },
    rig,
  };
}

/** The height with most parts on it well above the deck, and where posts can stand beside them. */
function gantryOf(sheet: Sheet, load: Load): { y: number; posts: number[] } | null {
  const { plan } = sheet;
  const half = plan.control / 2;
  const marks = [...sheet.valves, ...sheet.dials.map((d) => ({ ...d, y: d.stem.y }))].filter(
    (v) =>
      v.y < load.low - plan.control &&
      v.x > load.left - 140 &&
      v.x < load.right + 140 &&
      v.y < plan.line,
  );
  const rows = new Map<number, number>();
  for (const m of marks) rows.set(Math.round(m.y), (rows.get(Math.round(m.y)) ?? 0) + 1);
  const best = [...rows].sort((a, b) => b[1] - a[1] || a[0] - b[0])[0];
  if (best === undefined || best[1] < 3) return null;
  const xs = marks.filter((m) => Math.abs(m.y - best[0]) < 2).map((m) => m.x);
  const free = (x: number): boolean =>
    x > load.left + 6 &&
    x < load.right - 6 &&
    sheet.placed.every(
      (p) =>
        x < p.x - 6 ||
        x > p.x + p.w + 6 ||
        p.y + p.h < best[0] - half ||
        p.y > load.low ||
        p.kind === 'gauge' ||
        p.kind === 'tank',
    ) &&
    !sheet.tanks.some((t) => x > t.x - 10 && x < t.x + t.w + 10) &&
    ![...sheet.hoseEnds.values()].some((h) => Math.abs(h.at.x - x) < 20);
  const find = (start: number, way: 1 | -1): number | null => {
    for (let x = start; x > load.left && x < load.right; x += way * 6) if (free(x)) return x;
    return null;
  };
  const a = find(Math.max(load.left + 8, Math.min(...xs) - 20), 1);
  const b = find(Math.min(load.right - 8, Math.max(...xs) + 20), -1);
  return a === null || b === null || b - a < 160 ? null : { y: best[0], posts: [a, b] };
}

export function framesOf(sheet: Sheet): FrameMark[] {
  const { plan } = sheet;
  const { load, rig } = loadOf(sheet);
  if (load === null) return [];
  const wheelR = Math.min(
    plan.line - load.low - 4,
    (rig === 'barrow' ? 0.12 : 0.11) * plan.perMetre,
  );
  const y = plan.line - wheelR;
  const deck = { x: load.left, y: load.low, w: load.right - load.left, h: 0.045 * plan.perMetre };
  const inset = Math.min(90 * plan.pipe, deck.w * 0.2);
  const wheels =
    rig === 'barrow'
      ? [{ x: load.right - wheelR * 1.3, y }]
      : [
          { x: load.left + inset, y },
          { x: load.right - inset, y },
        ];
  const gantry = rig === 'barrow' ? null : gantryOf(sheet, load);
  return [{ rig, deck, wheels, wheelR, posts: gantry?.posts ?? [], railY: gantry?.y ?? null }];
}
