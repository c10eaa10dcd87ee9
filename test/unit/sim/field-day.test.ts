// What the field builder adds for a whole day: on every rig it passes the checks and comes to a
// steady state, its books close under hands that know nothing, and a site that names none of it
// gets none.
import { describe, expect, it } from 'vitest';
import { buildSite, siteText } from '../../../sim/field/build.ts';
import { RIGS } from '../../../sim/field/site.ts';
import type { Scenario } from '../../../sim/index.ts';
import { createWorld, steadyState, step, truth } from '../../../sim/index.ts';
import { daySite } from '../../support/day-site.ts';
import { chance } from '../../tools/chance.ts';
import { randomCommand } from '../../tools/loop-hands.ts';

const link = (scenario: Scenario, id: string) => scenario.links.find((l) => l.id === id);
const device = (scenario: Scenario, id: string) => scenario.devices.find((d) => d.id === id);

/** The two ends of a link. */
function ends(scenario: Scenario, id: string): string {
  const found = link(scenario, id);
  return found === undefined ? 'none' : `${found.from} ${found.to}`;
}

describe.each(RIGS)('a whole day on the %s', (kind) => {
  const scenario = buildSite(daySite(kind));

  it('has power, lock, couplings, filter, drum, pail, cup and drains', () => {
    for (const id of ['plug', 'breaker', 'protector', 'lock_unit', 'cup', 'jug', 'backflow']) {
      expect(device(scenario, id), id).toBeDefined();
    }
    for (const id of ['supply_joint', 'filter', 'drum_pump', 'charge_pump', 'casing_drain']) {
      expect(link(scenario, id), id).toBeDefined();
    }
    expect(device(scenario, 'filter_lid')).toMatchObject({ elements: ['coarse', 'fine'] });
    expect(scenario.debris!.catchers.map((c) => c.link).sort()).toEqual([
      'coil',
      'filter',
      'strainer',
    ]);
    const pump = link(scenario, 'pump');
    expect(pump?.kind === 'pump' && pump.motor?.thermal_cutout).toBe(kind === 'barrow');
  });

  it('keeps its own anatomy', () => {
    const filters = {
      deck: 'filter_in discharge',
      barrow: 'filter_in return_tee',
      mast: 'riser_top filter_out',
    };
    expect(ends(scenario, 'filter')).toBe(filters[kind]);
    const changes = { deck: 'supply_cross', barrow: 'feed_way', mast: 'feed_a_valve' };
    for (const [rig, id] of Object.entries(changes)) {
      expect(link(scenario, id) !== undefined, id).toBe(rig === kind);
    }
    expect(link(scenario, 'by_pass_valve') !== undefined).toBe(kind === 'deck');
  });

  it('leads from the unit back to the loop through strainer, coil, pump and check valve', () => {
    const way = ['unit_in_pipe', 'strainer', 'coil', 'loop_pump', 'unit_check', 'unit_out_pipe'];
    const met = way.map((id) => ends(scenario, id).split(' '));
    expect(met[0]![0]).toBe('unit_in');
    for (let k = 1; k < met.length; k += 1) expect(met[k]![0]).toBe(met[k - 1]![1]);
    expect(met[met.length - 1]![1]).toBe('unit_out');
  });

  it('comes to a steady state with its own pump on and the way open', () => {
    const open = new Map<string, number>([['pump', 1]]);
    for (const { id, kind: what } of scenario.links) {
      if (
        what === 'valve' &&
        /^tap$|supply_valve|return_valve|suction|discharge|feed_a|back_b/.test(id)
      ) {
        open.set(id, 90);
      }
      if (what === 'coupling') open.set(id, /joint/.test(id) ? 1 : 0);
    }
    open.set('supply_service', 180);
    open.set('return_service', 180);
    const { links } = steadyState(scenario, open);
    expect(links.find((l) => l.id === 'circuit_1')!.flow).toBeGreaterThan(2e-4);
  });

  it('closes its books after a minute of hands that know nothing', () => {
    for (const seed of [3]) {
      const world = createWorld(scenario, seed);
      const random = chance(seed);
      for (let tick = 0; tick < 600; tick += 1) {
        step(world, tick % 12 === 0 ? [randomCommand(scenario, random)] : []);
      }
      const { liquid, antifreeze, gas, heat } = truth(world);
      for (const book of [liquid, antifreeze, gas, heat]) {
        expect(Math.abs(book?.error ?? 0)).toBeLessThan(1e-9);
      }
    }
  });
});

it('test air stands in the unit too where the loop is joined with it', () => {
  const text = siteText(daySite('barrow'));
  const pressed = text.nodes.filter((n) => n.kind === 'junction' && n.start_pressure_kPa === 200);
  expect(pressed.map(({ id }) => id)).toEqual(
    expect.arrayContaining(['loop_end', 'field_end', 'coil_in', 'check_out', 'supply_tee_2']),
  );
  expect(pressed.map(({ id }) => id)).not.toContain('stub_supply');
});

it('a vessel may hang behind a cap valve that is shut on arrival', () => {
  const { plant, ...site } = daySite('mast');
  const room = { ...plant!.room!, vessel_valve: true };
  const scenario = buildSite({ ...site, plant: { ...plant!, room } });
  expect(ends(scenario, 'vessel_valve')).toBe('coil_in vessel_in');
  expect(link(scenario, 'vessel_valve')).toMatchObject({ start_deg: 0 });
  expect(ends(scenario, 'vessel')).toBe('vessel_in vessel_end');
  expect(ends(buildSite(daySite('mast')), 'vessel')).toBe('coil_in vessel_end');
});

it('pipes of the rig stand in the air, those of the loop in the ground', () => {
  const { heat } = buildSite(daySite('deck'));
  const placed = heat!.places.map((place) => place.link);
  expect(placed).toEqual(expect.arrayContaining(['riser', 'drop_pipe', 'unit_in_pipe']));
  expect(placed.some((id) => /circuit|run|section/.test(id))).toBe(false);
});

it('a site that names nothing of it gets nothing of it', () => {
  const { day: _day, plant: _plant, ...bare } = daySite('deck');
  const text = siteText(bare);
  expect(Object.keys(text)).not.toContain('devices');
  expect(Object.keys(text)).not.toContain('debris');
  expect(text.antifreeze).toBe('none');
  expect(text.links.some((l) => l.kind === 'coupling' || l.kind === 'filter')).toBe(false);
});
