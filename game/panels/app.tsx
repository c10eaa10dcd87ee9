// The page: which of the three views is shown, and what frames them all.
import { useEffect, useLayoutEffect, useRef, useState } from 'preact/hooks';
import type { Score } from '../../sim/index.ts';
import { t } from '../i18n/index.ts';
import { LensSign } from '../icons/icons.tsx';
import { endReview } from '../review/review.ts';
import type { Play, Yard } from '../play.ts';
import type { Shape, YardLayout } from '../yard/layout.ts';
import { BrandMark } from './brand.tsx';
import { Clock } from './clock.tsx';
import { Controls, Hands } from './controls.tsx';
import { Debrief } from './debrief.tsx';
import { Done } from './done.tsx';
import { Front } from './front.tsx';
import { JobSlip } from './job.tsx';
import { JobSheetNotice, JobSheetSlip } from './jobsheet.tsx';
import { Keys } from './keys.tsx';
import { Kit } from './kit.tsx';
import { LessonEnd, LessonSlip } from './lesson.tsx';
import { LookBar } from './look.tsx';
import { Notices } from './notices.tsx';
import { Places, useDrawingSeen } from './places.tsx';
import { RatingPage } from './rating.tsx';
import { Readings } from './readings.tsx';
import { Announcer, Captions, Log } from './said.tsx';
import { Sheet } from './sheet.tsx';
import { unfold } from './slip.tsx';
import { Stage } from './stage.tsx';

export interface AppProps {
  readonly play: Play;
  readonly layoutFor: (shape: Shape) => YardLayout;
  readonly mount: (parent: HTMLElement, layout: YardLayout) => Promise<Yard>;
}

/** Below this the wide drawing's controls would be too small for fingers. */
const WIDE = '(min-width: 1174px)';
/** With more readings than this in a row, what stands under them takes two lines. */
const ROW_EASY = 6;

function useShape(): Shape {
  const [wide, setWide] = useState(() => window.matchMedia(WIDE).matches);
  useEffect(() => {
    const query = window.matchMedia(WIDE);
    const change = () => setWide(query.matches);
    query.addEventListener('change', change);
    return () => query.removeEventListener('change', change);
  }, []);
  return wide ? 'wide' : 'tall';
}

function Lens({ play }: { readonly play: Play }) {
  if (!play.session.mayLook) return null;
  const on = play.looking.value;
  return (
    <button
      type="button" class="lens" aria-pressed={on} title={t('lens.hint')}
      onClick={() => play.look(!on)}
    >
      <LensSign /> {t('lens.name')}
    </button>
  );
}

/** The way to a slip; one that is folded opens. */
function To({ id, name }: { readonly id: string; readonly name: string }) {
  return <a class={`to-${id}`} href={`#${id}`} onClick={() => unfold(id)}>{name}</a>;
}

/** Tells the style sheet how high what stays in sight is: `--head-now`, `--bar`, `--dock`. */
function useHeight<T extends HTMLElement>(name: string) {
  const bar = useRef<T>(null);
  useLayoutEffect(() => {
    const one = bar.current;
    if (one === null) return undefined;
    const watch = new ResizeObserver(() => {
      document.documentElement.style.setProperty(name, `${one.offsetHeight}px`);
    });
    watch.observe(one);
    return () => watch.disconnect();
  }, [name]);
  return bar;
}

function Head({ play }: { readonly play: Play }) {
  const head = useHeight<HTMLElement>('--head-now');
  return (
    <header class="head" ref={head}>
      <div class="title">
        <BrandMark />
        <h1>{play.title}</h1>
        {!play.session.repeats && <nav aria-label={t('app.parts')}>
          <a class="to-drawing" href="#drawing">{t('app.drawing')}</a>
          {play.lesson === null && <To id="job" name={t('job.sheet')} />}
          <To id="controls" name={t('controls.name')} />
          {play.lines.length > 0 && <To id="record" name={t('sheet.name')} />}
          <To id="keys" name={t('keys.name')} />
        </nav>}
      </div>
      <Clock play={play} />
      <div class="tools">
        <Lens play={play} />
        {!play.session.repeats && <Done play={play} />}
      </div>
    </header>
  );
}

