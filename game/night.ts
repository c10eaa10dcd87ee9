// Being away: how long one can be, by what a second visit asks for, and what the instruments show
// otherwise when one is back. Only what they showed to whoever left and comes again.
import type { Scenario, Snapshot } from '../sim/index.ts';
import { t, upper, type Lexicon } from './i18n/index.ts';
import { decimalsOf, readingText } from './readings.ts';

const DAY_H = 24;

/** Hours, shortest first; none where a job is done in one visit. */
export function homeHours({ job }: Pick<Scenario, 'job'>): readonly number[] {
  const milestones = job?.milestones ?? [];
  const asked = milestones.flatMap((one) => (one.kind === 'left' ? [Math.ceil(one.hours)] : []));
  const second = milestones.some(({ phase }) => phase === 'second_visit');
  if (asked.length === 0 && !second) return [];
  return [...new Set([Math.max(1, ...asked), DAY_H])].filter((n) => n > 1).sort((a, b) => a - b);
}

type Shown = ReadonlyMap<string, { readonly name: string; readonly text: string }>;

/** What the panel shows, as it is written, by instrument. */
export function shownBy({ panel }: Snapshot, scenario: Scenario, lex: Lexicon): Shown {
  return new Map(panel.readings.map((reading) => {
    const { id, name, value, unit } = readingText(reading, lex, decimalsOf(scenario, reading.id));
    const text = unit === '' ? value : t('unit.pair', { value, unit });
    return [id, { name, text }] as const;
  }));
}

/** A line for each instrument that shows something else than it did. */
export function changesOf(before: Shown, now: Shown): readonly string[] {
  return [...now].flatMap(([id, { name, text }]) => {
    const was = before.get(id)?.text;
    if (was === undefined || was === text) return [];
    return [upper(t('said.changed', { name, now: text, was }))];
  });
}
