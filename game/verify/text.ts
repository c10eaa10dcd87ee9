// A report's verdict in words: what of the file is not so, by its name on the page.
import { clock } from '../i18n/format.ts';
import { t, type WordKey } from '../i18n/index.ts';
import { levelOf } from '../assign/levels.ts';
import type { Difference, Report } from './report.ts';

/** Places in a file, by how their paths begin; the first that fits is its name. */
const PLACES: readonly (readonly [string, WordKey])[] = [
  ['marks.passed', 'verify.place_passed'],
  ['marks.total', 'verify.place_total'],
  ['marks.dimensions', 'verify.place_points'],
  ['marks.deductions', 'verify.place_lost'],
  ['marks.critical', 'verify.place_critical'],
  ['marks.milestones', 'verify.place_done'],
  ['marks.sheet', 'verify.place_sheet'],
  ['marks', 'verify.place_marks'],
  ['facts', 'verify.place_facts'],
  ['record.scenario', 'verify.place_job'],
  ['record.seed', 'verify.place_form'],
  ['mode', 'verify.place_mode'],
  ['nth', 'verify.place_nth'],
];

function placeText(path: string): string {
  const found = PLACES.find(([start]) => path.startsWith(start));
  return found === undefined ? path : t(found[1]);
}

/** Numbers, yes and no; of words of the file, and of whole parts of it, nothing is repeated. */
function valueText(value: string): string | null {
  if (value === 'true') return t('verify.true');
  if (value === 'false') return t('verify.false');
  return value !== '' && Number.isFinite(Number(value)) ? value : null;
}

/** Where, and what there, as far as a reader can do something with it. */
function differenceText({ path, file, found }: Difference, values: WordKey): string {
  const [place, theirs, ours] = [placeText(path), valueText(file), valueText(found)];
  if (theirs === null || ours === null) return place;
  return t(values, { place, file: theirs, found: ours });
}

export function reportText({ verdict, difference, claims }: Report): string {
  const { path, file, found } = difference ?? { path: '', file: '', found: '' };
  const asked = verdict === 'ticket_differs' ? 'verify.values_asked' : 'verify.values';
  const what = differenceText({ path, file, found }, asked);
  switch (verdict) {
    case 'replays': return t('verify.replays');
    case 'marks_differ': return t('verify.marks_differ', { what });
    case 'facts_differ': return t('verify.facts_differ', { what });
    case 'ticket_differs': return t('verify.ticket_differs', { what });
    case 'diverged': return t('verify.diverged', { time: timeOf(path, claims?.job ?? '') });
    case 'other_build': return t('verify.other_build', { file, found });
    case 'unknown_job': return t('verify.unknown_job', { job: claims?.job ?? '?' });
    case 'not_attempt': return t('verify.not_attempt', { path, found });
    case 'unreadable': return t('verify.unreadable');
  }
}

/** "tick 400" on the job's clock. */
function timeOf(path: string, job: string): string {
  const tick = Number(/\d+/.exec(path)?.[0] ?? 0);
  return clock(tick * (levelOf(job)?.scenario.solver.tick_s ?? 0.1));
}
