// Notes on the sheet of readings, against what the instrument showed in the last minute.
import { describe, expect, it } from 'vitest';
import type { Command, Fact } from '../../../../sim/index.ts';
import { stages, turn } from '../../../support/hands.ts';
import { mainsRig, run, type Hands } from './rigs.ts';

describe('a note', () => {
  const note = (value_milli: number): Command => ({ kind: 'note', entry: 'line', value_milli });
  const rig = (more: Record<string, unknown> = {}) =>
    mainsRig(100, { record: [{ id: 'line', reading: 'gauge', ...more }] });
  const noted = (facts: readonly Fact[]) => facts.find((f) => f.kind === 'noted');

  it('tells what was written and what was shown, and of what was shown is true', () => {
    const facts = run(rig(), [[5, note(100000)]], 8);
    expect(noted(facts)).toMatchObject({ entry: 'line', value: 100e3, shown: 100e3 });
    expect(stages(facts, 'false_record')).toEqual([]);
  });

  it('may be one division off and what the line allows, no more', () => {
    expect(stages(run(rig(), [[5, note(110000)]], 8), 'false_record')).toContain('tripped');
    const wide = rig({ tolerance_milli: 10000 });
    expect(stages(run(wide, [[5, note(110000)]], 8), 'false_record')).toEqual([]);
    expect(stages(run(wide, [[5, note(116000)]], 8), 'false_record')).toContain('tripped');
  });

  it('is true of what was shown within the last minute, and false of what was before', () => {
    const letOff: Command[] = [turn('supply', 0), turn('drain', 90)];
    const soon: Hands = [
      [0, ...letOff],
      [50, note(100000)],
    ];
    expect(stages(run(rig(), soon, 53), 'false_record')).toEqual([]);
    const late: Hands = [
      [0, ...letOff],
      [90, note(100000)],
    ];
    expect(stages(run(rig(), late, 93), 'false_record')).toContain('tripped');
  });

  it('is false of what was less than all that the last minute showed', () => {
    const record = [{ id: 'line', reading: 'gauge' }];
    const shut = mainsRig(100, { record }, { supply: { start_deg: 0 } });
    const rises = (at_s: number): Hands => [
      [0, turn('supply', 90)],
      [at_s, note(0)],
    ];
    expect(stages(run(shut, rises(50), 53), 'false_record')).toEqual([]);
    expect(stages(run(shut, rises(90), 93), 'false_record')).toContain('tripped');
  });

  it('is false of any value where nothing shows it', () => {
    const blind = mainsRig(100, { record: [{ id: 'line' }] });
    const facts = run(blind, [[5, note(100000)]], 8);
    expect(noted(facts)).toMatchObject({ shown: null });
    expect(stages(facts, 'false_record')).toContain('tripped');
  });

  it('on a line that the sheet does not have is refused', () => {
    const facts = run(mainsRig(100), [[1, note(5)]], 2);
    expect(facts).toContainEqual(
      expect.objectContaining({ kind: 'refused', reason: 'unknown_control' }),
    );
  });
});