/** What hands can do, and what is read beside the work; of what is over only what was said. */
function Slips({ play }: { readonly play: Play }) {
  if (play.session.repeats) return <div class="slips"><Log play={play} /></div>;
  return (
    <div class="slips">
      <div class="side works">
        <Kit play={play} />
        <Controls play={play} />
      </div>
      {play.lesson === null && <JobSlip play={play} />}
      <div class="side">
        <JobSheetSlip play={play} />
        <Sheet play={play} />
        <Log play={play} />
        <Keys play={play} />
      </div>
    </div>
  );
}

interface YardProps extends AppProps {
  /** The debrief that looks back at this yard. */
  readonly looker?: Play;
}

function YardPage({ play, layoutFor, mount, looker }: YardProps) {
  const shape = useShape();
  const bar = useHeight<HTMLDivElement>('--bar');
  const dock = useHeight<HTMLDivElement>('--dock');
  const top = useRef<HTMLDivElement>(null);
  const many = play.seen.value.panel.readings.length > ROW_EASY;
  const [layouts] = useState(() => new Map<Shape, YardLayout>());
  const layout = layouts.get(shape) ?? layoutFor(shape);
  layouts.set(shape, layout);
  const seen = useDrawingSeen();
  return (
    <div
      class="yard" data-shape={shape} data-many={many} data-drawing={seen.value ? 'in' : 'out'}
    >
      {looker === undefined && (
        <a class="skip" href="#controls">{t('app.skip_controls')}</a>
      )}
      <Head play={play} />
      <main>
        {looker === undefined ? <Notices play={play} /> : <LookBar play={looker} />}
        {looker === undefined && <JobSheetNotice play={play} />}
        <div class="sheet-top" ref={top} />
        <div class="board">
          <div class="sheet" id="drawing" style={{ '--ratio': layout.width / layout.height }}>
            <Stage play={play} layout={layout} mount={mount} />
            <Captions play={play} />
          </div>
          <div class="bar" ref={bar}>
            <Readings play={play} />
            <div class="dock" ref={dock}>
              <Hands play={play} />
              <Places layout={layout} top={top} />
            </div>
          </div>
        </div>
        <Slips play={play} />
      </main>
    </div>
  );
}

export function App(props: AppProps) {
  const { play } = props;
  const { lesson } = play;
  const view = play.view.value;
  const score = play.score.value;
  const back = play.back.value;
  const rating = play.rating.value;
  const asker = useRef<string | null>(null);
  useEffect(() => {
    window.scrollTo(0, 0);
    if (view !== 'debrief') endReview();
  }, [view, rating]);
  useEffect(() => {
    if (back !== null) window.scrollTo(0, 0);
    else if (asker.current !== null) document.getElementById(asker.current)?.focus();
    asker.current = back?.asker ?? null;
  }, [back]);
  return (
    <>
      {view === 'front' && <Front play={play} />}
      {view === 'yard' && <YardPage key={play.form.value} {...props} />}
      {view === 'yard' && lesson !== null && <LessonSlip play={play} lesson={lesson} />}
      {view === 'debrief' && lesson !== null && <LessonEnd play={play} lesson={lesson} />}
      {view === 'debrief' && lesson === null && score !== null && (
        <AfterWork {...props} score={score} />
      )}
      <footer class="foot">{t('app.aid')}</footer>
      <Announcer play={back?.play ?? play} />
    </>
  );
}

/** One's own rating first, then the marks; or the yard at a moment that is looked at again. */
function AfterWork({ score, ...props }: AppProps & { readonly score: Score }) {
  const { play } = props;
  const back = play.back.value;
  if (back !== null) {
    return <YardPage key={back.play} {...props} play={back.play} looker={play} />;
  }
  if (play.rating.value) return <RatingPage play={play} score={score} />;
  return <Debrief play={play} score={score} />;
}
