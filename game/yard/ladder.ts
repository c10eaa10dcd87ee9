// A field of trenches: strips one under the other like the rungs of a ladder, the supply header
// on one side and the return on the other. One or two circuits are folded at their far end; a
// bore among trenches hangs in a rung of its own.
import { dropOf, stillPitch, stillsIn } from './chains.ts';
import { inOrder, type Circuit, type Field } from './circuits.ts';
import { legKnots } from './holes.ts';
import { pourCircuit, poured, type TwoLeads } from './pour.ts';
import { branchesOf, drawTree, type LeadLine, type Leads, type Rails } from './rails.ts';
import { layRungs, rowsOf, type Across, type Rows, type Rung } from './rungs.ts';
import type { Sheet } from './sheet.ts';
import { columnsOf, railPitch, reachOf, treesOf, type Tree } from './sides.ts';
import { heightOn, stripKnots, stripY } from './strips.ts';
import type { Line } from './trace.ts';
import type { BoreMark, RiserEnd } from './types.ts';

export interface Frame {
  /** First free height below the frost line, and where the field should end if it can. */
  readonly top: number;
  readonly target: number;
  readonly left: number;
  readonly right: number;
  readonly pinOf: (root: string) => RiserEnd;
}

export interface Ladder {
  readonly rungs: readonly Rung[];
  readonly bottom: number;
}

/** Heights at which a circuit's two ends lie on its rung. */
function endY(rung: Rung, which: Tree['which']): number {
  const { circuit, strips, hole } = rung;
  if (hole !== null) return hole.top - rung.lead;
  const s = which === 'supply' ? circuit.lie.a : circuit.lie.b;
  return stripY(which === 'supply' ? strips[0]! : strips.at(-1)!, heightOn(circuit, s));
}

interface Laid {
  readonly trees: readonly Tree[];
  readonly rungs: ReadonlyMap<Circuit, Rung>;
  readonly across: Across;
  readonly rows: Rows;
  readonly laneTop: number;
  readonly lane: number;
}

export interface Both {
  readonly supply: Leads;
  readonly back: Leads;
}

/** Where a side's columns begin: the end of the strips that lies on that side. */
const edgeX = (at: Across, side: -1 | 1): number =>
  side === 1 ? Math.max(at.x0, at.x1) : Math.min(at.x0, at.x1);

function drawSide(sheet: Sheet, laid: Laid, side: -1 | 1, out: Both & { lane: number }): void {
  const own = laid.trees.filter((t) => t.side === side);
  const edge = edgeX(laid.across, side);
  const columns = columnsOf(sheet, own, (t) => (t.pin.x - edge) * side);
  for (const tree of own) {
    const cols = columns.get(tree)!;
    const x = edge + side * cols.entry;
    const u = (c: Circuit): number => endY(laid.rungs.get(c)!, tree.which);
    const y = laid.laneTop + out.lane * laid.lane;
    const straight = Math.abs(x - tree.pin.x) < 3;
    if (!straight) out.lane++;
    const entry = straight
      ? [tree.start, tree.pin]
      : [tree.start, tree.pin, { x: tree.pin.x, y }, { x, y }];
    if (cols.entry !== cols.v[0]) entry.push({ x, y: u(tree.first) });
    const rails: Rails = {
      map: (uu, v) => ({ x: edge + side * v, y: uu }),
      v: (d) => cols.v[d],
      rest: cols.base,
      leafU: u,
      enterU: (b) => u(inOrder(b.to)[0]!),
      look: { slim: laid.rows.slim, r: 16 * sheet.plan.pipe, upright: false },
    };
    const drop_m = dropOf(sheet, branchesOf(tree.root)[0]?.links ?? []);
    for (const [c, line] of drawTree(sheet, tree.root, rails, { entry, drop_m })) {
      out[tree.which].set(c, line);
    }
  }
}

/** Pipes that come down and must first go across, each in a lane of its own. */
function lanesFor(sheet: Sheet, trees: readonly Tree[], at: Across): number {
  let lanes = 0;
  for (const side of [-1, 1] as const) {
    const own = trees.filter((t) => t.side === side);
    const edge = edgeX(at, side);
    const columns = columnsOf(sheet, own, (t) => (t.pin.x - edge) * side);
    for (const t of own) {
      if (Math.abs(edge + side * columns.get(t)!.entry - t.pin.x) >= 3) lanes++;
    }
  }
  return lanes;
}

