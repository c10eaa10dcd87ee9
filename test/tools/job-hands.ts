// Hands that know nothing, let loose on a job: they turn any valve to anywhere, switch any pump,
// mark the tank, and hand over when their time is up.
import type { Command } from '../../sim/command.ts';
import { advance, startRun, type Run } from '../../sim/run.ts';
import type { Scenario } from '../../sim/scenario.ts';
import { isOver } from '../../sim/world.ts';
import type { Chance } from './chance.ts';

/** What the hands give at a tick. */
export type Hands = (tick: number) => readonly Command[];

function idsOf(scenario: Scenario, kind: 'valve' | 'three_way' | 'pump' | 'coupling'): string[] {
  return scenario.links.filter((link) => link.kind === kind).map(({ id }) => id);
}

function randomTurn(scenario: Scenario, random: Chance): Command {
  const ways = idsOf(scenario, 'three_way');
  if (ways.length > 0 && random.below(4) === 0) {
    return { kind: 'valve', valve: random.pick(ways), target_deg: 90 * random.below(4) };
  }
  const target_deg = random.pick([0, 90, 90, random.below(91)]);
  return { kind: 'valve', valve: random.pick(idsOf(scenario, 'valve')), target_deg };
}

function randomCommand(scenario: Scenario, random: Chance): Command {
  const what = random.below(8);
  if (what === 0) return { kind: 'mark', tank: 'tank' };
  if (what > 2) return randomTurn(scenario, random);
  const pump = random.pick(idsOf(scenario, 'pump'));
  return { kind: 'switch', pump, on: random.below(3) > 0 };
}

/** A command every 1 to 16 s. */
export function randomHands(scenario: Scenario, random: Chance): Hands {
  let next = 0;
  return (tick) => {
    if (tick < next) return [];
    next = tick + 20 + random.below(300);
    return [randomCommand(scenario, random)];
  };
}

/** Lets `hands` work for so many minutes of the job and then hands over. */
export function worked(scenario: Scenario, seed: number, minutes: number, hands: Hands): Run {
  const run = startRun(scenario, seed);
  const end = Math.round((minutes * 60) / scenario.solver.tick_s);
  for (let tick = 0; tick < end && !isOver(run.world); tick += 1) advance(run, hands(tick));
  advance(run, [{ kind: 'done' }]);
  return run;
}
