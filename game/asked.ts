// What goes with a command before hands get it: whose hands they are, and the caution that a
// control asks for.
import type { Lexicon } from './i18n/index.ts';
import type { Command } from '../sim/index.ts';
import { controlOf } from './session.ts';

/** Said once, when a control of this kind is first used; `id` null stands for any. */
const CAUTIONS = [
  { kind: 'valve', id: 'fill_valve', key: 'caution.backflow' },
  { kind: 'valve', id: 'prime_valve', key: 'caution.backflow' },
  { kind: 'switch', id: null, key: 'caution.electricity' },
  { kind: 'coupling', id: null, key: 'caution.coupling' },
] as const;

function cautionOf(command: Command): string | null {
  const id = controlOf(command);
  const found = CAUTIONS.find(
    (one) => one.kind === command.kind && (one.id === null || one.id === id),
  );
  return found?.key ?? null;
}

/** Each caution is given once. */
export class Cautions {
  private readonly given = new Set<string>();

  /** The key of the caution for a command; null where there is none, or none any more. */
  next(command: Command, lex: Lexicon): string | null {
    const key = cautionOf(command);
    if (key === null || this.given.has(key) || !lex.has(key)) return null;
    this.given.add(key);
    return key;
  }
}

/** The same by a helper's hands, which can do what one's own can but tap and write. */
export function byHelper(command: Command): Command {
  switch (command.kind) {
    case 'valve':
    case 'switch':
    case 'coupling':
    case 'mark':
    case 'set':
    case 'stroke':
      return { ...command, by: 'helper' };
    default:
      return command;
  }
}
