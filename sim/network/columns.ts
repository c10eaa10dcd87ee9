// What each column answers to the solver: friction and local losses with their slope, and the
// pressure where it meets its points. Reads contents as weigh.ts left them; leaves solving to
// heads.ts.
import { max, sqrt } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import { LOCAL_LOSS_LINEAR_BELOW } from '../constants.ts';
import { frictionInto, RE_STRAIGHT } from '../laws/friction.ts';
import { tableLoss } from '../laws/coil.ts';
import { openingK } from '../laws/defect.ts';
import { ballValveK } from '../laws/fitting.ts';
import { AIR_DENSITY } from '../laws/gas.ts';
import { COLUMN_LIQUID_STRIDE, FITTED_STRIDE, FRICTION_STRIDE, type State } from '../state.ts';
import type { PartSpec } from './expand.ts';
import type { ColumnPlan, LinkPlan, Plan } from './plan.ts';
import type { Scratch } from './net.ts';

/** Pa s. Air. */
const AIR_VISCOSITY = 1.8e-5;
/** The Darcy factor of fast air in smooth small pipe (about 0.03 at Re 1e4). */
const AIR_FRICTION = 0.03;

/**
 * Share of a Reynolds number up to which the friction factor is followed as the power of it that
 * its slope says. What is left out goes with the square: 1.3e-4 of the factor at the most where
 * flow turns turbulent, 5e-6 above, where that slope hardly changes. It is kept in the state, since
 * a copy of a world must go on with the same bits.
 */
const SAME_REYNOLDS = 0.003;
const SAME_TURBULENT = 0.01;
/** Reynolds number above which flow counts as turbulent for that. */
const TURBULENT = 6000;

/** Numbers that each column has in `bores`. */
export const BORES = 8;

/**
 * Seven numbers a column, side by side, of what its losses need of a pipe; all 0 of a fitting. Its
 * length, bore over area, area and relative roughness; what laminar loss and friction go with:
 * 1/(D2 A), 1/(2 D A2); the K of what sits in it. The eighth is not used.
 */
export function boresOf(links: readonly LinkPlan[], columns: readonly ColumnPlan[]): Float64Array {
  return Float64Array.from(
    columns.flatMap(({ link, cells, share, lossK }) => {
      const { spec, bore: D, area: A, length } = links[link]!;
      const pipe = spec.kind === 'pipe' || spec.kind === 'hose';
      if (cells === 0 || !pipe) return new Array<number>(BORES).fill(0);
      const rough = spec.roughness_mm / 1000 / D;
      return [length * share, D / A, A, rough, 1 / (D * D * A), 1 / (2 * D * A * A), lossK, 0];
    }),
  );
}

/**
 * Loss of a column of pipe at flow out[0]: friction of `wet` metres of liquid and of gas over the
 * rest. Its numbers come and go in `out`: a call that takes one by itself puts it on the heap.
 */
export function pipeLoss(plan: Plan, state: State, scratch: Scratch, c: number): void {
  const { bores } = plan;
  const { out } = scratch;
  const { friction: kept, liquid } = state;
  const at = c * BORES;
  const rho = liquid[c * COLUMN_LIQUID_STRIDE]!;
  const mu = liquid[c * COLUMN_LIQUID_STRIDE + 1]!;
  const wet = scratch.wet[c]!;
  const Q = out[0]!;
  const q = Q < 0 ? -Q : Q;
  const Re = (rho * q * bores[at + 1]!) / mu;
  let R = 32 * mu * wet * bores[at + 4]!;
  let slope = R;
  if (Re >= RE_STRAIGHT) {
    const k = c * FRICTION_STRIDE;
    const same = Re > TURBULENT ? SAME_TURBULENT : SAME_REYNOLDS;
    let off = Re / kept[k]! - 1;
    if (!(off < same && off > -same)) {
      frictionInto(Re, bores[at + 3]!, out);
      kept[k] = Re;
      kept[k + 1] = out[0]!;
      kept[k + 2] = out[1]!;
      off = 0;
    }
    const steep = kept[k + 2]!;
    const part = 1 + steep * off * (1 + 0.5 * (steep - 1) * off);
    R = kept[k + 1]! * part * wet * rho * q * bores[at + 5]!;
    slope = R * (2 + steep);
  }
  const L = bores[at]!;
  const dry = L - wet;
  const smooth = 32 * AIR_VISCOSITY * dry * bores[at + 4]!;
  const rough = AIR_FRICTION * AIR_DENSITY * dry * bores[at + 5]!;
  out[0] = R * Q + (smooth + rough * q) * Q;
  out[1] = slope + (smooth + 2 * rough * q);
  if (plan.layers) {
    out[0] = out[0]! + scratch.layer[c]! * (Q - state.flow[c]!);
    out[1] = out[1]! + scratch.layer[c]!;
  }
  const K = bores[at + 6]! + scratch.pinch[c]!;
  if (K > 0) addLocal(out, K * rho * max(AIR_DENSITY / rho, wet / L), bores[at + 2]!, Q);
}

