// What changes slowly about the liquid of a world: what each column holds, heat in and out, what
// warmth does to the room of pipes; and how it all stands when a run starts.
import { roomOfWalls } from './network/creep.ts';
import { mixColumns, plainColumns } from './network/mixture.ts';
import { fitRooms, weigh } from './network/weigh.ts';
import { airRoom } from './rooms.ts';
import { exchangeHeat } from './transport/exchange.ts';
import { startAir } from './transport/dissolved.ts';
import { carriesAir, carriesHeat, carriesSolute } from './transport/flow.ts';
import { setTemperature } from './transport/heat.ts';
import type { World } from './world-parts.ts';

/** Once contents stand: temperature, where heat is followed, and the liquid of every column. */
export function startLiquids(world: World): void {
  const { plan, state } = world;
  if (carriesHeat(plan)) warmAll(world);
  if (carriesAir(plan)) startAir(plan, state);
  if (carriesSolute(plan) || carriesHeat(plan)) mixColumns(plan, state);
  else plainColumns(plan, state);
}

/** Everything as warm as the scenario says; what it weighs goes by that. */
function warmAll({ plan, state }: World): void {
  for (let v = 0; v < plan.volumes; v++) {
    const before = state.density[v]!;
    const t = state.temp[v]!;
    setTemperature(plan, state, v, t);
    // The room stays as full as it was, by the table's density and with any ice.
    const share = state.density[v]! / before;
    state.mass[v] = state.mass[v]! * share;
    state.solute[v] = state.solute[v]! * share;
    setTemperature(plan, state, v, t);
  }
}

/** Slow things, once a second. */
export function everySecond(world: World): void {
  const { plan, state, scratch, dt } = world;
  if (plan.thermal !== null) {
    exchangeHeat(world, plan.mixEvery * dt);
    fitRooms(plan, state, scratch);
    roomOfWalls(plan, state, scratch); // Walls creep in the rooms as they are now.
  }
  mixColumns(plan, state);
  airRoom(plan, state, plan.mixEvery * dt);
}

/** Numbers of one tick that follow from the state alone, in a world that did not make it so. */
export function freshen({ plan, state, scratch }: World): void {
  fitRooms(plan, state, scratch);
  roomOfWalls(plan, state, scratch);
  weigh(plan, state, scratch);
}