function acrossOf(sheet: Sheet, trees: readonly Tree[], frame: Frame, folded: boolean): Across {
  const reach = (side: -1 | 1): number => {
    const own = trees.filter((t) => t.side === side);
    return own.length === 0 ? 30 + beyond : reachOf(sheet, own);
  };
  const supply = trees.find((t) => t.which === 'supply')?.side ?? 1;
  const many = trees.filter((t) => t.which === 'supply').flatMap((t) => t.field.circuits).length;
  const plate = folded ? 0 : 1.6 * sheet.plan.type + 4;
  /** Where circuits are folded, their numbers stand beyond the fold. */
  const beyond = folded && many > 1 ? 2 * sheet.plan.type : 0;
  let left = frame.left + reach(-1) + (supply === -1 ? plate : 0);
  let right = frame.right - reach(1) - (supply === 1 ? plate : 0);
  const pins = (side: -1 | 1): number[] => trees.filter((t) => t.side === side).map((t) => t.pin.x);
  const slack = sheet.plan.width * 0.12;
  // A header right under the pipe that comes down to it needs no bend.
  const under = (side: -1 | 1): number => (folded ? 44 : Math.max(44, reach(side)));
  const inner = Math.min(...pins(1)) - under(1);
  if (inner < right && right - inner < slack) right = inner;
  const outer = Math.max(...pins(-1)) + under(-1);
  if (outer > left && outer - left < slack) left = outer;
  const own = trees.filter((t) => t.side === 1);
  const taken = own.length === 0 ? right : right + reachOf(sheet, own) + 14;
  const pinned = Math.max(right + 60, taken, ...pins(1).map((x) => x + 36));
  const rulerX = supply === 1 ? pinned + plate : pinned;
  const beside = supply === 1 ? pinned + plate / 2 - 12 : frame.left + plate / 2 - 12;
  const plateX = Math.min(beside, sheet.plan.width - sheet.plan.type);
  const ends = supply === 1 ? { x0: right, x1: left } : { x0: left, x1: right };
  return { top: 0, ...ends, rulerX, plateX };
}

/** Draws a field of trenches between the frame's sides. */
export function layLadder(sheet: Sheet, fields: readonly Field[], frame: Frame): Ladder {
  const circuits = fields.flatMap((f) => f.circuits);
  const folded = circuits.length <= 2 && circuits.every((c) => c.kind === 'trench');
  const trees = treesOf(fields, frame.pinOf, { folded, width: sheet.plan.width });
  const flat = acrossOf(sheet, trees, frame, folded);
  const entryStills = Math.max(
    0,
    ...trees.map((t) => stillsIn(branchesOf(t.root)[0]?.links ?? []).length),
  );
  const lane = railPitch(sheet, fields);
  const lanes = lanesFor(sheet, trees, flat) * lane;
  const top = frame.top + lanes + entryStills * (stillPitch(sheet) + 20);
  const rows = rowsOf(sheet, circuits, { folded, room: frame.target - top });
  const across = { ...flat, top };
  const list = layRungs(sheet, fields, across, rows);
  const rungs = new Map(list.map((r) => [r.circuit, r]));
  const laid: Laid = { trees, rungs, across, rows, laneTop: frame.top, lane };
  const leads = { supply: new Map(), back: new Map(), lane: 0 };
  for (const side of [-1, 1] as const) drawSide(sheet, laid, side, leads);
  for (const rung of list) drawRung(sheet, rung, rows.slim, leads);
  const valves = sheet.placed.filter((p) => p.y > sheet.plan.cut).map((p) => p.y + p.h + 12);
  const plates = list.map((r) => r.plateY + sheet.plan.type);
  const bottom = Math.max(...list.map((r) => r.bottom), ...valves, ...plates);
  return { rungs: list, bottom };
}

/** From the end of a lead over to its leg and down into the hole. */
function downInto({ line, stop }: LeadLine, hole: BoreMark, x: number): LeadLine {
  const end = line.at(-1)!;
  return { line: [...line, { x, y: end.y }, { x, y: hole.top }], stop };
}

/** A circuit from its tee over its strips to the tee on the other header. */
function drawRung(sheet: Sheet, rung: Rung, slim: number, leads: Both): void {
  const { circuit, strips, hole } = rung;
  const { lie, length_m } = circuit;
  const lead = (which: Tree['which']): LeadLine =>
    leads[which].get(circuit) ?? { line: shortLead(rung, which), stop: null };
  const two: TwoLeads = {
    supply: lead('supply'),
    back: lead('back'),
    before_m: lie.a,
    after_m: length_m - lie.b,
  };
  if (hole === null) {
    const middle = stripKnots(circuit, strips, poured(circuit, two));
    pourCircuit(sheet, circuit, two, { middle, slim });
    return;
  }
  const start = two.supply.line.at(-1)!.x <= hole.x ? -1 : 1;
  const legs: TwoLeads = {
    ...two,
    supply: downInto(two.supply, hole, hole.x + start * hole.leg),
    back: downInto(two.back, hole, hole.x - start * hole.leg),
  };
  const middle = legKnots(circuit, hole, { ...poured(circuit, legs), start });
  pourCircuit(sheet, circuit, legs, { middle, slim });
}

/** Where a circuit hangs on no header, a short end shows that it goes on. */
function shortLead(rung: Rung, which: Tree['which']): Line {
  const y = endY(rung, which);
  const { strips, hole } = rung;
  if (hole !== null) {
    const x = hole.x + (which === 'supply' ? -1 : 1) * 60;
    return [
      { x, y },
      { x: (x + hole.x) / 2, y },
    ];
  }
  const strip = which === 'supply' ? strips[0]! : strips.at(-1)!;
  const far = which === 'back' && strips.length === 1;
  const x = far ? strip.x1 : strip.x0;
  const way = (far ? -1 : 1) * Math.sign(strip.x0 - strip.x1);
  return [
    { x: x + way * 20, y },
    { x, y },
  ];
}
