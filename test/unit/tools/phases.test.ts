// Drills of a whole day: what stands in every part at a marker is what the drill begins with, and
// the solution's own piece passes it.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { createWorld, drillOf, parseRules, parseScenario, truth } from '../../../sim/index.ts';
import { parseScript, runScript, type World } from '../../../sim/index.ts';
import { SMALL_DAY, SMALL_DAY_SCRIPT } from '../../support/small-day.ts';
import { link, node } from '../../support/worlds.ts';
import { drillsOf, phasesText, playDrill } from '../../tools/phases.ts';
import { stretchesOf } from '../../tools/phases-parts.ts';

const rules = parseRules(JSON.parse(readFileSync('levels/rules.json', 'utf8')));
const drills = drillsOf(SMALL_DAY, SMALL_DAY_SCRIPT);

/** The whole day up to each marker. */
function dayAt(phase: string): World {
  const scenario = parseScenario(SMALL_DAY);
  const { steps } = SMALL_DAY_SCRIPT;
  const until = steps.findIndex((step) => 'phase' in step && step.phase === phase);
  const script = parseScript({ ...SMALL_DAY_SCRIPT, steps: steps.slice(0, until) }, scenario);
  return runScript(scenario, script).run.world;
}

const drillAt = (phase: 'pressure' | 'second_visit'): World =>
  createWorld(parseScenario(drillOf(SMALL_DAY, phase, drills[phase]!.scenario)), 1);

describe('the start of a drill', () => {
  it('is that of the job where the day begins', () => {
    expect(Object.keys(drills.purge!.scenario)).toEqual(['ends_after_s', 'job']);
  });

  it('holds what stood in every part when its phase began', () => {
    for (const phase of ['pressure', 'second_visit'] as const) {
      const [day, drill] = [dayAt(phase), drillAt(phase)];
      for (const id of ['loop_out', 'loop_back', 'suction']) {
        const [was, is] = [link(day, id), link(drill, id)];
        const gas = (of: typeof was) => of.gas.reduce((sum, a) => sum + a, 0) * 2; // m
        expect(Math.abs(gas(is) - gas(was))).toBeLessThan(0.05 * gas(was) + 0.04);
        // Where more than a hundredth of it is gas, the pressure of that gas counts.
        const much = was.gas.reduce((sum, a) => sum + a, 0) > 0.01 * was.gas.length;
        const weights = was.gas.map((a) => (much ? a : 1));
        const mean = ({ pressure }: typeof was) =>
          pressure.reduce((s, p, k) => s + p * weights[k]!, 0) /
          weights.reduce((s, w) => s + w, 0);
        expect(Math.abs(mean(is) - mean(was))).toBeLessThan(20);
      }
      for (const id of ['supply', 'back', 'foot']) {
        expect(Math.abs(node(drill, id) - node(day, id))).toBeLessThan(20);
      }
      const kg = [day, drill].map((world) => truth(world).liquid.now);
      expect(Math.abs(kg[1]! / kg[0]! - 1)).toBeLessThan(0.003);
    }
    expect(node(drillAt('second_visit'), 'supply')).toBeGreaterThan(101325 + 150e3);
  });

  it('has every control and device as it was left', () => {
    const { links, devices } = parseScenario(
      drillOf(SMALL_DAY, 'second_visit', drills.second_visit!.scenario),
    );
    expect(links.find(({ id }) => id === 'supply_valve')).toMatchObject({ start_deg: 0 });
    expect(links.find(({ id }) => id === 'pump')).toMatchObject({ start_on: false });
    expect(devices[0]).toMatchObject({ id: 'tag', start: 1 });
    // The purge left two of them as it found them.
    const changed = drills.pressure!.scenario.links as { id: string; start_deg?: number }[];
    expect(changed.filter(({ start_deg }) => start_deg !== undefined)).toEqual([]);
  });
});

