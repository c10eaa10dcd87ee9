// Parts that are more than one to the engine: a three-way valve is a ball with three legs, a
// coupling a joint and an opening to the air on each side (holes: defects/). All become plain
// nodes and links; hidden ones bear the part's id, a dot and the side, as no id can.
import type {
  CouplingSpec,
  JunctionSpec,
  LinkSpec,
  NodeSpec,
  OpenSpec,
  Scenario,
  ThreeWaySpec,
} from '../scenario.ts';

/** A leg of a three-way valve, between the ball and one of its ends. */
export interface LegSpec {
  readonly kind: 'leg';
  readonly id: string;
  readonly of: string;
  readonly from: string;
  readonly to: string;
  readonly bore_mm: number;
  readonly loss_k_open: number;
  /** Where on the ball's circle the end stands, degrees: from 0, branch 90, to 180. */
  readonly at_deg: number;
}
/** The opening of one half of a coupling that stands apart. */
export interface GapSpec {
  readonly kind: 'gap';
  readonly id: string;
  readonly of: string;
  readonly from: string;
  readonly to: string;
  readonly bore_mm: number;
  readonly loss_k: number;
}
/** An opening to the air that should not be there; its control is its area, of that of its bore. */
export interface HoleSpec {
  readonly kind: 'hole';
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly bore_mm: number;
}
/** The way under a lid, where air lies that the flow in the part `of` may take out. */
export interface NeckSpec {
  readonly kind: 'neck';
  readonly id: string;
  readonly of: string;
  readonly from: string;
  readonly to: string;
  readonly bore_mm: number;
  readonly loss_k: number;
  /** m3/s in the part from which it does. */
  readonly clears: number;
}
export type PartSpec = Exclude<LinkSpec, ThreeWaySpec> | LegSpec | GapSpec | HoleSpec | NeckSpec;

export interface Parts {
  readonly nodes: readonly NodeSpec[];
  readonly links: readonly PartSpec[];
}

/** L. Room inside a three-way valve's body; a control volume needs at least half a litre. */
const BALL_VOLUME_L = 0.5;

/** Loss of an open end: what leaves loses its velocity head, what enters half of it. */
const OPEN_END_K = 1;

/** Height of the end of a link, m: of its node, or of a tank's port. */
export function endHeight(nodes: readonly NodeSpec[], end: string): number {
  const [id, port] = end.split('.');
  const node = nodes.find((n) => n.id === id);
  if (node === undefined) return 0;
  if (node.kind !== 'tank') return node.elevation_m;
  const found = node.ports.find((p) => p.id === port);
  return node.floor_m + (found?.height_mm ?? 0) / 1000;
}

function legsOf(spec: ThreeWaySpec): LegSpec[] {
  const ball = `${spec.id}.ball`;
  const share = { kind: 'leg', of: spec.id, bore_mm: spec.bore_mm } as const;
  const loss_k_open = spec.loss_k_open / 2;
  return [
    { ...share, id: spec.id, from: spec.from, to: ball, loss_k_open, at_deg: 0 },
    { ...share, id: `${spec.id}.branch`, from: ball, to: spec.branch, loss_k_open, at_deg: 90 },
    { ...share, id: `${spec.id}.to`, from: ball, to: spec.to, loss_k_open, at_deg: 180 },
  ];
}

function gapsOf(
  nodes: readonly NodeSpec[],
  spec: CouplingSpec,
): { nodes: OpenSpec[]; links: GapSpec[] } {
  const found: { nodes: OpenSpec[]; links: GapSpec[] } = { nodes: [], links: [] };
  for (const side of ['from', 'to'] as const) {
    if (spec[`${side}_apart`] === 'capped') continue;
    const air = `${spec.id}.${side}_air`;
    const elevation_m = endHeight(nodes, spec[side]);
    found.nodes.push({ id: air, kind: 'open', elevation_m, goes_to: spec.goes_to });
    found.links.push({
      kind: 'gap',
      id: `${spec.id}.${side}`,
      of: spec.id,
      from: spec[side],
      to: air,
      bore_mm: spec.bore_mm,
      loss_k: OPEN_END_K,
    });
  }
  return found;
}

/** A scenario's own nodes and links first in their order, hidden ones after them. */
export function expand(scenario: Scenario): Parts {
  const nodes: NodeSpec[] = [...scenario.nodes];
  const links: PartSpec[] = [];
  const hidden: PartSpec[] = [];
  for (const spec of scenario.links) {
    if (spec.kind === 'three_way') {
      const [first, ...rest] = legsOf(spec);
      const elevation_m = endHeight(scenario.nodes, spec.from);
      nodes.push({
        id: `${spec.id}.ball`,
        kind: 'junction',
        elevation_m,
        volume_L: BALL_VOLUME_L,
        start_gas_fraction: gasAt(scenario, spec.from),
        ...startAt(scenario, spec.from),
      });
      links.push(first!);
      hidden.push(...rest);
      continue;
    }
    links.push(spec);
    if (spec.kind !== 'coupling') continue;
    const gaps = gapsOf(scenario.nodes, spec);
    nodes.push(...gaps.nodes);
    hidden.push(...gaps.links);
  }
  return { nodes, links: [...links, ...hidden] };
}

/** A ball holds at the start what the fitting at its `from` end holds. */
function gasAt(scenario: Scenario, end: string): number {
  const node = scenario.nodes.find((n) => n.id === end);
  return node?.kind === 'junction' ? node.start_gas_fraction : 0;
}

function startAt(scenario: Scenario, end: string): Partial<JunctionSpec> {
  const node = scenario.nodes.find((n) => n.id === end);
  if (node?.kind !== 'junction') return {};
  const { start_pressure_kPa, start_C } = node;
  return {
    ...(start_pressure_kPa === undefined ? {} : { start_pressure_kPa }),
    ...(start_C === undefined ? {} : { start_C }),
  };
}
