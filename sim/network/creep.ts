// Walls of polyethylene that go on giving under pressure: elements of Kelvin and Voigt in every
// cell of such pipe, moved once a second. What they have given is room that the cell has on top
// of its own; the wall's answer within a tick is in the plan's compliance.
import { exp, max, round } from '../base/math.ts';
import { G, P_ATM } from '../base/units.ts';
import { CREEP_S } from '../constants.ts';
import { c1Restrained, peCreep } from '../laws/elastic.ts';
import type { PipeSpec, Scenario } from '../scenario.ts';
import type { State } from '../state.ts';
import type { CreepPlan, LinkPlan, Plan } from './plan.ts';
import type { Scratch } from './net.ts';

/** m3 of room a strain compliance of 1/Pa makes of 1 m3 of bore: c1 D/e. */
const slender = (spec: PipeSpec): number => {
  const D = spec.bore_mm / 1000;
  const e = spec.wall_mm / 1000;
  return (c1Restrained(D, e, spec.poisson) * D) / e;
};

/** 1/Pa. Relative room that a wall of polyethylene gives at once. */
export function peCompliance(spec: PipeSpec, t_C: number): number {
  return slender(spec) * peCreep(t_C, CREEP_S).atOnce;
}

const isPe = (link: LinkPlan): boolean => link.spec.kind === 'pipe' && link.spec.material === 'pe';

/** True where the cell holds gas at the start. */
function startsWithGas(spec: PipeSpec, from: number, to: number): boolean {
  return spec.gas.some((stretch) => stretch.from_m < to && stretch.to_m > from);
}

/**
 * A pipe that stands full at the start has done so for long: its walls are at rest under water up
 * to the pipe's own top. Where there is gas, and for any pressure beyond, they are fresh.
 */
export function planCreep(
  { scenario, tick, rho }: { scenario: Scenario; tick: number; rho: number },
  links: readonly LinkPlan[],
  tables: Pick<Plan, 'room' | 'zStart' | 'zEnd'>,
): CreepPlan {
  const { elements } = peCreep(scenario.temperature_C, CREEP_S);
  const cells: number[] = [];
  const rest: number[] = [];
  const give: number[] = [];
  for (const link of links) {
    const { spec, firstCell, length } = link;
    if (!isPe(link) || spec.kind !== 'pipe') continue;
    const wall = slender(spec);
    const dx = length / link.cells;
    let top = max(link.zFrom, link.zTo);
    for (let k = 0; k < link.cells; k++) top = max(top, tables.zEnd[firstCell + k]!);
    for (let k = 0; k < link.cells; k++) {
      const v = firstCell + k;
      const depth = top - (tables.zStart[v]! + tables.zEnd[v]!) / 2;
      cells.push(v);
      rest.push(P_ATM + (startsWithGas(spec, k * dx, (k + 1) * dx) ? 0 : rho * G * depth));
      for (const [, J] of elements) give.push(wall * tables.room[v]! * J);
    }
  }
  return {
    every: max(1, round(CREEP_S / tick)),
    cells: Int32Array.from(cells),
    rest: Float64Array.from(rest),
    give: Float64Array.from(give),
    share: Float64Array.from(elements, ([tau]) => 1 - exp(-max(CREEP_S, tick) / tau)),
  };
}

/** Walls that have given room already, over the whole length of a pipe alike. */
export function startCreep(plan: Plan, state: State): void {
  const { cells, share } = plan.creep;
  const first = new Map<number, number>();
  cells.forEach((v, i) => first.set(v, i * share.length));
  for (const { spec, firstCell, cells: count } of plan.links) {
    if (spec.kind !== 'pipe' || spec.start_crept_mL === undefined) continue;
    for (let k = 0; k < count; k++) {
      const at = first.get(firstCell + k)!;
      spec.start_crept_mL.forEach((mL, e) => (state.creep[at + e] = mL / 1e6 / count));
    }
  }
}

/** Once a second: every element moves towards what its pressure asks for. */
export function creepWalls(plan: Plan, state: State, scratch: Scratch): void {
  const { cells, rest, give, share } = plan.creep;
  const { creep, pressure } = state;
  const n = share.length;
  for (let i = 0, at = 0; i < cells.length; i++) {
    const over = pressure[cells[i]!]! - rest[i]!;
    for (let k = 0; k < n; k++, at++) {
      creep[at] = creep[at]! + share[k]! * (give[at]! * over - creep[at]!);
    }
  }
  roomOfWalls(plan, state, scratch);
}

/** Room of each cell that creeps into scratch: its own, what warmth added, what its wall gave. */
export function roomOfWalls(plan: Plan, state: State, scratch: Scratch): void {
  const { cells, share } = plan.creep;
  const n = share.length;
  for (let i = 0, at = 0; i < cells.length; i++) {
    const v = cells[i]!;
    let room = plan.room[v]! + (state.swell.length === 0 ? 0 : state.swell[v]!);
    for (let k = 0; k < n; k++, at++) room += state.creep[at]!;
    scratch.shape[3 * v] = room;
  }
}
