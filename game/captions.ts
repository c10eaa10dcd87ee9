// What is said of what happens: facts and changes of the pump's note as short lines. Every sound
// that tells something has its line here, so that nobody needs ears for it.
import type { EventKind, Note, Reading, Snapshot } from '../sim/index.ts';
import { t, upper, type Lexicon } from './i18n/index.ts';
import type { Told } from './session.ts';
import { milliIn, writtenText, type Line } from './sheet.ts';

/**
 * `critical` interrupts, `warning` and `event` are said politely, `sound` is a caption; `report`
 * stays until it was read.
 */
export const TONES = ['sound', 'event', 'warning', 'critical', 'caution', 'report'] as const;
export type Tone = (typeof TONES)[number];

export interface Caption {
  /** Newest of a kind replaces older ones that have not been said yet. */
  readonly key: string;
  readonly tone: Tone;
  readonly text: string;
  /** What belongs to it, a line each. */
  readonly rows?: readonly string[];
  readonly tick: number;
}

/** The line for a fact; null for those that only confirm what was asked. */
export function captionOf(
  fact: Told,
  lex: Lexicon,
  critical: readonly string[],
  lines: readonly Line[] = [],
): Caption | null {
  const { tick } = fact;
  switch (fact.kind) {
    case 'hazard': {
      const { hazard, at, stage } = fact;
      const text = upper(lex.say(`hazard.${hazard}.${stage}`, { part: lex.part(at) }));
      const worst = stage === 'tripped' && critical.includes(hazard);
      const tone = worst ? 'critical' : stage === 'ended' ? 'event' : 'warning';
      return { key: `${hazard}.${at}`, tone, text, tick };
    }
    case 'event': {
      const text = upper(lex.say(`event.${fact.event}`, { part: lex.part(fact.at) }));
      return { key: `event.${fact.at}`, tone: 'event', text, tick };
    }
    case 'refused':
      return { key: 'refused', tone: 'warning', text: lex.say(`refused.${fact.reason}`), tick };
    case 'held': {
      const text = upper(lex.say(`held.${fact.why}`, { part: lex.part(fact.control) }));
      return { key: 'refused', tone: 'warning', text, tick };
    }
    case 'noted': {
      const line = lines.find(({ id }) => id === fact.entry);
      if (line === undefined) return null;
      const value = writtenText(line, milliIn(line, fact.value));
      const text = t('said.noted', { part: lex.part(line.id), value });
      return { key: `noted.${line.id}`, tone: 'event', text, tick };
    }
    case 'left':
      return { key: 'away', tone: 'event', text: t('said.left', { hours: fact.hours }), tick };
    case 'back':
      return { key: 'away', tone: 'event', text: t('said.back'), tick };
    case 'done':
      return fact.asked ? null : { key: 'done', tone: 'critical', text: t('said.time_over'), tick };
    case 'beyond': // The debrief says it: hands can do nothing about it.
    case 'command':
    case 'answered':
    case 'loop_air': // What was there when the proof was read: the debrief says it.
    case 'reached': // No gauge shows it: the debrief does.
    case 'moved':
      return null;
  }
}

type NoteReading = Extract<Reading, { kind: 'note' }>;

/** The first pump note of a panel; null where nobody listens to a pump. */
export function noteOf(snapshot: Snapshot): Note | null {
  const found = snapshot.panel.readings.find((r): r is NoteReading => r.kind === 'note');
  return found?.value ?? null;
}

/** The line for a pump note that has just changed. */
export function heardOf(note: Note, tick: number): Caption {
  return { key: 'note', tone: 'sound', text: upper(t(`heard.${note}`)), tick };
}

/** What one has to see in real time, because hands are wanted. */
const SLOWING: ReadonlySet<EventKind> = new Set<EventKind>([
  'lost_prime', 'tank_empty', 'breaker_tripped', 'ground_fault_tripped', 'motor_cut_out',
]);

/** Whether the clock should come back to real time, or stand, for what has just happened. */
export function brake(fact: Told, critical: readonly string[]): 'none' | 'slow' | 'freeze' {
  if (fact.kind === 'hazard') {
    if (fact.stage === 'ended') return 'none';
    return fact.stage === 'tripped' && critical.includes(fact.hazard) ? 'freeze' : 'slow';
  }
  if (fact.kind === 'back') return 'slow';
  if (fact.kind === 'event') {
    return SLOWING.has(fact.event) ? 'slow' : 'none';
  }
  return 'none';
}
