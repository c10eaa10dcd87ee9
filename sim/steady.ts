// Steady flow of any loop, filled with liquid: what a run tends to when nobody touches it. Tanks
// keep their level, pumps their speed; gas, heat and a starved suction are left out, and said.
import { abs, max } from './base/math.ts';
import { G, P_ATM } from './base/units.ts';
import { vapourPressure } from './laws/water.ts';
import { endPressure, tankLevel } from './network/columns.ts';
import { isShut } from './network/passage.ts';
import { followTees, TEE_LAG } from './network/tees.ts';
import { weigh } from './network/weigh.ts';
import { OPEN, TANK } from './network/plan.ts';
import type { Scenario } from './scenario.ts';
import { liquidWorld, NoSteadyFlow, setOpen, steadyNet } from './steady-net.ts';
import type { Overrides, SteadyNet } from './steady-net.ts';
import { linkPush, solveSteady, STEP_LEAST, type Solved } from './steady-solve.ts';
import type { World } from './world.ts';

export interface SteadyLink {
  readonly id: string;
  /** Nodes at its ends. */
  readonly from: string;
  readonly to: string;
  /** m3/s and m/s along from -> to. */
  readonly flow: number;
  readonly velocity: number;
  /** Pa lost to friction, fittings and tees on the way; has the flow's sign but for tees. */
  readonly loss: number;
  /** Pa that a pump adds from -> to. */
  readonly rise: number;
  readonly shut: boolean;
}

export interface SteadyNode {
  readonly id: string;
  /** Pa gauge; of a tank at its surface. Null where nothing ties it to a boundary. */
  readonly pressure: number | null;
  /** m; of a tank its surface. */
  readonly elevation: number;
}

/**
 * `draws_air`: an open end or a tank's dry port takes in air, so no run would stay full.
 * `below_vapour`: the liquid would boil there, so a run would give less flow.
 */
export interface SteadyNote {
  readonly kind: 'draws_air' | 'below_vapour';
  readonly at: string;
}

export interface Steady {
  readonly links: readonly SteadyLink[];
  readonly nodes: readonly SteadyNode[];
  readonly notes: readonly SteadyNote[];
  /** Newton steps in all. */
  readonly iterations: number;
  /** Pa, m3/s: largest error of a link's balance of pressure, of a node's balance of flow. */
  readonly error_pressure: number;
  readonly error_flow: number;
}

/** Rounds in which check valves, tees and the weight in fittings answer to the flows. */
const ROUNDS_MAX = 400;
/** Rounds in which tees go half the way to their loss; then ever less, so that they settle. */
const HALF_WAY_ROUNDS = 60;
/** Share of the largest flow that a round may move any flow by once all is settled. */
const ROUND_SHARE = 1e-7;
/** Share of the largest loss of a tee, and Pa, that a round may move any of them by. */
const TEE_SHARE = 1e-6;
const TEE_LEAST = 1e-4;

/**
 * Steady flows and pressures of `scenario` without gas, controls at their start but for
 * `overrides`. A check valve stands open while anything passes forward through it.
 * @throws InputFaults on bad overrides; NoSteadyFlow where there is none or none is found.
 */
export function steadyState(scenario: Scenario, overrides: Overrides = new Map()): Steady {
  const world = liquidWorld(scenario, overrides);
  let net = steadyNet(world);
  let solved: Solved | undefined;
  let steps = 0;
  for (let round = 0; round < ROUNDS_MAX; round++) {
    const before = solved?.flow;
    solved = solveSteady(world, net, before);
    steps += solved.steps;
    spread(world, net, solved);
    if (answerChecks(world, net, solved)) {
      net = steadyNet(world);
      solved = undefined;
      continue;
    }
    weigh(world.plan, world.state, world.scratch); // Fittings weigh as what flows into them.
    const share = round < HALF_WAY_ROUNDS ? 1 : HALF_WAY_ROUNDS / round / 2;
    const still = moveTees(world, share);
    if (still && isSettled(before, solved.flow)) return told(world, net, { ...solved, steps });
  }
  throw new NoSteadyFlow(`not found in ${ROUNDS_MAX} rounds of tees and check valves`);
}

/** Hands the flows of the net to the world's columns; shut links stand still. */
function spread({ plan, state }: World, net: SteadyNet, solved: Solved): void {
  const flow = new Float64Array(plan.links.length);
  plan.links.forEach(({ spec }, ix) => {
    if (spec.kind === 'fixed_flow') flow[ix] = state.control[ix]!;
  });
  net.links.forEach(({ link }, k) => {
    flow[link] = solved.flow[k]!;
  });
  plan.links.forEach((link, ix) => {
    state.flow.fill(flow[ix]!, link.firstColumn, link.firstColumn + link.columns);
  });
}

