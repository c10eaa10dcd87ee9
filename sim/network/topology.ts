// From the scenario's ids to indices: nodes, pipes cut into cells, columns and faces.
// All of it is fixed for a world's life. Leaves out anything that changes.
import { assert } from '../base/assert.ts';
import { abs, max, min, round, PI } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import { COLUMN_LENGTH_MAX, FITTING_INERTIA_LENGTH, FITTING_LENGTH } from '../constants.ts';
import { wallCompliance } from '../laws/elastic.ts';
import { gasSection, type GasSection } from '../laws/gas.ts';
import { makePumpCurve, type PumpCurve } from '../laws/pump.ts';
import { compressibility, density, surfaceTension, viscosity } from '../laws/water.ts';
import type { ConduitSpec, LinkSpec, PumpSpec, Scenario, TankSpec } from '../scenario.ts';

export const JUNCTION = 0;
export const TANK = 1;
export const RESERVOIR = 2;
export const OPEN = 3;

/** One node as the engine sees it. */
export interface NodePlan {
  readonly id: string;
  readonly kind: number;
  readonly elevation: number;
  readonly volume: number;
  readonly tank: number;
  readonly ledger: number;
  readonly fixed: boolean;
  /** Pa abs, of a reservoir or an open end. */
  readonly pressure: number;
  readonly fraction: number;
  readonly rating: number;
}

/** One link: a run of cells (pipe, hose) or a fitting without length. */
export interface LinkPlan {
  readonly id: string;
  readonly spec: LinkSpec;
  readonly from: number;
  readonly to: number;
  /** Elevation of each end, and the tank port's bore and height there (or -1). */
  readonly zFrom: number;
  readonly zTo: number;
  readonly area: number;
  readonly bore: number;
  readonly length: number;
  readonly firstCell: number;
  readonly cells: number;
  readonly firstFace: number;
  readonly firstColumn: number;
  readonly columns: number;
  readonly pump: number;
  /** Section of a fitting, for the drift of gas through it. */
  readonly section: GasSection;
}

/** One rigid column: part of a pipe between two pressure points, or a fitting. */
export interface ColumnPlan {
  readonly link: number;
  readonly a: number;
  readonly b: number;
  /** First cell and count; the first `half` cells lean on point a, the rest on point b. */
  readonly cell: number;
  readonly cells: number;
  readonly half: number;
  readonly face: number;
  readonly lossK: number;
  readonly share: number;
}

export interface PumpPlan { readonly id: string; readonly link: number; readonly spec: PumpSpec; readonly curve: PumpCurve }
export interface TankPlan { readonly id: string; readonly node: number; readonly spec: TankSpec }

export interface Plan {
  readonly scenario: Scenario;
  readonly nodes: readonly NodePlan[];
  readonly links: readonly LinkPlan[];
  readonly columns: readonly ColumnPlan[];
  readonly pumps: readonly PumpPlan[];
  readonly tanks: readonly TankPlan[];
  readonly ledgers: readonly string[];
  /** Pressure points: nodes first, then joints between columns of one pipe. */
  readonly points: number;
  readonly volumes: number;
  readonly faces: number;
  /** Per volume: room m3, compliance 1/Pa, length m, elevation of both faces, section. */
  readonly room: Float64Array;
  readonly compliance: Float64Array;
  readonly cellLength: Float64Array;
  readonly zStart: Float64Array;
  readonly zEnd: Float64Array;
  readonly section: readonly (GasSection | null)[];
  /** Per volume: pressure point it leans on. Per face: volumes on both sides, area. */
  readonly leans: Int32Array;
  readonly faceFrom: Int32Array;
  readonly faceTo: Int32Array;
  readonly nodeIx: ReadonlyMap<string, number>;
  readonly linkIx: ReadonlyMap<string, number>;
  readonly water: { readonly rho: number; readonly mu: number; readonly sigma: number; readonly compressibility: number };
}

/** Ledgers that every world has; open ends and tanks add their own. */
const COMMON_LEDGERS = ['supplied', 'dust'] as const;
export const LEDGER_SUPPLIED = 0;
export const LEDGER_DUST = 1;

export function volumeOf(plan: Plan, link: number, cell: number): number {
  return plan.links[link]!.firstCell + cell;
}

