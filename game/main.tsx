// Boots the page: by its address the list of jobs, a job, an assignment, one attempt or the list of
// attempts; and puts the parts of a job together. The drawing comes in a piece of its own, fetched
// when the yard is first shown.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import './styles/base.css';
import './styles/yard.css';
import './styles/stage.css';
import './styles/kit.css';
import './styles/slips.css';
import './styles/handles.css';
import './styles/said.css';
import './styles/text.css';
import './styles/brief.css';
import './styles/debrief.css';
import './styles/done.css';
import './styles/review.css';
import './styles/charts.css';
import './styles/jobs.css';
import './styles/attempts.css';
import './styles/jobsheet.css';
import './styles/lesson.css';
import './styles/phone.css';
import './styles/places.css';
import './styles/print.css';
import { render } from 'preact';
import { CONTROLS, LEVELS, type Level } from '../levels/index.ts';
import { ENGINE, scenarioHash } from '../sim/index.ts';
import { levelOf } from './assign/levels.ts';
import { AssignmentPage } from './assign/page.tsx';
import { taken, type Taken } from './assign/taken.ts';
import { packedIn, unpackTicket, type Ticket } from './assign/ticket.ts';
import { Elsewhere } from './attempts/elsewhere.tsx';
import type { Entry } from './attempts/entry.ts';
import { Library } from './attempts/library.ts';
import { begunOf, assignedAttempts, openingOf, type Opening, type Wish } from './attempts/open.ts';
import { Keeper } from './attempts/keeper.ts';
import { AttemptsPage } from './attempts/page.tsx';
import { freeAttempts, placeOf } from './attempts/resume.ts';
import { figure, setLocale } from './i18n/format.ts';
import { isWord, lexicon, t, type WordKey } from './i18n/index.ts';
import { assignmentAddress, drillsOf, jobAddress, jobOf, type JobEntry } from './jobs.ts';
import { Lesson } from './lesson.ts';
import { App } from './panels/app.tsx';
import { Jobs } from './panels/jobs.tsx';
import { Play, type Yard } from './play.ts';
import { sameJob } from './records/best.ts';
import { Store } from './records/store.ts';
import { pictureEvery_s, wallOf } from './wall.ts';
import { layoutYard, type Drawing, type YardLayout } from './yard/layout.ts';
import yardWords from './yard/words.en.json';

const FONT = 'Atkinson Hyperlegible Next Variable';
const SEED = 1;

const address = new URLSearchParams(location.search);
const root = document.getElementById('app')!;
const library = new Library();
const store = new Store();

const wall = wallOf(address);

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
    least_s: pictureEvery_s(address),
    number: (value) => figure(value, 2),
  });
}

async function passedDrills(level: Level): Promise<Set<string>> {
  const passed = new Set<string>();
  for (const { id } of drillsOf(level, passed)) {
    if ((await store.best(id))?.passed === true) passed.add(id);
  }
  return passed;
}

async function entryOf(level: Level, all: readonly Entry[]): Promise<JobEntry> {
  const best = await store.best(level.id);
  const place_s = placeOf(level, freeAttempts(all, level.id)[0] ?? null);
  const version = { engine: ENGINE, scenario_hash: scenarioHash(level.scenario) };
  const drills = drillsOf(level, await passedDrills(level));
  return { level, best, older: best !== null && !sameJob(best, version), place_s, drills };
}

/** A page that comes back by the browser's own button is as old as when it was left. */
function onReturn(again: () => void): void {
  window.addEventListener('pageshow', (event) => { if (event.persisted) again(); });
}

/** A list of what is kept: written now, and again whenever one comes back to it. */
async function list(write: () => Promise<void>): Promise<void> {
  await write();
  onReturn(() => void write());
}

function listJobs(unknown: string | null, notice: WordKey | null = null): Promise<void> {
  document.title = t('app.name');
  return list(async () => {
    const all = await library.list();
    const entries = await Promise.all(LEVELS.map((level) => entryOf(level, all)));
    const learnt = await store.learnt();
    const { search } = location;
    render(<Jobs {...{ entries, search, unknown, notice, learnt }} />, root);
  });
}

function listAttempts(): Promise<void> {
  document.title = t('attempts.name');
  const write = async () =>
    render(<AttemptsPage library={library} entries={await library.list()} show={write} />, root);
  return list(write);
}

const date = () => new Date();

/** The controls are learnt afresh each time: nothing is gone on with. */
function openLesson(): void {
  const keeper = new Keeper({ library, store });
  const play = new Play({
    level: CONTROLS, mode: 'learn', seed: SEED, keeper, wall, date,
    lesson: new Lesson(),
    learnt: () => void store.keepLearnt(),
  });
  show(play, keeper);
  play.enter();
}

