// Works random loops with random hands and looks for what must never be: a book that does not
// close, a number that is not finite, less than nothing in a volume, an exception, a copy or a
// replay that goes another way. On a failure the loop and its commands are kept as files.
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import {
  clone,
  createWorld,
  hash,
  isAway,
  parseScenario,
  snapshot,
  step,
  truth,
  type Command,
  type Scenario,
  type World,
} from '../../sim/index.ts';
import { LEDGER_STRIDE } from '../../sim/state.ts';
import { chance, type Chance } from '../tools/chance.ts';
import { randomCommand } from '../tools/loop-hands.ts';
import { likely, randomLoop } from '../tools/loops.ts';

/** Where loops that failed are kept. */
const KEPT = 'node_modules/.cache/loops';
/** Share of what there was that may be missing from a book. */
const BOOK = 1e-9;
const BOOKS = ['liquid', 'antifreeze', 'gas'] as const;
/** Most that each book had to account for after any tick; what came may have gone back by now. */
type Most = [liquid: number, antifreeze: number, gas: number];

export interface Figures {
  loops: number;
  commands: number;
  refused: number;
  ticks: number;
  links: number;
  cells: number;
  /** Times that hands went away for an hour. */
  away: number;
  /** Largest share missing from any book; highest pressure, Pa, and velocity, m/s, seen. */
  worst: number;
  pressure: number;
  velocity: number;
}

export interface Failure {
  readonly seed: number;
  readonly command: number;
  readonly what: string;
  readonly file: string;
}

export const noFigures = (): Figures => ({
  loops: 0,
  commands: 0,
  refused: 0,
  ticks: 0,
  links: 0,
  cells: 0,
  away: 0,
  worst: 0,
  pressure: 0,
  velocity: 0,
});

/** Share of loops that are left to themselves once, for an hour. */
const AWAY = 0.04;
const LEAVE: Command = { kind: 'leave', hours: 1 };

/** What book k has to account for: what was there and what came, in the ledger's own unit. */
function accounted(world: World, k: number): number {
  const { ledger } = world.state;
  let there = world.start[k]!;
  for (let l = k; l < ledger.length; l += LEDGER_STRIDE) there += Math.max(0, -ledger[l]!);
  return there;
}

/** What is wrong with the world as it stands, or null. */
function wrong(world: World, figures: Figures, most: Most): string | null {
  const { state, plan } = world;
  for (const [name, view] of Object.entries(state)) {
    if (!(view instanceof Float64Array)) continue;
    const at = view.findIndex((x) => !Number.isFinite(x));
    if (at >= 0) return `${name}[${at}] is ${view[at]}`;
  }
  for (const name of ['mass', 'gas', 'solute', 'grains', 'caught'] as const) {
    const least = state[name].reduce((a, x) => Math.min(a, x), 0);
    if (least < -1e-9) return `${name} falls to ${least}`;
  }
  const books = truth(world);
  for (const [k, kind] of BOOKS.entries()) {
    const scale = most[k]! > 0 ? accounted(world, k) / most[k]! : 1;
    const error = Math.abs(books[kind].error) * scale;
    figures.worst = Math.max(figures.worst, error);
    if (!(error < BOOK)) return `${kind}: ${error} of what there was is missing`;
  }
  const debris = Math.abs(books.debris?.error ?? 0);
  figures.worst = Math.max(figures.worst, debris);
  if (!(debris < BOOK)) return `debris: ${debris} of what there was is missing`;
  state.point.forEach((p) => (figures.pressure = Math.max(figures.pressure, p)));
  plan.columns.forEach((column, c) => {
    const v = Math.abs(state.flow[c]!) / plan.links[column.link]!.area;
    figures.velocity = Math.max(figures.velocity, v);
  });
  return null;
}

/** Commands by tick, as they were given. */
type Given = readonly (readonly [tick: number, command: Command])[];

