// The first page of a job: its slip, and the way to the yard. The drawing is not loaded for it.
import { AssignedLine } from '../assign/hand-in.tsx';
import { ModeChoice } from '../assign/mode.tsx';
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { Brand } from './brand.tsx';
import { JobText } from './job.tsx';
import { goToWork, JobSheetPart } from './jobsheet.tsx';
import { Notices } from './notices.tsx';
import { SectionPicture } from './section.tsx';

export function Front({ play }: { readonly play: Play }) {
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
            <p class="summary">{play.lex.say('summary')}</p>
          </div>
          <div class="front-go">
            <button type="button" class="primary" onClick={() => goToWork(play)}>
              {t('front.start')}
            </button>
          </div>
        </div>
        <SectionPicture scenario={play.level.scenario} />
        <JobText play={play} under="h1" />
        <JobSheetPart play={play} />
        <ModeChoice play={play} />
        <p class="hint stays">{t('app.stays')}</p>
      </article>
    </main>
  );
}