/** Local loss of a coefficient times a density, straight about rest. */
function addLocal(out: Float64Array, heavy: number, A: number, Q: number): void {
  const q0 = LOCAL_LOSS_LINEAR_BELOW * A;
  const r = sqrt(Q * Q + q0 * q0);
  const k = heavy / (2 * A * A);
  out[0] = out[0]! + k * Q * r;
  out[1] = out[1]! + k * (r + (Q * Q) / r);
}

/**
 * Loss of column c at flow Q: out[0] = Pa along the flow's sign, out[1] = slope, Pa s/m3 > 0.
 * Friction by the liquid's length and density, a trace of gas friction, local losses by K.
 */
export function columnLoss(plan: Plan, state: State, scratch: Scratch, c: number, Q: number): void {
  const { out } = scratch;
  out[0] = Q;
  if (plan.bores[c * BORES]! > 0) return pipeLoss(plan, state, scratch, c);
  const column = plan.columns[c]!;
  const link = plan.links[column.link]!;
  const rho = state.liquid[c * COLUMN_LIQUID_STRIDE]!;
  const A = link.area;
  out[0] = 0;
  out[1] = 0;
  let K = column.lossK + scratch.pinch[c]!;
  K = fittingLoss(link.spec, scratch.open[column.link]!, state.control[column.link]!, K);
  const wetShare = max(AIR_DENSITY / rho, scratch.wet[c]! / link.length);
  if (link.table !== null) {
    tableLoss(Q, link.table, out);
    out[0] *= wetShare;
    out[1] *= wetShare;
  }
  const catcher = plan.debris === null ? -1 : plan.debris.catcherOf[column.link]!;
  if (catcher >= 0) {
    const cake = state.fitted[FITTED_STRIDE * catcher + 1]! * wetShare;
    out[0] += cake * Q;
    out[1] += cake;
    K += state.fitted[FITTED_STRIDE * catcher + 2]!;
  }
  const block = state.liquid[c * COLUMN_LIQUID_STRIDE + 1]!;
  if (block > 0) {
    const ice = (32 * block * link.length) / (link.bore * link.bore * A);
    out[0] += ice * Q;
    out[1] += ice;
  }
  if (K > 0) addLocal(out, K * rho * wetShare, A, Q);
}

/** Local loss coefficient of a fitting that stands `open` degrees open; `control` of a filter. */
function fittingLoss(spec: PartSpec, open: number, control: number, fixed: number): number {
  if (spec.kind === 'valve' || spec.kind === 'leg') return ballValveK(open, spec.loss_k_open);
  if (spec.kind === 'hole') return control > 0 ? openingK(control) : fixed;
  if (spec.kind !== 'filter') return fixed;
  const clear = 1 - control;
  return spec.loss_k / (clear * clear); // The same flow through what openings are left.
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
  return node.pressure + (depth > 0 ? state.density[p]! * G * depth : 0);
}

/** m above the floor. */
export function tankLevel(plan: Plan, state: State, tank: number): number {
  const { node, spec } = plan.tanks[tank]!;
  return (state.mass[node]! / state.density[node]! + state.gas[node]! / P_ATM) / spec.area_m2;
}
