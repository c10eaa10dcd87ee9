// How questions of cases.json about electricity are put to the laws of motors and to whole worlds:
// a bare breaker under a load, and a cart with a motor.
import { createWorld, truth, type World } from '../../../sim/index.ts';
import * as motor from '../../../sim/laws/motor.ts';
import { held, pipe, scenario } from '../../support/fields.ts';
import { cart, secondsUntil } from '../../support/power.ts';
import { during, reading } from '../../support/hands.ts';

const HP = 745.7; // W
const FT = 0.3048;
const AWG12 = 3.31; // mm2

/** A supply of 15 A with so many times that on it, and nothing that turns; a pipe for company. */
function loaded(times: number): World {
  const nodes = [held('a', 10), held('b', 10)];
  const power = {
    supply: { kind: 'outlet', voltage_V: 120, breaker_A: 15, other_load_A: 15 * times },
    cord: { length_m: 15, copper_mm2: AWG12 },
    ground_fault: false,
  };
  const devices = [
    { id: 'plug', kind: 'plug', start: 1 },
    { id: 'breaker', kind: 'breaker', start: 1 },
  ];
  const solver = { tick_s: 0.2, cell_m: 1 };
  const links = [pipe('p', ['a', 'b'], 25, 1)];
  return createWorld(scenario(nodes, links, { power, devices, solver }), 1);
}

const tripsAfter = (times: number, most: number): number =>
  Math.min(most, secondsUntil(loaded(times), 'breaker_tripped', most));

const leaking = (leak_mA: number): World => cart({ start_on: true, motor: { leak_mA } });

/** Amperes on the plate of a motor of so many horsepower that says no more than volts and size. */
function full({ hp, volts }: { hp: readonly number[]; volts: number }): number[] {
  return hp.map((size) => {
    const P = size * HP;
    const { efficiency, power_factor } = motor.typicalMotor(P);
    const magnetising_share = Math.sqrt(1 - power_factor * power_factor);
    return motor.makeMotor({ P, V: volts, efficiency, magnetising_share, locked: 5.5 }).full;
  });
}

/** A pump that takes about all its motor gives, at the motor's own voltage. */
function atPlate({ hp, head_m }: { hp: number; head_m: number }): number[] {
  const plate = { rated_W: hp * HP, voltage_V: 115 };
  const world = cart({ start_on: true, head_m, motor: plate, supply: { voltage_V: 117 } });
  during(world, 30);
  return [truth(world).pumps[0]!.shaft_W / plate.rated_W, reading(world, 'clamp')];
}

/** V that so many amperes lose on a cord, as clamp and voltmeters of a cart have it. */
function sag({ feet, mm2, A }: { feet: number; mm2: number; A: number }): number {
  const world = cart({ start_on: true, cord: { length_m: feet * FT, copper_mm2: mm2 } });
  during(world, 30);
  const drop = reading(world, 'volts_outlet') - reading(world, 'volts');
  return (A * drop) / reading(world, 'clamp');
}

export const POWER = {
  breakerTime: ({ times }: { times: readonly number[] }) => times.map(motor.breakerTime),
  'world.breaker_s': ({ times, most_s }: { times: number; most_s: number }) =>
    tripsAfter(times, most_s),
  'world.breaker_share_of_limit': ({ times, limit_s }: { times: number; limit_s: number }) =>
    tripsAfter(times, 2 * limit_s) / limit_s,
  groundFaultTime: ({ mA }: { mA: readonly number[] }) =>
    mA.map((leak) => motor.groundFaultTime(leak / 1000)),
  'world.ground_fault_s': ({ mA, most_s }: { mA: number; most_s: number }) =>
    Math.min(most_s, secondsUntil(leaking(mA), 'ground_fault_tripped', most_s)),
  fullLoadAmps: full,
  'world.plate_share_and_A': atPlate,
  cordDrop: ({ feet, mm2, A }: { feet: number; mm2: number; A: number }) =>
    A * motor.cordResistance(feet * FT, mm2 * 1e-6),
  'world.cord_drop_V': sag,
  torqueShare: ({ v }: { v: readonly number[] }) =>
    v.map((share) => motor.motorTorque(motor.SLIP_RATED, share)),
};
