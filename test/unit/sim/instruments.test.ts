// Instruments beside gauges of one pressure: difference, warmth, a counter, suction.
import { expect, it } from 'vitest';
import { createWorld, runScript, parseScript, snapshot, type Reading } from '../../../sim/index.ts';
import { readingText } from '../../../game/readings.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { run } from '../../support/worlds.ts';

const wide = { kind: 'valve', bore_mm: 100, start_deg: 90, loss_k_open: 0.01 };
const needle = { range_kPa: 400, resolution_kPa: 0.1, lag_s: 0.1 };
const instruments = [
  { id: 'drop', kind: 'difference', high: 'a', low: 'b', ...needle },
  { id: 'back', kind: 'difference', high: 'b', low: 'a', ...needle },
  { id: 'suction', kind: 'pressure', node: 'b', from_kPa: -100, ...needle },
  { id: 'passed', kind: 'meter', link: 'feed', resolution_L: 0.5 },
  { id: 'warmth', kind: 'temperature', link: 'p', end: 'from', resolution_C: 0.1, lag_s: 20 },
  { id: 'cold', kind: 'temperature', node: 'a', from_C: 0, to_C: 8, resolution_C: 0.1, lag_s: 0.1 },
];
const of = scenario(
  [held('source', 100), joint('a', -3), joint('b', 0), held('away', -40)],
  [
    { id: 'feed', kind: 'fixed_flow', from: 'source', to: 'a', bore_mm: 30, flow_L_s: 0.1 },
    pipe('p', ['a', 'b'], 100, 4),
    { id: 'out', from: 'b', to: 'away', ...wide },
  ],
  { instruments },
);
const shown = (seconds: number, made = of): Readonly<Record<string, Reading>> => {
  const { readings } = snapshot(run(createWorld(made, 1), seconds)).panel;
  return Object.fromEntries(readings.map((r) => [r.id, r]));
};

it('a difference is one of pressures at equal height: what stands still differs by nothing', () => {
  const { drop, back } = shown(30);
  expect(Math.abs(drop!.value as number)).toBeLessThan(150); // 3 m of water would be 29 kPa.
  expect(Math.abs(back!.value as number)).toBeLessThan(150);
});

it('a compound gauge shows suction, and its end', () => {
  expect(shown(30)['suction']).toMatchObject({ value: expect.closeTo(-40000, -2), off_scale: 0 });
  const shallow = instruments.map((i) => (i.id === 'suction' ? { ...i, from_kPa: -30 } : i));
  expect(
    shown(30, scenario(of.nodes, of.links, { instruments: shallow }))['suction'],
  ).toMatchObject({ value: -30000, from: -30000, off_scale: -1 });
});

it('a counter turns its last digit when it is full', () => {
  expect(shown(34)['passed']!.value).toBeCloseTo(0.003, 9); // 3.4 L.
  expect(shown(36)['passed']!.value).toBeCloseTo(0.0035, 9);
});

it('a counter that is turned back stands at its zero', () => {
  const [feed, ...others] = of.links;
  const back = scenario(of.nodes, [{ ...feed!, flow_L_s: -0.1 }, ...others], { instruments });
  expect(shown(30, back)['passed']!.value).toBe(0);
});

it('a thermometer lags behind the water, and stops at the end of its scale', () => {
  const heat = { air_C: 20, soil_C: 5, places: [{ link: 'p', in: 'soil' }] };
  const plain = shown(10);
  expect(plain['warmth']).toMatchObject({ kind: 'temperature', value: 20, range: [-20, 60] });
  expect(plain['cold']).toMatchObject({ value: 8, off_scale: 1 });
  const warm = scenario(of.nodes, of.links, { instruments, heat });
  const cooling = createWorld(warm, 1);
  run(cooling, 600);
  const truth = cooling.state.temp[cooling.plan.links[cooling.plan.linkIx.get('p')!]!.firstCell]!;
  expect(truth).toBeLessThan(19.9);
  const late = snapshot(cooling).panel.readings.find((r) => r.id === 'warmth')!.value as number;
  expect(Math.abs(late - truth)).toBeLessThan(0.2);
});

it('an empty tank gives no water that could be seen to run out', () => {
  const tank = { kind: 'tank', floor_m: 1, area_m2: 0.1, height_mm: 500, start_level_mm: 100 };
  const world = createWorld(
    scenario(
      [
        { id: 'tank', ...tank, ports: [{ id: 'foot', height_mm: 20, bore_mm: 25 }] },
        { id: 'out', kind: 'open', elevation_m: 0.6, goes_to: 'ground' },
      ],
      [{ id: 'drain', ...wide, bore_mm: 25, from: 'tank.foot', to: 'out' }],
    ),
    1,
  );
  const rate = () => snapshot(world).scene.outlets.find(({ id }) => id === 'out')!.rate;
  run(world, 2);
  expect(rate()).toBeGreaterThan(1e-4);
  run(world, 120);
  expect(rate()).toBeLessThan(1e-5);
});

it('hands can wait for them', () => {
  const script = parseScript(
    {
      format: 1,
      level: of.id,
      seed: 1,
      steps: [
        { until: { reading: 'passed', above_L: 2.9 }, max_s: 60 },
        { until: { reading: 'warmth', above_C: 19, below_C: 21 }, max_s: 1 },
        { until: { reading: 'drop', below_kPa: 1 }, max_s: 1 },
      ],
    },
    of,
  );
  const { outcome } = runScript(of, script);
  expect(outcome.end).toBe('finished');
  expect(outcome.time_s).toBeCloseTo(30.3, 0);
});

it('are written with their units', () => {
  const lex = lexicon({});
  const text = (reading: Reading) => {
    const { value, unit, second } = readingText(reading, lex);
    return `${value} ${unit}, ${second}`;
  };
  const scale = { range: [-20, 60], off_scale: 0 } as const;
  expect(text({ id: 'x', kind: 'temperature', value: 12.34, ...scale })).toBe('12.3 °C, 54 °F');
  const end = { ...scale, off_scale: -1 } as const;
  expect(text({ id: 'x', kind: 'temperature', value: -20, ...end })).toBe(
    'below −20.0 °C, below −4 °F',
  );
  expect(text({ id: 'x', kind: 'meter', value: 0.1234 })).toBe('123.4 L, 32.6 gal');
  const drop = { id: 'x', kind: 'difference', value: 12300, range: 5e4, off_scale: 0 } as const;
  expect(text(drop)).toBe('12.3 kPa, 1.78 psi');
  const suction = { id: 'x', kind: 'pressure', value: -3e4, range: 4e5, from: -3e4 } as const;
  expect(text({ ...suction, off_scale: -1 })).toBe('below −30 kPa, below −4 psi');
});
