// How the plan is worked out: ends resolved, pipes cut into cells and columns, tables filled.
import { assert } from '../base/assert.ts';
import { max, min, round, PI } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import {
  COLUMN_LENGTH_MAX,
  FITTING_INERTIA_LENGTH,
  FITTING_LENGTH,
  FITTING_ROOM_LENGTH,
  VOLUME_LEAST,
} from '../constants.ts';
import type { LossTable } from '../laws/coil.ts';
import { AIR_DENSITY, gasSection } from '../laws/gas.ts';
import type { ConduitSpec, Scenario } from '../scenario.ts';
import type { Parts, PartSpec } from './expand.ts';
import {
  JUNCTION,
  LEDGER_SUPPLIED,
  OPEN,
  RESERVOIR,
  TANK,
  type ColumnPlan,
  type LinkPlan,
  type NodePlan,
  type Plan,
} from './plan.ts';

/**
 * Pa, of the air outside at a height: it stands in the same field as the air in a pipe, or a pipe
 * that is open at two heights would have a draught for ever. Of one density, as inside.
 */
const outside = (elevation: number): number => P_ATM - AIR_DENSITY * G * elevation;

/** m3. Room of the fittings that pipes of these bores end in, where the scenario says none. */
function usualRoom({ links }: Parts): Map<string, number> {
  const usual = new Map<string, number>();
  for (const { from, to, bore_mm } of links) {
    const room = ((PI * bore_mm * bore_mm) / 4e6) * FITTING_ROOM_LENGTH;
    for (const id of [from, to]) usual.set(id, max(room, usual.get(id) ?? VOLUME_LEAST));
  }
  return usual;
}

export function planNodes(parts: Parts, ledgers: string[]): NodePlan[] {
  const usual = usualRoom(parts);
  let tank = 0;
  return parts.nodes.map((node) => {
    const ledger =
      node.kind === 'reservoir'
        ? LEDGER_SUPPLIED
        : node.kind === 'junction'
          ? -1
          : ledgers.push(node.id) - 1;
    const base = {
      id: node.id,
      spec: node,
      tank: -1,
      ledger,
      rating: 1e12,
      fraction: 0,
      volume: 0,
      pressure: P_ATM,
    };
    if (node.kind === 'junction') {
      const said = node.volume_L;
      const rating = node.rating_kPa === undefined ? 1e12 : node.rating_kPa * 1000;
      return {
        ...base,
        kind: JUNCTION,
        elevation: node.elevation_m,
        volume: said === undefined ? (usual.get(node.id) ?? VOLUME_LEAST) : said / 1000,
        fixed: false,
        rating,
      };
    }
    if (node.kind === 'tank') {
      const at = { elevation: node.floor_m, pressure: outside(node.floor_m) };
      return { ...base, ...at, kind: TANK, tank: tank++, fixed: true };
    }
    if (node.kind === 'reservoir') {
      return {
        ...base,
        kind: RESERVOIR,
        elevation: node.elevation_m,
        fixed: true,
        fraction: node.antifreeze_fraction,
        pressure: P_ATM + 1000 * node.pressure_kPa,
      };
    }
    const at = { elevation: node.elevation_m, pressure: outside(node.elevation_m) };
    return { ...base, ...at, kind: OPEN, fixed: true };
  });
}

interface End {
  readonly node: number;
  readonly z: number;
}

function resolveEnd(parts: Parts, nodeIx: ReadonlyMap<string, number>, text: string): End {
  const whole = nodeIx.get(text); // Hidden nodes have a dot in their own id.
  const [id, port] = text.split('.');
  const node = whole ?? nodeIx.get(id!);
  assert(node !== undefined, `unknown node ${text}`);
  const spec = parts.nodes[node]!;
  if (spec.kind === 'tank') {
    const found = spec.ports.find((p) => p.id === port);
    assert(found !== undefined, `unknown port ${text}`);
    return { node, z: spec.floor_m + found.height_mm / 1000 };
  }
  return { node, z: spec.elevation_m };
}

export const isConduit = (spec: PartSpec): spec is ConduitSpec =>
  spec.kind === 'pipe' || spec.kind === 'hose';

