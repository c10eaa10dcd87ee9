// How questions of cases.json are put to whole worlds, through createWorld and step: pumps on
// pipes, dry pipes that fill, flow that divides, and what the flow carries.
import { createWorld, step, truth, xray } from '../../../sim/index.ts';
import { area, held, joint, pipe, scenario } from '../../support/fields.ts';
import { link, run } from '../../support/worlds.ts';
import type { Duty } from '../origin/pipes.ts';

const G = 9.80665;
const RHO = 998.2; // kg/m3, water at 20 C.

/** Flow at which a pump's head is what a pipe and a lift take, L/s. */
function duty({ shut_off_m, most_L_s, bore_mm, length_m, lift_m }: Duty) {
  const curve = Array.from({ length: 21 }, (_, k) => {
    const share = k / 20;
    return { flow_L_s: share * most_L_s, head_m: shut_off_m * (1 - share * share) };
  });
  const pump = { id: 'pump', kind: 'pump', from: 'low', to: 'out', bore_mm: 50, start_on: true };
  const high = { ...held('high', 100), elevation_m: lift_m };
  const best = { best_flow_L_s: 0.6 * most_L_s };
  const main = pipe('main', ['out', 'high'], bore_mm, length_m);
  const nodes = [held('low', 100), joint('out'), high];
  const world = createWorld(scenario(nodes, [{ ...pump, curve, ...best }, main]), 1);
  return 1000 * link(run(world, 120), 'main').flow;
}

interface Filling {
  readonly head_m: number;
  readonly bore_mm: number;
  /** Water that stands in the pipe at the start, and the length filled at the end. */
  readonly from_m: number;
  readonly to_m: number;
}

/** A level smooth pipe with water up to a place, and air behind it. */
const dryPipe = (bore_mm: number, from_m: number, length_m: number, from = 'head') => ({
  ...pipe('pipe', [from, 'out'], bore_mm, length_m),
  modulus_MPa: 250000,
  roughness_mm: 0,
  gas: [{ from_m, to_m: length_m }],
});

/** s until the pipe is full so far, from a constant head, and the velocity in it then, m/s. */
function filledTo({ head_m, bore_mm, to_m }: Filling, links: readonly object[], length_m: number) {
  const out = { id: 'out', kind: 'open', elevation_m: 0, goes_to: 'waste' };
  const mouth = links.length > 1 ? [joint('mouth')] : [];
  const nodes = [held('head', (RHO * G * head_m) / 1000), ...mouth, out];
  const world = createWorld(scenario(nodes, [...links]), 1);
  const A = area(bore_mm / 1000);
  let seconds = 0;
  for (; length_m - truth(world).gas_by_link['pipe']! / A < to_m && seconds < 300;) {
    step(world, []);
    seconds += world.dt;
  }
  return [seconds, link(world, 'pipe').flow / A];
}

/** A pipe fills; the velocity head at its entry is lost along what is full of it. */
function filling(of: Filling) {
  const length_m = of.to_m + 10;
  return filledTo(of, [{ ...dryPipe(of.bore_mm, of.from_m, length_m), loss_k: 1 }], length_m);
}

/** The same with that loss at the mouth: in a fitting three times as wide, next to no inertia. */
function fillingByMouth(of: Filling) {
  const length_m = of.to_m + 40; // The front spreads, and none of it may run out before.
  const entry = { id: 'entry', kind: 'valve', from: 'head', to: 'mouth', start_deg: 90 };
  const wide = { ...entry, bore_mm: 3 * of.bore_mm, loss_k_open: 81 };
  return filledTo(of, [wide, dryPipe(of.bore_mm, of.from_m, length_m, 'mouth')], length_m);
}

interface Two {
  readonly bore_mm: readonly [number, number];
  readonly length_m: readonly [number, number];
}

/** Flow of the first of two parallel pipes over that of the second, both laminar. */
function split({ bore_mm, length_m }: Two) {
  const pipes = [0, 1].map((k) => pipe(`p${k}`, ['a', 'b'], bore_mm[k]!, length_m[k]!));
  const feed = { id: 'feed', kind: 'fixed_flow', from: 'main', to: 'a', bore_mm: 30 };
  const nodes = [held('main', 100), joint('a'), joint('b'), held('sink', 50)];
  const links = [{ ...feed, flow_L_s: 0.02 }, ...pipes, pipe('out', ['b', 'sink'], 40, 2)];
  const world = run(createWorld(scenario(nodes, links), 1), 900);
  return link(world, 'p0').flow / link(world, 'p1').flow;
}

const GLYCOL = { antifreeze: 'propylene_glycol' };

/** Share of the way from water to the feed that a stirred tank has gone after so many turnovers. */
function stirred({ turnovers }: { turnovers: number }) {
  const x = 0.02; // So thin that its weight does not matter.
  const tank = {
    id: 'tank',
    kind: 'tank',
    floor_m: 0,
    area_m2: 0.2,
    height_mm: 1000,
    start_level_mm: 500,
    ports: [
      { id: 'in', height_mm: 50, bore_mm: 30 },
      { id: 'out', height_mm: 60, bore_mm: 30 },
    ],
  };
  const dose = { ...held('dose', 50), elevation_m: 1, antifreeze_fraction: x };
  const nodes = [dose, tank, joint('a', 0.05), joint('b', 0.06), held('away', 0)];
  const open = { kind: 'valve', bore_mm: 30, start_deg: 90 };
  const feed = { kind: 'fixed_flow', bore_mm: 30, flow_L_s: 0.2 };
  const links = [
    { id: 'feed', from: 'dose', to: 'a', ...feed },
    { id: 'inlet', from: 'a', to: 'tank.in', ...open },
    { id: 'outlet', from: 'tank.out', to: 'b', ...open },
    { id: 'drawn', from: 'b', to: 'away', ...feed },
  ];
  const seconds = (turnovers * 100) / 0.2; // 100 L at 0.2 L/s.
  const world = run(createWorld(scenario(nodes, links, GLYCOL), 1), seconds);
  return xray(world).nodes.find((n) => n.id === 'tank')!.antifreeze / x;
}

interface Front {
  readonly bore_mm: number;
  readonly length_m: number;
  readonly flow_L_s: number;
}

/** Time until half the strength of a dosed feed has come to the end of a pipe of water, s. */
function front({ bore_mm, length_m, flow_L_s }: Front) {
  const x = 0.02;
  const feed = { id: 'feed', kind: 'fixed_flow', from: 'dose', to: 'a', bore_mm, flow_L_s };
  const main = { ...pipe('main', ['a', 'b'], bore_mm, length_m) };
  const out = pipe('out', ['b', 'sink'], bore_mm, 2);
  const nodes = [{ ...held('dose', 50), antifreeze_fraction: x }, joint('a'), joint('b')];
  const links = [feed, main, out];
  const world = createWorld(scenario([...nodes, held('sink', 0)], links, GLYCOL), 1);
  const ahead = (): number => xray(world).nodes.find((n) => n.id === 'b')!.antifreeze;
  let seconds = 0;
  for (; ahead() < x / 2 && seconds < 1000; seconds += world.dt) step(world, []);
  return seconds;
}

export const FLOWS = {
  'world.duty_L_s': duty,
  'world.filling': filling,
  'world.filling_by_mouth': fillingByMouth,
  'world.split': split,
  'world.stirred': stirred,
  'world.front_s': front,
};
