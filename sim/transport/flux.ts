// Volume flux of gas and liquid at every face. Gas leaves a cell only in the direction of its
// own net velocity, so a held pocket does not leak by the grid; slip into an emptier cell
// exchanges more, up to the flooding ceiling. The liquid takes the rest of the flux.
import { abs, min } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { EXCHANGE_MAX } from '../constants.ts';
import { entrainment, gasDrift, layerThickness, levelling, type GasSection } from '../laws/gas.ts';
import { SHUT_DEG, valveOpenArea } from '../laws/fitting.ts';
import type { Scratch } from '../network/columns.ts';
import { JUNCTION, type LinkPlan, type Plan } from '../network/plan.ts';
import type { State } from '../state.ts';

/** Called for every wet cell: bound here once, so that no module lookup stands in the loop. */
const drift = gasDrift;
const torn = entrainment;

/** Sine of the slope up to which a gas layer levels itself along the crown: 10 degrees. */
const LEVELLING_SINE = 0.17365;

export interface Fluxes {
  /** m3/s of everything, of gas, of liquid through each face, along from -> to. */
  readonly total: Float64Array;
  readonly gas: Float64Array;
  readonly liquid: Float64Array;
  /** Gas share that a boundary offers to a face that draws from it; from side, to side. */
  readonly offered: Float64Array;
  readonly out: Float64Array;
  /** Per volume: what it takes in beyond the flow (m3/s); C, slip (m/s) and limiter of its gas. */
  readonly intake: Float64Array;
  readonly carry: Float64Array;
  readonly slip: Float64Array;
  readonly phi: Float64Array;
}

export function makeFluxes(plan: Plan): Fluxes {
  const make = () => new Float64Array(plan.faces);
  const volumes = () => new Float64Array(plan.volumes);
  return {
    total: make(),
    gas: make(),
    liquid: make(),
    offered: new Float64Array(2 * plan.faces),
    out: new Float64Array(4),
    intake: volumes(),
    carry: volumes(),
    slip: volumes(),
    phi: volumes(),
  };
}

/** Total flux at each face: the column's flow at its middle, outward by each cell's intake. */
export function totalFlux(args: {
  plan: Plan;
  state: State;
  scratch: Scratch;
  fluxes: Fluxes;
  before: Float64Array;
  dt: number;
}): void {
  const { plan, state, scratch, fluxes, before, dt } = args;
  const { total, intake } = fluxes;
  const { excess } = scratch;
  const { gas, pressure, point } = state;
  const { leans, room, compliance } = plan;
  for (let v = plan.nodes.length; v < plan.volumes; v++) {
    const lean = leans[v]!;
    const po = before[lean]!;
    const p = point[lean]!;
    let squeeze = room[v]! * compliance[v]! * (p - po);
    const m = gas[v]!;
    if (m !== 0) {
      const own = pressure[v]!;
      squeeze += (m / (own * own)) * po * (1 - po / p);
    }
    intake[v] = squeeze / dt - excess[v]!;
  }
  for (let c = 0; c < plan.columns.length; c++) {
    const { face, half, cells, cell } = plan.columns[c]!;
    total[face + half] = state.flowMean[c]!;
    for (let k = half - 1; k >= 0; k--) total[face + k] = total[face + k + 1]! + intake[cell + k]!;
    for (let k = half; k < cells; k++) total[face + k + 1] = total[face + k]! - intake[cell + k]!;
  }
}

/** Drift of the gas in one cell at its mean flux: kept for both of its faces. */
function driftCell(
  plan: Plan,
  scratch: Scratch,
  fluxes: Fluxes,
  v: number,
  args: {
    j: number;
    n: number;
  },
): void {
  const { out, carry, slip, phi } = fluxes;
  drift(plan.section[v]!, scratch.alpha[v]!, args.j, args.n, out);
  carry[v] = out[0]!;
  slip[v] = out[1]!;
  phi[v] = out[2]!;
}

/**
 * Gas that one side pushes through a face along `toward` (+1 or -1), m/s, never negative: with
 * the flow as it is carried, less its slip against, or plus its slip along into what room there is.
 */
function pushed(a: number, sink: number, carried: number, along: number, phi: number): number {
  if (along <= 0) {
    const net = carried + a * phi * along;
    return net > 0 ? net : 0;
  }
  const ceiling = EXCHANGE_MAX * (1 - sink);
  const free = a > 0.999 ? ceiling : (a * phi * (1 - sink)) / (1 - a);
  const net = carried + along * (free < ceiling ? free : ceiling);
  return net > 0 ? net : 0;
}

/**
 * Gas share of the volume on one side of a face (slot: twice the face, 1 more on its to side);
 * boundaries offer what they hold there.
 */
function shareAt(plan: Plan, scratch: Scratch, fluxes: Fluxes, v: number, slot: number): number {
  if (v < plan.nodes.length && plan.nodes[v]!.kind !== JUNCTION) return fluxes.offered[slot]!;
  return scratch.alpha[v]!;
}

