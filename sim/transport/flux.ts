// Volume flux of gas and liquid at every face. Gas leaves a cell only in the direction of its
// own net velocity, so a held pocket does not leak by the grid; slip into an emptier cell
// exchanges more, up to the flooding ceiling. The liquid takes the rest of the flux.
import { abs, min } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { EXCHANGE_MAX } from '../constants.ts';
import {
  entrainment, gasDrift, layerThickness, levelling, type GasSection,
} from '../laws/gas.ts';
import { SHUT_DEG, valveOpenArea } from '../laws/fitting.ts';
import type { Scratch } from '../network/columns.ts';
import { JUNCTION, type LinkPlan, type Plan } from '../network/topology.ts';
import type { State } from '../state.ts';

/** Sine of the slope up to which a gas layer levels itself along the crown: 10 degrees. */
const LEVELLING_SINE = 0.17365;

export interface Fluxes {
  /** m3/s of everything, of gas, of liquid through each face, along from -> to. */
  readonly total: Float64Array;
  readonly gas: Float64Array;
  readonly liquid: Float64Array;
  /** Gas share that a boundary node offers to a face that draws from it, by face; -1: none. */
  readonly offered: Float64Array;
  readonly out: Float64Array;
}

export function makeFluxes(plan: Plan): Fluxes {
  const make = () => new Float64Array(plan.faces);
  return { total: make(), gas: make(), liquid: make(), offered: make().fill(-1), out: new Float64Array(4) };
}

/** What a volume takes in beyond the liquid's coming and going, m3/s: its share of storage. */
function intake(plan: Plan, state: State, scratch: Scratch, v: number, args: {
  before: Float64Array; dt: number;
}): number {
  const point = plan.leans[v]!;
  const po = args.before[point]!;
  const p = state.point[point]!;
  const own = state.pressure[v]!;
  const gasC = state.gas[v]! === 0 ? 0 : state.gas[v]! / (own * own);
  const squeeze = gasC * po * (1 - po / p) + plan.room[v]! * plan.compliance[v]! * (p - po);
  return squeeze / args.dt - scratch.excess[v]!;
}

/** Total flux at each face: the column's flow at its middle, outward by each cell's intake. */
export function totalFlux(args: {
  plan: Plan; state: State; scratch: Scratch; fluxes: Fluxes; before: Float64Array; dt: number;
}): void {
  const { plan, state, scratch, fluxes, before, dt } = args;
  const { total } = fluxes;
  const tick = { before, dt };
  for (let c = 0; c < plan.columns.length; c++) {
    const column = plan.columns[c]!;
    const middle = column.face + column.half;
    total[middle] = state.flowMean[c]!;
    for (let k = column.half - 1; k >= 0; k--) {
      const take = intake(plan, state, scratch, column.cell + k, tick);
      total[column.face + k] = total[column.face + k + 1]! + take;
    }
    for (let k = column.half; k < column.cells; k++) {
      const take = intake(plan, state, scratch, column.cell + k, tick);
      total[column.face + k + 1] = total[column.face + k]! - take;
    }
  }
}

/** Gas that one side pushes through a face along `toward` (+1 or -1), m/s, never negative. */
function push(args: {
  section: GasSection; out: Float64Array; alpha: number; sink: number; j: number; n: number; toward: number;
}): number {
  const { section, out, alpha, sink, j, n, toward } = args;
  if (alpha <= 0) return 0;
  gasDrift(section, alpha, j, n, out);
  const along = toward * out[1]!;
  const carried = toward * alpha * out[0]! * j;
  if (along <= 0) {
    const net = carried + alpha * out[2]! * along;
    return net > 0 ? net : 0;
  }
  const ceiling = EXCHANGE_MAX * (1 - sink);
  const free = alpha > 0.999 ? ceiling : (alpha * out[2]! * (1 - sink)) / (1 - alpha);
  const net = carried + along * min(free, ceiling);
  return net > 0 ? net : 0;
}

/** Gas share of the volume on one side of a face; boundaries offer what they hold there. */
function shareAt(plan: Plan, scratch: Scratch, fluxes: Fluxes, v: number, face: number): number {
  if (v < plan.nodes.length && plan.nodes[v]!.kind !== JUNCTION) return fluxes.offered[face]!;
  return scratch.alpha[v]!;
}

