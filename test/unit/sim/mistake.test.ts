// Mistakes: a script with one edit. Each edit makes the script it says, and one that does not find
// its place is refused with a reason.
import { describe, expect, it } from 'vitest';
import { InputFaults } from '../../../sim/fault.ts';
import { mistakeScript, parseMistake } from '../../../sim/mistake.ts';

const valve = (id: string, target_deg = 90) => ({ kind: 'valve', valve: id, target_deg });
const FREE = { until: { hands: 'free' }, max_s: 60 };
const DONE = { do: { kind: 'done' } };
const REFLEX = { when: { reading: 'level', below_mm: 330 }, do: valve('fill') };

const BASE = {
  format: 1,
  level: 'somewhere',
  seed: 1,
  why: 'As it should be.',
  expects: { passed: true },
  keep: [REFLEX],
  steps: [
    { phase: 'flush' },
    { do: valve('a') },
    FREE,
    { phase: 'purge' },
    { do: [valve('a', 0), valve('b')], why: 'Over.' },
    FREE,
    { repeat: 2, steps: [{ wait_s: 5 }, { do: valve('c') }] },
    DONE,
  ],
};

const expects = { passed: false, deductions: [], reasons: [], critical: [] };
const mistake = (edit: object) =>
  parseMistake({ format: 1, of: 'solution', why: 'One edit.', edit, expects });

/** What the edit makes of the steps. */
const edited = (edit: object) => mistakeScript(mistake(edit), BASE);
const stepsOf = (edit: object): unknown => edited(edit)['steps'];

function faultsOf(make: () => unknown): string[] {
  try {
    make();
  } catch (error) {
    if (error instanceof InputFaults) return error.faults.map((f) => `${f.path}: ${f.message}`);
    throw error;
  }
  throw new Error('nothing was refused');
}

/** The base with every command in a list, as an edit hands it on. */
const S: readonly unknown[] = [
  { phase: 'flush' },
  { do: [valve('a')] },
  FREE,
  { phase: 'purge' },
  { do: [valve('a', 0), valve('b')], why: 'Over.' },
  FREE,
  { repeat: 2, steps: [{ wait_s: 5 }, { do: [valve('c')] }] },
  { do: [{ kind: 'done' }] },
];

describe('an edit', () => {
  it('keeps the rest of the script, and says why for it', () => {
    const script = edited({ leave_out: { reflex: { when: { reading: 'level' } } } });
    expect(script).toEqual({
      format: 1,
      level: 'somewhere',
      seed: 1,
      why: 'One edit.',
      keep: [],
      steps: S,
    });
    expect(BASE.keep).toHaveLength(1);
  });

  it('leaves out a command, a step that is empty then, and a stretch', () => {
    const b = { command: { valve: 'b' } };
    expect(stepsOf({ leave_out: b })).toEqual(S.with(4, { do: [valve('a', 0)], why: 'Over.' }));
    const first = { command: { valve: 'a' }, phase: 'flush' };
    expect(stepsOf({ leave_out: first })).toEqual(S.toSpliced(1, 1));
    const through = { step: { until: { hands: 'free' } }, nth: 2 };
    expect(stepsOf({ leave_out: { step: { do: { valve: 'b' } } }, through })).toEqual(
      S.toSpliced(4, 2),
    );
    const inner = stepsOf({ leave_out: { command: { valve: 'c' } } });
    expect(inner).toEqual(S.with(6, { repeat: 2, steps: [{ wait_s: 5 }] }));
  });

  it('changes keys as a merge patch does', () => {
    const change = { step: { until: { hands: 'free' } }, nth: 1 };
    const to = { until: { hands: null, after_s: 5 }, for_s: 3 };
    expect(stepsOf({ change, to })).toEqual(
      S.with(2, { until: { after_s: 5 }, max_s: 60, for_s: 3 }),
    );
    const { keep } = edited({ change: { reflex: {} }, to: { when: { below_mm: 50 } } });
    expect(keep).toEqual([{ ...REFLEX, when: { reading: 'level', below_mm: 50 } }]);
  });

  it('replaces, and puts before and after', () => {
    const put = [{ wait_s: 9 }];
    expect(stepsOf({ replace: { step: { repeat: 2 } }, put })).toEqual(S.with(6, put[0]!));
    const at = { step: { do: { kind: 'done' } } };
    expect(stepsOf({ put, before: at })).toEqual(S.toSpliced(7, 0, put[0]!));
    expect(stepsOf({ put: [valve('d')], after: { command: { valve: 'b' } } })).toEqual(
      S.with(4, { do: [valve('a', 0), valve('b'), valve('d')], why: 'Over.' }),
    );
  });

  it('moves a step, a command out of its step, and a stretch, later if asked', () => {
    const over = { step: { do: { valve: 'b' } } };
    const done = { step: { do: { kind: 'done' } } };
    expect(stepsOf({ move: over, before: done })).toEqual(S.toSpliced(4, 1).toSpliced(6, 0, S[4]));
    const a = { command: { valve: 'a', target_deg: 90 } };
    expect(stepsOf({ move: a, after: over, wait_s: 60 })).toEqual(
      S.toSpliced(1, 1).toSpliced(4, 0, { wait_s: 60 }, { do: [valve('a')] }),
    );
    const through = { step: { until: { hands: 'free' } }, phase: 'purge' };
    expect(stepsOf({ move: over, through, after: { step: { phase: 'flush' } } })).toEqual([
      S[0],
      S[4],
      S[5],
      ...S.slice(1, 4),
      ...S.slice(6),
    ]);
  });
});

describe('what is refused', () => {
  it('is a place that is not there, one of several, and one too far', () => {
    const message = (edit: object) => faultsOf(() => edited(edit));
    expect(message({ leave_out: { command: { valve: 'z' } } })).toEqual([
      'edit.leave_out: is not found in the script',
    ]);
    expect(message({ leave_out: { step: { until: {} } } })).toEqual([
      'edit.leave_out: is found 2 times: say which with "nth"',
    ]);
    const far = { step: { until: {} }, nth: 3 };
    expect(message({ move: far, after: { step: { phase: 'start' } } })).toEqual([
      'edit.move.nth: there are 2',
      'edit.after: is not found in the script',
    ]);
  });

  it('is a stretch that ends before it begins, and what would stand beside another sort', () => {
    const [over, flush] = [{ step: { do: { valve: 'b' } } }, { step: { phase: 'flush' } }];
    expect(faultsOf(() => edited({ leave_out: over, through: flush }))).toEqual([
      'edit.through: must stand in the same list, behind the first',
    ]);
    expect(faultsOf(() => edited({ move: flush, after: { command: { valve: 'b' } } }))).toEqual([
      'edit.after: is of another sort than what is moved',
    ]);
    expect(faultsOf(() => edited({ move: over, after: over }))).toEqual([
      'edit.after: is moved itself',
    ]);
  });

  it('is every fault of the file at once', () => {
    const json = { format: 2, of: '../solution', why: 'x', edit: { leave_out: {} }, expects };
    const paths = faultsOf(() => parseMistake(json)).map((fault) => fault.split(':')[0]);
    expect(paths).toEqual(expect.arrayContaining(['format', 'of']));
    expect(paths.some((path) => path!.startsWith('edit'))).toBe(true);
    expect(faultsOf(() => mistakeScript(mistake({ leave_out: { reflex: {} } }), {}))).toEqual([
      'of: is no script with steps',
    ]);
  });
});
