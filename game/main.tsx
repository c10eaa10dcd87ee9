// Boots the page: reads the address, finds the job and what was kept of it, and puts the parts
// together. The drawing comes in a piece of its own, fetched when the yard is first shown.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './styles/base.css';
import './styles/yard.css';
import './styles/stage.css';
import './styles/slips.css';
import './styles/handles.css';
import './styles/said.css';
import './styles/text.css';
import './styles/debrief.css';
import './styles/phone.css';
import './styles/print.css';
import { render } from 'preact';
import { levelById, LEVELS, type Level } from '../levels/index.ts';
import { figure, setLocale } from './i18n/format.ts';
import { isWord, lexicon, t } from './i18n/index.ts';
import type { Wall } from './loop.ts';
import { App } from './panels/app.tsx';
import { Play, type Yard } from './play.ts';
import { judge } from './records/resume.ts';
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

function askedLevel(): Level | null {
  const id = address.get('job');
  return id === null ? LEVELS[0] ?? null : levelById(id.replaceAll('-', '_'));
}

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

async function boot(): Promise<void> {
  setLocale(document.documentElement.lang);
  const level = askedLevel();
  if (level === null) {
    root.textContent = t('app.unknown_job', { job: address.get('job') ?? '' });
    return;
  }
  const store = new Store();
  const date = () => new Date();
  const play = new Play({ level, mode: 'learn', seed: askedSeed(), store, wall, date });
  document.title = t('app.title', { job: play.lex.say('title') });
  const found = judge(level, await store.load(level.id));
  play.trouble.value = store.trouble;
  if (found.kind === 'resumed') play.takeUp(found.session, found.speed, found.began);
  else if (found.kind === 'old') play.greeting.value = { kind: 'old', kept: found.kept };
  else if (found.kind === 'damaged') play.greeting.value = { kind: 'damaged' };
  document.addEventListener('visibilitychange', () => play.setShown(!document.hidden));
  render(
    <App
      play={play}
      layoutFor={(shape) => layoutYard(level.scenario, level.drawing as Drawing, shape)}
      mount={(parent, layout) => mountYard(level, parent, layout)}
    />,
    root,
  );
}

void boot();
