// The key: what the letters on the drawing stand for. It fills what is left empty of the meadow
// beside the drums, where a wide page has that much room, and stands at the foot of the page else.
import type { Plan } from './plan.ts';
import type { Say } from './names.ts';
import type { Taken, Tagged } from './tags.ts';
import type { Box, GroundMark, KeyMark } from './types.ts';

interface Known {
  readonly plan: Plan;
  readonly ground: GroundMark;
  readonly taken: Taken;
  readonly say: Say;
  /** Where the drawing ends but for the key. */
  readonly bottom: number;
}

/** Free around the key, units; and how finely places are tried. */
const AROUND = 14;
const STEP = 12;
const COLUMNS = [3, 2, 1] as const;

interface Size {
  readonly w: number;
  readonly h: number;
}

/** The middle one of the free heights, as far to the right as there is one. */
function freeIn(room: Box, { w, h }: Size, taken: Taken): Box | null {
  for (let x = room.x + room.w - w - AROUND; x >= room.x; x -= STEP) {
    const free: Box[] = [];
    for (let y = room.y; y <= room.y + room.h - h; y += STEP) {
      const box = { x, y, w, h };
      const around = { x: x - AROUND, y: y - AROUND, w: w + 2 * AROUND, h: h + 2 * AROUND };
      if (taken.free(around)) free.push(box);
    }
    if (free.length > 0) return free[Math.floor(free.length / 2)]!;
  }
  return null;
}

export function keyOf({ rows }: Tagged, known: Known): KeyMark | null {
  const { plan, ground, taken, say, bottom } = known;
  if (rows.length === 0) return null;
  const wide = plan.shape === 'wide';
  const pitch = plan.type * 1.5;
  const sized = (columns: number): number => Math.ceil(rows.length / columns) * pitch + 14;
  const low = ground.benches.at(-1);
  if (wide && low !== undefined) {
    const letters = Math.max(...rows.map((row) => say(row.key).length));
    const column = (letters * 0.53 + 2.8) * plan.type;
    const room = { x: plan.width / 3, y: ground.line + 30, w: (plan.width * 2) / 3, h: 0 };
    for (const columns of COLUMNS) {
      const size = { w: columns * column, h: sized(columns) };
      const found = freeIn({ ...room, h: low - room.y }, size, taken);
      if (found !== null) return { ...found, rows, columns, pitch };
    }
  }
  const columns = wide ? 4 : 2;
  return { x: 30, y: bottom, w: plan.width - 60, h: sized(columns), rows, columns, pitch };
}
