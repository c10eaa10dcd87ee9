// The front page: the jobs in their order as slips, each with what it is, how long it may take and
// how it went so far. The first one not passed yet stands out; before any was tried, the lesson.
import { clock } from '../i18n/format.ts';
import { OpenSlip } from '../assign/open-slip.tsx';
import { lexicon, t, type WordKey } from '../i18n/index.ts';
import { CheckSign, LoopMark, OnwardSign } from '../icons/icons.tsx';
import { attemptsAddress, jobAddress, timeText, type JobEntry } from '../jobs.ts';
import { pointsText } from '../verdict.ts';
import { SectionPicture } from './section.tsx';

function Best({ best, older }: JobEntry) {
  if (best === null) return <dd>{t('jobs.untried')}</dd>;
  return (
    <dd>
      {t('jobs.best_of', { points: pointsText(best.points) })}
      {' '}
      <span class="stamp" data-passed={best.passed}>
        {best.passed && <CheckSign />}
        {t(best.passed ? 'jobs.passed' : 'jobs.not_passed')}
      </span>
      {older && <span class="hint"> {t('jobs.older')}</span>}
    </dd>
  );
}

interface DrillsProps extends JobEntry { readonly search: string }

/** A whole day's phases, each a short job of its own. */
function Drills({ level, drills, search }: DrillsProps) {
  if (drills.length === 0) return null;
  const lex = lexicon(level.words);
  const passed = drills.filter(({ passed: one }) => one).length;
  return (
    <details class="job-drills">
      <summary>
        {t('jobs.drills')}
        <span class="hint"> {t('jobs.drills_passed', { n: passed, all: drills.length })}</span>
      </summary>
      <ol>
        {drills.map(({ id, phase, passed: done }) => (
          <li key={id}>
            <a href={jobAddress(id, search)}>
              {lex.say(`phase.${phase}`)}
              {done && <CheckSign />}
              {done && <span class="unseen">, {t('jobs.passed')}</span>}
            </a>
          </li>
        ))}
      </ol>
    </details>
  );
}

interface SlipProps {
  readonly entry: JobEntry;
  readonly at: number;
  readonly next: boolean;
  readonly search: string;
}

function JobCard({ entry, at, next, search }: SlipProps) {
  const { level, place_s } = entry;
  const lex = lexicon(level.words);
  return (
    <li class="slip job-card" data-next={next}>
      <p class="job-number" aria-hidden="true">{at + 1}</p>
      <div class="job-words">
        <p class="eyebrow">{lex.say('place')}</p>
        <h2>
          <a href={jobAddress(level.id, search)}>{lex.say('title')}</a>
        </h2>
        <p>{lex.say('summary')}</p>
      </div>
      <SectionPicture scenario={level.scenario} caption={false} />
      <dl class="job-facts">
        <div>
          <dt>{t('jobs.time')}</dt>
          <dd>{timeText(level.scenario)}</dd>
        </div>
        <div><dt>{t('jobs.best')}</dt><Best {...entry} /></div>
        {place_s !== null && place_s >= 1 && (
          <div><dt>{t('jobs.going')}</dt><dd>{clock(place_s)}</dd></div>
        )}
      </dl>
      <span class="job-go" aria-hidden="true"><OnwardSign /></span>
      <Drills {...entry} search={search} />
    </li>
  );
}

interface Props {
  readonly entries: readonly JobEntry[];
  readonly search: string;
  /** What was asked for in the address and is no job. */
  readonly unknown: string | null;
  /** What else went wrong with the address. */
  readonly notice: WordKey | null;
  /** True where the controls were gone through once. */
  readonly learnt: boolean;
}

export function Jobs({ entries, search, unknown, notice, learnt }: Props) {
  const next = entries.find(({ best }) => best?.passed !== true);
  const untried = ({ best, place_s }: JobEntry): boolean => best === null && place_s === null;
  const fresh = !learnt && entries.every(untried);
  return (
    <>
      <main class="jobs">
        <header class="jobs-head">
          <LoopMark size={64} />
          <div>
            <h1>{t('app.name')}</h1>
            <p class="summary">{t('jobs.summary')}</p>
          </div>
        </header>
        {unknown !== null && (
          <div class="notice" role="status"><p>{t('app.unknown_job', { job: unknown })}</p></div>
        )}
        {notice !== null && <div class="notice" role="status"><p>{t(notice)}</p></div>}
        <section class="slip lesson-card" data-next={fresh}>
          <div>
            <a href={jobAddress('controls', search)}>{t('lesson.name')}</a>
            <p class="hint">{t('lesson.summary')}</p>
          </div>
          {learnt && (
            <span class="stamp" data-passed="true"><CheckSign />{t('lesson.learnt')}</span>
          )}
          <span class="job-go" aria-hidden="true"><OnwardSign /></span>
        </section>
        <ol class="job-list" aria-label={t('jobs.list')}>
          {entries.map((entry, at) => (
            <JobCard
              key={entry.level.id} entry={entry} at={at} search={search}
              next={!fresh && entry === next}
            />
          ))}
        </ol>
        <OpenSlip />
        <nav class="actions" aria-label={t('jobs.more')}>
          <a class="button" href={attemptsAddress(search)}>{t('attempts.name')}</a>
          <a class="button" href="./instructor.html">{t('instructor.name')}</a>
        </nav>
        <p class="hint">{t('app.stays')}</p>
      </main>
      <footer class="foot">{t('app.aid')}</footer>
    </>
  );
}