/** Elevation at arc length s along a conduit. */
export function elevationAt(
  spec: ConduitSpec,
  ends: { zFrom: number; zTo: number },
  s: number,
): number {
  let s0 = 0;
  let z0 = ends.zFrom;
  for (const point of spec.profile) {
    if (s <= point.at_m) {
      return point.at_m === s0
        ? point.elevation_m
        : z0 + ((point.elevation_m - z0) * (s - s0)) / (point.at_m - s0);
    }
    s0 = point.at_m;
    z0 = point.elevation_m;
  }
  const rest = spec.length_m - s0;
  return rest <= 0 ? ends.zTo : z0 + ((ends.zTo - z0) * min(s - s0, rest)) / rest;
}

/** A leg or an opening obeys the control of the part that it belongs to. */
function controlOf(parts: Parts, ix: number): number {
  const spec = parts.links[ix]!;
  if (spec.kind !== 'leg' && spec.kind !== 'gap' && spec.kind !== 'neck') return ix;
  return parts.links.findIndex((link) => link.id === spec.of);
}

function tableOf(spec: PartSpec): LossTable | null {
  if (spec.kind !== 'coil') return null;
  const flow = spec.table.map((row) => row.flow_L_s / 1000);
  const loss = spec.table.map((row) => row.loss_kPa * 1000);
  return { flow, loss };
}

export interface Counters {
  cell: number;
  face: number;
  point: number;
  column: number;
  pump: number;
}

export function planLink(args: {
  scenario: Scenario;
  parts: Parts;
  ix: number;
  nodeIx: ReadonlyMap<string, number>;
  at: Counters;
  water: Plan['water'];
}): LinkPlan {
  const { scenario, parts, nodeIx, at, water } = args;
  const spec = parts.links[args.ix]!;
  const a = resolveEnd(parts, nodeIx, spec.from);
  const b = resolveEnd(parts, nodeIx, spec.to);
  const bore = spec.bore_mm / 1000;
  const conduit = isConduit(spec);
  const length = conduit ? spec.length_m : FITTING_INERTIA_LENGTH;
  const cells = conduit ? max(1, round(length / scenario.solver.cell_m)) : 0;
  const columns = conduit ? max(1, min(cells, round(length / COLUMN_LENGTH_MAX))) : 1;
  const slope = max(-1, min(1, (b.z - a.z) / FITTING_LENGTH));
  const link: LinkPlan = {
    id: spec.id,
    spec,
    control: controlOf(parts, args.ix),
    table: tableOf(spec),
    from: a.node,
    to: b.node,
    zFrom: a.z,
    zTo: b.z,
    bore,
    length,
    area: (PI * bore * bore) / 4,
    firstCell: at.cell,
    cells,
    firstFace: at.face,
    firstColumn: at.column,
    columns,
    pump: spec.kind === 'pump' ? at.pump++ : -1,
    section: gasSection(bore, slope, water.rho, AIR_DENSITY, water.sigma),
  };
  at.cell += cells;
  at.face += cells + 1;
  at.column += columns;
  return link;
}

/** Loss that does not change while the world runs. */
function lossOf(spec: PartSpec): number {
  return 'loss_k' in spec && spec.kind !== 'filter' ? spec.loss_k : 0;
}

export function planColumns(
  links: readonly LinkPlan[],
  nodes: number,
): { columns: ColumnPlan[]; points: number } {
  const columns: ColumnPlan[] = [];
  let point = nodes;
  links.forEach((link, ix) => {
    const lossK = lossOf(link.spec);
    for (let c = 0; c < link.columns; c++) {
      const first = round((c * link.cells) / link.columns);
      const last = round(((c + 1) * link.cells) / link.columns);
      const a = c === 0 ? link.from : point - 1;
      const b = c === link.columns - 1 ? link.to : point++;
      columns.push({
        link: ix,
        a,
        b,
        cell: link.firstCell + first,
        cells: last - first,
        half: (last - first) >> 1,
        face: link.firstFace + first,
        lossK: lossK / link.columns,
        share: 1 / link.columns,
      });
    }
  });
  return { columns, points: point };
}
