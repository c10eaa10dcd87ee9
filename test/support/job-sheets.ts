// Job sheets on the plants of levels, and answers to them, without a run.
import { parseScenario, type Fact, type Scenario } from '../../sim/index.ts';
import { sheetMarks, type SheetMark } from '../../sim/jobsheet/judge.ts';
import { rulesFor } from '../../sim/weights.ts';
import { LEVELS, readJson, RULES } from '../tools/golden.ts';

interface Written {
  readonly job: object;
}

/** A level's scenario with another sheet, or none. */
export function withSheet(folder: string, sheet: object | undefined): Scenario {
  const written = readJson(LEVELS, folder, 'scenario.json') as Written;
  const { sheet: _own, ...job } = written.job as { readonly sheet?: object };
  return parseScenario({ ...written, job: sheet === undefined ? job : { ...job, sheet } });
}

export const DECK_OPEN = {
  ...{ pump: 1, suction_valve: 90, discharge_valve: 90, return_valve: 90 },
  ...{ loop_supply_valve: 90, loop_return_valve: 90 },
};

/** One circuit of 186 m. */
export const HERON_SHEET = {
  purge: DECK_OPEN,
  make_up: { fill_valve: 90 },
  lines: [
    { id: 'flow', kind: 'flow', link: 'circuit' },
    { id: 'total', kind: 'total' },
    { id: 'head', kind: 'head' },
    { id: 'banks', kind: 'banks' },
    { id: 'volume', kind: 'volume' },
    { id: 'make_up', kind: 'make_up', link: 'fill_valve' },
    { id: 'drop', kind: 'drop', tank: 'tank', valve: 'return_valve' },
  ],
} as const;

export function answered(own: Readonly<Record<string, number | null>>): Fact[] {
  return Object.entries(own).map(([line, value]) => ({ tick: 0, kind: 'answered', line, value }));
}

/** Marks of answers in SI, by line. */
export function marksOf(
  scenario: Scenario,
  own: Readonly<Record<string, number | null>>,
): ReadonlyMap<string, SheetMark> {
  const marks = sheetMarks(scenario, rulesFor(scenario, RULES), answered(own));
  return new Map(marks.map((mark) => [mark.id, mark]));
}