function pressureOf(net: SteadyNet, solved: Solved, n: number): number | null {
  if (net.loose[n] === 1) return null;
  return solved.pressure[net.unknown[n]!]!;
}

/** Shuts check valves that flow back and opens those with enough before them; true if any moved. */
function answerChecks(world: World, net: SteadyNet, solved: Solved): boolean {
  const { plan, state } = world;
  let moved = false;
  plan.links.forEach((link, ix) => {
    const { spec } = link;
    if (spec.kind !== 'check_valve') return;
    if (state.control[ix]! > 0.5) {
      if (state.flow[link.firstColumn]! >= -STEP_LEAST) return;
    } else {
      if (net.loose[link.from] === 1 || net.loose[link.to] === 1) return; // Pressure not known.
      const at = (n: number, atStart: boolean): number =>
        plan.nodes[n]!.fixed
          ? endPressure(plan, state, link.firstColumn, atStart) - P_ATM
          : pressureOf(net, solved, n)!;
      const rise = state.density[link.from]! * G * (link.zFrom - link.zTo);
      if (!(at(link.from, true) - at(link.to, false) + rise > spec.opens_at_kPa * 1000)) return;
    }
    state.control[ix] = 1 - state.control[ix]!;
    moved = true;
  });
  if (moved) setOpen(world);
  return moved;
}

/** Moves tees towards the loss of these flows; true if none moved by more than its tolerance. */
function moveTees({ plan, state, scratch }: World, share: number): boolean {
  const before = Float64Array.from(scratch.teePush);
  followTees(plan, state, scratch, share * TEE_LAG);
  const most = scratch.teePush.reduce((sum, p) => max(sum, abs(p)), 0);
  return scratch.teePush.every((p, c) => abs(p - before[c]!) <= TEE_SHARE * most + TEE_LEAST);
}

function isSettled(before: ArrayLike<number> | undefined, now: Float64Array): boolean {
  if (before === undefined) return false;
  const largest = now.reduce((most, Q) => max(most, abs(Q)), 0);
  return now.every((Q, k) => abs(Q - before[k]!) <= ROUND_SHARE * largest + STEP_LEAST);
}

function told(world: World, net: SteadyNet, solved: Solved): Steady {
  const { plan, state, scratch } = world;
  const links = plan.links.map((link, ix): SteadyLink => {
    const found = state.flow[link.firstColumn]!;
    const flow = abs(found) <= STEP_LEAST ? 0 : found; // Less than the solver's own tolerance.
    const shut = isShut(plan, scratch, link.firstColumn);
    const none = shut || link.spec.kind === 'fixed_flow';
    const { loss, rise } = none ? { loss: 0, rise: 0 } : linkPush(world, ix, flow);
    const [from, to] = [plan.nodes[link.from]!.id, plan.nodes[link.to]!.id];
    return { id: link.id, from, to, flow, velocity: flow / link.area, loss, rise, shut };
  });
  const nodes = plan.nodes.map((node, n): SteadyNode => {
    const { id, elevation, kind } = node;
    if (kind === TANK) {
      const level = tankLevel(plan, state, node.tank);
      return { id, pressure: 0, elevation: elevation + level };
    }
    if (node.fixed) return { id, pressure: node.pressure - P_ATM, elevation };
    return { id, pressure: pressureOf(net, solved, n), elevation };
  });
  return {
    links,
    nodes,
    notes: notesOf(world, nodes),
    iterations: solved.steps,
    error_pressure: solved.errorPressure,
    error_flow: solved.errorFlow,
  };
}

/** What keeps a real run from this state. */
function notesOf({ plan, state }: World, nodes: readonly SteadyNode[]): SteadyNote[] {
  const boils = vapourPressure(plan.scenario.temperature_C) - P_ATM;
  const notes = nodes
    .filter(({ pressure }) => pressure !== null && pressure < boils)
    .map(({ id }): SteadyNote => ({ kind: 'below_vapour', at: id }));
  for (const { node, column, out, z } of plan.ends) {
    const { kind, tank, elevation, id } = plan.nodes[node]!;
    const dry = kind === TANK && elevation + tankLevel(plan, state, tank) <= z;
    if ((kind !== OPEN && !dry) || out * state.flow[column]! <= STEP_LEAST) continue;
    notes.push({ kind: 'draws_air', at: id });
  }
  return notes;
}
