// Lengths and heights: a pipe must be long enough for its profile, gas must lie inside it, a
// tank's level and ports inside the tank, a pump's curve must fall, cells must suit the tick.
import { abs, max, round } from '../base/math.ts';
import { CELL_M, CREEP_S, TICK_S } from '../constants.ts';
import { peCreep } from '../laws/elastic.ts';
import { endOf, fault, itemsOf, numberOf, portsOf, textOf } from './raw.ts';
import type { Draft, Item } from './raw.ts';

/** m. Slack for heights and lengths typed with few digits. */
const SLACK = 1e-6;

/** m/s. A cell must not be emptied within one tick at this velocity; drift comes on top. */
const VELOCITY_MAX = 2.5;

/** Two hundred circuits of 150 m in cells of a metre, and some; a field of 24 has a tenth of it. */
const CELLS_MAX = 40_000;

export function checkGeometry(draft: Draft): void {
  for (const node of draft.nodes) if (node.kind === 'tank') checkTank(draft, node);
  for (const link of draft.links) {
    if (isConduit(link)) {
      checkProfile(draft, link);
      checkGas(draft, link);
      checkMaterial(draft, link);
    }
    if (link.kind === 'pump') checkCurve(draft, link);
    if (link.kind === 'coil') checkTable(draft, link);
  }
  checkCells(draft);
  checkAntifreeze(draft);
  checkBefore(draft);
}

function isConduit(link: Item): boolean {
  return link.kind === 'pipe' || link.kind === 'hose';
}

function checkTank(draft: Draft, tank: Item): void {
  const height = numberOf(tank.raw.height_mm);
  if (height === null) return;
  const level = numberOf(tank.raw.start_level_mm);
  if (level !== null && level > height) {
    fault(draft, `${tank.path}.start_level_mm`, `stands above the rim at ${height} mm`);
  }
  for (const port of portsOf(tank)) {
    const at = numberOf(port.raw.height_mm);
    if (at !== null && at > height) {
      fault(draft, `${port.path}.height_mm`, `lies above the rim at ${height} mm`);
    }
  }
}

interface Point {
  readonly at: number;
  readonly z: number;
  /** The key to blame when the step that ends here is too steep. */
  readonly path: string;
}

function checkProfile(draft: Draft, link: Item): void {
  const length = numberOf(link.raw.length_m);
  if (length === null) return;
  const inside: Point[] = [];
  let before = 0;
  let inOrder = true;
  for (const { raw, path } of itemsOf(link.raw.profile, `${link.path}.profile`)) {
    const at = numberOf(raw.at_m);
    const z = numberOf(raw.elevation_m);
    if (at === null || z === null) {
      inOrder = false;
      continue;
    }
    if (at >= length) {
      fault(draft, `${path}.at_m`, `must lie before the end of the pipe at ${length} m`);
      inOrder = false;
    } else if (at <= before) {
      fault(draft, `${path}.at_m`, `must lie beyond ${before} m: points go from -> to`);
      inOrder = false;
    }
    before = max(before, at);
    inside.push({ at, z, path: `${path}.elevation_m` });
  }
  if (inOrder) checkSteps(draft, link, inside);
}

/** No step of a profile may climb more than it is long. */
function checkSteps(draft: Draft, link: Item, inside: readonly Point[]): void {
  const length = numberOf(link.raw.length_m) ?? 0;
  const path = `${link.path}.length_m`;
  const from = endOf(draft, link.raw.from)?.z ?? null;
  const to = endOf(draft, link.raw.to)?.z ?? null;
  const points: Point[] = [...inside];
  if (from !== null) points.unshift({ at: 0, z: from, path });
  if (to !== null) points.push({ at: length, z: to, path });
  for (let i = 1; i < points.length; i += 1) {
    const a = points[i - 1] as Point;
    const b = points[i] as Point;
    const run = b.at - a.at;
    const rise = abs(b.z - a.z);
    if (rise <= run + SLACK) continue;
    fault(draft, b.path, `${run.toFixed(3)} m of pipe cannot climb or fall ${rise.toFixed(3)} m`);
  }
}

function checkGas(draft: Draft, link: Item): void {
  const length = numberOf(link.raw.length_m);
  let before = 0;
  for (const { raw, path } of itemsOf(link.raw.gas, `${link.path}.gas`)) {
    const from = numberOf(raw.from_m);
    const to = numberOf(raw.to_m);
    if (from !== null && from < before - SLACK) {
      fault(draft, `${path}.from_m`, `must not lie before ${before} m, where the last one ends`);
    }
    if (from !== null && to !== null && to <= from) {
      fault(draft, `${path}.to_m`, `must lie beyond its start at ${from} m`);
    }
    if (to !== null && length !== null && to > length + SLACK) {
      fault(draft, `${path}.to_m`, `must not lie beyond the end of the pipe at ${length} m`);
    }
    if (to !== null) before = max(before, to);
  }
}

