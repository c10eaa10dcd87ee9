// Draws a header tree on rails: the header runs along its rail, banks branch to a rail nearer to
// the circuits, and every circuit gets the line from its tee to where it starts. Works in (u, v):
// u along the rail, v away from the circuits; the caller says where on the page that is.
import { layChain, stillsIn, type ChainLook } from './chains.ts';
import { inOrder, type Branch, type Circuit, type TreeNode } from './circuits.ts';
import { widthOf } from './plan.ts';
import type { Sheet } from './sheet.ts';
import { lineLength, tidy, type Line } from './trace.ts';
import type { Point } from './types.ts';

export interface Rails {
  readonly map: (u: number, v: number) => Point;
  /** v of the rail at a depth: 0 is the main header. */
  readonly v: (depth: number) => number | undefined;
  readonly leafU: (circuit: Circuit) => number;
  /** v below which leads pass through what is not their own. */
  readonly rest: number;
  /** u at which a bank's own header is reached from the rail before it. */
  readonly enterU: (branch: Branch) => number;
  /** How pipes look, and which way parts on a branch should stand. */
  readonly look: ChainLook;
  /** True for a line along the rails that must turn at the page's edge. */
  readonly bend?: (a: Line) => Line;
}

/** Branches of a node with circuits on them. */
export const branchesOf = (node: TreeNode): Branch[] =>
  node.things.flatMap((t) => (t.branch === null ? [] : [t.branch]));

/** A branch leaves the rail if it is a bank: if it has valves, or another thing goes on. */
export function isBank(node: TreeNode, branch: Branch): boolean {
  return branch !== node.things.at(-1)?.branch || stillsIn(branch.links).length > 0;
}

/** How many rails a tree needs. */
export function railsOf(node: TreeNode): number {
  const below = branchesOf(node).map((b) => railsOf(b.to) + (isBank(node, b) ? 1 : 0));
  return Math.max(1, ...below);
}

/** Most parts without length on any branch that ends on the rail of the given depth. */
export function stillsAt(node: TreeNode, depth: number): number {
  let most = 0;
  for (const b of branchesOf(node)) {
    if (!isBank(node, b)) most = Math.max(most, stillsAt(b.to, depth));
    else if (depth === 1) most = Math.max(most, stillsIn(b.links).length);
    else most = Math.max(most, stillsAt(b.to, depth - 1));
  }
  return most;
}

/** Most parts without length before any circuit that hangs on the rail of the given depth. */
export function leadStillsAt(node: TreeNode, depth: number, lead: LeadOf): number {
  let most = 0;
  for (const { circuit, branch } of node.things) {
    if (circuit !== null) {
      if (depth === 0) most = Math.max(most, stillsIn(lead(circuit).links).length);
      continue;
    }
    const next = depth - (isBank(node, branch) ? 1 : 0);
    if (next >= 0) most = Math.max(most, leadStillsAt(branch.to, next, lead));
  }
  return most;
}

/** One of the two leads of a circuit. */
export type LeadOf = (circuit: Circuit) => Circuit['supplyLead'];

export const leadOf =
  (which: 'supply' | 'back'): LeadOf =>
  (circuit) =>
    which === 'supply' ? circuit.supplyLead : circuit.returnLead;

/** Every branch of a tree with its node. */
export function allBranches(node: TreeNode): { node: TreeNode; branch: Branch }[] {
  return branchesOf(node).flatMap((branch) => [{ node, branch }, ...allBranches(branch.to)]);
}

/** The line from a circuit's tee to where it starts; parts stand on it before `stop`. */
export interface LeadLine {
  readonly line: Line;
  readonly stop: number | null;
}
export type Leads = Map<Circuit, LeadLine>;

interface Drawing {
  readonly sheet: Sheet;
  readonly rails: Rails;
  readonly leads: Leads;
}

const bent = (draw: Drawing, line: Line): Point[] => tidy(draw.rails.bend?.(line) ?? line);

function chain(draw: Drawing, branch: Branch, line: Line): void {
  layChain(draw.sheet, branch.links, bent(draw, line), draw.rails.look);
}

/** Draws what hangs on a node that stands at `u` on the rail of a depth. */
function hang(draw: Drawing, node: TreeNode, at: { u: number; depth: number }): void {
  const { rails, sheet, leads } = draw;
  const v = rails.v(at.depth)!;
  const here = rails.map(at.u, v);
  sheet.at.set(node.id, here);
  const bores = sheet.site.touching(node.id).map((l) => widthOf(sheet.plan, l.bore_mm));
  const slim = rails.look.slim;
  if (bores.length > 2) sheet.joints.push({ ...here, r: (Math.max(...bores) * slim) / 2 + 3 });
  for (const { circuit, branch } of node.things) {
    if (circuit !== null) {
      const u = rails.leafU(circuit);
      const line = bent(draw, [here, rails.map(u, v), rails.map(u, 0)]);
      const below = Math.max(rails.v(at.depth + 1) ?? 0, rails.rest);
      const stop = below === 0 ? null : lineLength(line) - below;
      leads.set(circuit, { line, stop });
      continue;
    }
    const u = rails.leafU(inOrder(branch.to)[0]!);
    const depth = at.depth + (isBank(node, branch) ? 1 : 0);
    if (depth === at.depth) {
      chain(draw, branch, [here, rails.map(u, v)]);
    } else {
      const enter = rails.enterU(branch);
      const w = rails.v(depth)!;
      chain(draw, branch, [here, rails.map(enter, v), rails.map(enter, w), rails.map(u, w)]);
    }
    hang(draw, branch.to, { u, depth });
  }
}

/**
 * Draws a header tree. `entry` comes from above the ground and ends where the main rail begins;
 * `drop_m` metres of it stand.
 */
export function drawTree(
  sheet: Sheet,
  root: TreeNode,
  rails: Rails,
  way: { entry: Line; drop_m: number; along?: number; below?: number },
): Leads {
  const draw: Drawing = { sheet, rails, leads: new Map() };
  const main = rails.v(0)!;
  for (const { circuit, branch } of root.things) {
    if (circuit !== null) {
      const u = rails.leafU(circuit);
      const line = bent(draw, [...way.entry, rails.map(u, main), rails.map(u, 0)]);
      const stop = rails.rest === 0 ? null : lineLength(line) - rails.rest;
      draw.leads.set(circuit, { line, stop });
      continue;
    }
    const u = rails.leafU(inOrder(branch.to)[0]!);
    const line = tidy([...way.entry, rails.map(u, main)]);
    layChain(sheet, branch.links, line, {
      ...rails.look,
      drop_m: way.drop_m,
      along: way.along ?? 0.5,
      upright: true,
      below: way.below ?? sheet.plan.cut + 12,
    });
    hang(draw, branch.to, { u, depth: 0 });
  }
  return draw.leads;
}