describe('the job of a drill', () => {
  it('has the controls that its phase moved, and time by what its work needs', () => {
    const { job, ends_after_s } = drills.pressure!.scenario as {
      job: { hand_over: object[]; time_full_s: number; time_zero_s: number };
      ends_after_s: number;
    };
    expect(job.hand_over).toEqual([
      { control: 'press_valve', state: 'shut' },
      { control: 'tag', state: 'done' },
    ]);
    // An hour away, and five minutes at least.
    expect([job.time_full_s, job.time_zero_s, ends_after_s]).toEqual([4020, 4500, 4800]);
  });

  it('has the lines of the sheet that its phase asks for, and no sheet where it asks none', () => {
    const line = (id: string) => ({ id, reading: 'gauge' });
    const noted = { id: 'm', phase: 'pressure', kind: 'noted', entry: 'left', points: 2 };
    const milestones = [{ ...noted, dimension: 'record' }];
    const day = {
      ...SMALL_DAY,
      record: [line('before'), line('left'), line('beside')],
      job: { ...SMALL_DAY.job, milestones },
    };
    const note = (entry: string, value_milli: number) => ({
      do: { kind: 'note', entry, value_milli },
    });
    const steps = SMALL_DAY_SCRIPT.steps.flatMap((step): object[] => {
      if (!('phase' in step)) return [step];
      if (step.phase === 'purge') return [step, note('before', 0)];
      return step.phase === 'pressure' ? [step, note('left', 0), note('beside', 0)] : [step];
    });
    const script = { ...SMALL_DAY_SCRIPT, steps };
    const made = drillsOf(day, script);
    const linesOf = (phase: 'purge' | 'pressure' | 'second_visit') =>
      parseScenario(drillOf(day, phase, made[phase]!.scenario)).record.map(({ id }) => id);
    expect(linesOf('pressure')).toEqual(['left', 'beside']);
    expect(linesOf('purge')).toEqual([]);
    expect(linesOf('second_visit')).toEqual([]);
    // Without a line nothing is earned for the record, and the piece of the day still runs.
    const { marks, outcome } = playDrill(
      { scenario: day, script, rules },
      'purge',
      made.purge!.scenario,
    );
    expect(outcome.end).toBe('finished');
    expect(marks.dimensions.map(({ dimension }) => dimension)).not.toContain('record');
  });

  it('asks for a flow only where it lasts', () => {
    const outcomes = [{ kind: 'flow', share: 1, link: 'loop_out', least_L_s: 0.05 }];
    const day = { ...SMALL_DAY, job: { ...SMALL_DAY.job, outcomes } };
    const asked = (last: readonly object[]): unknown => {
      const steps = [...SMALL_DAY_SCRIPT.steps.slice(0, 4), { phase: 'run' }, ...last];
      const made = drillsOf(day, { ...SMALL_DAY_SCRIPT, steps }).run!.scenario;
      return (made.job as { outcomes: unknown }).outcomes;
    };
    const note = { do: { kind: 'set', device: 'tag', position: 1 } };
    expect(asked([note])).toEqual(outcomes);
    // Its pump still turns when the phase ends.
    expect(asked([note, { do: { kind: 'switch', pump: 'pump', on: false } }])).toEqual([]);
  });

  it('is passed by its piece of the solution', () => {
    const day = { scenario: SMALL_DAY, script: SMALL_DAY_SCRIPT, rules };
    for (const phase of ['purge', 'pressure', 'second_visit'] as const) {
      const { outcome, marks, missed } = playDrill(day, phase, drills[phase]!.scenario);
      expect([phase, outcome.end, missed]).toEqual([phase, 'finished', []]);
      expect(marks.total, phase).toBeGreaterThanOrEqual(90);
      expect(marks.passed, phase).toBe(true);
    }
  });

  it('fails where its piece is left out', () => {
    const steps = SMALL_DAY_SCRIPT.steps.filter((_, at) => at !== 1);
    const day = { scenario: SMALL_DAY, script: { ...SMALL_DAY_SCRIPT, steps }, rules };
    expect(playDrill(day, 'purge', drills.purge!.scenario).marks.passed).toBe(false);
  });
});

describe('stretches of gas', () => {
  const area = 1e-3;
  const gasOf = (of: { from_m: number; to_m: number }[]) =>
    of.reduce((sum, { from_m, to_m }) => sum + to_m - from_m, 0);

  it('hold as much as the cells do, lie apart and inside the pipe', () => {
    const rows = [
      [0, 0, 1, 1, 0.3, 0, 0, 0.9],
      [1, 1, 1, 1],
      [0.1, 0.1, 0.1, 0.1],
      [0, 0, 0, 0.7, 0.2, 0.2, 0.2],
      [0.6, 0.4, 0.6, 0.4, 0.6],
      [0.2, 0.2, 0.2, 0.95],
    ];
    for (const alpha of rows) {
      const found = stretchesOf(alpha, alpha.length, area);
      const wanted = alpha.reduce((sum, a) => sum + a, 0);
      expect(Math.abs(gasOf(found) - wanted), alpha.join()).toBeLessThan(0.02 + 0.05 * wanted);
      let last = 0;
      for (const { from_m, to_m } of found) {
        expect(from_m).toBeGreaterThanOrEqual(last);
        expect(to_m).toBeGreaterThan(from_m);
        last = to_m;
      }
      expect(last).toBeLessThanOrEqual(alpha.length);
    }
  });

  it('are none where there is hardly any', () => {
    expect(stretchesOf([0.004, 0.004, 0], 3, area)).toEqual([]);
  });
});

describe('the file', () => {
  it('reads as what was written, a member to a line', () => {
    const text = phasesText(drills);
    expect(JSON.parse(text)).toEqual(JSON.parse(JSON.stringify(drills)));
    expect(text).toMatch(/\n {8}\{"id":"loop_out",.*\},?\n/);
  });
});
