// What drives each column beside the pressures at its ends: weight, pump and loss, with their slope
// by the flow; and how the two ends of a tick weigh in it. Leaves solving to heads.ts.
import { G } from '../base/units.ts';
import { THETA_PIPE } from '../constants.ts';
import { headOf } from '../defects/wheel.ts';
import { COLUMN_LIQUID_STRIDE, PUMP_STRIDE } from '../state.ts';
import { mostFlow } from './choke.ts';
import { columnLoss } from './columns.ts';
import type { Net } from './net.ts';
import type { Plan } from './plan.ts';

/** Net drive of a column without its ends' pressures, Pa: weight, pump and loss at flow Q. */
function pushAndSlope(net: Net, c: number, Q: number): void {
  const { plan, state, scratch, heads } = net;
  columnLoss(plan, state, scratch, c, Q);
  const { out } = scratch;
  const pump = heads.columnPump[c]!;
  let push = -out[0]!;
  let slope = out[1]!;
  if (pump >= 0) {
    const at = pump * PUMP_STRIDE;
    const heavy = state.liquid[c * COLUMN_LIQUID_STRIDE]! * G;
    const help = state.pump[at + 1]! * state.pump[at + 2]! * heavy;
    headOf(net, pump, Q);
    // Head below nothing is the casing's own loss: gas does not take that away.
    const scale = out[0]! > 0 ? help : heavy;
    push += scale * out[0]!;
    slope -= scale * out[1]!;
  }
  out[0] = push + scratch.weight[c]! + scratch.teePush[c]!;
  out[1] = slope;
}

/** Share of what each point can store that its gas stores. */
function gasShares({ plan, scratch, heads }: Net): void {
  const { gasC } = scratch;
  const { gasShare } = heads;
  const { wallC } = plan;
  for (let p = 0; p < gasShare.length; p++) {
    const gas = gasC[p]!;
    gasShare[p] = gas === 0 ? 0 : gas / (gas + wallC[p]!);
  }
}

/**
 * Net drive and slope of every column at the tick's start, kept as where they were worked out;
 * and the weight of the tick's end. A water column on a gas cushion swings for long and is
 * followed with little damping. Gas alone rings faster than a tick can follow, and a plastic wall
 * loses what it stores: both are damped by weighing the end fully.
 */
export function prepare(net: Net): void {
  const { state, scratch, heads } = net;
  const { offsetA, offsetB, drive, theta, columnA, columnB, columnLength } = heads;
  const { gasShare } = heads;
  const { wet, out } = scratch;
  const { point, flow } = state;
  const swings = net.plan.per > 1 ? 0 : 1 - THETA_PIPE; // A night's tick follows none.
  gasShares(net);
  mostFlow(scratch, heads);
  for (let c = 0; c < theta.length; c++) {
    const a = columnA[c]!;
    const b = columnB[c]!;
    const length = columnLength[c]!;
    const share = length === 0 ? 0 : wet[c]! / length;
    const atA = gasShare[a]!;
    const atB = gasShare[b]!;
    theta[c] = 1 - swings * (share > 0.3 ? 1 : share / 0.3) * (atA > atB ? atA : atB);
    workOut(net, c, flow[c]!);
    const ends = point[a]! + offsetA[c]! - point[b]! - offsetB[c]!;
    drive[c] = ends + out[0]!; // Without the choke, which holds at the tick's end.
  }
}

/** Gas share of a column from which it is held back fully. */
const HELD_BACK = 0.02;

/**
 * Weight follows contents a step behind: in a night's step a slug between pockets, or a surface,
 * would go far beyond its balance and back. What moves there is held back so that it does not.
 */
function holdBack({ plan, scratch, heads, dt }: Net, c: number, Q: number): void {
  const length = heads.columnLength[c]!;
  const { a, b, link } = plan.columns[c]!;
  let open = 0; // 1/m2: how fast a surface moves by what runs in.
  if (length > 0) {
    const gas = 1 - scratch.wet[c]! / length;
    open = (gas > HELD_BACK ? 1 : gas / HELD_BACK) / plan.links[link]!.area;
  }
  open += surfaceAt(plan, a) + surfaceAt(plan, b);
  const heavy = 2 * plan.water.rho * G * dt * open;
  heads.push[c] = heads.push[c]! - heavy * Q;
  heads.slope[c] = heads.slope[c]! + heavy;
}

/** 1/m2 of a tank's surface; 0 of any other point. */
function surfaceAt({ nodes, tanks }: Plan, point: number): number {
  const tank = point < nodes.length ? nodes[point]!.tank : -1;
  return tank < 0 ? 0 : 1 / tanks[tank]!.spec.area_m2;
}

/** Pa. What it takes to push twice the most through; far above what a rig stands at. */
const CHOKE = 1e7;

/** Net drive and slope of column c at flow Q, into `heads`: where they were worked out, `at`. */
export function workOut(net: Net, c: number, Q: number): void {
  const { scratch, heads } = net;
  const { out } = scratch;
  pushAndSlope(net, c, Q);
  heads.at[c] = Q;
  heads.push[c] = out[0]!;
  heads.slope[c] = out[1]!;
  if (net.plan.per > 1) holdBack(net, c, Q);
  const most = heads.most[c]!;
  if (Q <= most && Q >= -most) return;
  const steep = CHOKE / most;
  heads.push[c] = out[0]! - steep * (Q > 0 ? Q - most : Q + most);
  heads.slope[c] = out[1]! + steep;
}
