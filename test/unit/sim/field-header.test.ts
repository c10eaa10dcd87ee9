// The field builder's headers and its first rig: ways, sizes and tees, worked out here from the
// site's numbers; the rig held part for part against the first level's file.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { buildSite } from '../../../sim/field/build.ts';
import { reducingSizes } from '../../../sim/field/header.ts';
import { parseScenario, type Scenario } from '../../../sim/index.ts';
import { area_cm2, bankOf, bore, conduits, fieldOf, hole, many } from './field-sites.ts';
import { pipe, siteOf, trench, type TABLE } from './field-sites.ts';

describe('its header', () => {
  /** m of pipe between the loop's two ends by way of one circuit. */
  function wayThrough(scenario: Scenario, circuit: string): number {
    const { from, to, length_m } = pipe(scenario, circuit);
    const lines = conduits(scenario).filter((p) => /^(supply|return)_/.test(p.id));
    const walk = (start: string, end: string): number => {
      const queue: [string, number][] = [[start, 0]];
      const seen = new Set<string>();
      for (const [node, so] of queue) {
        if (node === end) return so;
        seen.add(node);
        for (const l of lines) {
          const next = l.from === node ? l.to : l.to === node ? l.from : null;
          if (next !== null && !seen.has(next)) queue.push([next, so + l.length_m]);
        }
      }
      return NaN;
    };
    return walk('loop_start', from) + length_m + walk(to, 'loop_end');
  }
  const ways = (return_kind: 'direct' | 'reverse') => {
    const scenario = buildSite(siteOf(fieldOf(many(5, trench), { return_kind })));
    return [1, 2, 3, 4, 5].map((k) => wayThrough(scenario, `circuit_${k}`));
  };

  it('adds two spacings from circuit to circuit where the return is direct', () => {
    expect(ways('direct')).toEqual([136, 142, 148, 154, 160]);
  });

  it('makes all ways the same length where the return is reverse', () => {
    // Run-outs 8 and 8 and the way back along four spacings, the circuit, four spacings of header.
    expect(ways('reverse')).toEqual([160, 160, 160, 160, 160]);
  });

  it('has the sizes of its list in the order in which flow branches off', () => {
    const sizes = {
      supply: { sizes: ['2', '1-1/2', '1'] },
      return: { sizes: ['2', '1-1/2', '1'] },
    } as const;
    const field = fieldOf(many(3, trench), { return_kind: 'reverse', ...sizes });
    const scenario = buildSite(siteOf(field));
    const bores = (line: string) =>
      [`${line}_run`, `${line}_section_1`, `${line}_section_2`].map(
        (id) => pipe(scenario, id).bore_mm,
      );
    const near = (...sizes: (keyof typeof TABLE)[]) =>
      sizes.map((size) => expect.closeTo(bore(size), 1) as number);
    expect(bores('supply')).toEqual(near('2', '1-1/2', '1'));
    expect(bores('return')).toEqual(near('2', '1', '1-1/2'));
  });

  it('tells every node where three pipes meet which two run through', () => {
    for (const return_kind of ['direct', 'reverse'] as const) {
      const field = fieldOf([...many(2, { ...trench, valves: true }), bankOf(many(3, hole))], {
        return_kind,
      });
      const scenario = buildSite(siteOf(field));
      for (const node of scenario.nodes) {
        if (node.kind !== 'junction' || !/tee_\d+$/.test(node.id)) continue;
        const meet = scenario.links.filter((l) => l.from === node.id || l.to === node.id);
        const named = node.tee === undefined ? [] : [...node.tee.run, node.tee.branch];
        expect(named.sort(), node.id).toEqual(
          meet.length === 3 ? meet.map((l) => l.id).sort() : [],
        );
        if (node.tee === undefined) continue;
        expect(
          node.tee.run.every((id) => /_(run|section_\d+)$/.test(id)),
          node.id,
        ).toBe(true);
      }
    }
  });

  it('a circuit may have a valve at its supply end alone', () => {
    const scenario = buildSite(siteOf(fieldOf(many(2, { ...trench, valves: 'supply' }))));
    const valves = scenario.links.filter(({ kind }) => kind === 'valve').map(({ id }) => id);
    expect(valves).toContain('circuit_1_supply_valve');
    expect(valves).not.toContain('circuit_1_return_valve');
    const { from, to } = scenario.links.find(({ id }) => id === 'circuit_1')!;
    expect([from, to]).toEqual(['circuit_1_start', 'return_tee_1']);
  });

  it('CHK-12.1 independent method: a reducing line keeps 2 ft/s where a pipe for it exists', () => {
    const gpm = 3.7854118 / 60;
    const sizes = reducingSizes({
      branches: 6,
      flow_L_s: 3.62 * gpm,
      velocity_m_s: 0.6096,
      dr: 11,
    });
    expect(sizes).toEqual(['2', '1-1/2', '1-1/2', '1-1/4', '1', '3/4']);
    const speed = (size: keyof typeof TABLE, n: number) => (n * 3.62 * gpm * 10) / area_cm2(size);
    sizes.forEach((size, at) => {
      expect(speed(size as keyof typeof TABLE, 6 - at)).toBeGreaterThan(0.6096 * 0.999);
    });
    expect(Math.abs(speed('2', 1) - 0.119)).toBeLessThan(0.001);
  });
});

describe('the deck rig', () => {
  it('is, part for part, the cart of the first level', () => {
    const file = new URL('../../../levels/01-heron-lane/scenario.json', import.meta.url);
    const first = parseScenario(JSON.parse(readFileSync(file, 'utf8')));
    const field = fieldOf([{ ...trench, length_m: 186 }], {
      supply: { sizes: ['1'] },
      return: { sizes: ['1'] },
    });
    const scenario = buildSite(siteOf(field, { rig: { kind: 'deck', hose_m: 8 } }));
    const ours = new Map([...scenario.nodes, ...scenario.links].map((part) => [part.id, part]));
    for (const part of [...first.nodes, ...first.links]) {
      if (part.id === 'circuit') continue;
      const mine: object = ours.get(part.id) ?? {};
      const moved = {
        loop_supply_valve: { bore_mm: 27.31 },
        loop_return_valve: { bore_mm: 27.31 },
      };
      const want = { ...part, ...moved[part.id as keyof typeof moved] };
      expect(mine, part.id).toEqual(want);
    }
    expect(scenario.instruments).toEqual(first.instruments);
  });
});
