// What the steady solver works on: every part filled with liquid, controls where they are asked
// to stand, and which parts hang together. Leaves the solving to steady-solve.ts.
import { P_ATM } from './base/units.ts';
import { InputFaults, type Fault } from './fault.ts';
import { SPEED } from './machines.ts';
import { endPressure } from './network/columns.ts';
import { mixColumns } from './network/mixture.ts';
import { isShut, openingOf } from './network/passage.ts';
import { TANK, type LinkPlan, type Plan } from './network/plan.ts';
import { weigh } from './network/weigh.ts';
import { FLOW_L_S } from './scenario-parts.ts';
import type { Scenario } from './scenario.ts';
import { PUMP_STRIDE } from './state.ts';
import { carriesSolute } from './transport/flow.ts';
import { createWorld, type World } from './world.ts';

/**
 * Where controls stand instead of at their start, by link: degrees of a valve or three-way valve;
 * 1 or 0 of a pump, a coupling or a check valve; blocked share of a filter; L/s of a fixed flow.
 */
export type Overrides = ReadonlyMap<string, number>;

/** There is no steady flow, or none was found. */
export class NoSteadyFlow extends Error {}

/** Range of what a link's control may be set to; null where it has none. */
function rangeOf({ spec }: LinkPlan): readonly [number, number] | null {
  switch (spec.kind) {
    case 'valve':
      return [0, 90];
    case 'leg':
      return [0, 270];
    case 'pump':
    case 'coupling':
      return [0, 1];
    case 'filter':
      return [0, 0.99];
    case 'fixed_flow':
      return [-FLOW_L_S, FLOW_L_S];
    default:
      return null;
  }
}

function overrideFaults(plan: Plan, overrides: Overrides): Fault[] {
  const faults: Fault[] = [];
  for (const [id, value] of overrides) {
    const link = plan.links[plan.linkIx.get(id) ?? -1];
    const range = link === undefined || id.includes('.') ? null : rangeOf(link);
    if (link === undefined) faults.push({ path: id, message: 'is no link of this scenario' });
    else if (range === null) faults.push({ path: id, message: 'has no control to set' });
    else if (!(value >= range[0] && value <= range[1])) {
      faults.push({ path: id, message: `must lie from ${range[0]} to ${range[1]}, not ${value}` });
    } else if (link.spec.kind !== 'filter' && range[1] === 1 && value !== 0 && value !== 1) {
      faults.push({ path: id, message: `must be 0 or 1, not ${value}` });
    }
  }
  return faults;
}

/**
 * A world with no gas in it, its controls set; pumps turn at full speed or stand.
 * @throws InputFaults on an override of something that cannot be set.
 */
export function liquidWorld(scenario: Scenario, overrides: Overrides): World {
  const { defects: _wrong, ...designed } = scenario; // A sheet knows of no defects.
  const world = createWorld(designed, 1);
  const { plan, state, scratch } = world;
  const faults = overrideFaults(plan, overrides);
  if (faults.length > 0) throw new InputFaults(faults);
  state.gas.fill(0);
  for (let v = 0; v < plan.volumes; v++) {
    if (v < plan.nodes.length && plan.nodes[v]!.kind === TANK) continue; // Its level stands.
    state.mass[v] = plan.room[v]! * state.density[v]!;
  }
  for (const [id, value] of overrides) {
    const ix = plan.linkIx.get(id)!;
    const imposed = plan.links[ix]!.spec.kind === 'fixed_flow';
    state.control[ix] = imposed ? value / 1000 : value;
  }
  plan.links.forEach((link, ix) => {
    if (link.spec.kind === 'check_valve') state.control[ix] = 1;
  });
  plan.pumps.forEach((pump, k) => {
    state.pump[k * PUMP_STRIDE + SPEED] = state.control[pump.link]!;
  });
  for (let n = 0; n < plan.nodes.length; n++) {
    const { fixed, pressure } = plan.nodes[n]!;
    if (fixed) state.point[n] = pressure;
  }
  setOpen(world);
  if (carriesSolute(plan)) mixColumns(plan, state);
  weigh(plan, state, scratch);
  return world;
}

/** Writes how far every link that turns stands open. */
export function setOpen({ plan, state, scratch }: World): void {
  for (const ix of plan.turning) scratch.open[ix] = openingOf(plan, state, ix);
}

