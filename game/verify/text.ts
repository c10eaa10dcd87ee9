// A report's verdict in words.
import { clock } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { levelOf } from '../assign/levels.ts';
import type { Report } from './report.ts';

export function reportText({ verdict, difference, claims }: Report): string {
  const { path, file, found } = difference ?? { path: '', file: '', found: '' };
  switch (verdict) {
    case 'replays': return t('verify.replays');
    case 'marks_differ': return t('verify.marks_differ', { path, file, found });
    case 'facts_differ': return t('verify.facts_differ', { path, file, found });
    case 'ticket_differs': return t('verify.ticket_differs', { path, file, found });
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
