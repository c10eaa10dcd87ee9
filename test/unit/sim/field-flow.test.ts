// Built sites at work: each rig pumps; flows add up and share out as they must.
// Expected values are worked out here from the site's numbers, never taken from the engine.
import { describe, expect, it } from 'vitest';
import { buildSite } from '../../../sim/field/build.ts';
import type { Field, RigKind, Site, Trench } from '../../../sim/field/site.ts';
import { createWorld, snapshot, step, xray, type Command, type World } from '../../../sim/index.ts';

const TICKS = 5; // A second.
const trench: Trench = {
  kind: 'trench',
  size: '1',
  length_m: 80,
  elevation_m: -1.5,
  contents: 'water',
};

function siteOf(kind: RigKind, return_kind: 'direct' | 'reverse', over: Partial<Site> = {}): Site {
  const field: Field = {
    header: {
      return_kind,
      elevation_m: -1.2,
      run_out_m: 8,
      spacing_m: 10,
      supply: { sizes: ['1-1/4'] },
      return: { sizes: ['1-1/4'] },
    },
    branches: [trench, trench, trench],
    contents: 'water',
  };
  return {
    id: 'site',
    temperature_C: 12,
    rig: { kind, hose_m: 6, contents: 'water' },
    field,
    ends_after_s: 3600,
    ...over,
  };
}

const open = (...ids: string[]): Command[] =>
  ids.map((valve) => ({ kind: 'valve', valve, target_deg: 90 }));
const LOOP = ['loop_supply_valve', 'loop_return_valve', 'return_valve', 'discharge_valve'];
const BEFORE: Readonly<Record<RigKind, readonly string[]>> = {
  deck: ['suction_valve', 'fill_valve'],
  barrow: ['prime_valve'],
  mast: ['suction_valve', 'feed_a_valve', 'back_b_valve', 'fill_valve'],
};

function wait(world: World, seconds: number): void {
  for (let t = 0; t < seconds * TICKS; t += 1) step(world, []);
}

/** Ways open, pump on, until all is steady; the rig stands full of water. */
function running(site: Site, seconds: number): World {
  const { kind } = site.rig;
  const world = createWorld(buildSite(site), 1);
  step(world, open(...BEFORE[kind], ...LOOP));
  wait(world, 20);
  step(world, [{ kind: 'switch', pump: 'pump', on: true }]);
  step(world, [
    { kind: 'valve', valve: kind === 'barrow' ? 'prime_valve' : 'fill_valve', target_deg: 0 },
  ]);
  wait(world, seconds);
  return world;
}

const flow = (world: World, id: string) => xray(world).links.find((l) => l.id === id)!.flow * 1000;
const circuits = (world: World) => [1, 2, 3].map((k) => flow(world, `circuit_${k}`));

describe.each(['deck', 'barrow', 'mast'] as const)('the %s rig', (kind) => {
  const world = running(siteOf(kind, 'direct'), 60);

  it('pumps, and brings no air', () => {
    const { readings } = snapshot(world).panel;
    expect(readings.find((r) => r.id === 'pump_note')).toMatchObject({ value: 'steady' });
    expect(readings.find((r) => r.id === 'return_sight')).toMatchObject({
      value: 'clear',
      moving: 1,
    });
  });

  it('sends through its circuits together what goes through the run-out', () => {
    const sum = circuits(world).reduce((a, b) => a + b, 0);
    expect(Math.abs(sum / flow(world, 'supply_run') - 1)).toBeLessThan(1e-3);
    expect(sum).toBeGreaterThan(0.8);
  });

  it('gives the nearest circuit the most where the return is direct', () => {
    const [near = 0, middle = 0, far = 0] = circuits(world);
    expect(near).toBeGreaterThan(middle);
    expect(middle).toBeGreaterThan(far);
    expect(far).toBeGreaterThan(0.5 * near);
  });

  it('loses in a circuit what a smooth pipe loses [Blasius 1913, from memory], within 6 %', () => {
    const x = xray(world);
    const p = (id: string) => x.nodes.find((n) => n.id === id)!.pressure;
    const v = x.links.find((l) => l.id === 'circuit_2')!.velocity;
    const [D, nu, rho] = [0.027305, 1.234e-6, 999.5];
    const f = 0.3164 / ((v * D) / nu) ** 0.25;
    const want = (rho * v * v * ((f * 80) / D + 1.8)) / 2;
    expect(Math.abs((p('supply_tee_2') - p('return_tee_2')) / want - 1)).toBeLessThan(0.06);
  });
});

describe('a reverse return', () => {
  it('gives equal outer circuits the same flow, for their ways are the same', () => {
    const [first = 0, , last = 0] = circuits(running(siteOf('deck', 'reverse'), 60));
    expect(first).toBeGreaterThan(0.25);
    expect(Math.abs(first / last - 1)).toBeLessThan(0.002);
  });
});

describe('the four valves of the mast', () => {
  it('turn the flow round in the loop, not in the meter', () => {
    const world = running(siteOf('mast', 'reverse'), 60);
    const before = flow(world, 'circuit_1');
    const shut = (valve: string): Command => ({ kind: 'valve', valve, target_deg: 0 });
    step(world, [{ kind: 'switch', pump: 'pump', on: false }]);
    step(world, [
      shut('feed_a_valve'),
      shut('back_b_valve'),
      ...open('feed_b_valve', 'back_a_valve'),
    ]);
    wait(world, 15);
    step(world, [{ kind: 'switch', pump: 'pump', on: true }]);
    wait(world, 60);
    expect(before).toBeGreaterThan(0.3);
    expect(flow(world, 'circuit_1')).toBeLessThan(-0.3);
    expect(flow(world, 'meter_pipe')).toBeGreaterThan(1);
  });
});

describe('the heat-pump side', () => {
  const coil = [
    { flow_L_s: 0.3, loss_kPa: 6 },
    { flow_L_s: 0.6, loss_kPa: 21 },
  ];
  const plant = { coil, size: '1', pipe_m: 4, elevation_m: 1.2, contents: 'water' } as const;
  const world = running(siteOf('deck', 'direct', { plant }), 60);

  it('stands still while the service valves join hose and loop', () => {
    expect(Math.abs(flow(world, 'coil'))).toBeLessThan(1e-9);
    expect(flow(world, 'supply_run')).toBeGreaterThan(0.5);
  });

  it('gets all the flow when they join hose and unit', () => {
    const turn = (valve: string): Command => ({ kind: 'valve', valve, target_deg: 270 });
    step(world, [turn('supply_service'), turn('return_service')]);
    // What was squeezed in the branch leaks off, tenfold in some 35 s at whatever tick.
    wait(world, 90);
    // Forward through the hoses is backward through the unit: in where it gives out as it runs.
    expect(flow(world, 'coil')).toBeLessThan(-0.3);
    expect(Math.abs(flow(world, 'supply_run'))).toBeLessThan(1e-9);
  });
});
