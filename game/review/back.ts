// Back to a moment: the yard as it stood a little before, where hands do what they did; and out of
// it again, to the debrief.
import { Keeper } from '../attempts/keeper.ts';
import { Library } from '../attempts/library.ts';
import { Play } from '../play.ts';
import { Store } from '../records/store.ts';
import { Session } from '../session.ts';
import type { Captured, Stand } from './rerun.ts';

/** A session that stands there and repeats the rest of `session`. */
export function sessionAt(session: Session, stand: Stand): Session {
  const whole = session.record();
  const record = {
    ...whole,
    end_tick: stand.tick,
    commands: whole.commands.slice(0, stand.commands),
    checks: whole.checks.slice(0, stand.checks),
  };
  const facts = session.facts.slice(0, stand.facts);
  const saved = { record, state: stand.state, facts, pending: [], looks: [] };
  return Session.again(session.written, saved, whole.commands.slice(stand.commands));
}

export interface Where {
  readonly captured: Captured;
  readonly title: string;
  /** Id of what asked for it, where one finds oneself again. */
  readonly asker: string;
}

export function lookAgain(play: Play, { captured, title, asker }: Where): void {
  const { level, session } = play;
  const { wall, date } = play.options;
  const store = new Store();
  // Nothing is kept of it, so what would keep it is never asked.
  const keeper = new Keeper({ library: new Library({ locks: null, small: null }), store });
  const again = sessionAt(session, captured.before);
  const seed = session.seed;
  const looking = new Play({ level, mode: 'learn', seed, keeper, wall, date, again });
  play.back.value?.play.setShown(false);
  play.back.value = { play: looking, title, tick: captured.tick, asker };
  looking.enter();
}

export function lookAway(play: Play): void {
  play.back.value?.play.setShown(false);
  play.back.value = null;
}

/** A new attempt from where the one that is looked at stands. */
export function tryFromHere(play: Play): void {
  const back = play.back.value;
  if (back === null) return;
  back.play.setShown(false);
  play.branch(back.play.session);
}
