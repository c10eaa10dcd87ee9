// Drills of the whole days, all of which the reference plays.
import { drillOf, PHASES, phasesOf, type Phase } from '../../../../sim/phases.ts';
import { parseScenario, type Scenario } from '../../../../sim/scenario.ts';
import type { Fails } from './jobs.ts';
import { LEVELS, readJson } from '../../../tools/golden.ts';

export const DAYS: readonly string[] = ['04-otter-bank', '05-curlew-rise', '06-lapwing-school'];

const patches = (folder: string): ReturnType<typeof phasesOf> =>
  phasesOf(readJson(LEVELS, folder, 'phases.json'));

export function drillsOf(folder: string): Phase[] {
  const made = patches(folder);
  return PHASES.filter((phase) => made[phase] !== undefined);
}

/** All of them, with the day they belong to. */
export const PLAYED: readonly (readonly [string, Phase])[] = DAYS.flatMap((folder) =>
  drillsOf(folder).map((phase) => [folder, phase] as const),
);

const made = new Map<string, Scenario>();

/** Made once: it is looked at with the forms at the ends of its ranges, as a whole day is. */
export function drill(folder: string, phase: Phase): Scenario {
  const name = `${folder}/${phase}`;
  const known = made.get(name) ?? makeDrill(folder, phase);
  made.set(name, known);
  return known;
}

function makeDrill(folder: string, phase: Phase): Scenario {
  const json = readJson(LEVELS, folder, 'scenario.json');
  return parseScenario(drillOf(json, phase, patches(folder)[phase]!.scenario));
}

const INVENTED: Fails = {
  reasons: ['critical', 'minimum_record', 'total'],
  lost: ['false_record'],
  critical: ['false_record'],
};
const UNTESTED: Fails = {
  reasons: ['too_little_done', 'essential_missed'],
  lost: ['missed_held'],
  critical: [],
};
/** A bag is a point or two of a day; without it nobody passes where it has to spare the unit. */
const UNFILTERED: Fails = { reasons: [], lost: ['missed_stood'], critical: [] };

/** What wrong players come to at drills: by what each fails, or what it loses. */
export const WRONG: readonly (readonly [
  folder: string,
  phase: Phase,
  player: string,
  fails: Fails,
])[] = [
  ['04-otter-bank', 'arrive', 'records_without_reading', INVENTED],
  ['05-curlew-rise', 'flow_test', 'records_without_reading', INVENTED],
  ['06-lapwing-school', 'prove', 'records_without_reading', INVENTED],
  ['04-otter-bank', 'leak_test', 'never_tests', UNTESTED],
  ['05-curlew-rise', 'leak_test', 'never_tests', UNTESTED],
  ['06-lapwing-school', 'leak_test', 'never_tests', UNTESTED],
  ['04-otter-bank', 'unit', 'forgets_filter', UNFILTERED],
  [
    '06-lapwing-school',
    'flush',
    'forgets_filter',
    { ...UNFILTERED, reasons: ['essential_missed'] },
  ],
  [
    '04-otter-bank',
    'disconnect',
    'spills_on_disconnect',
    {
      reasons: ['minimum_safety', 'too_little_done', 'total'],
      lost: ['missed_stood', 'time_not_counted', 'to_ground'],
      critical: [],
    },
  ],
  [
    '04-otter-bank',
    'purge',
    'leaves_as_purged',
    {
      reasons: ['hand_over', 'minimum_safety', 'total'],
      lost: ['time_not_counted', 'valve_left_shut'],
      critical: [],
    },
  ],
];
