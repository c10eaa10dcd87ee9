// The rungs of a ladder of trenches: how high each is, one under the other, with room for the
// valves that stand before them.
import { hasStills, stillsIn } from './chains.ts';
import { inOrder, type Circuit, type Field } from './circuits.ts';
import { depthScale, holeOf } from './holes.ts';
import { widthOf } from './plan.ts';
import { allBranches, isBank } from './rails.ts';
import type { Sheet } from './sheet.ts';
import { heightOn, reliefOf, stripOf, stripY, type Slot } from './strips.ts';
import type { BoreMark, Strip } from './types.ts';

export interface Rung {
  readonly circuit: Circuit;
  readonly strips: readonly Strip[];
  /** Set where the circuit hangs in a bore; its leads lie `lead` above the hole. */
  readonly hole: BoreMark | null;
  readonly lead: number;
  readonly bottom: number;
  /** Where the circuit's number stands, beyond the supply header. */
  readonly plateX: number;
  readonly plateY: number;
}

export interface Across {
  readonly top: number;
  readonly x0: number;
  readonly x1: number;
  readonly rulerX: number;
  readonly plateX: number;
}

export interface Rows {
  readonly folded: boolean;
  readonly pitch: number;
  readonly perMetre: number;
  /** Share of the plain width in which the field's pipes are drawn. */
  readonly slim: number;
  readonly title: number;
  readonly ticks: number;
  readonly gap: number;
  /** Height of a rung in which a bore hangs. */
  readonly hole: number;
}

const TICK_m = 30;
/** Rungs closer than this have no room for more than their pipe. */
const CLOSE = 60;

const halfOf = (sheet: Sheet, circuit: Circuit, slim: number): number =>
  (widthOf(sheet.plan, circuit.bore_mm) * slim) / 2 + 3;

function spread(circuit: Circuit, folded: boolean): number {
  const runs = folded ? (['out', 'back'] as const) : (['whole'] as const);
  const heights = runs.map((run) => {
    const { lo, hi } = reliefOf(circuit, run);
    return hi - lo;
  });
  return Math.max(0.1, ...heights);
}

export function rowsOf(
  sheet: Sheet,
  circuits: readonly Circuit[],
  how: { folded: boolean; room: number },
): Rows {
  const { plan } = sheet;
  const { folded } = how;
  const trenches = circuits.filter((c) => c.kind === 'trench');
  const n = trenches.length * (folded ? 2 : 1);
  const slim = circuits.length > 12 ? 0.7 : circuits.length > 6 ? 0.85 : 1;
  const wide = plan.shape === 'wide';
  const hole = wide ? 150 : 200;
  const room = how.room - (circuits.length - trenches.length) * hole;
  const few = circuits.length <= 6;
  const least = few ? (wide ? 100 : 112) : wide ? 36 : 50;
  const pitch = Math.min(wide ? 152 : 150, Math.max(least, room / Math.max(1, n)));
  const title = !wide && folded ? plan.type + 10 : 0;
  const ticks = wide && folded ? 22 : 0;
  const gap = pitch < CLOSE ? 6 : 14;
  const free = (c: Circuit): number =>
    (pitch - title - ticks - gap - 2 * halfOf(sheet, c, slim)) / spread(c, folded);
  const perMetre = Math.max(8, Math.min(plan.stripPerMetre, ...trenches.map(free)));
  return { folded, pitch, perMetre, slim, title, ticks, gap, hole };
}

/** Circuits before which valves stand, on either side. */
function valvesBefore(fields: readonly Field[]): Set<Circuit> {
  const out = new Set(fields.flatMap((f) => f.circuits).filter(hasStills));
  for (const field of fields) {
    for (const root of [field.supply, field.back]) {
      if (root === null) continue;
      for (const { node, branch } of allBranches(root)) {
        if (isBank(node, branch) && stillsIn(branch.links).length > 0) {
          out.add(inOrder(branch.to)[0]!);
        }
      }
    }
  }
  return out;
}

/** Holes stand here and there, so that their depths can be told apart. */
function holeX(at: Across, k: number): number {
  const share = 0.24 + 0.52 * ((0.5 + k * 0.618) % 1);
  return Math.min(at.x0, at.x1) + share * Math.abs(at.x1 - at.x0);
}

interface Laying {
  readonly sheet: Sheet;
  readonly at: Across;
  readonly rows: Rows;
  readonly bores: readonly Circuit[];
}

