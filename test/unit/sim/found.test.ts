// What has to be found: a milestone of flow at a defect follows it from form to form, a line about
// it counts while it runs, and nobody who plays is told which part it is.
import { describe, expect, it } from 'vitest';
import {
  createWorld,
  formOf,
  scenarioFaults,
  snapshot,
  step,
  type Command,
  type Scenario,
  type World,
} from '../../../sim/index.ts';
import { formed } from '../../../sim/form-made.ts';
import { briefingOf } from '../../../sim/play.ts';
import { parseScenario } from '../../../sim/scenario.ts';
import { JOB, PARTS, WAY } from '../../support/goal-rig.ts';
import { folders, scenarioOf } from '../../tools/golden.ts';

const KINK = { id: 'kink', kind: 'blocked', at: 'pipe_a', share: 0.6 };
const ALONE = {
  ...{ id: 'alone', ...WAY, kind: 'ran', link: 'pipe_a', found: 'kink' },
  ...{ above_L_s: 0.2, for_s: 10, still: ['pipe_a', 'pipe_b'] },
};
const TOLD = { id: 'told', ...WAY, kind: 'noted', entry: 'line', during: 'alone' };
const IN = (ids: readonly string[], id = 'in') => ({
  id,
  choices: ids.map((at) => ({ id: at, puts: [{ at: 'defects.kink.at', value: at }] })),
});
const raw = (change: object = {}, milestones: readonly object[] = [ALONE, TOLD]): object => ({
  ...{ format: 1, id: 'found', temperature_C: 15, ends_after_s: 3600, ...PARTS },
  ...{ record: [{ id: 'line', reading: 'gauge' }], defects: [KINK] },
  job: { ...JOB, milestones },
  ranges: [IN(['pipe_a', 'pipe_b'])],
  ...change,
});
const linkOf = ({ job }: Scenario): string =>
  job!.milestones!.flatMap((one) => (one.kind === 'ran' && 'found' in one ? [one.link] : []))[0]!;

describe('a form', () => {
  const base = parseScenario(raw());

  it('has what is to be found where it has the defect', () => {
    const forms = Array.from({ length: 40 }, (_, k) => formOf(base, 1 + k));
    for (const form of forms) expect(linkOf(form)).toBe(form.defects![0]!.at);
    expect(new Set(forms.map(linkOf))).toEqual(new Set(['pipe_a', 'pipe_b']));
    expect(linkOf(base)).toBe('pipe_a');
  });
});

describe('the check', () => {
  const faultsOf = (change: object, ...milestones: readonly object[]): string[] =>
    scenarioFaults(raw(change, milestones)).map(({ path, message }) => `${path}: ${message}`);
  const at = (list: string): string => `job.milestones[0].${list}`;

  it('lets a sound one pass', () => {
    expect(faultsOf({}, ALONE, TOLD)).toEqual([]);
    expect(faultsOf({}, { ...ALONE, still: [] })).toEqual([]);
  });

  it('names what is not where the defect is, is not always there, and what would tell it', () => {
    expect(faultsOf({}, { ...ALONE, link: 'pipe_b' })).toEqual([
      `${at('link')}: "kink" is at "pipe_a": that is what has to be found`,
    ]);
    expect(faultsOf({ defects: [{ ...KINK, chance: 0.5 }] }, ALONE)).toEqual([
      `${at('found')}: "kink" may not be there: it has a chance`,
    ]);
    expect(faultsOf({}, { ...ALONE, still: ['pipe_b'] })).toEqual([
      `${at('still')}: "pipe_a" is told by being left out`,
    ]);
  });

  it('makes every form, and names one in which it would be told', () => {
    const ranges = [IN(['pipe_a', 'pipe_b', 'suction'])];
    expect(faultsOf({ ranges }, ALONE)).toEqual([
      `ranges[0]: with "suction": ${at('still')} "suction" is told by being left out`,
    ]);
  });
});

const turn = (valve: string, target_deg: number): Command => ({ kind: 'valve', valve, target_deg });
const note: Command = { kind: 'note', entry: 'line', value_milli: 0 };

