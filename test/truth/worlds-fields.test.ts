// Parallel fields and deep bores, through createWorld and step; every expected value is worked
// out here or published. A pocket on a crest is a manometer: its two water levels differ by the
// head across it, and it holds as long as the pocket is longer than that head. A pocket below a
// falling leg's top is no static state: it runs back until its length is what the head can hold.
// A leg full of gas under water trades places with it, no faster than flooding allows.
import { describe, expect, it } from 'vitest';
import { createWorld, step, truth, xray, type World } from '../../sim/index.ts';
import { area, held, joint, off, pipe, scenario } from '../support/fields.ts';
import { GPM, link, node, run } from '../support/worlds.ts';
import { darcy, G, NU, RHO } from './by-hand.ts';

describe('two circuits of 3/4 inch and 500 ft, one with a pocket on its crest', () => {
  const [D, L, FEED, CREST] = [0.02184, 152.4, 228, 6];
  const V = (3.62 * GPM) / 1000 / area(D); // 2 ft/s, at which a circuit loses 4.1 m (CHK-2.7).
  const head = darcy(V, D, L + FEED);
  const across = darcy(V, D, L) / (RHO * G);
  const profile = [
    { at_m: 2, elevation_m: 0 },
    { at_m: 2 + CREST, elevation_m: CREST },
    { at_m: 2 + 2 * CREST + 40, elevation_m: -40 },
    { at_m: 2 + 2 * CREST + 80, elevation_m: 0 },
  ];
  const valve = (id: string, to: string, start_deg: number) => ({
    id,
    kind: 'valve',
    from: 'supply',
    to,
    bore_mm: 21.84,
    start_deg,
    rate_deg_s: 10,
  });

  /** Gas of `pocket` metres on the crest of b, as the manometer lets it stand; b is still shut. */
  function field(pocket: number): World {
    const up = Math.min(CREST, CREST - pocket / 2 + across / 2);
    const gas = [{ from_m: 2 + up, to_m: 2 + up + pocket }];
    const start_pressure_kPa = 100 + ((across - up) * RHO * G) / 1000;
    const nodes = ['supply', 'in_a', 'in_b', 'return'].map((id) => joint(id));
    const circuit = (id: string) => ({ ...pipe(id, [`in_${id}`, 'return'], 21.84, L), profile });
    const links = [
      pipe('feed', ['main', 'supply'], 21.84, FEED),
      valve('valve_a', 'in_a', 90),
      valve('valve_b', 'in_b', 0),
      circuit('a'),
      { ...circuit('b'), gas, start_pressure_kPa },
      pipe('out', ['return', 'sink'], 50, 2),
    ];
    const ends = [held('main', 100 + head / 1000), held('sink', 100)];
    const world = createWorld(scenario([...ends, ...nodes], links), 1);
    run(world, 120);
    step(world, [{ kind: 'valve', valve: 'valve_b', target_deg: 90 }]);
    return world;
  }
  const gasIn = (world: World) => truth(world).gas_by_link['b']!;

  it('CHK-5.10 independent method [manometer]: 5 m hold for 20 min; alone it goes', () => {
    const world = field(5);
    const first = gasIn(world);
    expect(off(link(world, 'a').velocity, V)).toBeLessThan(0.02);
    run(world, 60);
    for (let minute = 0; minute < 20; minute++) {
      run(world, 60);
      const share = Math.abs(link(world, 'b').flow / link(world, 'a').flow);
      expect(share, `minute ${minute}`).toBeLessThan(0.01);
    }
    const gas = link(world, 'b').gas;
    const sum = (from: number, to: number) => gas.slice(from, to).reduce((s, a) => s + a, 0);
    const [rising, falling] = [sum(2, 8), sum(8, 54)];
    expect(Math.abs(falling - rising - across), 'levels differ by the head').toBeLessThan(0.15);
    expect(off(gasIn(world), first)).toBeLessThan(0.01);
    step(world, [{ kind: 'valve', valve: 'valve_a', target_deg: 0 }]);
    run(world, 600);
    expect(link(world, 'b').velocity).toBeGreaterThan(0.5 * V);
    expect(gasIn(world)).toBeLessThan(0.02 * first);
  });

  it('CHK-5.10 independent method [manometer, Darcy]: over 3 m it runs, as the rest allows', () => {
    const world = field(3);
    run(world, 600);
    const { velocity, gas } = link(world, 'b');
    expect(velocity).toBeGreaterThan(0.05);
    const held = gas.slice(8, 54).reduce((s, a) => s + a, 0);
    const rest = node(world, 'supply') - node(world, 'return') - RHO * G * held;
    const laminar = (32 * NU * RHO * velocity * (L - held)) / (D * D); // Re is about 2100.
    expect(rest).toBeGreaterThan(0.95 * laminar);
    expect(rest).toBeLessThan(1.7 * laminar); // As turbulent at that Re: Colebrook 1939.
  });
});

