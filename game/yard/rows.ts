// Rails over a field of bores: slots side by side under the header trench, in rows that turn at
// the page's edge where there are many, and the heights of the rails above each row.
import { hasStills, stillPitch, stillsIn } from './chains.ts';
import { inOrder, type Branch, type Circuit, type Field, type TreeNode } from './circuits.ts';
import {
  allBranches,
  branchesOf,
  isBank,
  leadOf,
  leadStillsAt,
  railsOf,
  stillsAt,
  type Rails,
} from './rails.ts';
import type { Sheet } from './sheet.ts';
import { railPitch, type Tree } from './sides.ts';
import type { Point } from './types.ts';

export interface Slotted {
  readonly circuit: Circuit;
  readonly u: number;
  /** How far each lead stands from the middle; 0 where it comes down on its leg. */
  readonly spread: { readonly supply: number; readonly back: number };
}

/** How the field lies: rows of slots, the rails above each row, the holes below. */
export interface Rowing {
  readonly slots: ReadonlyMap<Circuit, Slotted>;
  readonly rows: number;
  readonly width: number;
  readonly away: -1 | 1;
  readonly startX: number;
  readonly rowTop: readonly number[];
  readonly slim: number;
  readonly leg: number;
  readonly room: number;
  readonly rail: number;
  /** v of the lower main rail, from which turns are counted outward. */
  readonly lowest: number;
}

/** Circuits at which a bank's valves stand, with the bank's branch. */
function bankEdges(root: TreeNode | null): Map<Circuit, Branch> {
  const out = new Map<Circuit, Branch>();
  if (root === null) return out;
  for (const { node, branch } of allBranches(root)) {
    if (isBank(node, branch) && stillsIn(branch.links).length > 0) {
      out.set(inOrder(branch.to)[0]!, branch);
    }
  }
  return out;
}

/** True where a bank is reached from its last circuit, as by a reverse return. */
export function fromLast(field: Field, branch: Branch): boolean {
  const order = inOrder(branch.to);
  const at = (c: Circuit | undefined): number => field.circuits.indexOf(c!);
  return order.length > 1 && at(order[0]) > at(order.at(-1));
}

export interface Pitch {
  readonly bore: number;
  /** Of a circuit with valves in one of its leads, and in both. */
  readonly one: number;
  readonly both: number;
  readonly column: number;
}

const valvedLeads = (circuit: Circuit): number =>
  [circuit.supplyLead, circuit.returnLead].filter((l) => stillsIn(l.links).length > 0).length;

interface Need {
  readonly circuit: Circuit;
  readonly lead: number;
  readonly own: number;
  readonly after: number;
}

/** Room that each circuit takes along the rail, with that of the valves beside it. */
function needsOf(field: Field, pitch: Pitch): Need[] {
  const supply = bankEdges(field.supply);
  const back = bankEdges(field.back);
  return field.circuits.map((circuit) => {
    const own = [pitch.bore, pitch.one, pitch.both][valvedLeads(circuit)]!;
    const branch = back.get(circuit);
    const last = branch !== undefined && fromLast(field, branch);
    const before = (supply.has(circuit) ? 1 : 0) + (branch !== undefined && !last ? 1 : 0);
    const aside = valvedLeads(circuit) === 1 ? pitch.column * 0.4 : 0;
    return { circuit, own, lead: before * pitch.column, after: last ? pitch.column + aside : 0 };
  });
}

/** Circuits that share a bank stay together in one row. */
function clusters(field: Field, needs: readonly Need[]): Need[][] {
  const bankOf = new Map<Circuit, Branch>();
  for (const { node, branch } of allBranches(field.supply)) {
    if (isBank(node, branch)) for (const c of inOrder(branch.to)) bankOf.set(c, branch);
  }
  const out: Need[][] = [];
  for (const need of needs) {
    const bank = bankOf.get(need.circuit);
    const last = out.at(-1)?.[0];
    if (bank !== undefined && last !== undefined && bankOf.get(last.circuit) === bank) {
      out.at(-1)!.push(need);
    } else out.push([need]);
  }
  return out;
}

/** Share to which the circuits of a bank that is longer than a row come closer; 1 where it goes on
 * in the next. */
function tighter(cluster: readonly Need[], excess: number): number {
  const own = cluster.reduce((sum, n) => sum + n.own, 0);
  const least = cluster.some((n) => hasStills(n.circuit)) ? 0.95 : 0.7;
  const tight = (own - excess - 1) / own;
  return tight < least ? 1 : tight;
}

/** Slots along the rail; what does not fit its row any more opens the next one. */
export function slotsOf(fields: readonly Field[], pitch: Pitch, width: number) {
  const slots = new Map<Circuit, Slotted>();
  let u = 0;
  for (const field of fields) {
    for (const cluster of clusters(field, needsOf(field, pitch))) {
      const whole = cluster.reduce((sum, n) => sum + n.lead + n.own + n.after, 0);
      const row = Math.floor(u / width + 1e-9);
      if (u + whole > (row + 1) * width + 1e-6 && u > row * width + 1e-6) u = (row + 1) * width;
      const tight = whole > width ? tighter(cluster, whole - width) : 1;
      for (const need of cluster) {
        const { circuit, lead, after } = need;
        const own = need.own * tight;
        const end = (Math.floor(u / width + 1e-9) + 1) * width;
        if (u + lead + own + after > end + 1e-6 && lead + own + after < width) u = end;
        const stands = (l: Circuit['supplyLead']): number =>
          stillsIn(l.links).length > 0 ? (pitch.column - 2) / 2 : 0;
        const spread = { supply: stands(circuit.supplyLead), back: stands(circuit.returnLead) };
        // Valves in one lead alone stand out at one side.
        const off = (spread.supply - spread.back) * 0.6;
        slots.set(circuit, { circuit, u: u + lead + own / 2 + off, spread });
        u += lead + own + after;
      }
    }
  }
  return { slots, rows: Math.max(1, Math.ceil(u / width - 1e-6)), used: u };
}

