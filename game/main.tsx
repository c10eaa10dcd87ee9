// Boots the page: without a job in the address the list of jobs; else finds the job and what was
// kept of it, and puts the parts together. The drawing comes in a piece of its own, fetched when
// the yard is first shown.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './styles/base.css';
import './styles/yard.css';
import './styles/stage.css';
import './styles/kit.css';
import './styles/slips.css';
import './styles/handles.css';
import './styles/said.css';
import './styles/text.css';
import './styles/debrief.css';
import './styles/done.css';
import './styles/jobs.css';
import './styles/lesson.css';
import './styles/phone.css';
import './styles/print.css';
import { render } from 'preact';
import { CONTROLS, LEVELS, type Level } from '../levels/index.ts';
import { ENGINE, scenarioHash } from '../sim/index.ts';
import { figure, setLocale } from './i18n/format.ts';
import { isWord, lexicon, t } from './i18n/index.ts';
import { drillsOf, jobOf, type JobEntry } from './jobs.ts';
import { Lesson } from './lesson.ts';
import type { Wall } from './loop.ts';
import { App } from './panels/app.tsx';
import { Jobs } from './panels/jobs.tsx';
import { Play, type Yard } from './play.ts';
import { sameJob } from './records/best.ts';
import { judge, placeOf } from './records/resume.ts';
import { Store } from './records/store.ts';
import { layoutYard, type Drawing, type YardLayout } from './yard/layout.ts';
import yardWords from './yard/words.en.json';

const FONT = 'Atkinson Hyperlegible Next Variable';
const SEED = 1;

const address = new URLSearchParams(location.search);
const root = document.getElementById('app')!;

const wall: Wall = {
  now: () => performance.now(),
  request: (frame) => requestAnimationFrame(frame),
  cancel: (id) => cancelAnimationFrame(id),
};

function askedSeed(): number {
  const seed = Number(address.get('seed') ?? SEED);
  return Number.isInteger(seed) && seed >= 0 && seed <= 0xffffffff ? seed : SEED;
}

/** Words the drawing asks for: its own, the level's, then the pages'. */
function wordsFor(level: Level): (key: string) => string {
  const lex = lexicon({ ...level.words, ...yardWords });
  return (key) => (!lex.has(key) && isWord(key) ? t(key) : lex.say(key));
}

async function mountYard(level: Level, parent: HTMLElement, layout: YardLayout): Promise<Yard> {
  const [scene] = await Promise.all([
    import('./scenes/yard.ts'),
    document.fonts.load(`500 20px "${FONT}"`),
  ]);
  return scene.mountYard(parent, layout, {
    words: wordsFor(level),
    reducedMotion: window.matchMedia('(prefers-reduced-motion: reduce)').matches,
    antialias: address.get('aa') !== '0',
    number: (value) => figure(value, 2),
  });
}

async function passedDrills(level: Level, store: Store): Promise<Set<string>> {
  const passed = new Set<string>();
  for (const { id } of drillsOf(level, passed)) {
    if ((await store.best(id))?.passed === true) passed.add(id);
  }
  return passed;
}

async function entryOf(level: Level, store: Store): Promise<JobEntry> {
  const best = await store.best(level.id);
  const place_s = placeOf(level, await store.load(level.id));
  const version = { engine: ENGINE, scenario_hash: scenarioHash(level.scenario) };
  const drills = drillsOf(level, await passedDrills(level, store));
  return { level, best, older: best !== null && !sameJob(best, version), place_s, drills };
}

async function listJobs(unknown: string | null): Promise<void> {
  const store = new Store();
  document.title = t('app.name');
  const show = async (): Promise<void> => {
    const entries = await Promise.all(LEVELS.map((level) => entryOf(level, store)));
    const learnt = await store.learnt();
    const { search } = location;
    render(<Jobs entries={entries} search={search} unknown={unknown} learnt={learnt} />, root);
  };
  await show();
  // A page that comes back by the browser's own button is as old as when it was left.
  window.addEventListener('pageshow', (event) => { if (event.persisted) void show(); });
}

const date = () => new Date();

/** The controls are learnt afresh each time: nothing is gone on with. */
function openLesson(): void {
  const store = new Store();
  const lesson = new Lesson();
  const play = new Play({ level: CONTROLS, mode: 'learn', seed: SEED, store, wall, date, lesson });
  document.title = t('app.title', { job: play.title });
  show(play);
  play.enter();
}

async function openJob(level: Level): Promise<void> {
  const store = new Store();
  const play = new Play({ level, mode: 'learn', seed: askedSeed(), store, wall, date });
  document.title = t('app.title', { job: play.title });
  const found = judge(level, await store.load(level.id));
  play.trouble.value = store.trouble;
  if (found.kind === 'resumed') play.takeUp(found.session, found.speed, found.began);
  else if (found.kind === 'old') play.greeting.value = { kind: 'old', kept: found.kept };
  else if (found.kind === 'damaged') play.greeting.value = { kind: 'damaged' };
  show(play);
}

function show(play: Play): void {
  const { level } = play;
  document.addEventListener('visibilitychange', () => play.setShown(!document.hidden));
  render(
    <App
      play={play}
      layoutFor={(shape) =>
        layoutYard(level.scenario, level.drawing as Drawing, shape, wordsFor(level))}
      mount={(parent, layout) => mountYard(level, parent, layout)}
    />,
    root,
  );
}

setLocale(document.documentElement.lang);
const asked = address.get('job');
const level = asked === null ? null : jobOf(asked);
if (asked === CONTROLS.id) openLesson();
else void (level === null ? listJobs(asked) : openJob(level));
