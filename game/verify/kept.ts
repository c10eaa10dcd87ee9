// An attempt from a file as one of this device's own: with the state that its new run ended in.
import { saveState } from '../../sim/index.ts';
import type { Kept } from '../attempts/entry.ts';
import { isRating } from '../review/rating.ts';
import type { Checked } from './verify.ts';

/** Null where it could not be run, or is an assessment that is not over: that has no going back. */
export function keptOf({ report, attempt, again }: Checked): Kept | null {
  if (attempt === null || again === null || report.rerun === null) return null;
  const mode = attempt.mode ?? 'learn';
  if (mode === 'assess' && !report.rerun.finished) return null;
  const { record, wall_clock, looks = [], away = [], rating = null, branch = null } = attempt;
  const { began, ended } = wall_clock ?? { began: new Date(0).toISOString(), ended: undefined };
  const state = saveState(again.world);
  const saved = { record, state, facts: again.facts, pending: [], looks };
  return {
    format: 1, mode, saved, speed: 1, began, away, ...(isRating(rating) ? { rating } : {}),
    ...(branch === null ? {} : { branch }), ...(ended === undefined ? {} : { at: ended }),
  };
}
