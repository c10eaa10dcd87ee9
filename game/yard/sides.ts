// Columns beside the strips: rails of the headers, and the pipes that come down to them. Each
// side of the strips has its trees from the inside out; what must reach further down stands
// further out, so that no pipe passes through another's circuits.
import { stillPitch, stillsIn } from './chains.ts';
import { inOrder, type Circuit, type Field, type TreeNode } from './circuits.ts';
import { widthOf } from './plan.ts';
import { allBranches, branchesOf, leadOf, leadStillsAt, railsOf, stillsAt } from './rails.ts';
import type { Sheet } from './sheet.ts';
import type { Point, RiserEnd } from './types.ts';

export interface Tree {
  readonly which: 'supply' | 'back';
  readonly field: Field;
  readonly root: TreeNode;
  /** Where its pipe turns down, and where it comes from there. */
  readonly pin: Point;
  readonly start: Point;
  /** The circuit that its header reaches first. */
  readonly first: Circuit;
  /** True where that is the last circuit of the field: a reverse return. */
  readonly fromEnd: boolean;
  readonly side: -1 | 1;
}

/** Rails of a tree on its side: v of each depth, and of the pipe that comes down to it. */
export interface Columns {
  readonly v: readonly number[];
  readonly entry: number;
  /** Where the room of its leads begins. */
  readonly base: number;
}

/** Lead from the rail to the circuit where nothing stands on it. */
const LEAD = 24;
const RAIL = 26;

/** Distance at which two header pipes lie side by side. */
export function railPitch(sheet: Sheet, fields: readonly Field[]): number {
  const widths = fields.flatMap((f) =>
    [f.supply, f.back].flatMap((root) =>
      root === null
        ? []
        : allBranches(root).flatMap(({ branch }) =>
            branch.links.map(({ link }) => widthOf(sheet.plan, link.bore_mm)),
          ),
    ),
  );
  return Math.max(RAIL * 0.8, ...widths) + 10 * sheet.plan.pipe;
}

/** The trees of all fields, with the ends that come up furthest left served from the left. */
export function treesOf(
  fields: readonly Field[],
  pinOf: (root: string) => RiserEnd,
  how: { folded: boolean; width: number },
): Tree[] {
  const all = fields.flatMap((field) =>
    (['supply', 'back'] as const).flatMap((which) => {
      const root = which === 'supply' ? field.supply : field.back;
      const order = root === null ? [] : inOrder(root);
      const first = order[0];
      if (root === null || first === undefined) return [];
      const fromEnd = order.length > 1 && first === field.circuits.at(-1);
      const { at: pin, start } = pinOf(root.id);
      return [{ which, field, root, pin, start, first, fromEnd, side: 1 as const }];
    }),
  );
  const mean = (which: Tree['which'] | null): number => {
    const own = all.filter((t) => which === null || t.which === which);
    return own.reduce((sum, t) => sum + t.pin.x, 0) / Math.max(1, own.length);
  };
  const near = mean(null) > how.width / 2 ? 1 : -1;
  const supplySide = mean('supply') <= mean('back') ? -1 : 1;
  return all.map((t): Tree => {
    if (how.folded) return { ...t, side: near };
    return { ...t, side: t.which === 'supply' ? supplySide : supplySide === 1 ? -1 : 1 };
  });
}

/** Rails from the inside out, with room for the parts between each and the next one inward. */
function railsAt(sheet: Sheet, tree: Tree, base: number): number[] {
  const depths = railsOf(tree.root);
  const leads = (d: number): number => leadStillsAt(tree.root, d, leadOf(tree.which));
  const inner = leads(depths - 1);
  const v: number[] = [];
  const rail = railPitch(sheet, [tree.field]);
  let at = base + (inner === 0 ? LEAD : inner * stillPitch(sheet) + 44);
  for (let d = depths - 1; d >= 0; d--) {
    v[d] = at;
    const stills = Math.max(stillsAt(tree.root, d), d > 0 ? leads(d - 1) : 0);
    at += stills === 0 ? rail + 4 : stills * stillPitch(sheet) + 16 * sheet.plan.pipe;
  }
  return v;
}

const SIDES_SUPPLY = ['supply', 'back'] as const;
const SIDES_BACK = ['back', 'supply'] as const;

/** Columns of the trees of one side; `reach(v)` tells the v of a pin. */
export function columnsOf(
  sheet: Sheet,
  trees: readonly Tree[],
  pinV: (tree: Tree) => number,
): Map<Tree, Columns> {
  const out = new Map<Tree, Columns>();
  let base = 0;
  const far = (which: Tree['which']): number =>
    Math.max(0, ...trees.filter((t) => t.which === which).map(pinV));
  // What comes down far outside of the other stands outside of it.
  const order = far('supply') > far('back') + 150 ? SIDES_BACK : SIDES_SUPPLY;
  for (const which of order) {
    const own = trees.filter((t) => t.which === which);
    if (own.length === 0) continue;
    let top = base;
    const rail = railPitch(
      sheet,
      own.map((t) => t.field),
    );
    own.forEach((tree, k) => {
      const v = railsAt(sheet, tree, base);
      const bare = branchesOf(tree.root).length === 0;
      const straight = pinV(tree) >= v[0]! && (bare || (own.length === 1 && !tree.fromEnd));
      if (straight) v[0] = pinV(tree);
      else if (bare) v[0]! += k * rail;
      const shifted = tree.fromEnd || (k > 0 && !bare);
      const entry = shifted ? Math.max(v[0]! + rail * (1 + k), pinV(tree)) : v[0]!;
      out.set(tree, { v, entry, base });
      top = Math.max(top, entry);
    });
    base = top + 18;
  }
  return out;
}

/** How far the outermost column of a side lies from the strips when no pin draws it outward. */
export function reachOf(sheet: Sheet, trees: readonly Tree[]): number {
  const columns = columnsOf(sheet, trees, () => 0);
  const entries = trees.map((t) => stillsIn(branchesOf(t.root)[0]?.links ?? []).length);
  const rim = Math.max(0, ...entries) > 0 ? sheet.plan.control / 2 : 0;
  return rim + Math.max(LEAD, ...[...columns.values()].flatMap((c) => [c.entry, ...c.v]));
}
