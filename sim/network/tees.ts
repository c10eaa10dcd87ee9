// Losses of tees: they depend on two flows at once and can be negative, so they never stand in
// the matrix. Each tick takes them from the last tick's flows and moves a little towards them.
import { abs, max, min, sqrt } from '../base/math.ts';
import {
  teeConvergingBranch,
  teeConvergingRun,
  teeDivergingBranch,
  teeDivergingRun,
} from '../laws/fitting.ts';
import { AIR_DENSITY } from '../laws/gas.ts';
import type { State } from '../state.ts';
import type { ColumnPlan, LinkPlan, NodePlan, Plan, TeePlan } from './plan.ts';
import type { Scratch } from './net.ts';

/** s. Lag of a tee's loss behind its flows; shorter, and two tees in a row swing [fit]. */
export const TEE_LAG = 0.5;
/** m3/s. Combined flow below which a tee costs nothing: its square is lost in the rest. */
const STILL = 1e-7;

/** A tee for each junction that names one. Links must have been planned in the same order. */
export function planTees(
  nodes: readonly NodePlan[],
  links: readonly LinkPlan[],
  columns: readonly ColumnPlan[],
): TeePlan[] {
  return nodes.flatMap((node, ix): TeePlan[] => {
    if (node.spec.kind !== 'junction' || node.spec.tee === undefined) return [];
    const { run, branch, angle_deg } = node.spec.tee;
    const legs = [...run, branch].map((id) => {
      const link = links.find((one) => one.id === id)!;
      const inward = link.to === ix ? 1 : -1;
      const c = inward === 1 ? link.firstColumn + link.columns - 1 : link.firstColumn;
      return { c, inward, area: links[columns[c]!.link]!.area };
    });
    const [a, b, third] = legs as [(typeof legs)[0], (typeof legs)[0], (typeof legs)[0]];
    return [
      {
        node: ix,
        columns: [a.c, b.c, third.c],
        inward: [a.inward, b.inward, third.inward],
        area: [a.area, b.area, third.area],
        ratio: min(1, third.area / min(a.area, b.area)),
        angle_deg,
      },
    ];
  });
}

/**
 * Share of the combined flow below which a leg's loss fades, so that it never jumps in sign. By as
 * much must a branch exceed the run to count as the combined leg, so that a dead run is no tie.
 */
const FADE = 0.02;

const flows = [0, 0, 0];
const losses = [0, 0, 0];

/**
 * Loss coefficients of a tee's run legs and branch on the velocity head of the combined leg,
 * into `out`; flows into the node positive, m3/s. Returns the combined leg, 0..2, or -1 at rest.
 * [CraneTP410] covers flow that divides from the run or joins it; where the branch is the
 * combined leg, each run leg turns the corner and is taken as a branch [fit, no source].
 */
export function teeCoefficients(
  q: readonly number[],
  ratio: number,
  angle_deg: number,
  out: number[],
): number {
  out[0] = out[1] = out[2] = 0;
  const run = abs(q[0]!) >= abs(q[1]!) ? 0 : 1;
  const whole = max(abs(q[run]!), abs(q[2]!));
  if (whole < STILL) return -1;
  if (abs(q[2]!) > (1 + FADE) * abs(q[run]!)) {
    for (const k of RUN) out[k] = teeDivergingBranch(abs(q[k]!) / whole, 1, angle_deg);
    return 2;
  }
  const r = abs(q[2]!) / whole;
  const dividing = q[run]! > 0; // The leg with all the flow brings it: the others take.
  out[2] = dividing ? teeDivergingBranch(r, ratio, angle_deg) : teeConvergingBranch(r, ratio);
  out[1 - run] = dividing ? teeDivergingRun(r, ratio) : teeConvergingRun(r);
  return run;
}

const RUN = [0, 1] as const;

/** Moves every tee's loss towards that of the last tick's flows, and hands it to its columns. */
export function followTees(plan: Plan, state: State, scratch: Scratch, dt: number): void {
  if (plan.tees.length === 0) return;
  scratch.teePush.fill(0);
  const follow = dt / (TEE_LAG + dt);
  for (let t = 0; t < plan.tees.length; t++) {
    const tee = plan.tees[t]!;
    for (let k = 0; k < 3; k++) flows[k] = tee.inward[k]! * state.flow[tee.columns[k]!]!;
    const combined = teeCoefficients(flows, tee.ratio, tee.angle_deg, losses);
    const whole = combined < 0 ? 0 : abs(flows[combined]!);
    const speed = combined < 0 ? 0 : whole / tee.area[combined]!;
    // A tee full of air throttles air.
    const share = scratch.alpha[tee.node]!;
    const rho = (1 - share) * state.density[tee.node]! + share * AIR_DENSITY;
    const head = (rho * speed * speed) / 2;
    for (let k = 0; k < 3; k++) {
      const slot = 3 * t + k;
      // A loss works against the leg's own flow; counted here towards the tee.
      const q = flows[k]!;
      const fade = FADE * whole;
      const sign = whole === 0 ? 0 : q / sqrt(q * q + fade * fade);
      state.tee[slot]! += follow * (-sign * losses[k]! * head - state.tee[slot]!);
      scratch.teePush[tee.columns[k]!]! += tee.inward[k]! * state.tee[slot]!;
    }
  }
}