/** A link that takes part in the solution, with its ends as unknowns or as known pressures. */
export interface SteadyLinkEnds {
  readonly link: number;
  /** Number of the unknown pressure, or -1 where it is given (Pa gauge). */
  readonly ua: number;
  readonly ub: number;
  readonly pa: number;
  readonly pb: number;
}

export interface SteadyNet {
  readonly unknowns: number;
  readonly links: readonly SteadyLinkEnds[];
  /** Unknown of each node, or -1. */
  readonly unknown: Int32Array;
  /** True where nothing ties a node to a boundary: flows are known, the pressure is not. */
  readonly loose: Uint8Array;
  /** m3/s that fixed flows bring to each unknown. */
  readonly brought: Float64Array;
}

/** Lowest node of each group of nodes whose pressure is not given, joined by open links. */
function groupsOf(plan: Plan, joined: readonly number[]): Int32Array {
  const group = Int32Array.from(plan.nodes, (_, n) => n);
  const root = (n: number): number => {
    let at = n;
    while (group[at] !== at) at = group[at] = group[group[at]!]!;
    return at;
  };
  for (const ix of joined) {
    const { from, to } = plan.links[ix]!;
    if (plan.nodes[from]!.fixed || plan.nodes[to]!.fixed) continue;
    const a = root(from);
    const b = root(to);
    if (a < b) group[b] = a;
    else group[a] = b;
  }
  return group.map((_, n) => root(n));
}

/**
 * The net of all links that stand open. A group without a boundary stands on its lowest node,
 * whose pressure is taken as 0: flows do not depend on it.
 * @throws NoSteadyFlow where a fixed flow feeds a group that has no way out.
 */
export function steadyNet({ plan, state, scratch }: World): SteadyNet {
  const isFlow = (ix: number): boolean => plan.links[ix]!.spec.kind === 'fixed_flow';
  const open = plan.links.flatMap((link, ix) =>
    isFlow(ix) || isShut(plan, scratch, link.firstColumn) ? [] : [ix],
  );
  const group = groupsOf(plan, open);
  const anchored = new Uint8Array(plan.nodes.length);
  for (const ix of open) {
    const { from, to } = plan.links[ix]!;
    if (plan.nodes[from]!.fixed) anchored[group[to]!] = 1;
    if (plan.nodes[to]!.fixed) anchored[group[from]!] = 1;
  }
  const gain = new Float64Array(plan.nodes.length);
  const trade = new Float64Array(plan.nodes.length);
  plan.links.forEach(({ from, to }, ix) => {
    if (!isFlow(ix)) return;
    const Q = state.control[ix]!;
    gain[to] = gain[to]! + Q;
    gain[from] = gain[from]! - Q;
    trade[group[to]!] = trade[group[to]!]! + Q;
    trade[group[from]!] = trade[group[from]!]! - Q;
  });
  const unknown = new Int32Array(plan.nodes.length).fill(-1);
  const loose = new Uint8Array(plan.nodes.length);
  let unknowns = 0;
  plan.nodes.forEach((node, n) => {
    if (node.fixed) return;
    loose[n] = anchored[group[n]!] === 1 ? 0 : 1;
    if (loose[n] === 0 || group[n] !== n) unknown[n] = unknowns++;
    else if (trade[n]! > 1e-12 || trade[n]! < -1e-12) {
      throw new NoSteadyFlow(`a fixed flow feeds "${node.id}", which has no way out`);
    }
  });
  const brought = new Float64Array(unknowns);
  unknown.forEach((u, n) => {
    if (u >= 0) brought[u] = gain[n]!;
  });
  const known = (c: number, n: number, atStart: boolean): number =>
    plan.nodes[n]!.fixed ? endPressure(plan, state, c, atStart) - P_ATM : 0;
  const links = open.map((link): SteadyLinkEnds => {
    const { from, to, firstColumn, columns } = plan.links[link]!;
    const pa = known(firstColumn, from, true);
    const pb = known(firstColumn + columns - 1, to, false);
    return { link, ua: unknown[from]!, ub: unknown[to]!, pa, pb };
  });
  return { unknowns, links, unknown, loose, brought };
}
