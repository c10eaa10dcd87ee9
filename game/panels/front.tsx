// The first page of a job: its slip, and the way to the yard. The drawing is not loaded for it.
import { useSignal } from '@preact/signals';
import { AssignedLine } from '../assign/hand-in.tsx';
import { ModeChoice, ModeNow } from '../assign/mode.tsx';
import { t } from '../i18n/index.ts';
import { summaryOf } from '../jobs.ts';
import type { Play } from '../play.ts';
import { Brand } from './brand.tsx';
import { FormChoice } from './form.tsx';
import { JobText } from './job.tsx';
import { goToWork, JobSheetPart } from './jobsheet.tsx';
import { Notices } from './notices.tsx';
import { SectionPicture } from './section.tsx';

export function Front({ play }: { readonly play: Play }) {
  const chosen = useSignal(play.session.mode);
  return (
    <main class="front">
      <Brand />
      <Notices play={play} />
      <AssignedLine play={play} />
      <article class="slip front-slip">
        <div class="front-head">
          <div>
            <p class="eyebrow">{play.lex.say('place')}</p>
            <h1>{play.title}</h1>
            <p class="summary">{summaryOf(play.level, play.lex)}</p>
          </div>
          <div class="front-go">
            <button type="button" class="primary" onClick={() => goToWork(play)}>
              {t('front.start')}
            </button>
            <ModeNow play={play} chosen={chosen} />
          </div>
        </div>
        <SectionPicture scenario={play.level.scenario} />
        <JobText key={play.form.value} play={play} under="h1" />
        <JobSheetPart key={`sheet ${play.form.value}`} play={play} />
        <FormChoice play={play} />
        <ModeChoice play={play} chosen={chosen} />
        <p class="hint stays">{t('app.stays')}</p>
      </article>
    </main>
  );
}