function replayed(scenario: Scenario, seed: number, given: Given, ticks: number): World {
  const world = createWorld(scenario, seed);
  let next = 0;
  const { counter } = world.state;
  while (counter[0]! < ticks) {
    const now: Command[] = [];
    while (next < given.length && given[next]![0] === counter[0]) now.push(given[next++]![1]);
    step(world, now);
  }
  return world;
}

function keep(seed: number, json: unknown, given: Given): string {
  mkdirSync(KEPT, { recursive: true });
  const file = join(KEPT, `${seed}.json`);
  writeFileSync(file, JSON.stringify(json, null, 1));
  writeFileSync(join(KEPT, `${seed}.commands.json`), JSON.stringify(given));
  return file;
}

/**
 * One loop under so many commands; counts into `figures`. The first failure, or null. `spoil` is
 * for the test of these checks: it is called before each of them.
 */
export function work(
  seed: number,
  commands: number,
  figures: Figures,
  spoil?: (world: World) => void,
): Failure | null {
  const random = chance(seed);
  const json = randomLoop(random);
  const given: (readonly [number, Command])[] = [];
  const failed = (what: string): Failure => {
    const file = spoil === undefined ? keep(seed, json, given) : '';
    return { seed, command: given.length - 1, what, file };
  };
  try {
    const scenario = parseScenario(json);
    const world = createWorld(scenario, seed);
    figures.loops += 1;
    figures.links += scenario.links.length;
    figures.cells += world.plan.volumes - world.plan.nodes.length;
    const what = handle({ world, random, given, commands, figures, spoil });
    if (what !== null) return failed(what);
    const ticks = world.state.counter[0]!;
    const again = replayed(scenario, seed, given, ticks);
    if (hash(again) !== hash(world)) return failed('a replay ends elsewhere');
    snapshot(world);
    return null;
  } catch (error) {
    return failed(error instanceof Error ? (error.stack ?? error.message) : String(error));
  }
}

interface Job {
  readonly world: World;
  readonly random: Chance;
  readonly given: (readonly [number, Command])[];
  readonly commands: number;
  readonly figures: Figures;
  readonly spoil: ((world: World) => void) | undefined;
}

function handle({ world, random, given, commands, figures, spoil }: Job): string | null {
  const { scenario } = world.plan;
  let copy: World | null = null;
  const most: Most = [0, 0, 0];
  const leaveAt = likely(random, AWAY) ? random.below(commands) : -1;
  for (let k = 0; k < commands; k++) {
    const command = k === leaveAt ? LEAVE : randomCommand(scenario, random);
    if (command === LEAVE) figures.away += 1;
    given.push([world.state.counter[0]!, command]);
    if (k === commands >> 1) copy = clone(world);
    const wait = 1 + random.below(random.pick([2, 10, 40]));
    for (let t = 0; t < wait || isAway(world.state); t++) {
      const now = t === 0 ? [command] : [];
      const facts = step(world, now);
      figures.ticks += 1;
      most.forEach((m, b) => (most[b] = Math.max(m, accounted(world, b))));
      if (copy !== null) step(copy, now);
      if (facts.some((fact) => fact.kind === 'refused')) figures.refused += 1;
    }
    figures.commands += 1;
    spoil?.(world);
    const what = wrong(world, figures, most);
    if (what !== null) return what;
  }
  if (copy !== null && hash(copy) !== hash(world)) return 'a copy goes another way';
  return null;
}

export function told(figures: Figures): string {
  const { loops, commands, refused, away, ticks, links, cells } = figures;
  const { worst, pressure, velocity } = figures;
  return (
    `${loops} loops, ${links} links, ${cells} cells; ${commands} commands ` +
    `(${refused} refused), ${away} hours away, ` +
    `${ticks} steps; most missing from a book ${worst.toExponential(1)}, ` +
    `highest pressure ${(pressure / 1e6).toFixed(2)} MPa, velocity ${velocity.toFixed(1)} m/s`
  );
}