describe('a pocket in a falling leg, with water above it and an open header', () => {
  const [D, L, HEAD] = [0.0273, 64, 20000];
  const profile = [
    { at_m: 2, elevation_m: 0 },
    { at_m: 32, elevation_m: -30 },
    { at_m: 62, elevation_m: 0 },
  ];
  const clear = () => {
    let [lo, hi] = [0.01, 5];
    for (let k = 0; k < 60; k++) {
      const mid = (lo + hi) / 2;
      if (darcy(mid, D, L) < HEAD) lo = mid;
      else hi = mid;
    }
    return lo;
  };

  it('independent method [hydrostatics, Darcy]: runs back, then creeps as the head allows', () => {
    const bore = { ...pipe('bore', ['supply', 'return'], 27.3, L), profile };
    const gas = { gas: [{ from_m: 4, to_m: 9 }], start_pressure_kPa: 100 };
    const ends = [held('supply', 120), held('return', 100)];
    const world = createWorld(scenario(ends, [{ ...bore, ...gas }]), 1);
    const height = () =>
      link(world, 'bore')
        .gas.slice(2, 32)
        .reduce((s, a) => s + a, 0);
    let [lowest, turned] = [0, 0];
    for (let t = 1; t < 600; t++) {
      step(world, []);
      const v = link(world, 'bore').velocity;
      if (v < lowest) lowest = v;
      if (turned === 0 && t > 40 && v > 0) turned = t * world.dt;
    }
    expect(lowest, 'runs back').toBeLessThan(-0.3);
    expect(turned).toBeGreaterThan(5);
    expect(turned).toBeLessThan(20);
    let before = truth(world).gas_by_link['bore']!;
    for (let t = 30; t < 100; t += 10) {
      run(world, 10);
      const v = link(world, 'bore').velocity;
      expect(v).toBeGreaterThan(0);
      expect(v, 'creeps').toBeLessThan(0.5 * clear());
      const carried = RHO * G * height() + darcy(v, D, L - height());
      expect(off(carried, HEAD), `${t} s: head and what it carries`).toBeLessThan(0.03);
      const now = truth(world).gas_by_link['bore']!;
      expect(now, 'its air works upward and out').toBeLessThan(before);
      before = now;
    }
    expect(Math.max(...link(world, 'bore').gas.slice(32)), 'none went round').toBeLessThan(1e-3);
  });
});

describe('a bore full of gas under headers full of water', () => {
  const r = (D: number) => Math.sqrt(G * D);
  it.each([21.8, 27.3, 49.4])(
    'independent method [flooding, Wallis 1969]: a leg of %s mm that is shut below',
    (bore) => {
      const leg = { ...pipe('leg', ['top', 'foot'], bore, 30), gas: [{ from_m: 0, to_m: 30 }] };
      const foot = { ...joint('foot', -30), start_gas_fraction: 1, start_pressure_kPa: 100 };
      const all = scenario([held('top', 100), foot], [{ ...leg, start_pressure_kPa: 100 }]);
      const world = createWorld(all, 1);
      const first = truth(world).gas_by_link['leg']!;
      const left = () => truth(world).gas_by_link['leg']! / first;
      const until = (share: number) => {
        let t = 0;
        for (; left() > share && t < 20000; t++) step(world, []);
        return t * world.dt;
      };
      until(0.9);
      const rate = (0.6 * 30) / until(0.3) / r(bore / 1000); // Superficial, over sqrt(g D).
      expect(rate, 'the sharp-edged ceiling, C = 0.725').toBeLessThan(0.373);
      expect(rate, 'half of what long bubbles exchange').toBeGreaterThan(0.15);
      until(0.02);
      expect(left()).toBeLessThan(0.02);
    },
    300_000,
  );

  it('independent method [bounds]: a U-bend of 60 m drains upward by itself, one leg first', () => {
    const [D, gas] = [0.0273, [{ from_m: 2, to_m: 62 }]];
    const profile = [
      { at_m: 2, elevation_m: 0 },
      { at_m: 32, elevation_m: -30 },
      { at_m: 62, elevation_m: 0 },
    ];
    const bore = { ...pipe('bore', ['one', 'two'], 27.3, 64), profile, gas };
    const ends = [held('one', 100), held('two', 100)];
    const world = createWorld(scenario(ends, [{ ...bore, start_pressure_kPa: 100 }]), 1);
    const first = truth(world).gas.now;
    // No sooner than a full bore falls the length of it, no later than by flooding in each leg.
    const fall = Math.sqrt((2 * G * D) / 0.0135); // f of smooth pipe at Re 1.6e5.
    run(world, 60 / fall);
    expect(truth(world).gas.now / first).toBeGreaterThan(0.1);
    run(world, 30 / (0.25 * r(D)) - 60 / fall);
    expect(truth(world).gas.now / first).toBeLessThan(0.03);
    const came = truth(world).liquid.now - truth(world).liquid.start;
    expect(off(came, 60 * area(D) * RHO), 'water stands where gas stood').toBeLessThan(0.03);
    expect(Math.max(...xray(world).links[0]!.gas.slice(5, 59))).toBeLessThan(0.02);
  });
});
