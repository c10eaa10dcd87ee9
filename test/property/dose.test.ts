// A dose by the book on a rig that the field builder made, with its lever pump: the refractometer
// agrees once all is mixed, and reads wrong before one turnover. What stays behind in tank and
// hoses is in the books. Volumes are worked out here from the site's numbers.
import { describe, expect, it } from 'vitest';
import { buildSite } from '../../sim/field/build.ts';
import type { Site } from '../../sim/field/site.ts';
import { createWorld, truth, xray, type World } from '../../sim/index.ts';
import { daySite, everything } from '../support/day-site.ts';
import { during, set, turn, turnOn } from '../support/hands.ts';
import { shown, worstBook } from '../support/dosing.ts';

const LEVEL_MM = 330;
const STROKES = 100;
const STROKE = 0.0004; // m3
const NEAT = 1036; // kg/m3 of propylene glycol at 20 C [ASHRAE2009]
const WATER = 998.2; // kg/m3

/** The barrow at two trenches that are full of water, as is the rig; no unit. */
function filled(): World {
  const site = daySite('barrow');
  const { field } = site;
  const { debris: _debris, ...day } = everything('barrow');
  const { plant: _plant, ...bare } = site;
  const branches = field.branches.map((one) => ({ ...one, contents: 'water' }) as const);
  const { start_pressure_kPa: _kPa, ...rest } = field;
  const full: Site = {
    ...bare,
    temperature_C: 20,
    rig: { kind: 'barrow', hose_m: 6, contents: 'water', start_level_mm: LEVEL_MM },
    field: { ...rest, contents: 'water', branches: branches as Site['field']['branches'] },
    day: {
      ...day,
      ends: { joints: 'cam', start: 'made' },
      filter: { bags: [] },
      samples: { places: ['tank', 'loop_end'], by: 'refractometer' },
      with: {},
    },
  };
  return createWorld(buildSite(full), 1);
}

/** kg of liquid that stands in all of the rig but the drum and the make-up hose. */
function liquid(world: World): number {
  const { plan, state } = world;
  const out = ['drum', 'mains', 'fill_in', 'tap_out', 'mix_pail'];
  let sum = 0;
  plan.nodes.forEach((node, n) => (sum += out.includes(node.id) ? 0 : state.mass[n]!));
  for (const link of plan.links) {
    if (link.id === 'make_up_hose') continue;
    for (let v = link.firstCell; v < link.firstCell + link.cells; v++) sum += state.mass[v]!;
  }
  return sum;
}

const sample = (world: World, place: number): number => {
  during(world, 25, [set('cup', place)]);
  return shown(world, 'refractometer')!;
};

/** Freezing points of propylene glycol at 10, 20, 30 % by mass [ASHRAE2009], straight between. */
function table(x: number): number {
  const at = [-3.2, -7.1, -12.7];
  const k = x < 0.2 ? 0 : 1;
  return at[k]! + ((x - 0.1 * (k + 1)) / 0.1) * (at[k + 1]! - at[k]!);
}

describe('a dose by strokes of the lever', () => {
  const world = filled();
  const water = liquid(world);
  const x = (STROKES * STROKE * NEAT) / (STROKES * STROKE * NEAT + water);
  const open = ['discharge_valve', 'loop_supply_valve', 'loop_return_valve', 'return_valve'];

  it('reads wrong before one turnover', () => {
    during(
      world,
      15,
      open.map((id) => turn(id, 90)),
    );
    during(world, 2 * STROKES + 5, [{ kind: 'stroke', pump: 'drum_pump', strokes: STROKES }]);
    expect(sample(world, 1)).toBeLessThan(table(x) - 4); // Stronger in the barrel than it will be.
    expect(x).toBeGreaterThan(0.1);
    expect(x).toBeLessThan(0.3);
  });

  it('reads what the book says after some turnovers, in the barrel and at the return', () => {
    during(world, 20, [set('plug', 1), turnOn(true)]);
    const flow = xray(world).links.find((l) => l.id === 'suction_hose')!.flow;
    const turnover = water / WATER / flow;
    during(world, 4 * turnover);
    for (const place of [1, 2]) expect(Math.abs(sample(world, place) - table(x))).toBeLessThan(0.5);
  });

  it('what stays in barrel and hoses is lost from the loop, and stands in the books', () => {
    const parts = truth(world).antifreeze_by_part;
    const left = ['tank', 'supply_hose', 'return_hose'].reduce((sum, id) => sum + parts[id]!, 0);
    const trenches = ['circuit_1', 'circuit_2'].reduce((sum, id) => sum + parts[id]!, 0);
    const dosed = STROKES * STROKE * NEAT;
    expect(left / dosed).toBeGreaterThan(0.4);
    expect((left + trenches) / dosed).toBeLessThan(1);
    expect(trenches / dosed).toBeGreaterThan(0.2);
    expect(worstBook(world)).toBeLessThan(1e-9);
  });
});
