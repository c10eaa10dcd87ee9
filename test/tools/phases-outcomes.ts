// What a drill asks to be true at its end: outcomes that its phase decides, that the solution has
// met where the phase ends and that last, and the air in what it clears.
import { abs } from '../../sim/base/math.ts';
import { P_ATM } from '../../sim/base/units.ts';
import { airShare } from '../../sim/deductions.ts';
import type { Phase } from '../../sim/phases.ts';
import { outcomesOf, type JobSpec, type OutcomeSpec, type Scenario } from '../../sim/scenario.ts';
import { measure, truth } from '../../sim/see-truth.ts';
import { clone, step, tickSeconds, type World } from '../../sim/world.ts';

/** Outcomes that each phase decides; a drill of any other has none. */
const DECIDES: Readonly<Partial<Record<Phase, readonly string[]>>> = {
  leak_test: ['air'],
  flush: ['debris', 'air'],
  purge: ['air'],
  prime: ['air'],
  unit: ['air'],
  prove: ['air'],
  dose: ['freeze'],
  verify: ['freeze'],
  pressure: ['pressure'],
  run: ['flow'],
  second_visit: ['pressure'],
};

/** Phases that are for it, though air may be left elsewhere. */
const CLEARS: readonly Phase[] = ['leak_test', 'flush', 'prime', 'purge'];

/** Share of the marks for air from which the phase has done what it is for. */
const MET = 0.9;
/** m3 of air below which a pipe is as good as free of it. */
const AIR_LEAST = 1e-4;
/** Share by which the air in a pipe that nobody works on may change. */
const SAME = 0.01;
/** s. So long what is met has to last with nobody at it. */
const LASTS_S = 60;

/** m3 of air at 1 atm in every link, by id. */
type Air = Readonly<Record<string, number>>;

/**
 * Parts of the loop that a phase frees of air, where the others stand as they did: so its drill
 * can ask for what it is for. Null where it frees none, not enough or all.
 */
function clearedBy({ job }: Scenario, before: Air, after: Air): string[] | null {
  if (job === undefined) return null;
  const waits = (id: string) => before[id]! > AIR_LEAST && abs(after[id]! / before[id]! - 1) < SAME;
  const parts = job.loop_links.filter((id) => !waits(id));
  const litres = (air: Air) => parts.reduce((sum, id) => sum + 1000 * air[id]!, 0);
  const some = parts.length > 0 && parts.length < job.loop_links.length;
  const allowed = job.air_allowed_L;
  return some && litres(before) > allowed && litres(after) <= allowed ? parts : null;
}

/** How a world stands where a phase ends: outcomes that are met, and its air. */
export interface Standing {
  readonly met: ReadonlySet<OutcomeSpec>;
  readonly air: Air;
}

export const standingOf = (world: World): Standing => ({
  met: metBy(world),
  air: truth(world).gas_by_link,
});

/** Those that last: a pump that has just been stopped still has its flow for a while. */
function metBy(world: World): ReadonlySet<OutcomeSpec> {
  const { job } = world.plan.scenario;
  if (job === undefined) return new Set();
  const later = clone(world);
  for (let s = 0; s < LASTS_S; s += tickSeconds(world.plan.scenario)) step(later, []);
  return new Set(
    outcomesOf(job).filter((one) => [world, later].every((at) => isMet(at, job, one))),
  );
}

/** Where a drill could not know: true. */
function isMet(world: World, job: JobSpec, outcome: OutcomeSpec): boolean {
  const { plan, state } = world;
  switch (outcome.kind) {
    case 'air':
      return airShare(job, measure(world).loop_air_m3) >= MET;
    case 'pressure': {
      const p = state.point[plan.nodeIx.get(outcome.node)!]! - P_ATM;
      return Math.abs(p / 1000 - outcome.aim_kPa) <= outcome.within_kPa;
    }
    case 'flow': {
      const { firstColumn } = plan.links[plan.linkIx.get(outcome.link)!]!;
      return Math.abs(state.flow[firstColumn]!) * 1000 >= outcome.least_L_s;
    }
    default:
      return true;
  }
}

/** A piece of a day that becomes a drill. */
export interface Piece {
  readonly scenario: Scenario;
  readonly phase: Phase;
  readonly before: Standing;
  readonly after: Standing;
}

/**
 * The job's outcomes and loop in a drill: what the phase decides, and its solution meets; shares
 * make 1 again.
 */
export function outcomesIn({ scenario, phase, before, after }: Piece): Partial<JobSpec> {
  const kinds = DECIDES[phase] ?? [];
  const clears = CLEARS.includes(phase) ? clearedBy(scenario, before.air, after.air) : null;
  const own = outcomesOf(scenario.job!).filter(
    (one) =>
      kinds.includes(one.kind) && (after.met.has(one) || (one.kind === 'air' && clears !== null)),
  );
  const sum = own.reduce((total, { share }) => total + share, 0);
  let left = 1;
  const outcomes = own.map((one, k) => {
    const rest = k === own.length - 1;
    const share = rest ? left : Number((one.share / sum).toFixed(3));
    left = Number((left - share).toFixed(3));
    return { ...one, share };
  });
  return { outcomes, ...(clears === null ? {} : { loop_links: clears }) };
}
