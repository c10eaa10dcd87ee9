// What a level's words promise is what its job and the rules ask: the same numbers, and a script
// for every mistake that names its own level.
import { describe, expect, it } from 'vitest';
import { LEVELS } from '../../levels/index.ts';
import { rulesFor, testedBy } from '../../sim/index.ts';
import { endForms } from '../tools/form-ends.ts';
import { folders, scriptJson, scriptsOf } from '../tools/golden.ts';

const numbers = (text: string) => (text.match(/\d+(\.\d+)?/g) ?? []).map(Number);

/** Times as they are told, in seconds: "40 minutes", "22 hours", "66 hours 40 minutes". */
const times = (text: string): number[] =>
  [...text.matchAll(/(?:(\d+) hours)? ?(?:(\d+) minutes)?/g)]
    .filter(([all]) => all.trim() !== '')
    .map(([, hours, minutes]) => 3600 * Number(hours ?? 0) + 60 * Number(minutes ?? 0));

/** s. A job as long as this is told in hours. */
const LONG_s = 3 * 3600;

describe.each(LEVELS)('the words of $id', ({ words, scenario, rules, drawing }) => {
  const job = scenario.job!;
  const says = (key: string): number[] => numbers(words[key]!);

  it('give the pass marks of the rules and of the job', () => {
    const least = testedBy(scenario).map((name) => 100 * rules.dimensions[name].minimum_share);
    const parts = least.filter((share) => share > 0);
    if (job.milestones !== undefined) parts.push(100 * rules.milestones.minimum_share);
    expect(says('pass.total')).toEqual([rules.pass_total, 100, ...parts]);
    expect(says('pass.air')).toEqual([job.air_allowed_L]);
    const spilt = rulesFor(scenario, rules).hazards.overflow.tripped_points;
    expect(says('pass.loss')).toEqual([job.loss_free_L, job.loss_cap_L, spilt]);
    expect(times(words['pass.time']!)).toEqual([job.time_full_s, job.time_zero_s]);
    expect(words['pass.time']!.includes('hours')).toBe(job.time_full_s >= LONG_s);
    // One word for it: the pages' own.
    expect(words['pass.total']).toContain(words['dimension.outcome']!.toLowerCase());
  });

  it('give the rating of the weakest part', () => {
    const ratings = scenario.nodes.flatMap((n) =>
      n.kind === 'junction' ? [n.rating_kPa ?? Infinity] : [],
    );
    expect(says('caution.pressure')).toContain(Math.min(...ratings));
  });

  it('give the lengths of its circuits, whatever the form', () => {
    const forms = endForms(scenario).flatMap(({ links }) => links);
    const bores = forms.filter((l) => /^circuit(_\d+)?$/.test(l.id));
    const lengths = bores.map((l) => (l.kind === 'pipe' ? l.length_m : NaN));
    const told = says('summary');
    const { field } = drawing as { readonly field?: { readonly kind: string } };
    if (field?.kind === 'bore') {
      for (const length of [Math.min(...lengths), Math.max(...lengths)]) {
        const depth = (length - 2 * 2 - 0.3) / 2;
        expect(told.some((number) => Math.abs(depth - number) < 0.2)).toBe(true);
      }
    } else {
      expect(told).toEqual([...new Set([Math.min(...lengths), Math.max(...lengths)])]);
    }
  });

  it('defer to local codes and to instructions, and say what this is', () => {
    const cautions = Object.entries(words).filter(([key]) => key.startsWith('caution.'));
    expect(cautions.length).toBeGreaterThanOrEqual(5);
    expect(words['caution.aid']).toMatch(/Training aid only.*local code.*licensed practice/);
    expect(words['caution.backflow']).toMatch(/local code/);
  });
});

it('the levels stand in the order of their folders', () => {
  expect(LEVELS.map((level) => level.folder)).toEqual(folders);
  for (const { folder, id } of LEVELS) {
    for (const name of scriptsOf(folder)) {
      expect(scriptJson(folder, name)).toMatchObject({ level: id });
    }
  }
});