/** Levelling of a gas layer between two cells of one pipe, m/s along from -> to. */
function level(section: GasSection, left: number, right: number): number {
  const slope = abs(section.sinTheta);
  if (slope >= LEVELLING_SINE) return 0;
  const j = levelling(section, layerThickness(left), layerThickness(right));
  return (1 - slope / LEVELLING_SINE) * j;
}

/** Splits the flux of one pipe's face between gas and liquid. */
function splitFace(args: {
  plan: Plan; scratch: Scratch; fluxes: Fluxes; face: number; area: number;
  left: GasSection; right: GasSection; dx: number;
}): void {
  const { plan, scratch, fluxes, face, area, left, right, dx } = args;
  const { out, total } = fluxes;
  const a = shareAt(plan, scratch, fluxes, plan.faceFrom[face]!, face);
  const b = shareAt(plan, scratch, fluxes, plan.faceTo[face]!, face);
  const q = total[face]!;
  if (a <= 0 && b <= 0) {
    fluxes.gas[face] = 0;
    fluxes.liquid[face] = q;
    return;
  }
  const j = q / area;
  const forth = push({ section: left, out, alpha: a, sink: b, j, n: (a * dx) / left.D, toward: 1 });
  const back = push({ section: right, out, alpha: b, sink: a, j, n: (b * dx) / right.D, toward: -1 });
  let gas = forth - back;
  if (left.D === right.D) gas += level(left, a, b);
  gas += entrainment(j >= 0 ? left : right, j >= 0 ? a : b, j >= 0 ? b : a, j);
  fluxes.gas[face] = gas * area;
  fluxes.liquid[face] = q - gas * area;
}

/**
 * A fitting mixes: gas goes with the flow as the donor holds it, and rises through what is open
 * where one end stands higher. [fit: no correlation covers a valve body]
 */
function splitFitting(
  plan: Plan, state: State, scratch: Scratch, fluxes: Fluxes, link: LinkPlan,
): void {
  const face = link.firstFace;
  const spec = link.spec;
  const q = fluxes.total[face]!;
  const deg = spec.kind === 'valve' ? state.control[plan.columns[link.firstColumn]!.link]! : 90;
  if (deg <= SHUT_DEG) {
    fluxes.gas[face] = 0;
    fluxes.liquid[face] = 0;
    return;
  }
  const a = shareAt(plan, scratch, fluxes, link.from, face);
  const b = shareAt(plan, scratch, fluxes, link.to, face);
  if (a <= 0 && b <= 0) {
    fluxes.gas[face] = 0;
    fluxes.liquid[face] = q;
    return;
  }
  const { sinTheta, Up } = link.section;
  const source = sinTheta >= 0 ? a : b;
  const sink = sinTheta >= 0 ? b : a;
  const open = link.area * valveOpenArea(deg);
  const rise = sinTheta === 0 ? 0 : Up * min(source, EXCHANGE_MAX) * (1 - sink) * open;
  const gas = q * (q >= 0 ? a : b) + (sinTheta >= 0 ? rise : -rise);
  fluxes.gas[face] = gas;
  fluxes.liquid[face] = q - gas;
}

/** Gas and liquid flux at every face. */
export function splitFlux(plan: Plan, state: State, scratch: Scratch, fluxes: Fluxes): void {
  for (const link of plan.links) {
    if (link.cells === 0) {
      splitFitting(plan, state, scratch, fluxes, link);
      continue;
    }
    const dx = link.length / link.cells;
    for (let k = 0; k <= link.cells; k++) {
      const left = plan.section[link.firstCell + (k === 0 ? 0 : k - 1)]!;
      const right = plan.section[link.firstCell + (k === link.cells ? k - 1 : k)]!;
      splitFace({ plan, scratch, fluxes, face: link.firstFace + k, area: link.area, left, right, dx });
    }
  }
}

/** Pressure at which gas crosses a face: its donor's, Pa abs. */
export function donorPressure(plan: Plan, state: State, v: number): number {
  return v < plan.nodes.length && plan.nodes[v]!.fixed ? P_ATM : state.pressure[v]!;
}
