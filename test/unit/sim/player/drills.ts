// Drills of the whole days that the reference plays, and those that it does not yet.
import { drillOf, PHASES, phasesOf, type Phase } from '../../../../sim/phases.ts';
import { parseScenario, type Scenario } from '../../../../sim/scenario.ts';
import { LEVELS, readJson } from '../../../tools/golden.ts';

export const DAYS: readonly string[] = ['04-otter-bank', '05-curlew-rise', '06-lapwing-school'];

/** What the reference has no rules for, by day. */
export const OPEN: Readonly<Record<string, readonly Phase[]>> = {
  '04-otter-bank': ['leak_test', 'dose'],
  '05-curlew-rise': ['leak_test', 'dose'],
  // Four flows of two banks and two trenches: the sheet's lines say which by their names alone.
  '06-lapwing-school': ['flow_test', 'dose'],
};

const patches = (folder: string): ReturnType<typeof phasesOf> =>
  phasesOf(readJson(LEVELS, folder, 'phases.json'));

export function drillsOf(folder: string): Phase[] {
  const made = patches(folder);
  return PHASES.filter((phase) => made[phase] !== undefined);
}

/** Those that are played, with the day they belong to. */
export const PLAYED: readonly (readonly [string, Phase])[] = DAYS.flatMap((folder) =>
  drillsOf(folder)
    .filter((phase) => !OPEN[folder]!.includes(phase))
    .map((phase) => [folder, phase] as const),
);

export function drill(folder: string, phase: Phase): Scenario {
  const json = readJson(LEVELS, folder, 'scenario.json');
  return parseScenario(drillOf(json, phase, patches(folder)[phase]!.scenario));
}