export interface Levels {
  readonly supply: readonly number[];
  readonly back: readonly number[];
  readonly top: number;
}

/** v of every rail: return under supply, banks under mains, a zone of valves between. */
export function levelsOf(sheet: Sheet, fields: readonly Field[], rail: number): Levels {
  const trees = fields.flatMap((f) => [
    { root: f.supply, lead: leadOf('supply') },
    ...(f.back === null ? [] : [{ root: f.back, lead: leadOf('back') }]),
  ]);
  const depths = Math.max(...trees.map((t) => railsOf(t.root)));
  const leads = (d: number): number =>
    Math.max(0, ...trees.map((t) => leadStillsAt(t.root, d, t.lead)));
  const supply: number[] = [];
  const back: number[] = [];
  const inner = leads(depths - 1);
  let at = inner === 0 ? rail : inner * stillPitch(sheet) + 54;
  for (let d = depths - 1; d >= 0; d--) {
    back[d] = at;
    supply[d] = at + rail;
    const banks = Math.max(0, ...trees.map((t) => stillsAt(t.root, d)));
    const stills = Math.max(banks, d > 0 ? leads(d - 1) : 0);
    at += rail + (stills === 0 ? rail : stills * stillPitch(sheet) + rail + 14 * sheet.plan.pipe);
  }
  return { supply, back, top: supply[0]! };
}

function rowOf(rowing: Rowing, y: number): number {
  const found = rowing.rowTop.findIndex((top) => y <= top + 1);
  return found < 0 ? rowing.rows - 1 : found;
}

/** Place of (u, v), and the turn that a rail takes from one row to the next. */
export function mapper(rowing: Rowing): Pick<Rails, 'map' | 'bend'> {
  const { width, away, startX, rowTop, lowest } = rowing;
  const xOf = (u: number): { x: number; row: number } => {
    const row = Math.max(0, Math.min(rowing.rows - 1, Math.floor(u / width)));
    const own = u - row * width;
    return { x: startX + away * (row % 2 === 0 ? own : width - own), row };
  };
  return {
    map: (u, v) => {
      const { x, row } = xOf(u);
      return { x, y: rowTop[row]! - v };
    },
    bend: (line) =>
      line.flatMap((p, i): Point[] => {
        const q = line[i + 1];
        if (q === undefined || Math.abs(p.y - q.y) < 1) return [p];
        const [a, b] = [rowOf(rowing, p.y), rowOf(rowing, q.y)];
        if (a === b) return Math.abs(p.x - q.x) < 1 ? [p] : [p, { x: q.x, y: p.y }];
        const row = Math.min(a, b);
        const above = a < b ? p : q;
        const out = 14 + Math.max(0, rowTop[row]! - above.y - lowest);
        const x = row % 2 === 0 ? startX + away * (width + out) : startX - away * out;
        return [p, { x, y: p.y }, { x, y: q.y }];
      }),
  };
}

export interface EntryAt {
  readonly lane: () => number;
  /** Height of the main rail there, and u where its first node stands. */
  readonly y: number;
  readonly u: number;
  /** Distance at which two valves stand side by side. */
  readonly beside: number;
}

/** From above the ground to the rail: straight down, or across in a lane first. */
export function entryOf(rowing: Rowing, tree: Tree, at: EntryAt): Point[] {
  const { away, startX, width, rail } = rowing;
  const row = Math.max(0, Math.min(rowing.rows - 1, Math.floor(at.u / width)));
  const onward = row % 2 === 0 ? away : -away;
  const own = at.u - row * width;
  const x = startX + away * (row % 2 === 0 ? own : width - own);
  const bare = branchesOf(tree.root).length === 0;
  const back = tree.which === 'back';
  const stills = stillsIn(branchesOf(tree.root)[0]?.links ?? []).length > 0;
  // Valves on the two pipes that come down stand side by side.
  const step = rail + 8 + (back ? Math.max(rail, stills ? at.beside : 0) : 0);
  const outside = (tree.pin.x - x) * -onward;
  const start = [tree.start, tree.pin];
  if (row === 0 && !tree.fromEnd && outside > (bare ? 4 : step - 6)) {
    return [...start, { x: tree.pin.x, y: at.y }];
  }
  const edge = tree.fromEnd ? onward : -onward;
  const rim = startX + (edge === away ? away * width : 0);
  const near = rowing.rows === 1 || (row === 0 && !tree.fromEnd);
  const col = near ? x + edge * step : rim + edge * (step + 10);
  const y = at.lane();
  return [...start, { x: tree.pin.x, y }, { x: col, y }, { x: col, y: at.y }];
}

export { railPitch };