async function openJob(wish: Wish, steal = false): Promise<void> {
  const opening = await openingOf(library, store, wish, steal);
  if (opening.kind === 'elsewhere') {
    const takeOver = () => void openJob(wish, true);
    render(<Elsewhere level={wish.level} takeOver={takeOver} />, root);
  } else startJob(wish, opening);
}

function startJob(wish: Wish, opening: Extract<Opening, { kind: 'here' }>): void {
  const { level } = wish;
  const { keeper, found, mode, seed, draft } = opening;
  const play = new Play({ level, mode, seed, keeper, wall, date, draft });
  play.place.trouble.value = library.trouble;
  if (found.kind === 'resumed') play.takeUp(found.session, found.kept);
  else if (found.kind === 'old') play.greeting.value = { kind: 'old', kept: found.kept };
  else if (found.kind === 'damaged') play.greeting.value = { kind: 'damaged' };
  keeper.onAgain = () => {
    const id = keeper.assigned?.ticket.id;
    setAddress(id === undefined ? jobAddress : assignmentAddress, id ?? level.id);
  };
  show(play, keeper);
}

/** So that a reload comes back to the same. */
function setAddress(address: (id: string, search: string) => string, id: string): void {
  history.replaceState(null, '', address(id, location.search));
}

function show(play: Play, keeper: Keeper): void {
  const { level } = play;
  document.title = t('app.title', { job: play.title });
  document.addEventListener('visibilitychange', () => play.setShown(!document.hidden));
  window.addEventListener('pagehide', () => keeper.leave());
  onReturn(() => location.reload());
  render(
    <App
      play={play}
      layoutFor={(shape) =>
        layoutYard(play.level.scenario, level.drawing as Drawing, shape, wordsFor(level))}
      mount={(parent, layout) => mountYard(level, parent, layout)}
    />,
    root,
  );
}

const wishFor = (level: Level, of: Partial<Wish> = {}): Wish =>
  ({
    ...{ level, mode: 'learn', seed: askedSeed(), bound: address.has('seed') },
    ...{ taken: null, entry: null, ...of },
  });

async function openTaken(of: Taken): Promise<void> {
  const level = levelOf(of.ticket.job, of.ticket.phase);
  const all = await library.list();
  const used = begunOf(of, all) >= (of.ticket.attempts ?? Infinity);
  const none = used && assignedAttempts(all, of.ticket.id).length === 0;
  if (level === null || none) return showTicket(of.ticket);
  setAddress(assignmentAddress, of.ticket.id);
  await openJob(wishFor(level, { taken: of }));
}

/** What an assignment asks for, before it is begun or gone on with. */
async function showTicket(ticket: Ticket): Promise<void> {
  document.title = t('app.title', { job: ticket.name });
  const before = taken(await library.ticket(ticket.id));
  const all = await library.list();
  const newest = assignedAttempts(all, ticket.id)[0] ?? null;
  const begun = before === null ? newest?.assigned?.nth ?? 0 : begunOf(before, all);
  const go = async (label: string): Promise<void> => {
    const of = { ticket, label, begun };
    await library.keepTicket(ticket.id, of);
    await openTaken(of);
  };
  render(
    <AssignmentPage
      ticket={ticket} label={before?.label ?? newest?.assigned?.label ?? ''} begun={begun}
      newest={newest} go={(label) => void go(label)}
    />,
    root,
  );
}

async function openPicked(id: string): Promise<void> {
  const entry = await library.entry(id);
  const level = entry === null ? null : levelOf(entry.job);
  if (entry === null || level === null) return listAttempts();
  return openJob(wishFor(level, { entry }));
}

async function openAssignment(id: string): Promise<void> {
  const of = taken(await library.ticket(id));
  return of === null ? listJobs(null, 'assign.gone') : openTaken(of);
}

function route(): Promise<void> {
  const packed = location.hash.startsWith('#a=') ? packedIn(location.hash) ?? '' : null;
  if (packed !== null) {
    const ticket = unpackTicket(packed);
    return ticket === null ? listJobs(null, 'assign.broken') : showTicket(ticket);
  }
  if (address.get('page') === 'attempts') return listAttempts();
  const [attempt, assignment] = [address.get('attempt'), address.get('assignment')];
  if (attempt !== null) return openPicked(attempt);
  if (assignment !== null) return openAssignment(assignment);
  const asked = address.get('job');
  if (asked === CONTROLS.id) return Promise.resolve(openLesson());
  const level = asked === null ? null : jobOf(asked);
  return level === null ? listJobs(asked) : openJob(wishFor(level));
}

setLocale(document.documentElement.lang);
// A link of an assignment opened while the page is open changes nothing but what is behind its "#".
window.addEventListener('hashchange', () => {
  if (location.hash.startsWith('#a=')) location.reload();
});
void route();
