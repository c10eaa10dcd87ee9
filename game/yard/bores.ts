// A field of bores: holes hang under the header trench, the circuits in the order in which they
// hang on the supply header.
import { dropOf, stillPitch, stillsIn } from './chains.ts';
import { inOrder, type Circuit, type Field } from './circuits.ts';
import { depthScale, holeOf, legKnots } from './holes.ts';
import type { Both, Frame } from './ladder.ts';
import { widthOf } from './plan.ts';
import { pourCircuit, poured, type TwoLeads } from './pour.ts';
import { branchesOf, drawTree, type LeadLine, type Rails } from './rails.ts';
import {
  entryOf,
  fromLast,
  levelsOf,
  mapper,
  railPitch,
  slotsOf,
  type Levels,
  type Rowing,
  type Slotted,
} from './rows.ts';
import type { Sheet } from './sheet.ts';
import { treesOf, type Tree } from './sides.ts';
import type { BoreMark } from './types.ts';

export interface BoreField {
  readonly holes: readonly BoreMark[];
  readonly bottom: number;
}

interface Setting {
  readonly rowing: Rowing;
  readonly levels: Levels;
  readonly trees: readonly Tree[];
  readonly laneTop: number;
}

/** Room at both ends of a row for rails that turn there. */
const MARGIN = 76;

function startOf(sheet: Sheet, trees: readonly Tree[], frame: Frame, away: -1 | 1): number {
  const pins = trees.map((t) => t.pin.x);
  const edge = away === 1 ? frame.left + MARGIN : frame.right - MARGIN;
  const inner = away === 1 ? Math.max(...pins) + 40 : Math.min(...pins) - 40;
  const cost = (inner - edge) * away;
  return cost > 0 && cost < sheet.plan.width * 0.13 ? inner : edge;
}

/** Slots as wide as the page lets them be in one row, else as close as can be. */
function spreadSlots(sheet: Sheet, fields: readonly Field[], span: number, size: Size) {
  const column = stillPitch(sheet) + 6;
  const least = 2 * size.leg + size.width + 16 * sheet.plan.pipe;
  const pitch = { bore: least, one: column + 30, both: 2 * column + 8, column };
  const tight = slotsOf(fields, pitch, span);
  const count = fields.reduce((sum, f) => sum + f.circuits.length, 0);
  const most = (span / count) * 0.5 + 60;
  const loose = Math.min(most, least + (span - tight.used) / count);
  return tight.rows > 1 || loose <= least
    ? tight
    : slotsOf(fields, { ...pitch, bore: loose }, span);
}

interface Size {
  readonly slim: number;
  readonly width: number;
  readonly leg: number;
}

function sizeOf(sheet: Sheet, circuits: readonly Circuit[]): Size {
  const n = circuits.length;
  const slim = n > 14 ? 0.75 : n > 8 ? 0.85 : 1;
  const width = Math.max(...circuits.map((c) => widthOf(sheet.plan, c.bore_mm))) * slim;
  return { slim, width, leg: width / 2 + (n > 8 ? 5 : 9) * sheet.plan.pipe };
}

/** Heights of the rails' zone and of the holes in each row. */
function settingOf(sheet: Sheet, fields: readonly Field[], frame: Frame): Setting {
  const { plan } = sheet;
  const trees = treesOf(fields, frame.pinOf, { folded: true, width: plan.width });
  const away = trees[0]?.side === -1 ? 1 : -1;
  const startX = startOf(sheet, trees, frame, away);
  const span = away === 1 ? frame.right - MARGIN - startX : startX - frame.left - MARGIN;
  const size = sizeOf(
    sheet,
    fields.flatMap((f) => f.circuits),
  );
  const { slots, rows } = spreadSlots(sheet, fields, span, size);
  const rail = railPitch(sheet, fields) * Math.max(0.8, size.slim);
  const levels = levelsOf(sheet, fields, rail);
  const stills = trees.map((t) => stillsIn(branchesOf(t.root)[0]?.links ?? []).length);
  // Pipes come down side by side: valves on them stand one above the other.
  const entry = stills.reduce((sum, n) => sum + n, 0) * (stillPitch(sheet) + 14);
  const zone = levels.top + trees.length * rail + entry;
  const wide = plan.shape === 'wide';
  const free = wide && rows === 1 ? frame.target - frame.top - zone - 44 : 0;
  const room = Math.max(wide ? 220 : 300, free);
  const rowTop = Array.from(
    { length: rows },
    (_, k) => frame.top + zone + k * (room + levels.top + 70 * plan.pipe),
  );
  const { slim, leg } = size;
  const lowest = levels.back[0]!;
  const rowing = { slots, rows, width: span, away, startX, rowTop, slim, leg, room, rail, lowest };
  return { rowing: { ...rowing, away }, levels, trees, laneTop: frame.top };
}

