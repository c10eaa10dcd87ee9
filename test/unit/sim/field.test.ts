// The field builder: every rig with every kind of field gives a scenario that passes the checks,
// and what it gives has the volumes and heights that the site's numbers say. Sums are worked out
// here from those numbers.
import { describe, expect, it } from 'vitest';
import { buildSite, circuitCount } from '../../../sim/field/build.ts';
import { RIGS } from '../../../sim/field/site.ts';
import type { Circuit } from '../../../sim/field/site.ts';
import { InputFaults } from '../../../sim/index.ts';
import { area_cm2, bankOf, coil, conduits, fieldOf, height } from './field-sites.ts';
import { hole, many, pipe, siteOf, trench } from './field-sites.ts';

describe('what the builder gives', () => {
  it('passes the checks for every rig, return, kind of circuit, count and heat-pump side', () => {
    let tried = 0;
    const plant = { coil, size: '1', pipe_m: 4, elevation_m: 1.5, contents: 'air' } as const;
    for (const kind of RIGS)
      for (const return_kind of ['direct', 'reverse'] as const)
        for (const one of [trench, hole, { ...trench, valves: true }])
          for (const count of [1, 3, 12, 48])
            for (const side of [{}, { plant, tee_losses: true }]) {
              const field = fieldOf(many(count, one), { return_kind });
              const rig = { kind, hose_m: 6 };
              buildSite(siteOf(field, { rig, ...side }));
              tried += 1;
            }
    expect(tried).toBe(3 * 2 * 3 * 4 * 2);
  });

  it('passes them for 200 bores, in cells as fine as a scenario may have', () => {
    const scenario = buildSite(
      siteOf(fieldOf(many(200, hole)), { rig: { kind: 'mast', hose_m: 6 } }),
    );
    const cells = conduits(scenario).reduce(
      (sum, p) => sum + Math.max(1, Math.round(p.length_m / scenario.solver.cell_m)),
      0,
    );
    expect(scenario.solver.cell_m).toBe(1.5);
    expect(cells).toBeGreaterThan(12000);
    expect(cells).toBeLessThan(20000);
  });

  it('passes them for banks, whose circuits are numbered through', () => {
    const field = fieldOf([bankOf(many(5, hole)), bankOf(many(7, trench)), hole]);
    const scenario = buildSite(siteOf(field));
    const ids = scenario.links.map((l) => l.id);
    expect(circuitCount(field)).toBe(13);
    expect(ids.filter((id) => /^circuit_\d+$/.test(id))).toHaveLength(13);
    expect(ids).toEqual(expect.arrayContaining(['bank_1_supply_valve', 'bank_2_return_valve']));
    expect(ids).not.toContain('bank_3_supply_valve');
    expect(ids).toContain('bank_2_supply_section_6');
  });

  it('is the same text for the same site', () => {
    const text = () => JSON.stringify(buildSite(siteOf(fieldOf(many(6, trench)))));
    expect(text()).toBe(text());
  });

  it.each([0, 201])('names the fault of %i circuits', (count) => {
    expect(() => buildSite(siteOf(fieldOf(many(count, hole))))).toThrow(InputFaults);
    expect(() => buildSite(siteOf(fieldOf(many(count, hole))))).toThrow(/1 to 200/);
  });

  it('names the fault of an empty bank and of a crest beyond its trench', () => {
    expect(() => buildSite(siteOf(fieldOf([bankOf([])])))).toThrow(/needs a circuit/);
    const beyond = { ...trench, crests: [{ at_m: 130, rise_m: 0.3, half_m: 2 }] };
    expect(() => buildSite(siteOf(fieldOf([beyond])))).toThrow(InputFaults);
  });
});

describe('its volumes', () => {
  it('are pi/4 D2 L of what the site says, to a part in a thousand', () => {
    const field = fieldOf(many(3, trench));
    const scenario = buildSite(siteOf(field));
    const litres = conduits(scenario)
      .filter((p) => /circuit|run|section/.test(p.id))
      .reduce((sum, p) => sum + ((Math.PI / 4) * p.bore_mm ** 2 * p.length_m) / 1000, 0);
    // Area in cm2 times length in m, over 10: litres.
    const want =
      (3 * 120 * area_cm2('1') +
        8 * area_cm2('2') +
        3 * (area_cm2('1-1/2') + area_cm2('1-1/4')) +
        (8 + 3 + 3) * area_cm2('2')) /
      10;
    expect(Math.abs(litres / want - 1)).toBeLessThan(1e-3);
  });

  it('are full of air, of water, or of air at the ends, as the site says', () => {
    const gas = (one: Circuit) => pipe(buildSite(siteOf(fieldOf([one]))), 'circuit_1').gas;
    expect(gas({ ...trench, contents: 'air' })).toEqual([{ from_m: 0, to_m: 120 }]);
    expect(gas({ ...trench, contents: 'water' })).toEqual([]);
    expect(gas(hole)).toEqual([
      { from_m: 0, to_m: 5 },
      { from_m: 119.3, to_m: 124.3 },
    ]);
    const some = [{ from_m: 3, to_m: 4 }];
    expect(gas({ ...trench, contents: some })).toEqual(some);
  });
});

describe('its heights', () => {
  const fall = {
    supply: { sizes: ['2'], fall_m: 0.4 },
    return: { sizes: ['2'], fall_m: -0.2 },
  } as const;
  const scenario = buildSite(siteOf(fieldOf([hole, trench, hole], fall)));

  it('fall evenly along each line of the header', () => {
    const at = (line: string) => [1, 2, 3].map((k) => height(scenario, `${line}_tee_${k}`));
    expect(at('supply')).toEqual([-1.2, -1.4, -1.6]);
    expect(at('return')).toEqual([-1.2, -1.1, -1]);
  });

  it('go down a bore by its depth, and up to the return', () => {
    const { profile, length_m } = pipe(scenario, 'circuit_3');
    expect(Math.min(...profile.map((p) => p.elevation_m))).toBeCloseTo(-1.6 - 60, 6);
    expect(profile[profile.length - 1]!.elevation_m).toBeCloseTo(-1, 6);
    expect(length_m).toBeCloseTo(2 + 60 + 0.3 + 60.6 + 2, 6);
  });

  it('are those of trench floor and crests', () => {
    const { profile } = pipe(scenario, 'circuit_2');
    const z = new Map(profile.map((p) => [p.at_m, p.elevation_m]));
    expect(z.get(40)).toBeCloseTo(-1.1, 6);
    expect(z.get(43)).toBeCloseTo(-1.6, 6);
    expect(z.get(46)).toBeCloseTo(-1.2, 6);
  });

  it('take the run-out down from the stub at its indoor end and level from there', () => {
    const { profile } = pipe(scenario, 'supply_run');
    expect(profile).toEqual([{ at_m: 1.875, elevation_m: -1.2 }]);
  });
});
