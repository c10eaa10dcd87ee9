// The loops that go through a pipe's cells in a row write the laws of gas once more, for speed.
// Here each is held against the law itself (own formula on both sides: it proves they are one).
import { describe, expect, it } from 'vitest';
import { benchField } from '../../../sim/cli/bench-field.ts';
import { EXCHANGE_MAX } from '../../../sim/constants.ts';
import { entrainment, gasDrift, levelling } from '../../../sim/laws/gas.ts';
import { carryAcross } from '../../../sim/transport/carry.ts';
import { driftPipe } from '../../../sim/transport/drift.ts';
import { SENT } from '../../../sim/transport/flow.ts';
import { fluxOf } from '../../../sim/transport/flux.ts';
import { splitLink } from '../../../sim/transport/split.ts';
import { createWorld, step, type World } from '../../../sim/world.ts';

/** A purge on its way: pockets, bubbles, haze and clear water, in rising and falling stretches. */
function purge(ticks: number): World {
  const world = createWorld(benchField(2, true), 1);
  for (let k = 0; k < ticks; k++) step(world, []);
  for (const link of world.plan.links) fluxOf(world, link);
  for (const link of world.plan.links) if (link.cells > 0) driftPipe(world, link);
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

describe('a pipe without gas', () => {
  it('is split and carried as the laws of gas would have it', () => {
    const [clear, full] = [0, 1].map((gassy) => {
      const world = createWorld(benchField(1, false), 1);
      for (let k = 0; k < 50; k++) step(world, []);
      expect(world.scratch.gassy.every((gas) => gas === 0)).toBe(true);
      world.scratch.gassy.fill(gassy);
      world.plan.links.forEach((_, l) => splitLink(world, l));
      world.plan.links.forEach((_, l) => carryAcross(world, l));
      return world;
    }) as [World, World];
    expect([...clear.moves.liquid]).toEqual([...full.moves.liquid]);
    expect([...clear.moves.gas].map((x) => x + 0)).toEqual([...full.moves.gas].map((x) => x + 0));
    expect([...clear.state.mass]).toEqual([...full.state.mass]);
    expect([...clear.state.carried]).toEqual([...full.state.carried]);
    expect(clear.moves.liquid.some((kg) => kg !== 0)).toBe(true);
  });
});
