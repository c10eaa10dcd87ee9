// Runs from rest against the steady solver: ten networks without gas are ticked until nothing
// moves; flows must be those of steadyState. An independent method: masses on elastic points,
// stepped in time, against Newton on flows that stand still. Both use the same laws of loss.
import { describe, expect, it } from 'vitest';
import { createWorld, step, type World } from '../../sim/index.ts';
import { GAS_FACTOR, NPSH_FACTOR } from '../../sim/machines.ts';
import { PUMP_STRIDE } from '../../sim/state.ts';
import { steadyState } from '../../sim/steady.ts';
import { networks, type Network } from '../tools/networks.ts';
import { freshSeed } from '../tools/chance.ts';

const SEED = freshSeed();
const COUNT = 10;
/** Cells and joints: a network that has more takes long to come to rest. */
const VOLUMES_MAX = 260;

/** Share of a flow, and m3/s that do not count: 0.1 mL/s. */
const SHARE = 0.001;
const LEAST = 1e-7;

/** s. How often flows are looked at, by what share they may still move, and when it is given up. */
const LOOK = 20;
const STILL = 1e-5;
const GIVE_UP = 4000;

/** Seconds until no flow moves by more than a hundred-thousandth in 20 s. */
function settle(world: World): number {
  const { flow } = world.state;
  for (let t = LOOK; t <= GIVE_UP; t += LOOK) {
    const before = Float64Array.from(flow);
    for (let k = 0; k < LOOK / world.dt; k++) step(world, []);
    if (flow.every((Q, c) => Math.abs(Q - before[c]!) <= STILL * (Math.abs(Q) + 1e-6))) return t;
  }
  throw new Error(`still moving after ${GIVE_UP} s`);
}

/** What the pumps are helped by: 1 where neither gas nor a starved suction takes anything. */
function helps({ plan, state }: World): number {
  return plan.pumps.reduce((least, _, k) => {
    const at = k * PUMP_STRIDE;
    return Math.min(least, state.pump[at + GAS_FACTOR]! * state.pump[at + NPSH_FACTOR]!);
  }, 1);
}

const small = ({ scenario }: Network): boolean =>
  createWorld(scenario, 1).plan.volumes <= VOLUMES_MAX && steadyState(scenario).notes.length === 0;

/** A few more than must be compared, for those that rest where the steady solver does not. */
const drawn = networks(SEED, 48).filter(small).slice(0, COUNT + 4);
let compared = 0;

/**
 * A check valve that rests shut with less before it than it takes to open. The steady solver
 * calls it open, as a run would that came from more flow: both are states of rest.
 */
function heldShut({ plan, state }: World): string | undefined {
  const held = plan.links.find(({ spec, control, from, to, zFrom, zTo }) => {
    if (spec.kind !== 'check_valve' || state.control[control] === 1) return false;
    const ahead = state.point[from]! - state.point[to]! + plan.water.rho * 9.80665 * (zFrom - zTo);
    return ahead > 0 && ahead <= 1000 * spec.opens_at_kPa;
  });
  return held?.id;
}

describe(`a run from rest comes to the steady state (seed ${SEED})`, () => {
  it.each(drawn.map((one) => [one.name, one] as const))(
    '%s',
    (name, { scenario }) => {
      const steady = steadyState(scenario);
      const world = createWorld(scenario, 1);
      const seconds = settle(world);
      const held = heldShut(world);
      if (held !== undefined) {
        process.stdout.write(`  ${name}: not compared, ${held} rests shut below its opening\n`);
        return;
      }
      compared += 1;
      expect(helps(world), 'pumps without gas, suction well filled').toBeGreaterThan(1 - 1e-9);
      let worst = 0;
      steady.links.forEach(({ id, flow }, ix) => {
        const ran = world.state.flow[world.plan.links[ix]!.firstColumn]!;
        const off = Math.abs(ran - flow);
        const says = `${id}: ${ran} m3/s, steady ${flow}, again with LOOPYARD_SEED=${SEED}`;
        expect(off, says).toBeLessThanOrEqual(Math.max(LEAST, SHARE * Math.abs(flow)));
        if (Math.abs(flow) > 1e-6) worst = Math.max(worst, off / Math.abs(flow));
      });
      process.stdout.write(
        `  ${name}: at rest after ${seconds} s, flows above 1 mL/s off by ` +
          `${(1e6 * worst).toFixed(1)} millionths\n`,
      );
    },
    300_000,
  );

  it('was held against the steady solver on ten of them at least', () => {
    expect(compared).toBeGreaterThanOrEqual(COUNT);
  });
});
