// Which attempt a page goes on with: the newest of its job or assignment, or one that was picked.
import type { Level } from '../../levels/index.ts';
import { seedOf } from '../assign/ticket.ts';
import { taken, type Taken } from '../assign/taken.ts';
import type { Store } from '../records/store.ts';
import type { Mode } from '../session.ts';
import { draftKey, type Draft } from './draft.ts';
import type { Assigned, Entry } from './entry.ts';
import { Keeper } from './keeper.ts';
import type { Library } from './library.ts';
import { freeAttempts, judgeAll, type Found } from './resume.ts';

export interface Wish {
  readonly level: Level;
  /** For a new attempt without an assignment. */
  readonly mode: Mode;
  readonly seed: number;
  /** True where that seed was asked for, whatever was chosen before. */
  readonly bound?: boolean;
  readonly taken: Taken | null;
  /** One picked from the list; null for the newest. */
  readonly entry: Entry | null;
}

export type Opening =
  | { readonly kind: 'elsewhere'; readonly entry: Entry }
  | {
      readonly kind: 'here';
      readonly keeper: Keeper;
      readonly found: Found;
      readonly mode: Mode;
      readonly seed: number;
      /** What was being typed when the page was last closed. */
      readonly draft: Draft | null;
    };

/** The attempts of an assignment by this trainee, newest first. */
export function assignedAttempts(all: readonly Entry[], ticket: string): readonly Entry[] {
  return all.filter((one) => !one.imported && taken(one.assigned)?.ticket.id === ticket);
}

function newest(all: readonly Entry[], wish: Wish): Entry | null {
  if (wish.entry !== null) return wish.entry;
  const own = wish.taken === null ? freeAttempts(all, wish.level.id)
    : assignedAttempts(all, wish.taken.ticket.id);
  return own[0] ?? null;
}

/** How many attempts at an assignment were begun here, even where some have been deleted since. */
export function begunOf({ ticket, begun }: Taken, all: readonly Entry[]): number {
  const counted = assignedAttempts(all, ticket.id).map((one) => one.assigned?.nth ?? 0);
  return Math.max(begun, ...counted);
}

/** With `steal` an attempt that is open elsewhere is taken over. */
export async function openingOf(
  library: Library,
  store: Store,
  wish: Wish,
  steal: boolean,
): Promise<Opening> {
  const all = await library.list();
  const entry = newest(all, wish);
  if (entry === null) {
    const assigned = wish.taken === null ? null : first(wish.taken, all);
    const keeper = new Keeper({ library, store, assigned });
    const draft = await library.draft(draftKey(wish.level.id, assigned));
    const { mode, seed } = assigned === null ? chosenIn(draft, wish, wish.bound)
      : { mode: assigned.ticket.mode, seed: seedOf(assigned.ticket, assigned.label, assigned.nth) };
    return { kind: 'here', keeper, found: { kind: 'none' }, mode, seed, draft };
  }
  const tail = library.tails.read(entry); // Of its last owner; from the claim on that is this tab.
  if (!entry.finished && (await library.claim(entry.id, steal)) === 'elsewhere') {
    return { kind: 'elsewhere', entry };
  }
  const keeper = new Keeper({ library, store });
  const found = judgeAll(wish.level, await library.saves(entry.id), tail);
  if (found.kind === 'resumed') keeper.adopt(entry);
  else if (entry.assigned !== null) keeper.follow(entry.assigned);
  const draft = await library.draft(draftKey(wish.level.id, keeper.assigned));
  const bound = found.kind === 'resumed' || keeper.assigned !== null;
  const { mode, seed } = bound ? entry : chosenIn(draft, entry, wish.bound);
  return { kind: 'here', keeper, found, mode, seed, draft };
}

type Chosen = Pick<Wish, 'mode' | 'seed'>;

/** What was chosen on the job's first page before it was closed; if `bound`, in that form. */
function chosenIn(draft: Draft | null, wish: Chosen, bound = false): Chosen {
  return draft?.attempt === null && !(bound && wish.seed !== draft.seed) ? draft : wish;
}

function first(of: Taken, all: readonly Entry[]): Assigned {
  return { ticket: of.ticket, label: of.label, nth: begunOf(of, all) + 1 };
}