function holeRung(lay: Laying, circuit: Circuit, top: number): Rung {
  const { sheet, at, rows } = lay;
  const { plan } = sheet;
  const width = widthOf(plan, circuit.bore_mm) * rows.slim;
  const lead = 20 * plan.pipe;
  const scale = depthScale(lay.bores, rows.hole - lead - width - 26 * plan.pipe);
  const place = {
    x: holeX(at, lay.bores.indexOf(circuit)),
    top: top + width / 2 + 6 + lead,
    leg: width / 2 + 5 * plan.pipe,
    width,
  };
  const hole = holeOf(circuit, scale, place);
  const bottom = hole.bottom + width / 2 + 10 + 1.6 * plan.type;
  return { circuit, strips: [], hole, lead, bottom, plateX: at.plateX, plateY: hole.top - lead };
}

function stripRung(lay: Laying, circuit: Circuit, start: number): Rung {
  const { sheet, at, rows } = lay;
  const half = halfOf(sheet, circuit, rows.slim);
  const { x0, x1, rulerX } = at;
  let top = start;
  const runs = rows.folded ? (['out', 'back'] as const) : (['whole'] as const);
  /** Both ends of a folded circuit lie on one side, and may have valves. */
  const under = (strip: Strip, above: Strip | null, lower: (by: number) => Strip): Strip => {
    if (above === null || !hasStills(circuit)) return strip;
    const [a, b] = [circuit.lie.a, circuit.lie.b].map((s) => heightOn(circuit, s));
    const by = stripY(above, a!) + sheet.plan.control + 16 - stripY(strip, b!);
    return by > 0 ? lower(by) : strip;
  };
  let first: Strip | null = null;
  const strips = runs.map((run) => {
    const slot: Slot = {
      circuit,
      run,
      x0,
      x1,
      perMetre: rows.perMetre,
      half,
      tick_m: TICK_m,
      rulerX,
    };
    const strip = under(stripOf(slot, top + rows.title), first, (by) =>
      stripOf(slot, top + rows.title + by),
    );
    first ??= strip;
    const valves = hasStills(circuit) ? strip.datumY + sheet.plan.control + 16 - half : 0;
    top = Math.max(valves - rows.title, strip.bottom + rows.ticks + rows.gap);
    return strip;
  });
  const plateY = stripY(strips[0]!, heightOn(circuit, circuit.lie.a));
  return {
    circuit,
    strips,
    hole: null,
    lead: 0,
    bottom: top - rows.gap,
    plateX: at.plateX,
    plateY,
  };
}

/** Heights on the page of a rung's two ends: the higher and the lower of them. */
function endsY({ circuit, strips, hole, lead }: Rung): { high: number; low: number } {
  if (hole !== null) return { high: hole.top - lead, low: hole.top - lead };
  const y = [
    stripY(strips[0]!, heightOn(circuit, circuit.lie.a)),
    stripY(strips.at(-1)!, heightOn(circuit, circuit.lie.b)),
  ];
  return { high: Math.min(...y), low: Math.max(...y) };
}

export function layRungs(sheet: Sheet, fields: readonly Field[], at: Across, rows: Rows): Rung[] {
  const starts = valvesBefore(fields);
  const circuits = fields.flatMap((f) => f.circuits);
  const bores = circuits.filter((c) => c.kind === 'bore');
  const lay: Laying = { sheet, at, rows, bores };
  const rungs: Rung[] = [];
  let top = at.top;
  let last = -Infinity;
  for (const circuit of circuits) {
    const rungAt = (y: number): Rung =>
      circuit.kind === 'bore' ? holeRung(lay, circuit, y) : stripRung(lay, circuit, y);
    let one = rungAt(top);
    if (starts.has(circuit)) {
      // Below the valves before it, and below the number under a bore.
      const { hole = null, bottom } = rungs.at(-1) ?? { bottom: 0 };
      const under = hole === null ? -Infinity : bottom + sheet.plan.control / 2 + 2;
      const room = Math.max(under, last + sheet.plan.control + 24 * sheet.plan.pipe);
      if (endsY(one).high < room) {
        top += room - endsY(one).high;
        one = rungAt(top);
      }
      last = endsY(one).low;
    }
    rungs.push(one);
    const least = circuit.kind === 'bore' || rows.pitch >= CLOSE ? 0 : rows.pitch;
    top = Math.max(one.bottom + rows.gap, top + least);
  }
  return rungs;
}