function drawHeaders(sheet: Sheet, set: Setting): Both {
  const { rowing, levels } = set;
  const column = stillPitch(sheet) + 6;
  const out: Both = { supply: new Map(), back: new Map() };
  let lanes = 0;
  const lane = (): number => set.laneTop + 6 + lanes++ * rowing.rail;
  for (const tree of set.trees) {
    const way = tree.which === 'supply' ? -1 : 1;
    const v = levels[tree.which];
    const slot = (c: Circuit): Slotted => rowing.slots.get(c)!;
    const u = (c: Circuit): number => slot(c).u + way * (slot(c).spread[tree.which] || rowing.leg);
    const rails: Rails = {
      ...mapper(rowing),
      v: (d) => v[d],
      rest: 0,
      leafU: u,
      enterU: (b) => {
        const first = inOrder(b.to)[0]!;
        if (stillsIn(b.links).length === 0) return u(first);
        const { spread } = slot(first);
        const beside = Math.max(spread.supply, spread.back) + rowing.leg + column / 2 + 4;
        if (tree.which === 'supply') return slot(first).u - beside;
        return fromLast(tree.field, b) ? slot(first).u + beside : slot(first).u - beside - column;
      },
      look: { slim: rowing.slim, r: 14 * sheet.plan.pipe, upright: true },
    };
    const at = u(tree.first);
    const y = rails.map(at, v[0]!).y;
    const entry = entryOf(rowing, tree, { lane, y, u: at, beside: column });
    const below = set.laneTop + set.trees.length * rowing.rail;
    const along = tree.which === 'supply' ? 0.04 : 0.96;
    const drop_m = dropOf(sheet, branchesOf(tree.root)[0]?.links ?? []);
    for (const [c, line] of drawTree(sheet, tree.root, rails, { entry, drop_m, along, below })) {
      out[tree.which].set(c, line);
    }
  }
  return out;
}

/** From the end of a lead over to its leg and down into the hole. */
function down({ line, stop }: LeadLine, hole: BoreMark, x: number): LeadLine {
  const end = line.at(-1)!;
  const rest = line.slice(0, -1);
  if (Math.abs(end.x - x) < 1) return { line: [...rest, { x, y: hole.top }], stop };
  const y = hole.top - 14;
  return { line: [...rest, { x: end.x, y }, { x, y }, { x, y: hole.top }], stop };
}

function hangBore(sheet: Sheet, circuit: Circuit, set: Setting, leads: Both): BoreMark {
  const { rowing } = set;
  const { u } = rowing.slots.get(circuit)!;
  const at = mapper(rowing).map(u, 0);
  const scale = depthScale([...rowing.slots.keys()], rowing.room - 26);
  const width = widthOf(sheet.plan, circuit.bore_mm) * rowing.slim;
  const hole = holeOf(circuit, scale, { x: at.x, top: at.y + 22, leg: rowing.leg, width });
  const none: LeadLine = { line: [at, at], stop: null };
  const supply = leads.supply.get(circuit) ?? none;
  const back = leads.back.get(circuit) ?? none;
  const start = supply.line.at(-1)!.x <= at.x ? -1 : 1;
  const two: TwoLeads = {
    supply: down(supply, hole, at.x + start * rowing.leg),
    back: down(back, hole, at.x - start * rowing.leg),
    before_m: circuit.lie.a,
    after_m: circuit.length_m - circuit.lie.b,
  };
  const middle = legKnots(circuit, hole, { ...poured(circuit, two), start });
  pourCircuit(sheet, circuit, two, { middle, slim: rowing.slim });
  return hole;
}

/** Draws a field of bores only. */
export function layBores(sheet: Sheet, fields: readonly Field[], frame: Frame): BoreField {
  const set = settingOf(sheet, fields, frame);
  const leads = drawHeaders(sheet, set);
  const circuits = fields.flatMap((f) => f.circuits);
  const holes = circuits.map((c) => hangBore(sheet, c, set, leads));
  return { holes, bottom: Math.max(...holes.map((h) => h.bottom)) + 40 };
}
