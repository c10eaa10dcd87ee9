// Sites of a whole day by chance: any rig with any of the equipment, any plant room, and a field
// of trenches, bores or banks in a vault. For tests of what must draw or build them all.
import type { DaySite, PlantRoom } from '../../sim/field/kit-site.ts';
import { buildSite } from '../../sim/field/build.ts';
import { RIGS, type Circuit, type Field, type Site } from '../../sim/field/site.ts';
import type { Scenario } from '../../sim/index.ts';
import { daySite, everything } from '../support/day-site.ts';
import { chance, type Chance } from './chance.ts';

type Maybe = <T extends object>(share: number, keys: T) => Partial<T>;
interface Dice {
  readonly draw: Chance;
  readonly maybe: Maybe;
}

const SIDE = { sizes: ['1-1/4'] } as const;
const header = (draw: Chance): Field['header'] => ({
  return_kind: draw.pick(['direct', 'reverse'] as const),
  ...{ elevation_m: -1.1, run_out_m: 4 + draw.below(20), spacing_m: 0.5 },
  ...{ supply: SIDE, return: SIDE },
});

function circuitsOf(draw: Chance, count: number, valves: boolean | 'supply'): Circuit[] {
  const bores = draw.unit() < 0.35;
  return Array.from({ length: count }, (): Circuit => {
    const own = { size: '1', contents: 'air', valves } as const;
    if (bores) return { ...own, kind: 'bore', depth_m: 30 + draw.below(60), run_m: 2 };
    const length_m = 40 + draw.below(60);
    const crests = [{ at_m: length_m * (0.3 + 0.4 * draw.unit()), rise_m: 0.3, half_m: 3 }];
    return { ...own, kind: 'trench', length_m, elevation_m: -1.4 - 0.4 * draw.unit(), crests };
  });
}

/** Single circuits with or without valves, or banks whose valves stand in a vault. */
function fieldOf(draw: Chance): { field: Field; vault: readonly string[] } {
  const common = { header: header(draw), contents: 'air', start_pressure_kPa: 200 } as const;
  if (draw.unit() < 0.5) {
    const valves = draw.pick([true, 'supply', false] as const);
    const branches = circuitsOf(draw, 1 + draw.below(5), valves);
    return { field: { ...common, branches }, vault: [] };
  }
  const valves = draw.pick(['supply', false] as const);
  const count = 2 + draw.below(2);
  const branches = Array.from({ length: count }, () => ({
    kind: 'bank' as const,
    header: { ...header(draw), run_out_m: 1 },
    circuits: circuitsOf(draw, 2 + draw.below(5), valves),
  }));
  const vault = branches.flatMap((_, k) => [
    `bank_${k + 1}_supply_valve`,
    `bank_${k + 1}_return_valve`,
  ]);
  return { field: { ...common, branches }, vault };
}

function roomOf({ draw, maybe }: Dice): PlantRoom {
  const full = daySite('deck').plant!.room!;
  return {
    pump: full.pump,
    service_deg: draw.pick([90, 180]),
    ...maybe(0.7, { strainer: full.strainer! }),
    ...maybe(0.5, { check_valve: true }),
    ...maybe(0.6, { vent: true }),
    ...maybe(0.5, { vessel_L_per_100kPa: 1.2, vessel_valve: draw.unit() < 0.5 }),
    ...maybe(0.5, { gauge: { range_kPa: 40, resolution_kPa: 1 } }),
    ...maybe(0.4, { thermometers: true }),
  };
}

/** What is brought along: each piece by itself there or not. */
function kitOf(dice: Dice, rig: Site['rig']['kind'], vault: readonly string[]): DaySite {
  const { draw, maybe } = dice;
  const all = everything(rig);
  const places = draw.pick([['tank'], ['tank', 'return_tee']]);
  const more = [
    ...(draw.unit() < 0.3 ? [{ id: 'heater', kind: 'flame', start: 1, above_fraction: 0.3 }] : []),
    ...(draw.unit() < 0.3 ? [{ id: 'fan', kind: 'fan', air_L_s: 250 }] : []),
    ...(vault.length === 0 ? [] : [entryOf(vault)]),
  ] as NonNullable<NonNullable<DaySite['things']>['more']>;
  const acts = ['air_test', 'attendant', 'read_print', 'tag'].slice(0, 2 + draw.below(3));
  const drum = draw.pick(['hand', 'pump', 'none'] as const);
  const guard = draw.unit() < 0.7;
  const litres = draw.pick([60, 110, 205, 510]);
  return {
    antifreeze: draw.pick(['ethanol', 'propylene_glycol'] as const),
    power: all.power!,
    ends: { joints: draw.pick(['cam', 'dry'] as const) },
    ...maybe(0.5, { changeover: true }),
    ...maybe(0.7, { filter: { ...all.filter!, by_pass: draw.unit() < 0.5 } }),
    ...(drum === 'none' ? {} : { drum: { litres, fraction: 1, by: drum } }),
    ...maybe(0.8, { charge: all.charge! }),
    ...maybe(0.8, { samples: { places, by: draw.pick(['hydrometer', 'refractometer'] as const) } }),
    ...maybe(0.8, { drains: true }),
    ...maybe(guard ? 0.5 : 0, { hose_drain: true }),
    ...maybe(0.7, { meter_L: 0.5 }),
    ...maybe(0.4, { flow_meter_L_min: 100 }),
    ...maybe(0.6, { thermometer: true }),
    things: {
      wear: ['eyes', 'gloves'],
      guard,
      acts: acts.map((id) => ({ id })),
      ...(more.length > 0 ? { more } : {}),
    },
    with: { heat: { air_C: 24, soil_C: 12 }, record: [{ id: 'line', reading: 'loop_gauge' }] },
  };
}

const entryOf = (inside: readonly string[]) => ({
  ...{ id: 'vault', kind: 'entry', where: 'vault', take_s: 30 },
  needs: ['air_test', 'attendant'],
  inside: [...inside],
});

/** The numbers of a day's site by seed. */
export function dayBySeed(seed: number): Scenario {
  const draw = chance(seed);
  const maybe: Maybe = (share, keys) => (draw.unit() < share ? keys : {});
  const dice = { draw, maybe };
  const kind = draw.pick(RIGS);
  const { field, vault } = fieldOf(draw);
  const base = daySite(kind);
  const room = draw.unit() < 0.85 ? { room: roomOf(dice) } : {};
  const { room: _room, ...unit } = base.plant!;
  return buildSite({
    ...base,
    id: `day_${seed}`,
    rig: { kind, hose_m: 6 + draw.below(8) },
    field,
    plant: { ...unit, ...room },
    day: kitOf(dice, kind, vault),
  });
}