function planNodes(scenario: Scenario, ledgers: string[]): NodePlan[] {
  let tank = 0;
  return scenario.nodes.map((node) => {
    const ledger = node.kind === 'reservoir' ? LEDGER_SUPPLIED
      : node.kind === 'junction' ? -1 : ledgers.push(node.id) - 1;
    const base = { id: node.id, tank: -1, ledger, rating: 1e12, fraction: 0, volume: 0, pressure: P_ATM };
    if (node.kind === 'junction') {
      const rating = node.rating_kPa === undefined ? 1e12 : node.rating_kPa * 1000;
      return { ...base, kind: JUNCTION, elevation: node.elevation_m, volume: node.volume_L / 1000, fixed: false, rating };
    }
    if (node.kind === 'tank') {
      return { ...base, kind: TANK, elevation: node.floor_m, tank: tank++, fixed: true };
    }
    if (node.kind === 'reservoir') {
      return { ...base, kind: RESERVOIR, elevation: node.elevation_m, fixed: true, fraction: node.antifreeze_fraction, pressure: P_ATM + 1000 * node.pressure_kPa };
    }
    return { ...base, kind: OPEN, elevation: node.elevation_m, fixed: true };
  });
}

interface End { readonly node: number; readonly z: number }

function resolveEnd(scenario: Scenario, nodeIx: ReadonlyMap<string, number>, text: string): End {
  const [id, port] = text.split('.');
  const node = nodeIx.get(id!);
  assert(node !== undefined, `unknown node ${text}`);
  const spec = scenario.nodes[node]!;
  if (spec.kind === 'tank') {
    const found = spec.ports.find((p) => p.id === port);
    assert(found !== undefined, `unknown port ${text}`);
    return { node, z: spec.floor_m + found.height_mm / 1000 };
  }
  return { node, z: spec.elevation_m };
}

const isConduit = (spec: LinkSpec): spec is ConduitSpec => spec.kind === 'pipe' || spec.kind === 'hose';

/** Elevation at arc length s along a conduit. */
export function elevationAt(spec: ConduitSpec, ends: { zFrom: number; zTo: number }, s: number): number {
  let s0 = 0;
  let z0 = ends.zFrom;
  for (const point of spec.profile) {
    if (s <= point.at_m) {
      return point.at_m === s0 ? point.elevation_m : z0 + ((point.elevation_m - z0) * (s - s0)) / (point.at_m - s0);
    }
    s0 = point.at_m;
    z0 = point.elevation_m;
  }
  const rest = spec.length_m - s0;
  return rest <= 0 ? ends.zTo : z0 + ((ends.zTo - z0) * min(s - s0, rest)) / rest;
}

interface Counters { cell: number; face: number; point: number; column: number; pump: number }

function planLink(args: {
  scenario: Scenario; spec: LinkSpec; nodeIx: ReadonlyMap<string, number>; at: Counters; water: Plan['water'];
}): LinkPlan {
  const { scenario, spec, nodeIx, at, water } = args;
  const a = resolveEnd(scenario, nodeIx, spec.from);
  const b = resolveEnd(scenario, nodeIx, spec.to);
  const bore = spec.bore_mm / 1000;
  const conduit = isConduit(spec);
  const length = conduit ? spec.length_m : FITTING_INERTIA_LENGTH;
  const cells = conduit ? max(1, round(length / scenario.solver.cell_m)) : 0;
  const columns = conduit ? max(1, min(cells, round(length / COLUMN_LENGTH_MAX))) : 1;
  const slope = max(-1, min(1, (b.z - a.z) / FITTING_LENGTH));
  const link: LinkPlan = {
    id: spec.id, spec, from: a.node, to: b.node, zFrom: a.z, zTo: b.z, bore, length,
    area: (PI * bore * bore) / 4, firstCell: at.cell, cells, firstFace: at.face,
    firstColumn: at.column, columns, pump: spec.kind === 'pump' ? at.pump++ : -1,
    section: gasSection(bore, slope, water.rho, 1.2, water.sigma),
  };
  at.cell += cells;
  at.face += cells + 1;
  at.column += columns;
  return link;
}

function planColumns(links: readonly LinkPlan[], nodes: number): { columns: ColumnPlan[]; points: number } {
  const columns: ColumnPlan[] = [];
  let point = nodes;
  links.forEach((link, ix) => {
    const lossK = 'loss_k' in link.spec ? link.spec.loss_k : 0;
    for (let c = 0; c < link.columns; c++) {
      const first = round((c * link.cells) / link.columns);
      const last = round(((c + 1) * link.cells) / link.columns);
      const a = c === 0 ? link.from : point - 1;
      const b = c === link.columns - 1 ? link.to : point++;
      columns.push({
        link: ix, a, b, cell: link.firstCell + first, cells: last - first,
        half: (last - first) >> 1, face: link.firstFace + first,
        lossK: lossK / link.columns, share: 1 / link.columns,
      });
    }
  });
  return { columns, points: point };
}

