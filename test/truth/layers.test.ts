// Pockets that cost their height (running_layers): at rest nothing changes; what a head carries in
// a falling leg is the height over which gas stands beside its film; the blocking rule holds and
// nothing chatters. Expected values are worked out here.
import { describe, expect, it } from 'vitest';
import { createWorld, hash, clone, step, truth, type World } from '../../sim/index.ts';
import { held, joint, off, pipe, scenario } from '../support/fields.ts';
import { link, node, run } from '../support/worlds.ts';
import { reach } from './ask/layers.ts';
import { darcy, G, NU, RHO } from './by-hand.ts';

/** Share of a bore that a laminar film takes on its wall, Nusselt 1916; j over the whole bore. */
const film = (j: number, D: number) => (4 / D) * Math.cbrt((3 * NU * j * D) / (4 * G));

const sum = (gas: readonly number[]) => gas.reduce((s, a) => s + a, 0);

describe('a U-bend with gas in both legs', () => {
  const profile = [
    { at_m: 2, elevation_m: 0 },
    { at_m: 12, elevation_m: -10 },
    { at_m: 22, elevation_m: 0 },
  ];
  const gas = [
    { from_m: 4, to_m: 7 },
    { from_m: 16.5, to_m: 19 },
  ];
  /** Pressures at both ends are as high as what stands between them asks for. */
  const bend = (running_layers: boolean) => {
    const bore = { ...pipe('bore', ['a', 'b'], 27.3, 24), profile, gas, start_pressure_kPa: 100 };
    const ends = ['a', 'b'].map((id) => ({ ...joint(id), start_pressure_kPa: 100 }));
    const open = { id: 'open', kind: 'valve', from: 'head', to: 'a', bore_mm: 27.3, start_deg: 90 };
    const of = scenario([held('head', 100), ...ends], [open, bore], { running_layers });
    return run(createWorld(of, 1), 300);
  };

  it('stands as it stands without: water that does not run weighs what it weighs', () => {
    const [on, without] = [bend(true), bend(false)];
    expect(Math.abs(link(on, 'bore').velocity)).toBeLessThan(1e-3);
    expect(Math.abs(node(on, 'b') - node(without, 'b'))).toBeLessThan(100);
    const gas = link(on, 'bore').gas;
    // The end stands at what the manometer of both legs says.
    const lifted = sum(gas.slice(12, 22)) - sum(gas.slice(2, 12));
    expect(Math.abs(node(on, 'b') - node(on, 'a') - RHO * G * lifted)).toBeLessThan(0.02 * RHO * G);
    expect(Math.abs(truth(on).gas.error)).toBeLessThan(1e-9);
  });
});

describe('a pocket in a falling leg that creeps under an open header', () => {
  const [D, L, HEAD] = [0.0273, 64, 20000];
  const profile = [
    { at_m: 2, elevation_m: 0 },
    { at_m: 32, elevation_m: -30 },
    { at_m: 62, elevation_m: 0 },
  ];

  it('independent method [Nusselt 1916, Darcy]: costs the height of gas and film', () => {
    const bore = { ...pipe('bore', ['supply', 'return'], 27.3, L), profile };
    const gas = { gas: [{ from_m: 4, to_m: 9 }], start_pressure_kPa: 100 };
    const ends = [held('supply', 120), held('return', 100)];
    const world = createWorld(scenario(ends, [{ ...bore, ...gas }], { running_layers: true }), 1);
    run(world, 28);
    for (let t = 30; t <= 36; t += 2) {
      run(world, 2); // Later it runs too fast for a pocket to stand.
      const v = link(world, 'bore').velocity;
      const height = sum(link(world, 'bore').gas.slice(2, 32)) / (1 - film(v, D));
      const carried = RHO * G * height + darcy(v, D, L - height);
      expect(v).toBeGreaterThan(0.03);
      expect(off(carried, HEAD), `${t} s`).toBeLessThan(0.03); // 11 % by the gas alone.
    }
    const copy = clone(world);
    step(world, []);
    step(copy, []);
    expect(hash(copy)).toBe(hash(world));
  });
});

describe('a circuit with a pocket on its crest, at the head of its neighbours: 4.1 m', () => {
  const [CREST, across] = [6, 4.1];
  const profile = [
    { at_m: 2, elevation_m: 0 },
    { at_m: 2 + CREST, elevation_m: CREST },
    { at_m: 12 + 2 * CREST, elevation_m: -10 },
    { at_m: 22 + 2 * CREST, elevation_m: 0 },
  ];
  /** Gas of so many metres as the manometer lets it stand. */
  function circuit(pocket: number): World {
    const up = Math.min(CREST, CREST - pocket / 2 + across / 2);
    const gas = [{ from_m: 2 + up, to_m: 2 + up + pocket }];
    const start_pressure_kPa = 100 + ((across - up) * RHO * G) / 1000;
    const bore = { ...pipe('b', ['main', 'sink'], 21.84, 60), profile, gas, start_pressure_kPa };
    const ends = [held('main', 100 + (across * RHO * G) / 1000), held('sink', 100)];
    return createWorld(scenario(ends, [bore], { running_layers: true }), 1);
  }

  it('CHK-5.10 independent method [manometer]: 5 m hold, 3 m start to move', () => {
    const stalled = run(circuit(5), 120);
    const first = truth(stalled).gas_by_link['b']!;
    run(stalled, 180);
    expect(Math.abs(link(stalled, 'b').velocity)).toBeLessThan(0.005);
    expect(off(truth(stalled).gas_by_link['b']!, first)).toBeLessThan(0.01);
    const moves = run(circuit(3), 120);
    expect(link(moves, 'b').velocity).toBeGreaterThan(0.05);
  });
});

describe('flow past gas', () => {
  it('fills a dry bore from above without chatter', () => {
    const [LEG, bore_mm] = [20, 27.3];
    const profile = [
      { at_m: 2, elevation_m: 0 },
      { at_m: 2 + LEG, elevation_m: -LEG },
    ];
    const dry = [{ from_m: 0, to_m: LEG + 4 }];
    const bore = { ...pipe('bore', ['a', 'b'], bore_mm, LEG + 4), profile, gas: dry };
    const open = { id: 'open', kind: 'open', elevation_m: -LEG, goes_to: 'waste' };
    const valve = { kind: 'valve', bore_mm };
    const links = [
      { id: 'in', from: 'head', to: 'a', start_deg: 25, ...valve },
      bore,
      { id: 'out', from: 'b', to: 'open', start_deg: 90, ...valve },
    ];
    const nodes = [held('head', 20), joint('a'), joint('b', -LEG), open];
    const world = createWorld(scenario(nodes, links, { running_layers: true }), 1);
    let [flow, rise, turned] = [0, 0, 0];
    for (let tick = 0; tick < 1000; tick++) {
      step(world, []);
      const now = link(world, 'bore').flow;
      if ((now - flow) * rise < 0) turned += Math.abs(now - flow - rise);
      [flow, rise] = [now, now - flow];
    }
    expect(flow).toBeGreaterThan(1.5e-3);
    expect(turned, 'm3/s by which its changes turn round').toBeLessThan(flow);
  });

  it('comes to rest over a pocket that stands, which costs more than its gas', () => {
    const shape = { bore_mm: 49.35, fall_deg: 10, velocity: 0.3, gas_m: 3 };
    const [on, without] = [reach(shape, true), reach(shape, false)];
    expect(on.swing, 'Pa').toBeLessThan(50);
    expect(on.pressure - without.pressure).toBeGreaterThan(0.04 * RHO * G);
  });
});
