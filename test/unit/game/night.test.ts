// Being away: what one is told on coming back is what the instruments show otherwise, and nothing
// stands still or slows down while nobody is there.
import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it } from 'vitest';
import { brake } from '../../../game/captions.ts';
import { changesOf } from '../../../game/night.ts';
import { entered, settled, type Bench } from '../../support/player.ts';

afterEach(settled);

const shown = (texts: Readonly<Record<string, string>>) =>
  new Map(Object.entries(texts).map(([id, text]) => [id, { name: `the ${id}`, text }]));

describe('what has changed', () => {
  it('is what is written otherwise, in the order of the panel', () => {
    const before = shown({ level: '300 mm', gauge: '250 kPa', sight: 'air' });
    const now = shown({ gauge: '240 kPa', level: '300 mm', sight: 'clear', cup: '7 °C' });
    expect(changesOf(before, now)).toEqual([
      'The gauge: 240 kPa, was 250 kPa', 'The sight: clear, was air',
    ]);
  });
});

const last = ({ play }: Bench) => play.captions.value.at(-1);

function backAgain(bench: Bench): void {
  for (let k = 0; k < 400 && last(bench)?.key !== 'away'; k++) bench.pass(0.2);
  for (let k = 0; k < 400 && bench.play.session.away; k++) bench.pass(0.2);
}

describe('coming back', () => {
  it('tells that nothing has changed, or what has, and that more was noticed', () => {
    const same = entered();
    same.play.goHome(1);
    backAgain(same);
    expect(last(same)).toMatchObject({ tone: 'report', rows: [] });
    expect(last(same)?.text).toContain('Every instrument shows what it showed');

    const run = entered(); // The tank fills and runs over: nobody shuts the tap.
    run.play.act({ kind: 'valve', valve: 'fill_valve', target_deg: 90 });
    run.play.setSpeed(5);
    run.pass(4);
    run.play.setSpeed(60);
    run.play.goHome(1);
    backAgain(run);
    const { tone, rows = [] } = last(run) ?? {};
    expect(tone).toBe('report');
    expect(rows[0]).toMatch(/^Sight tube: [\d,]+ mm, was [\d,]+ mm$/);
    expect(rows.at(-1)).toMatch(/^What was noticed meanwhile \(\d+\)/);
    expect(run.play.speed.value).toBe(1);
    expect(brake({ tick: 0, kind: 'back' }, [])).toBe('slow');
  });
});
