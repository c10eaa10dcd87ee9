// The form of a job on the page: shown, handled, marked and gone on with by its seed, while files
// name the job as it is written; and how another form is had.
import { describe, expect, it } from 'vitest';
import { formNumber, otherForm } from '../../../game/forms.ts';
import { figuresOf } from '../../../game/figures.ts';
import { Session } from '../../../game/session.ts';
import { verify } from '../../../game/verify/verify.ts';
import { attemptFaults, formOf, replay, scenarioHash } from '../../../sim/index.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { freshSeed } from '../../tools/chance.ts';
import { entered, HERON, playerAt } from '../../support/player.ts';
import { hashOf } from '../../support/hash-of.ts';

const fresh = freshSeed() + 2;
const open = { kind: 'valve', valve: 'suction_valve', target_deg: 90 } as const;

describe('the job before it is begun', () => {
  it('can be had in another form: its figures, its plant and its look change with it', () => {
    const { play } = playerAt();
    const { seen } = play;
    const before = seen.value;
    play.choose('practise', 5);
    expect(play.form.value).toBe(5);
    expect(play.level.scenario).toEqual(formOf(HERON.scenario, 5));
    expect(seen.value).not.toBe(before);
    const lex = lexicon(HERON.words);
    const levels = [1, 5].map((seed) => figuresOf(formOf(HERON.scenario, seed), lex));
    expect(levels[0]).not.toEqual(levels[1]);
    play.choose('assess');
    expect(play.session).toMatchObject({ mode: 'assess', seed: 5, hasForms: true });
    play.enter();
    play.choose('learn', 9);
    expect(play.session).toMatchObject({ mode: 'assess', seed: 5 });
  });

  it('never offers the form it is in, nor the one that is written', () => {
    for (let k = 0; k < 3000; k++) {
      const other = otherForm(1 + (k % 3));
      expect(other).not.toBe(1 + (k % 3));
      expect(other).toBeGreaterThan(1);
      expect(other).toBeLessThan(10000);
    }
    expect(formNumber(4711)).toBe('4711');
    expect(formNumber(1)).toBe('1, as written');
  });
});

describe(`an attempt in form ${fresh}`, () => {
  it('goes into a file that replays bit for bit, and is checked by running it again', () => {
    const bench = entered();
    bench.play.again(fresh);
    expect(bench.play.form.value).toBe(fresh);
    bench.play.ready();
    bench.play.act(open);
    bench.pass(30);
    bench.play.handOver();
    const file = bench.play.file('Ann');
    expect(file.record).toMatchObject({
      scenario: 'heron_lane',
      scenario_hash: scenarioHash(HERON.scenario),
      seed: fresh,
    });
    expect(attemptFaults(file, HERON.scenario)).toEqual([]);
    const again = replay(HERON.scenario, file.record);
    expect(again.divergedAt).toBeNull();
    expect(JSON.parse(JSON.stringify(again.facts))).toEqual(JSON.parse(JSON.stringify(file.facts)));
    const { report } = verify('ann.json', JSON.stringify(file));
    expect(report).toMatchObject({ verdict: 'replays', claims: { seed: fresh } });
    expect(report.rerun?.score.total).toBe(bench.play.score.value?.total);
    // The same acts are another run in another form.
    const other = { ...file, record: { ...file.record, seed: fresh + 1 } };
    expect(verify('bo.json', JSON.stringify(other)).report.verdict).toBe('diverged');
  });

  it('is gone on with where it was left', () => {
    const session = Session.start(HERON, 'learn', fresh);
    session.act(open);
    for (let k = 0; k < 300; k++) session.advance();
    const resumed = Session.resume(HERON, 'learn', session.save());
    expect(resumed.level.scenario).toEqual(session.level.scenario);
    for (const one of [session, resumed]) for (let k = 0; k < 100; k++) one.advance();
    expect(hashOf(resumed)).toBe(hashOf(session));
  });
});
