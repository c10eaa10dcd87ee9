// The slip that says what to try next while the controls are learnt, and what is said at the end.
import { useEffect } from 'preact/hooks';
import { t } from '../i18n/index.ts';
import { CheckSign, OnwardSign } from '../icons/icons.tsx';
import { listAddress } from '../jobs.ts';
import { TASKS, type Lesson, type Task, type Where } from '../lesson.ts';
import type { Play } from '../play.ts';
import { Brand } from './brand.tsx';

const TEXT: Readonly<Record<Task, { readonly what: () => string; readonly how: () => string }>> = {
  handle: { what: () => t('lesson.handle'), how: () => t('lesson.handle_how') },
  row: { what: () => t('lesson.row'), how: () => t('lesson.row_how') },
  gauge: { what: () => t('lesson.gauge'), how: () => t('lesson.gauge_how') },
  freeze: { what: () => t('lesson.freeze'), how: () => t('lesson.freeze_how') },
  faster: { what: () => t('lesson.faster'), how: () => t('lesson.faster_how') },
  lens: { what: () => t('lesson.lens'), how: () => t('lesson.lens_how') },
  note: { what: () => t('lesson.note'), how: () => t('lesson.note_how') },
  helper: { what: () => t('lesson.helper'), how: () => t('lesson.helper_how') },
  undo: { what: () => t('lesson.undo'), how: () => t('lesson.undo_how') },
  done: { what: () => t('lesson.done'), how: () => t('lesson.done_how') },
};

function whereOf(target: EventTarget | null): Where {
  if (!(target instanceof Element)) return 'elsewhere';
  if (target.closest('.stage') !== null) return 'drawing';
  return target.closest('#controls') !== null ? 'list' : 'elsewhere';
}

interface Props { readonly play: Play; readonly lesson: Lesson }

export function LessonSlip({ lesson }: Props) {
  useEffect(() => {
    const mark = (event: Event) => { lesson.where = whereOf(event.target); };
    const kinds = ['pointerdown', 'keydown', 'click'] as const;
    for (const kind of kinds) document.addEventListener(kind, mark, { capture: true });
    return () => {
      for (const kind of kinds) document.removeEventListener(kind, mark, { capture: true });
    };
  }, [lesson]);
  const at = lesson.at.value;
  const task = TASKS[at];
  return (
    <aside class="slip lesson" aria-label={t('lesson.name')}>
      <div class="lesson-head">
        <p class="eyebrow">
          {t('lesson.of', { n: Math.min(at + 1, TASKS.length), all: TASKS.length })}
        </p>
        <span class="lesson-dots" aria-hidden="true">
          {TASKS.map((one, k) => (
            <i key={one} data-at={k === at} data-done={lesson.ticked.value.has(one)} />
          ))}
        </span>
      </div>
      <div role="status">
        {task === undefined
          ? <p class="lesson-what">{t('lesson.through')}</p>
          : (
              <>
                <p class="lesson-what">{TEXT[task].what()}</p>
                <p class="hint">{TEXT[task].how()}</p>
              </>
            )}
      </div>
      <div class="lesson-tools">
        {task !== undefined && (
          <button type="button" onClick={() => lesson.skip()}>{t('lesson.skip')}</button>
        )}
        <a href={listAddress(location.search)}>{t('lesson.leave')}</a>
      </div>
    </aside>
  );
}

/** In place of a debrief: what was tried and what was left out. */
export function LessonEnd({ play, lesson }: Props) {
  return (
    <main class="front">
      <Brand />
      <article class="slip front-slip lesson-end">
        <h1>{t(lesson.all ? 'lesson.end' : 'lesson.end_some')}</h1>
        <p class="summary">{t('lesson.end_then')}</p>
        <ul>
          {TASKS.map((task) => {
            const done = lesson.ticked.value.has(task);
            return (
              <li key={task} data-done={done}>
                {done ? <CheckSign /> : <span aria-hidden="true">–</span>}
                <span>{TEXT[task].what()}</span>
                {!done && <span class="hint"> {t('lesson.left_out')}</span>}
              </li>
            );
          })}
        </ul>
        <p class="lesson-tools">
          <a class="primary" href={listAddress(location.search)}>
            {t('jobs.all')} <OnwardSign />
          </a>
          <button type="button" onClick={() => play.again()}>{t('lesson.again')}</button>
        </p>
      </article>
    </main>
  );
}
