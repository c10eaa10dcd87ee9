// Shows the yard driven by the engine alone, for looking at. Address options: shape, x (x-ray),
// at (seconds played before the first frame), live (keeps running at that speed), boxes, still, aa.
import '@fontsource-variable/atkinson-hyperlegible-next/index.css';
import {
  createWorld, parseScenario, snapshot, step, xray, type Command, type Snapshot, type Xray,
} from '../../../sim/index.ts';
import scenarioJson from '../../../levels/01-heron-lane/scenario.json';
import drawing from '../../../levels/01-heron-lane/drawing.json';
import words from '../../../levels/01-heron-lane/words.en.json';
import yardWords from '../../../game/yard/words.en.json';
import { layoutYard, type Drawing, type YardLayout } from '../../../game/yard/layout.ts';
import { mountYard } from '../../../game/scenes/yard.ts';

const ask = new URLSearchParams(location.search);
const shape = ask.get('shape') === 'tall' ? 'tall' : 'wide';
const scenario = parseScenario(scenarioJson);
const yard = layoutYard(scenario, drawing as Drawing, shape);
const dictionary: Record<string, unknown> = { ...words, ...yardWords };
const say = (key: string): string => {
  const word = dictionary[key];
  return typeof word === 'string' ? word : key;
};

/** Opens everything and runs the pump, as a first flush would. */
const OPENING: [number, Command][] = [
  [1, { kind: 'mark', tank: 'tank' }],
  [1, { kind: 'valve', valve: 'suction_valve', target_deg: 90 }],
  [1, { kind: 'valve', valve: 'loop_supply_valve', target_deg: 90 }],
  [1, { kind: 'valve', valve: 'loop_return_valve', target_deg: 90 }],
  [1, { kind: 'valve', valve: ask.has('waste') ? 'waste_valve' : 'return_valve', target_deg: 90 }],
  [1, { kind: 'valve', valve: 'fill_valve', target_deg: Number(ask.get('fill') ?? 60) }],
  [1, { kind: 'valve', valve: 'discharge_valve', target_deg: Number(ask.get('dis') ?? 90) }],
  [1, { kind: 'switch', pump: 'pump', on: true }],
];

const world = createWorld(scenario, 1);
let tick = 0;
function play(seconds: number): void {
  for (let n = Math.round(seconds / 0.05); n > 0; n--) {
    const due = ask.has('idle') ? [] : OPENING.filter(([at]) => at === tick).map(([, c]) => c);
    step(world, due);
    tick++;
  }
}

function showBoxes(layout: YardLayout): void {
  const holder = document.createElement('div');
  holder.id = 'boxes';
  const put = (box: { x: number; y: number; w: number; h: number }, tag: string): void => {
    const el = document.createElement(tag);
    const pc = (v: number, of: number): string => `${(100 * v) / of}%`;
    el.style.cssText = `left:${pc(box.x, layout.width)};top:${pc(box.y, layout.height)};` +
      `width:${pc(box.w, layout.width)};height:${pc(box.h, layout.height)}`;
    holder.append(el);
  };
  layout.placed.forEach((p) => put(p, 'div'));
  layout.labels.forEach((l) => put(l, 'i'));
  document.getElementById('stage')!.append(holder);
  holder.style.cssText = 'position:absolute;inset:0';
}

const stage = document.getElementById('stage')!;
stage.style.aspectRatio = `${yard.width} / ${yard.height}`;
const view = await mountYard(stage, yard, {
  words: say, reducedMotion: ask.has('still'), antialias: ask.get('aa') !== '0',
});
if (ask.has('boxes')) showBoxes(yard);
play(Number(ask.get('at') ?? 0));
view.setHot(ask.get('hot'));
const shown = (): [Snapshot, Xray | null] => [snapshot(world), ask.has('x') ? xray(world) : null];
for (let k = 0; k < 120; k++) view.draw(...shown(), 1 / 60, 1);

let last = performance.now();
let frames = 0;
let spent = 0;
const live = Number(ask.get('live') ?? 0);
function frame(now: number): void {
  const dt = Math.min(0.1, (now - last) / 1000);
  last = now;
  if (live > 0) play(dt * live);
  const [s, x] = shown();
  const t = performance.now();
  view.draw(s, x, live > 0 ? dt : 0, live);
  spent += performance.now() - t;
  frames++;
  requestAnimationFrame(frame);
}
requestAnimationFrame(frame);
Object.assign(globalThis, {
  yardPreview: { frames: () => frames, spent: () => spent, resize: () => view.resize(), view, world },
});
document.body.dataset['ready'] = '1';
