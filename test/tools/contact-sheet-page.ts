// One yard on a page of its own, drawn by the scene that the pages use: which one stands in the
// address. `run` seconds are played with all valves open and the pumps on before it is drawn.
import '@fontsource-variable/atkinson-hyperlegible-next/wght.css';
import { mountYard } from '../../game/scenes/yard.ts';
import { layoutYard, type Drawing, type Shape } from '../../game/yard/layout.ts';
import yardWords from '../../game/yard/words.en.json';
import { levelById } from '../../levels/index.ts';
import { createWorld, snapshot, step, xray, type Scenario, type World } from '../../sim/index.ts';
import { dayBySeed } from './days-by-chance.ts';
import { scenarioBySeed } from './sites.ts';

const ask = new URLSearchParams(location.search);
const FONT = 'Atkinson Hyperlegible Next Variable';

function wordOf(level: string | null): (key: string) => string {
  const words: Record<string, string> = {
    ...yardWords,
    ...(level === null ? {} : levelById(level)?.words),
  };
  return (key) => words[key] ?? key.slice(key.indexOf('.') + 1).replaceAll('_', ' ');
}

/** Hands that open everything, the pumps last, and the filling valve half. */
function play(world: World, scenario: Scenario, seconds: number): void {
  const valves = scenario.links.filter((l) => l.kind === 'valve' && !/waste|drain/.test(l.id));
  const pumps = scenario.links.filter((l) => l.kind === 'pump');
  const list = [
    ...valves.map((v) => ({ kind: 'valve' as const, valve: v.id, target_deg: 90 })),
    ...pumps.map((p) => ({ kind: 'switch' as const, pump: p.id, on: true })),
  ];
  const ticks = Math.round(seconds / scenario.solver.tick_s);
  for (let k = 0; k < ticks; k++) {
    const command = k % 4 === 0 ? list.shift() : undefined;
    step(world, command === undefined ? [] : [command]);
  }
}

async function draw(): Promise<void> {
  const level = ask.get('level');
  const seed = Number(ask.get('seed') ?? 1);
  const shape = (ask.get('shape') ?? 'wide') as Shape;
  const found = level === null ? null : levelById(level);
  const count = ask.get('circuits');
  const drawn = (): Scenario =>
    ask.get('days') === '1'
      ? dayBySeed(seed)
      : scenarioBySeed(seed, count === null ? undefined : Number(count));
  const scenario = found?.scenario ?? drawn();
  const words = wordOf(level);
  const layout = layoutYard(scenario, (found?.drawing ?? null) as Drawing | null, shape, words);
  const paper = document.getElementById('paper')!;
  const width = Number(ask.get('width') ?? (shape === 'wide' ? 1152 : 390));
  paper.style.width = `${width}px`;
  paper.style.height = `${(width * layout.height) / layout.width}px`;
  paper.style.fontFamily = `"${FONT}"`;
  await document.fonts.load(`500 20px "${FONT}"`);
  const view = await mountYard(paper, layout, {
    words,
    reducedMotion: false,
    antialias: true,
    number: (value) => String(Math.round(value * 100) / 100),
  });
  const world = createWorld(scenario, 1);
  play(world, scenario, Number(ask.get('run') ?? 0));
  const inside = ask.get('xray') === '1' ? xray(world) : null;
  for (let k = 0; k < 6; k++) view.draw(snapshot(world), inside, 0.3, 1);
  requestAnimationFrame(() => {
    view.draw(snapshot(world), inside, 0.3, 1);
    requestAnimationFrame(() => document.body.setAttribute('data-drawn', 'yes'));
  });
}

draw().catch((error: unknown) => {
  document.body.setAttribute('data-drawn', String(error));
});