/** Ids of what was reached, each with its tick, by commands at ticks. */
function reachedIn(world: World, ticks: number, script: Readonly<Record<number, Command[]>>) {
  const reached = new Map<string, number>();
  for (let t = 0; t < ticks; t++) {
    for (const fact of step(world, script[t] ?? [])) {
      if (fact.kind === 'reached') reached.set(fact.milestone, fact.tick);
    }
  }
  return reached;
}

describe('what has to be found', () => {
  const inB = raw({ defects: [{ ...KINK, at: 'pipe_b' }] }, [{ ...ALONE, link: 'pipe_b' }, TOLD]);
  const world = (): World => createWorld(parseScenario(inB), 1);
  const on: Command = { kind: 'switch', pump: 'pump', on: true };
  /** Pipe a runs from the start; pipe b alone from tick 300 on; pipe a alone again from 600 on. */
  const hands = {
    0: [on],
    300: [turn('valve_b', 90), turn('valve_a', 0)],
    600: [turn('valve_a', 90), turn('valve_b', 0)],
  };

  it('is reached when it runs alone, and not by its twin', () => {
    const reached = reachedIn(world(), 800, hands);
    expect([...reached.keys()]).toEqual(['alone']);
    expect(reached.get('alone')).toBeGreaterThan(400);
    expect(reached.get('alone')).toBeLessThan(600);
  });

  it('is written down while it runs: before it is asked for as long, after it, not beside', () => {
    const written = (...ticks: readonly number[]): number | undefined => {
      const script: Record<number, Command[]> = { ...hands };
      for (const tick of ticks) script[tick] = [...(script[tick] ?? []), note];
      return reachedIn(world(), 900, script).get('told');
    };
    expect(written(200)).toBeUndefined(); // The twin runs.
    expect(written(200, 400)).toBe(400);
    expect(written(590)).toBe(590); // Long since reached: it still runs.
    expect(written(850)).toBeUndefined(); // And the twin again.
    expect(written(850, 200)).toBeUndefined();
  });
});

describe('nobody who plays is told', () => {
  /** Forms of a job that differ in where the defect is, and in nothing else. */
  function twins(folder: string): readonly Scenario[] {
    const { ranges = [], ...written } = scenarioOf(folder);
    const at = ranges.findIndex((range) => JSON.stringify(range).includes('"defects.kink.at"'));
    const range = ranges[at]!;
    const count = 'choices' in range ? range.choices.length : 0;
    return Array.from({ length: count }, (_, pick) => formed(written, [range], [pick]) as Scenario);
  }
  const FOLDER = '06-lapwing-school';

  it('of which trench is kinked, neither before work nor by a first look', () => {
    const forms = twins(FOLDER);
    expect(new Set(forms.map(linkOf)).size).toBe(6);
    expect(new Set(forms.map((form) => JSON.stringify(briefingOf(form)))).size).toBe(1);
    const looks = forms.map((form) => {
      const { panel, scene } = snapshot(createWorld(form, 1));
      return JSON.stringify({ panel, scene });
    });
    expect(new Set(looks).size).toBe(1);
  });

  it('in any of fifty forms: what is asked of one trench is asked of its twins', () => {
    const base = scenarioOf(FOLDER);
    const where = new Set<string>();
    for (let seed = 1; seed <= 50; seed++) {
      const form = formOf(base, seed);
      const { asked, sheet, aims, hand_over } = briefingOf(form);
      const link = linkOf(form);
      where.add(link);
      const text = JSON.stringify({ asked, sheet, aims, hand_over });
      const twin = form.links.filter(({ id }) => /^circuit_([7-9]|1[0-2])$/.test(id));
      const counts = twin.map(({ id }) => text.split(`"${id}"`).length);
      expect(twin.map(({ id }) => id)).toContain(link);
      expect(new Set(counts), text).toEqual(new Set([2]));
    }
    expect(where.size).toBe(6);
  });

  it('of what is asked for at a defect of any job', () => {
    for (const folder of folders) {
      const { job } = scenarioOf(folder);
      const sought = (job?.milestones ?? []).filter((one) => 'found' in one);
      const { asked } = briefingOf(scenarioOf(folder));
      for (const { id } of sought) {
        const { names } = asked.find((one) => one.id === id)!;
        expect(Object.keys(names).filter((key) => key === 'link' || key === 'found')).toEqual([]);
      }
      expect(sought.length).toBe(folder === FOLDER ? 1 : 0);
    }
  });
});