/** Polyethylene has a modulus of its own. */
function checkMaterial(draft: Draft, link: Item): void {
  if (link.raw.material !== 'pe' || link.raw.modulus_MPa === undefined) return;
  fault(draft, `${link.path}.modulus_MPa`, 'must not be said of "pe", which has its own');
}

function checkCurve(draft: Draft, pump: Item): void {
  const path = `${pump.path}.curve`;
  let flow: number | null = null;
  let head: number | null = null;
  for (const point of itemsOf(pump.raw.curve, path)) {
    const q = numberOf(point.raw.flow_L_s);
    const h = numberOf(point.raw.head_m);
    if (q !== null && flow !== null && q <= flow) {
      fault(draft, `${point.path}.flow_L_s`, `must be more than the ${flow} L/s before it`);
    }
    if (h !== null && head !== null && h >= head) {
      fault(draft, `${point.path}.head_m`, `must be less than the ${head} m before it`);
    }
    flow = q ?? flow;
    head = h ?? head;
  }
  const best = numberOf(pump.raw.best_flow_L_s);
  if (best !== null && flow !== null && best > flow) {
    fault(draft, `${pump.path}.best_flow_L_s`, `lies beyond the curve's end at ${flow} L/s`);
  }
}

/** A coil's loss grows with its flow. */
function checkTable(draft: Draft, coil: Item): void {
  let flow: number | null = null;
  let loss: number | null = null;
  for (const { raw, path } of itemsOf(coil.raw.table, `${coil.path}.table`)) {
    const q = numberOf(raw.flow_L_s);
    const p = numberOf(raw.loss_kPa);
    if (q !== null && flow !== null && q <= flow) {
      fault(draft, `${path}.flow_L_s`, `must be more than the ${flow} L/s before it`);
    }
    if (p !== null && loss !== null && p <= loss) {
      fault(draft, `${path}.loss_kPa`, `must be more than the ${loss} kPa before it`);
    }
    flow = q ?? flow;
    loss = p ?? loss;
  }
}

/** Short cells and long ticks do not go together; too many cells do not run at all. */
function checkCells(draft: Draft): void {
  const solver = draft.raw.solver as Readonly<Record<string, unknown>> | undefined;
  const tick = solver?.tick_s === undefined ? TICK_S : numberOf(solver.tick_s);
  const cell = solver?.cell_m === undefined ? CELL_M : numberOf(solver.cell_m);
  if (tick === null || cell === null || cell <= 0 || tick <= 0) return;
  const shortest = tick * VELOCITY_MAX;
  if (cell < shortest) {
    const why = `water at ${VELOCITY_MAX} m/s would leave it in less than a tick of ${tick} s`;
    fault(draft, 'solver.cell_m', `must be at least ${shortest.toFixed(3)} m: ${why}`);
  }
  let cells = 0;
  for (const link of draft.links) {
    const length = isConduit(link) ? numberOf(link.raw.length_m) : null;
    if (length === null || length <= 0) continue;
    const count = max(1, round(length / cell));
    cells += count;
    if (cell >= shortest && length / count < shortest) {
      const path = `${link.path}.length_m`;
      fault(draft, path, `must be at least ${shortest.toFixed(3)} m for a tick of ${tick} s`);
    }
  }
  if (cells > CELLS_MAX) {
    fault(draft, 'solver.cell_m', `gives ${cells} cells; at most ${CELLS_MAX} can be run`);
  }
}

/** Of walls that creep, at any temperature. */
const CREEP_ELEMENTS = peCreep(20, CREEP_S).elements.length;

/** What a part has been through before needs a world that follows it. */
function checkBefore(draft: Draft): void {
  const heated = draft.raw.heat !== undefined;
  for (const { raw, path } of [...draft.nodes, ...draft.links]) {
    if (raw.start_C !== undefined && !heated) {
      fault(draft, `${path}.start_C`, 'must not stand here, because no heat is followed');
    }
    if (!Array.isArray(raw.start_crept_mL)) continue;
    const where = `${path}.start_crept_mL`;
    if (raw.material !== 'pe') fault(draft, where, 'is for walls of the material "pe"');
    const count = raw.start_crept_mL.length;
    if (count !== CREEP_ELEMENTS) {
      fault(draft, where, `has ${count} numbers, must have ${CREEP_ELEMENTS}`);
    }
  }
}

function checkAntifreeze(draft: Draft): void {
  if ((textOf(draft.raw.antifreeze) ?? 'none') !== 'none') return;
  for (const item of [...draft.nodes, ...draft.links]) {
    for (const key of ['start_antifreeze_fraction', 'antifreeze_fraction']) {
      const share = numberOf(item.raw[key]);
      if (share === null || share <= 0) continue;
      fault(draft, `${item.path}.${key}`, 'must be 0, because the antifreeze is "none"');
    }
  }
}
