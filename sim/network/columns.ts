// What each column answers to the solver: weight of its contents, mass that must be moved,
// friction and local losses with their slope, and the room that its cells take or give.
// Reads contents and pressures of the last tick; leaves solving to heads.ts.
import { max, sqrt } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import { LOCAL_LOSS_LINEAR_BELOW, PRESSURE_MIN, RELAX } from '../constants.ts';
import { pipeLoss } from '../laws/friction.ts';
import { tableLoss } from '../laws/coil.ts';
import { ballValveK } from '../laws/fitting.ts';
import type { State } from '../state.ts';
import { JUNCTION, type LinkPlan, type Plan } from './plan.ts';

/** Air at 1 atm and the world's temperature, kg/m3 per Pa absolute. */
const AIR_DENSITY_PER_PA = 1.2 / P_ATM;
/** Pa s. Air. */
const AIR_VISCOSITY = 1.8e-5;
/** kg/m3, and the Darcy factor of fast air in smooth small pipe (about 0.03 at Re 1e4). */
const AIR_DENSITY = 1.2;
const AIR_FRICTION = 0.03;

/** Numbers of one tick, overwritten every tick; not state. */
export interface Scratch {
  /** Gas share of each volume. */
  readonly alpha: Float64Array;
  /** m3/s that each volume takes beyond the pressure's doing (discrepancy S, negated). */
  readonly excess: Float64Array;
  /** Per column: weight G (Pa), inertia (Pa s2/m3), liquid length (m), mean density share. */
  readonly weight: Float64Array;
  readonly inertia: Float64Array;
  readonly wet: Float64Array;
  /** Per point: gas compliance sum(m/p^2), elastic compliance sum(V c), excess S. */
  readonly gasC: Float64Array;
  readonly wallC: Float64Array;
  readonly source: Float64Array;
  /** Per link: degrees open, 0..90. */
  readonly open: Float64Array;
  /** Per column: what tees add to its drive along from -> to, Pa. */
  readonly teePush: Float64Array;
  readonly out: Float64Array;
}

export function makeScratch(plan: Plan): Scratch {
  const { volumes, points } = plan;
  const columns = plan.columns.length;
  return {
    alpha: new Float64Array(volumes),
    excess: new Float64Array(volumes),
    weight: new Float64Array(columns),
    inertia: new Float64Array(columns),
    wet: new Float64Array(columns),
    gasC: new Float64Array(points),
    wallC: new Float64Array(points),
    source: new Float64Array(points),
    open: new Float64Array(plan.links.length).fill(90),
    teePush: new Float64Array(columns),
    out: new Float64Array(4),
  };
}

/** Gas share, discrepancy and compliance of every volume. Writes scratch only. */
export function weighVolumes(plan: Plan, state: State, scratch: Scratch, dt: number): void {
  const { gas, mass, density, pressure } = state;
  const { alpha, excess, gasC, wallC, source } = scratch;
  const { room, compliance, leans, nodes } = plan;
  gasC.fill(0);
  wallC.fill(0);
  source.fill(0);
  const rate = RELAX / dt;
  for (let v = 0; v < plan.volumes; v++) {
    if (v < nodes.length && nodes[v]!.kind !== JUNCTION) continue;
    const p = pressure[v]!;
    const stretched = room[v]! * (1 + compliance[v]! * (p - P_ATM));
    const m = gas[v]!;
    const gasRoom = m === 0 ? 0 : m / p;
    const share = gasRoom / stretched;
    alpha[v] = share > 1 ? 1 : share;
    const s = rate * (mass[v]! / density[v]! + gasRoom - stretched);
    excess[v] = s;
    const point = leans[v]!;
    gasC[point] = gasC[point]! + gasRoom / p;
    wallC[point] = wallC[point]! + room[v]! * compliance[v]!;
    source[point] = source[point]! + s;
  }
}

/** Weight, inertia and liquid length of every column. Writes scratch only. */
export function weighColumns(plan: Plan, state: State, scratch: Scratch): void {
  const { columns, links, cellLength, zStart, zEnd } = plan;
  const { density, pressure } = state;
  const { alpha, weight, inertia, wet } = scratch;
  for (let c = 0; c < columns.length; c++) {
    const column = columns[c]!;
    const link = links[column.link]!;
    if (column.cells === 0) {
      weighFitting(plan, state, scratch, c);
      continue;
    }
    let pull = 0;
    let column_kg_m2 = 0;
    let liquid = 0;
    for (let v = column.cell; v < column.cell + column.cells; v++) {
      const a = alpha[v]!;
      const rho = (1 - a) * density[v]! + a * AIR_DENSITY_PER_PA * pressure[v]!;
      pull += rho * G * (zStart[v]! - zEnd[v]!);
      column_kg_m2 += rho * cellLength[v]!;
      liquid += (1 - a) * cellLength[v]!;
    }
    weight[c] = pull;
    inertia[c] = column_kg_m2 / link.area;
    wet[c] = liquid;
  }
}

