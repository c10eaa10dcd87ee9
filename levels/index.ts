// The levels in order: each with its scenario, the shared rules and its words, all as data.
// Pages import this; the command line reads the files themselves, by path.
import { parseRules, parseScenario, type Rules, type Scenario } from '../sim/index.ts';
import heronLaneDrawing from './01-heron-lane/drawing.json';
import heronLane from './01-heron-lane/scenario.json';
import heronLaneWords from './01-heron-lane/words.en.json';
import sedgeMeadowDrawing from './02-sedge-meadow/drawing.json';
import sedgeMeadow from './02-sedge-meadow/scenario.json';
import sedgeMeadowWords from './02-sedge-meadow/words.en.json';
import kestrelYardDrawing from './03-kestrel-yard/drawing.json';
import kestrelYard from './03-kestrel-yard/scenario.json';
import kestrelYardWords from './03-kestrel-yard/words.en.json';
import otterBankDrawing from './04-otter-bank/drawing.json';
import otterBank from './04-otter-bank/scenario.json';
import otterBankWords from './04-otter-bank/words.en.json';
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
}

const rules = parseRules(rulesJson);

interface Files {
  readonly scenario: unknown;
  readonly drawing: unknown;
  readonly words: Readonly<Record<string, string>>;
}

function level(folder: string, files: Files): Level {
  const scenario = parseScenario(files.scenario);
  const words = { ...rulesWords, ...files.words };
  return { id: scenario.id, folder, scenario, drawing: files.drawing, rules, words };
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
  }),
];

/** The level with this id, or null. */
export function levelById(id: string): Level | null {
  return LEVELS.find((one) => one.id === id) ?? null;
}
