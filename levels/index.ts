// The levels in order: each with its scenario, the shared rules and its words, all as data.
// Pages import this; the command line reads the files themselves, by path.
import {
  drillOf,
  drillId,
  parseOwnScenario,
  parseRules,
  parseScenario,
  PHASES,
  phasesOf,
  type Phase,
  type Phases,
  type Rules,
  type Scenario,
} from '../sim/index.ts';
import heronLaneDrawing from './01-heron-lane/drawing.json';
import heronLane from './01-heron-lane/scenario.json';
import heronLaneWords from './01-heron-lane/words.en.json';
import sedgeMeadowDrawing from './02-sedge-meadow/drawing.json';
import sedgeMeadow from './02-sedge-meadow/scenario.json';
import sedgeMeadowWords from './02-sedge-meadow/words.en.json';
import kestrelYardDrawing from './03-kestrel-yard/drawing.json';
import kestrelYard from './03-kestrel-yard/scenario.json';
import kestrelYardWords from './03-kestrel-yard/words.en.json';
import controlsWords from './controls.words.en.json';
import otterBankDrawing from './04-otter-bank/drawing.json';
import otterBankPhases from './04-otter-bank/phases.json';
import otterBank from './04-otter-bank/scenario.json';
import otterBankWords from './04-otter-bank/words.en.json';
import curlewRiseDrawing from './05-curlew-rise/drawing.json';
import curlewRisePhases from './05-curlew-rise/phases.json';
import curlewRise from './05-curlew-rise/scenario.json';
import curlewRiseWords from './05-curlew-rise/words.en.json';
import lapwingSchoolDrawing from './06-lapwing-school/drawing.json';
import lapwingSchoolPhases from './06-lapwing-school/phases.json';
import lapwingSchool from './06-lapwing-school/scenario.json';
import lapwingSchoolWords from './06-lapwing-school/words.en.json';
import rulesJson from './rules.json';
import rulesWords from './words.en.json';

export interface Level {
  readonly id: string;
  /** Below `levels/`. */
  readonly folder: string;
  readonly scenario: Scenario;
  /** What the level says about its drawing; the yard knows its form. */
  readonly drawing: unknown;
  readonly rules: Rules;
  /** English, by key: the level's own words and those that all levels share. */
  readonly words: Readonly<Record<string, string>>;
  /** Phases of a whole day that can be drilled by themselves, in the day's order. */
  readonly drills: readonly Phase[];
  /** What each of them is, if it is one: null of a whole job. */
  readonly phase: Phase | null;
}

const rules = parseRules(rulesJson);

interface Files {
  readonly scenario: unknown;
  readonly drawing: unknown;
  readonly words: Readonly<Record<string, string>>;
  /** `phases.json` of a whole day. */
  readonly phases?: unknown;
}

/** What drills are made of when they are asked for, by the level's id. */
const days = new Map<string, { readonly json: unknown; readonly phases: Phases }>();

function level(folder: string, files: Files): Level {
  const scenario = parseOwnScenario(files.scenario);
  const words = { ...rulesWords, ...files.words };
  const phases = phasesOf(files.phases);
  const drills = PHASES.filter((phase) => phases[phase] !== undefined);
  const { id } = scenario;
  if (drills.length > 0) days.set(id, { json: files.scenario, phases });
  return { id, folder, scenario, drawing: files.drawing, rules, words, drills, phase: null };
}

export const LEVELS: readonly Level[] = [
  level('01-heron-lane', {
    scenario: heronLane,
    drawing: heronLaneDrawing,
    words: heronLaneWords,
  }),
  level('02-sedge-meadow', {
    scenario: sedgeMeadow,
    drawing: sedgeMeadowDrawing,
    words: sedgeMeadowWords,
  }),
  level('03-kestrel-yard', {
    scenario: kestrelYard,
    drawing: kestrelYardDrawing,
    words: kestrelYardWords,
  }),
  level('04-otter-bank', {
    scenario: otterBank,
    drawing: otterBankDrawing,
    words: otterBankWords,
    phases: otterBankPhases,
  }),
  level('05-curlew-rise', {
    scenario: curlewRise,
    drawing: curlewRiseDrawing,
    words: curlewRiseWords,
    phases: curlewRisePhases,
  }),
  level('06-lapwing-school', {
    scenario: lapwingSchool,
    drawing: lapwingSchoolDrawing,
    words: lapwingSchoolWords,
    phases: lapwingSchoolPhases,
  }),
];

const { sheet: _to_learn_no_sums, ...heronLaneJob } = heronLane.job;

/** The first job's yard with a helper and a line to write on: to learn the controls, unmarked. */
export const CONTROLS: Level = level('01-heron-lane', {
  scenario: {
    ...heronLane,
    ranges: undefined,
    id: 'controls',
    job: heronLaneJob,
    hands: { ...heronLane.hands, helper: {} },
    record: [{ id: 'practice_line', reading: 'discharge_gauge' }],
  },
  drawing: heronLaneDrawing,
  words: { ...heronLaneWords, ...controlsWords },
});

/** One phase of a whole day as a job of its own, or null where there is none. */
export function drillOfLevel(whole: Level, phase: Phase): Level | null {
  const day = days.get(whole.id);
  const patch = day?.phases[phase];
  if (day === undefined || patch === undefined) return null;
  const scenario = parseScenario(drillOf(day.json, phase, patch.scenario));
  return { ...whole, id: scenario.id, scenario, drills: [], phase };
}

/** The level, or the drill of one, with this id; or null. */
export function levelById(id: string): Level | null {
  for (const one of LEVELS) {
    if (one.id === id) return one;
    const phase = one.drills.find((name) => drillId(one.id, name) === id);
    if (phase !== undefined) return drillOfLevel(one, phase);
  }
  return null;
}
