// Texts whose place is known from the start: depths, distances, names of runs, the frost line,
// what stands in the house; and the numbers of circuits.
import type { Circuit } from './circuits.ts';
import type { Rung } from './rungs.ts';
import type { Plan } from './plan.ts';
import type { Align, BoreMark, HouseMark, Label, Plate, Strip } from './types.ts';

export interface FieldDrawn {
  readonly rungs: readonly Rung[];
  readonly holes: readonly BoreMark[];
  readonly circuits: readonly Circuit[];
  readonly bottom: number;
}

type Room = readonly [number, number, number, number];

function mark(key: string, room: Room, align: Align, values = {}): Label {
  const [x, y, w, h] = room;
  return { key, x, y, w, h, values, align, tone: 'mark', leader: [] };
}

const lineOf = (plan: Plan): number => plan.type + 6;

/** Runs of one or two circuits: distances under the strips, names beside or above them. */
function foldedMarks(plan: Plan, strips: readonly Strip[], beside: boolean): Label[] {
  const h = lineOf(plan);
  return strips.flatMap((strip) => {
    const depth = { m: Math.abs(strip.datum_m) };
    const name = `yard.${strip.run}_run`;
    if (plan.shape === 'tall') {
      const y = strip.top - plan.type - 10;
      const [l, r] = [Math.min(strip.x0, strip.x1), Math.max(strip.x0, strip.x1)];
      const told = mark('yard.below_ground', [r - 310, y, 304, h], 'right', depth);
      return r - l < 480 ? [told] : [mark(name, [l + 36, y, 150, h], 'left'), told];
    }
    const ticks = strip.ticks.map((t) =>
      mark('yard.metres', [t.x - 34, strip.bottom + 1, 68, h - 2], 'center', { m: t.at_m }),
    );
    if (!beside) return ticks;
    const x = strip.rulerX + 22;
    return [
      ...ticks,
      mark(name, [x, Math.min(strip.top - 1, strip.datumY - h * 1.55), 166, h], 'left'),
      mark('yard.below_ground', [x, strip.datumY - h / 2, 172, h], 'left', depth),
    ];
  });
}

/** Depths of many strips: each where there is room for it, else the first and the last. */
function ladderMarks(plan: Plan, rungs: readonly Rung[]): Label[] {
  const h = lineOf(plan);
  const strips = rungs.flatMap((r) => r.strips);
  if (plan.shape === 'tall') return [];
  const out: Label[] = [];
  let low = -Infinity;
  strips.forEach((strip, k) => {
    const y = strip.datumY - h / 2;
    if (y < low) return;
    const x = strip.rulerX;
    if (x + 150 > plan.width) return;
    low = y + h + 2;
    const key =
      k === 0 || strip.datum_m !== strips[k - 1]!.datum_m ? 'yard.below_ground' : 'yard.metres';
    const m = Math.abs(strip.datum_m);
    out.push(mark(key, [x, y, Math.min(176, plan.width - x - 8), h], 'left', { m }));
  });
  return out;
}

function boreMarks(plan: Plan, holes: readonly BoreMark[]): Label[] {
  const h = lineOf(plan);
  const rows = new Map<number, BoreMark[]>();
  for (const hole of holes) rows.set(hole.top, [...(rows.get(hole.top) ?? []), hole]);
  return [...rows.values()].flatMap((row) => {
    const last = row.reduce((a, b) => (b.x > a.x ? b : a));
    const deepest = row.reduce((a, b) => (b.bottom > a.bottom ? b : a));
    const x = last.x + last.leg + last.width + 20 * plan.pipe;
    const w = plan.shape === 'wide' ? 70 : 118;
    if (x + w > plan.width) return [];
    return deepest.marks.map((m) =>
      mark('yard.metres', [x, m.y - h / 2, w, h], 'left', { m: m.depth_m }),
    );
  });
}

/** A number for each circuit: the one in its id, else its place along the header. */
export function circuitNumber(circuit: Circuit, place: number): string {
  const own = /(\d+)$/.exec(circuit.id)?.[1];
  return own === undefined ? String(place + 1) : String(Number(own));
}

