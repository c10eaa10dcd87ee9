// The loops that go through a pipe's cells in a row write the laws of gas once more, for speed.
// Here each is held against the law itself (own formula on both sides: it proves they are one).
import { describe, expect, it } from 'vitest';
import { benchField } from '../../../sim/cli/bench-field.ts';
import { EXCHANGE_MAX } from '../../../sim/constants.ts';
import { entrainment, gasDrift, levelling } from '../../../sim/laws/gas.ts';
import { moveClear } from '../../../sim/transport/clear.ts';
import { driftPipe, isHazy, sendHaze } from '../../../sim/transport/drift.ts';
import { SENT } from '../../../sim/transport/flow.ts';
import { fluxOf, spreadFlux } from '../../../sim/transport/flux.ts';
import { gasOf, gasOfHaze, splitLink } from '../../../sim/transport/split.ts';
import { spreadAlong, weigh } from '../../../sim/network/weigh.ts';
import { createWorld, step, type World } from '../../../sim/world.ts';

/** A purge on its way: pockets, bubbles, haze and clear water, in rising and falling stretches. */
function purge(ticks: number): World {
  const world = createWorld(benchField(2, true), 1);
  for (let k = 0; k < ticks; k++) step(world, []);
  for (const link of world.plan.links) fluxOf(world, link);
  for (const link of world.plan.links) if (link.cells > 0) driftPipe(world, link);
  return world;
}

/** The same with water that runs under pockets, weighed. */
function layered(ticks: number): World {
  const world = createWorld({ ...benchField(2, true), running_layers: true }, 1);
  for (let k = 0; k < ticks; k++) step(world, []);
  weigh(world.plan, world.state, world.scratch);
  return world;
}

const HAZE = 1e-3;

describe('gas in a row of cells', () => {
  for (const ticks of [40, 400]) {
    it(`drifts by the law after ${ticks} ticks`, () => {
      const { plan, scratch, fluxes } = purge(ticks);
      const out = new Float64Array(3);
      let wet = 0;
      for (const { firstCell, firstFace, cells, area, length, bore } of plan.links) {
        for (let k = 0; k < cells; k++) {
          const v = firstCell + k;
          const a = scratch.alpha[v]!;
          if (a < HAZE) continue;
          wet++;
          const q = (fluxes.total[firstFace + k]! + fluxes.total[firstFace + k + 1]!) / 2;
          gasDrift(plan.section[v]!, a, q / area, (a * length) / cells / bore, out);
          const [C, slip, phi] = out as unknown as [number, number, number];
          const own = a * phi;
          const free = Math.min(a > 0.999 ? 1 : own / (1 - a), EXCHANGE_MAX);
          const at = SENT * v;
          expect(fluxes.sent[at]).toBeCloseTo(a * C, 12);
          expect(fluxes.sent[at + 1]).toBeCloseTo((slip > 0 ? free : own) * slip, 12);
          expect(fluxes.sent[at + 2]).toBeCloseTo((slip > 0 ? -own : -free) * slip, 12);
        }
      }
      expect(wet).toBeGreaterThan(50);
    });

    it(`levels itself and is torn by the law after ${ticks} ticks`, () => {
      const { plan, scratch, fluxes } = purge(ticks);
      let moved = 0;
      for (const { firstCell, firstFace, cells, area } of plan.links) {
        for (let k = 1; k < cells; k++) {
          const v = firstCell + k;
          const [a, b] = [scratch.alpha[v - 1]!, scratch.alpha[v]!];
          const j = fluxes.total[firstFace + k]! / area;
          const [left, right] = [plan.section[v - 1]!, plan.section[v]!];
          const torn = j >= 0 ? entrainment(left, a, b, j) : entrainment(right, b, a, j);
          expect(fluxes.layers[v]).toBeCloseTo(levelling(left, a, b) + torn, 12);
          if (fluxes.layers[v] !== 0) moved++;
        }
      }
      expect(moved).toBeGreaterThan(5);
    });
  }
});

/** Holds two lists against each other: no more apart than `most`. */
function near(one: Float64Array, other: Float64Array, most: number): void {
  expect(one.length).toBe(other.length);
  for (let k = 0; k < one.length; k++) expect(Math.abs(one[k]! - other[k]!)).toBeLessThan(most);
}

describe('a pipe in one pass', () => {
  const ways = {
    'flux, then pressure, cell by cell': (world: World, l: number) => {
      fluxOf(world, world.plan.links[l]!);
      spreadAlong(world, world.plan.links[l]!);
      splitLink(world, l);
    },
    'both at once': (world: World, l: number) => {
      spreadFlux(world, world.plan.links[l]!);
      splitLink(world, l);
    },
    'all at once': (world: World, l: number) => moveClear(world, world.plan.links[l]!),
  };
  for (const ticks of [3, 50]) {
    it(`moves the same without gas, however it is gone through, after ${ticks} ticks`, () => {
      const [first, ...others] = Object.values(ways).map((way) => {
        const world = createWorld(benchField(1, false), 1);
        for (let k = 0; k < ticks; k++) step(world, []);
        weigh(world.plan, world.state, world.scratch);
        world.plan.links.forEach((link, l) => link.cells > 1 && way(world, l));
        return world;
      }) as [World, World, World];
      expect(first.moves.liquid.some((kg) => kg !== 0)).toBe(true);
      for (const other of others) {
        near(other.moves.liquid, first.moves.liquid, 1e-12);
        near(other.state.mass, first.state.mass, 1e-12);
        near(other.state.carried, first.state.carried, 1e-12);
        near(other.state.pressure, first.state.pressure, 1e-6);
      }
    });
  }

  it('has the flux and the pressures of a purge, with running layers as well', () => {
    const one = layered(20);
    const other = layered(20);
    for (const link of one.plan.links) {
      if (link.cells === 0) continue;
      fluxOf(one, link);
      spreadAlong(one, link);
      spreadFlux(other, link);
    }
    expect(one.scratch.layer.some((x) => x !== 0)).toBe(true);
    near(other.fluxes.total, one.fluxes.total, 1e-12);
    near(other.state.pressure, one.state.pressure, 1e-6);
  });

  it('sends haze by the law for any gas', () => {
    const world = purge(1100);
    const { plan, scratch, fluxes } = world;
    let hazy = 0;
    for (const link of plan.links) {
      const last = 2 * (link.firstColumn + link.columns);
      for (let h = 2 * link.firstColumn; h < last && link.cells > 1; h++) {
        if (!isHazy(scratch, h)) continue;
        for (let v = scratch.halfAt[h]! + 1; v < scratch.halfAt[h + 1]!; v++) {
          gasOfHaze(world, link, v, v + 1);
          const haze = fluxes.gas[v]!;
          sendHaze(world, v - 1);
          sendHaze(world, v);
          fluxes.layers[v] = 0;
          gasOf(world, link, v, v + 1);
          expect(Math.abs(fluxes.gas[v]! - haze)).toBeLessThan(1e-18 + 1e-12 * Math.abs(haze));
          if (haze !== 0) hazy++;
        }
      }
    }
    expect(hazy).toBeGreaterThan(50);
  });
});