function conduitCompliance(spec: ConduitSpec, water: Plan['water']): number {
  if (spec.kind === 'hose') return spec.compliance_per_MPa / 1e6 + water.compressibility;
  const wall = wallCompliance(spec.bore_mm / 1000, spec.wall_mm / 1000, spec.modulus_MPa * 1e6, spec.poisson);
  return wall + water.compressibility;
}

/** Compliance of a fitting: brass and cast iron hardly stretch, the liquid yields. */
const FITTING_COMPLIANCE = 2e-10;

/** Compiles a checked scenario. */
export function makePlan(scenario: Scenario): Plan {
  const t = scenario.temperature_C;
  const water = { rho: density(t), mu: viscosity(t), sigma: surfaceTension(t), compressibility: compressibility(t) };
  const ledgers: string[] = [...COMMON_LEDGERS];
  const nodes = planNodes(scenario, ledgers);
  const nodeIx = new Map(nodes.map((n, i) => [n.id, i]));
  const at: Counters = { cell: nodes.length, face: 0, point: 0, column: 0, pump: 0 };
  const links = scenario.links.map((spec) => planLink({ scenario, spec, nodeIx, at, water }));
  const { columns, points } = planColumns(links, nodes.length);
  const tables = fillTables({ nodes, links, columns, volumes: at.cell, faces: at.face, water });
  const pumps = links.flatMap((link, ix) =>
    link.spec.kind !== 'pump' ? [] : [{
      id: link.id, link: ix, spec: link.spec,
      curve: makePumpCurve(link.spec.curve.map((p) => [p.flow_L_s / 1000, p.head_m] as const)),
    }]);
  const tanks = scenario.nodes.flatMap((spec, node) => (spec.kind === 'tank' ? [{ id: spec.id, node, spec }] : []));
  return {
    scenario, nodes, links, columns, pumps, tanks, ledgers, points, volumes: at.cell,
    faces: at.face, nodeIx, linkIx: new Map(links.map((l, i) => [l.id, i])), water, ...tables,
  };
}

function fillTables(args: {
  nodes: readonly NodePlan[]; links: readonly LinkPlan[]; columns: readonly ColumnPlan[];
  volumes: number; faces: number; water: Plan['water'];
}) {
  const { nodes, links, columns, volumes, faces, water } = args;
  const room = new Float64Array(volumes);
  const compliance = new Float64Array(volumes);
  const cellLength = new Float64Array(volumes);
  const zStart = new Float64Array(volumes);
  const zEnd = new Float64Array(volumes);
  const leans = new Int32Array(volumes);
  const faceFrom = new Int32Array(faces);
  const faceTo = new Int32Array(faces);
  const section: (GasSection | null)[] = new Array<GasSection | null>(volumes).fill(null);
  nodes.forEach((node, i) => {
    room[i] = node.volume;
    compliance[i] = FITTING_COMPLIANCE + water.compressibility;
    zStart[i] = zEnd[i] = node.elevation;
    leans[i] = i;
  });
  for (const link of links) {
    for (let k = 0; k <= link.cells; k++) {
      faceFrom[link.firstFace + k] = k === 0 ? link.from : link.firstCell + k - 1;
      faceTo[link.firstFace + k] = k === link.cells ? link.to : link.firstCell + k;
    }
    if (!isConduit(link.spec)) continue;
    const dx = link.length / link.cells;
    for (let k = 0; k < link.cells; k++) {
      const v = link.firstCell + k;
      room[v] = link.area * dx;
      cellLength[v] = dx;
      compliance[v] = conduitCompliance(link.spec, water);
      zStart[v] = elevationAt(link.spec, link, k * dx);
      zEnd[v] = elevationAt(link.spec, link, (k + 1) * dx);
      const slope = max(-1, min(1, (zEnd[v]! - zStart[v]!) / dx));
      section[v] = gasSection(link.bore, abs(slope) < 1e-9 ? 0 : slope, water.rho, 1.2, water.sigma);
    }
  }
  for (const column of columns) {
    for (let k = 0; k < column.cells; k++) leans[column.cell + k] = k < column.half ? column.a : column.b;
  }
  return { room, compliance, cellLength, zStart, zEnd, section, leans, faceFrom, faceTo };
}

/** Static head of `dz` metres of liquid, Pa. */
export function columnPressure(rho: number, dz: number): number {
  return rho * G * dz;
}