/** A fitting holds nothing itself: it weighs as its fuller side does. */
function weighFitting(plan: Plan, state: State, scratch: Scratch, c: number): void {
  const column = plan.columns[c]!;
  const link = plan.links[column.link]!;
  const donor = state.flow[c]! >= 0 ? link.from : link.to;
  const a = plan.nodes[donor]!.kind === JUNCTION ? scratch.alpha[donor]! : 0;
  const rho = max(1.2, (1 - a) * state.density[donor]!);
  scratch.weight[c] = rho * G * (link.zFrom - link.zTo);
  scratch.inertia[c] = (rho * link.length) / link.area;
  scratch.wet[c] = (1 - a) * link.length;
}

const section = { D: 0, A: 0, L: 0, e: 0, rho: 0, mu: 0 };

/**
 * Loss of column c at flow Q: out[0] = Pa along the flow's sign, out[1] = slope, Pa s/m3 > 0.
 * Friction by the liquid's length and density, a trace of gas friction, local losses by K.
 */
export function columnLoss(plan: Plan, state: State, scratch: Scratch, c: number, Q: number): void {
  const column = plan.columns[c]!;
  const link = plan.links[column.link]!;
  const { out } = scratch;
  const spec = link.spec;
  const rho = plan.water.rho;
  const A = link.area;
  out[0] = 0;
  out[1] = 0;
  let K = column.lossK;
  let wetShare = 1;
  if (column.cells > 0 && (spec.kind === 'pipe' || spec.kind === 'hose')) {
    const L = link.length * column.share;
    section.D = link.bore;
    section.A = A;
    section.L = scratch.wet[c]!;
    section.e = spec.roughness_mm / 1000;
    section.rho = rho;
    section.mu = plan.water.mu;
    pipeLoss(Q, section, out);
    const dryLength = L - section.L;
    const smooth = (32 * AIR_VISCOSITY * dryLength) / (link.bore * link.bore * A);
    const rough = (AIR_FRICTION * AIR_DENSITY * dryLength) / (2 * link.bore * A * A);
    const q = Q < 0 ? -Q : Q;
    out[0] += (smooth + rough * q) * Q;
    out[1] += smooth + 2 * rough * q;
    wetShare = max(AIR_DENSITY / rho, section.L / L);
  } else {
    wetShare = max(AIR_DENSITY / rho, scratch.wet[c]! / link.length);
    K = fittingLoss(link, state, scratch, column.link, K);
    if (link.table !== null) {
      tableLoss(Q, link.table, out);
      out[0] *= wetShare;
      out[1] *= wetShare;
    }
  }
  if (K > 0) {
    const q0 = LOCAL_LOSS_LINEAR_BELOW * A;
    const r = sqrt(Q * Q + q0 * q0);
    const k = (K * rho * wetShare) / (2 * A * A);
    out[0] += k * Q * r;
    out[1] += k * (r + (Q * Q) / r);
  }
}

/** Local loss coefficient of a fitting as it stands now. */
function fittingLoss(
  link: LinkPlan,
  state: State,
  scratch: Scratch,
  ix: number,
  fixed: number,
): number {
  const spec = link.spec;
  if (spec.kind === 'valve' || spec.kind === 'leg') {
    return ballValveK(scratch.open[ix]!, spec.loss_k_open);
  }
  if (spec.kind !== 'filter') return fixed;
  const clear = 1 - state.control[ix]!;
  return spec.loss_k / (clear * clear); // The same flow through what openings are left.
}

/** Pressure of each cell from the pressures at its column's ends. */
export function spreadPressure(plan: Plan, state: State, scratch: Scratch): void {
  const { columns, zStart, zEnd } = plan;
  const { point, pressure, density } = state;
  const { alpha, weight } = scratch;
  for (let n = 0; n < plan.nodes.length; n++) pressure[n] = point[n]!;
  for (let c = 0; c < columns.length; c++) {
    const column = columns[c]!;
    if (column.cells === 0) continue;
    const start = endPressure(plan, state, c, true);
    const rest = endPressure(plan, state, c, false) - start - weight[c]!;
    let pull = 0;
    for (let k = 0; k < column.cells; k++) {
      const v = column.cell + k;
      const a = alpha[v]!;
      const rho = (1 - a) * density[v]! + a * AIR_DENSITY_PER_PA * pressure[v]!;
      const own = rho * G * (zStart[v]! - zEnd[v]!);
      const p = start + pull + own / 2 + (rest * (k + 0.5)) / column.cells;
      pull += own;
      pressure[v] = p > PRESSURE_MIN ? p : PRESSURE_MIN;
    }
  }
}

/** Pressure where a column meets its point: a tank's depends on the port's height. */
export function endPressure(plan: Plan, state: State, c: number, atStart: boolean): number {
  const column = plan.columns[c]!;
  const p = atStart ? column.a : column.b;
  if (p >= plan.nodes.length) return state.point[p]!;
  const node = plan.nodes[p]!;
  if (node.tank < 0) return state.point[p]!;
  const link = plan.links[column.link]!;
  const level = tankLevel(plan, state, node.tank);
  const depth = node.elevation + level - (atStart ? link.zFrom : link.zTo);
  return P_ATM + (depth > 0 ? state.density[p]! * G * depth : 0);
}

/** m above the floor. */
export function tankLevel(plan: Plan, state: State, tank: number): number {
  const { node, spec } = plan.tanks[tank]!;
  return (state.mass[node]! / state.density[node]! + state.gas[node]! / P_ATM) / spec.area_m2;
}