/** Levelling of a gas layer between two cells of one pipe, m/s along from -> to. */
function level(section: GasSection, left: number, right: number): number {
  const slope = abs(section.sinTheta);
  if (slope >= LEVELLING_SINE) return 0;
  const j = levelling(section, layerThickness(left), layerThickness(right));
  return (1 - slope / LEVELLING_SINE) * j;
}

/** Gas flux of a pipe's inner face between cells v-1 and v, m/s. */
function innerGas(plan: Plan, scratch: Scratch, fluxes: Fluxes, v: number, j: number): number {
  const { carry, slip, phi } = fluxes;
  const a = scratch.alpha[v - 1]!;
  const b = scratch.alpha[v]!;
  let gas = 0;
  if (a > 0) gas += pushed(a, b, a * carry[v - 1]! * j, slip[v - 1]!, phi[v - 1]!);
  if (b > 0) gas -= pushed(b, a, -b * carry[v]! * j, -slip[v]!, phi[v]!);
  gas += level(plan.section[v - 1]!, a, b);
  return gas + (j >= 0 ? torn(plan.section[v - 1]!, a, b, j) : torn(plan.section[v]!, b, a, j));
}

/** Gas flux where a pipe meets a fitting or boundary, m/s along from -> to. */
function endGas(
  plan: Plan,
  scratch: Scratch,
  fluxes: Fluxes,
  args: {
    face: number;
    cell: number;
    atStart: boolean;
    j: number;
    n: number;
  },
): number {
  const { face, cell, atStart, j, n } = args;
  const { out, carry, slip, phi } = fluxes;
  const toward = atStart ? -1 : 1;
  const inside = scratch.alpha[cell]!;
  const outside = shareAt(
    plan,
    scratch,
    fluxes,
    atStart ? plan.faceFrom[face]! : plan.faceTo[face]!,
    2 * face + (atStart ? 0 : 1),
  );
  let gas = 0;
  if (inside > 0) {
    gas +=
      toward *
      pushed(inside, outside, toward * inside * carry[cell]! * j, toward * slip[cell]!, phi[cell]!);
  }
  if (outside > 0) {
    drift(plan.section[cell]!, outside, j, outside * n, out);
    gas -=
      toward * pushed(outside, inside, -toward * outside * out[0]! * j, -toward * out[1]!, out[2]!);
  }
  return gas;
}

/**
 * A fitting mixes: gas goes with the flow as the donor holds it, and rises through what is open
 * where one end stands higher. [fit: no correlation covers a valve body]
 */
function splitFitting(plan: Plan, scratch: Scratch, fluxes: Fluxes, link: LinkPlan): void {
  const face = link.firstFace;
  const q = fluxes.total[face]!;
  const deg = scratch.open[plan.columns[link.firstColumn]!.link]!;
  if (deg <= SHUT_DEG) {
    fluxes.gas[face] = 0;
    fluxes.liquid[face] = 0;
    return;
  }
  const a = shareAt(plan, scratch, fluxes, link.from, 2 * face);
  const b = shareAt(plan, scratch, fluxes, link.to, 2 * face + 1);
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
export function splitFlux(plan: Plan, scratch: Scratch, fluxes: Fluxes): void {
  for (const link of plan.links) {
    if (link.cells === 0) splitFitting(plan, scratch, fluxes, link);
    else splitPipe(plan, scratch, fluxes, link);
  }
}

function splitPipe(plan: Plan, scratch: Scratch, fluxes: Fluxes, link: LinkPlan): void {
  const { total, gas, liquid } = fluxes;
  const { alpha } = scratch;
  const { firstCell, firstFace, cells, area } = link;
  const n = link.length / cells / link.bore;
  const args = { j: 0, n: 0 };
  for (let k = 0; k < cells; k++) {
    const a = alpha[firstCell + k]!;
    if (a === 0) continue;
    args.j = (total[firstFace + k]! + total[firstFace + k + 1]!) / (2 * area);
    args.n = a * n;
    driftCell(plan, scratch, fluxes, firstCell + k, args);
  }
  for (let k = 1; k < cells; k++) {
    const f = firstFace + k;
    const q = total[f]!;
    const v = firstCell + k;
    const g =
      alpha[v - 1] === 0 && alpha[v] === 0
        ? 0
        : innerGas(plan, scratch, fluxes, v, q / area) * area;
    gas[f] = g;
    liquid[f] = q - g;
  }
  for (const atStart of BOTH_ENDS) {
    const face = atStart ? firstFace : firstFace + cells;
    const cell = atStart ? firstCell : firstCell + cells - 1;
    const j = total[face]! / area;
    const g = endGas(plan, scratch, fluxes, { face, cell, atStart, j, n }) * area;
    gas[face] = g;
    liquid[face] = total[face]! - g;
  }
}

const BOTH_ENDS = [true, false] as const;

/** Pressure at which gas crosses a face: its donor's, Pa abs. */
export function donorPressure(plan: Plan, state: State, v: number): number {
  return v < plan.nodes.length && plan.nodes[v]!.fixed ? P_ATM : state.pressure[v]!;
}