function circuitPlates(plan: Plan, drawn: FieldDrawn): Plate[] {
  if (drawn.circuits.length < 2) return [];
  const small = drawn.circuits.length > 14;
  const r = plan.type * (small && plan.shape === 'tall' ? 0.6 : 0.72);
  return drawn.circuits.flatMap((circuit, k): Plate[] => {
    const text = circuitNumber(circuit, k);
    const hole = drawn.holes.find((b) => b.circuit === circuit.id);
    const base = { id: circuit.id, text, r, leader: [] };
    if (hole !== undefined)
      return [{ ...base, x: hole.x, y: hole.bottom + r + hole.width / 2 + 6 }];
    const rung = drawn.rungs.find((g) => g.circuit === circuit);
    const [out, back] = rung?.strips ?? [];
    if (out === undefined) return [];
    const way = Math.sign(out.x1 - out.x0);
    if (back !== undefined) {
      const y = (out.datumY + back.datumY) / 2;
      return [{ ...base, x: out.x1 + way * (r + 40), y }];
    }
    return [{ ...base, x: rung!.plateX, y: rung!.plateY }];
  });
}

function exaggeration(plan: Plan, drawn: FieldDrawn, beside: boolean): Label[] {
  const strip = drawn.rungs.flatMap((r) => r.strips).at(-1);
  if (strip === undefined) return [];
  const h = lineOf(plan);
  const times = { n: Math.max(1, Math.round(strip.perMetre / strip.along)) };
  const key = times.n === 1 ? 'yard.to_scale' : 'yard.exaggeration';
  if (beside) {
    const room: Room = [strip.rulerX + 22, strip.datumY + h / 2 + 2, 166, 2 * h];
    return [mark(key, room, 'left', times)];
  }
  const x =
    plan.shape === 'wide'
      ? Math.min(strip.x0, strip.x1)
      : folds(strip)
        ? Math.min(strip.x0, strip.x1) + 30
        : 22;
  const w = Math.min(620, plan.width - x - 12);
  const out = [mark(key, [x, drawn.bottom + 4, w, h], 'left', times)];
  const datums = new Set(drawn.rungs.flatMap((r) => r.strips).map((s) => s.datum_m));
  const told = plan.shape === 'wide' && strip.rulerX + 150 <= plan.width;
  if (strip.run !== 'whole' || told || datums.size > 1) return out;
  const end = Math.max(strip.x0, strip.x1);
  const room: Room =
    plan.shape === 'wide' ? [end - 304, drawn.bottom + 4, 304, h] : [x, drawn.bottom + 4 + h, w, h];
  return [
    ...out,
    mark('yard.below_ground', room, plan.shape === 'wide' ? 'right' : 'left', {
      m: Math.abs(strip.datum_m),
    }),
  ];
}

const folds = (strip: Strip): boolean => strip.run !== 'whole';

/** True where the strips' names find room at their right-hand side. */
export function standsBeside(plan: Plan, drawn: FieldDrawn): boolean {
  const strips = drawn.rungs.flatMap((r) => r.strips);
  const strip = strips[0];
  return (
    plan.shape === 'wide' &&
    strip !== undefined &&
    strip.run !== 'whole' &&
    strips.length <= 4 &&
    strip.rulerX + 186 < plan.width
  );
}

/** Moves plates in one column apart. */
function spaced(plates: readonly Plate[]): Plate[] {
  const low = new Map<number, number>();
  return [...plates]
    .sort((a, b) => a.y - b.y)
    .map((p) => {
      const column = Math.round(p.x);
      const y = Math.max(p.y, low.get(column) ?? -Infinity);
      low.set(column, y + 2 * p.r + 3);
      return { ...p, y };
    });
}

export function fieldMarks(plan: Plan, drawn: FieldDrawn) {
  const beside = standsBeside(plan, drawn);
  const plates = spaced(circuitPlates(plan, drawn));
  const bottom = Math.max(drawn.bottom, ...plates.map((p) => p.y + p.r));
  const strips = drawn.rungs.flatMap((r) => r.strips);
  const folded = strips.some((s) => s.run !== 'whole');
  const labels = [
    ...(folded ? foldedMarks(plan, strips, beside) : ladderMarks(plan, drawn.rungs)),
    ...boreMarks(plan, drawn.holes),
    ...exaggeration(plan, { ...drawn, bottom }, beside),
  ];
  return { labels, plates, bottom };
}

export function houseMarks(plan: Plan, house: HouseMark): Label[] {
  if (house.unit === null) return [];
  const h = lineOf(plan);
  const x = house.x + house.wall + 3;
  const room: Room = [x, house.unit.y - 2 * h - 8, plan.width - x - 3, 2 * h];
  return [{ ...mark('yard.heat_pump', room, 'center'), tone: 'name' }];
}
