// The board that hangs over the yard: what is worn, signed or dipped into a cup, and what stands
// at the outlet. Rows of equal hooks, as many to a row as the page takes.
import type { Site } from './graph.ts';
import type { Look } from './plan.ts';
import type { Box } from './types.ts';

/** Kinds of devices that belong to no part of the rig. */
const LOOSE: readonly string[] = ['wear', 'act', 'cup', 'plug', 'breaker', 'ground_fault'];
/** Instruments that are brought along and held to something. */
const HELD: readonly string[] = [
  'hydrometer',
  'refractometer',
  'dip_thermometer',
  'current',
  'voltage',
];

export interface BoardSlot extends Box {
  readonly id: string;
  readonly reads: boolean;
  /** Room for its name below it, across. */
  readonly room: number;
}

export interface Board extends Box {
  readonly slots: readonly BoardSlot[];
}

const EDGE = 14;
/** From the side of the drawing to the board, and between two names, units. */
const SIDE = 40;
const APART = 8;

/** Null where a job has nothing that hangs there. */
export function boardOf({ scenario }: Site, look: Look): Board | null {
  const things = [
    ...scenario.devices
      .filter((d) => LOOSE.includes(d.kind))
      .map((d) => ({ id: d.id, reads: false })),
    ...scenario.instruments
      .filter((i) => HELD.includes(i.kind))
      .map((i) => ({ id: i.id, reads: true })),
  ];
  if (things.length === 0) return null;
  const wide = look.shape === 'wide';
  const least = look.control + (wide ? 36 : 6);
  const most = Math.floor((look.width - 4 * EDGE) / least);
  const rows = Math.ceil(things.length / most);
  const columns = Math.ceil(things.length / rows);
  // Names stand clear of each other where the page has room for it.
  const spread = (look.width - 2 * SIDE - 2 * EDGE) / columns;
  const cell = {
    w: wide ? Math.min(look.control + 52, Math.max(least, spread)) : least,
    h: look.control + (wide ? 2.3 * look.type : 6),
  };
  const w = columns * cell.w + 2 * EDGE;
  const left = wide ? SIDE : (look.width - w) / 2;
  const slots = things.map((thing, k) => ({
    ...thing,
    x: left + EDGE + (k % columns) * cell.w + (cell.w - look.control) / 2,
    y: 2 * EDGE + Math.floor(k / columns) * cell.h,
    w: look.control,
    h: look.control,
    room: cell.w - APART,
  }));
  return { x: left, y: EDGE, w, h: rows * cell.h + 2 * EDGE, slots };
}
