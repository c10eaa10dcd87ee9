// The air of a closed room: alcohol goes into it from open tanks and from what was spilled, and
// out with the air that fans and leaks change. Well stirred: near a surface there is more of it.
// Leaves out water's evaporation, and the cold that evaporation leaves behind.
import { max, min } from './base/math.ts';
import { temperatureOf } from './instrument.ts';
import { evaporationSpeed, isAlcohol, lowerLimit, surfaceVapour } from './laws/alcohol.ts';
import type { Alcohol } from './laws/alcohol.ts';
import type { RoomAir } from './lens.ts';
import type { RoomPlan } from './network/vessel-plan.ts';
import type { Plan } from './network/plan.ts';
import { LEDGER_STRIDE, type State } from './state.ts';

/** kg: in the air; come into it; gone with it; come off spills so far. */
const IN_AIR = 0;
const CAME = 1;
const WENT = 2;
const OFF_SPILLS = 3;

/** m. A spill on a floor spreads to a centimetre [EPARMP1999]. */
const SPILL_DEPTH = 0.01;
/** Share of its alcohol that a surface gives in a second at the most. */
const MOST_SHARE = 0.1;

/** C of the air. */
function airTemperature({ scenario }: Plan): number {
  return scenario.heat?.air_C ?? scenario.temperature_C;
}

/** m3/s of air that goes through the room. */
function airThrough(room: RoomPlan, state: State): number {
  let flow = room.leak;
  for (let k = 0; k < room.fans.length; k++) {
    const fan = room.fans[k]!;
    if (state.device[fan.device] === 1) flow += fan.flow;
  }
  return flow;
}

/** Alcohol in a room's air as a share of what burns at the least; 0 where none is followed. */
export function burningShare(plan: Plan, state: State): number {
  const { room } = plan.mix;
  const kind = plan.scenario.antifreeze;
  if (room === null || !isAlcohol(kind)) return 0;
  return state.roomAir[IN_AIR]! / room.volume / lowerLimit(kind, airTemperature(plan));
}

/** What is to be told of a room's air; null where there is none. */
export function roomAir(plan: Plan, state: State): RoomAir | null {
  if (plan.mix.room === null) return null;
  return {
    alcohol_kg: state.roomAir[IN_AIR]!,
    came_kg: state.roomAir[CAME]!,
    went_kg: state.roomAir[WENT]!,
    burning_share: burningShare(plan, state),
  };
}

/** Once a second; `dt` since the last time. */
export function airRoom(plan: Plan, state: State, dt: number): void {
  const { room } = plan.mix;
  const kind = plan.scenario.antifreeze;
  if (room === null || !isAlcohol(kind)) return;
  const { roomAir: air } = state;
  let came = 0;
  for (let k = 0; k < room.tanks.length; k++) came += offTank(plan, state, { kind, room, k, dt });
  came += offSpills(plan, state, { kind, room, dt });
  const held = air[IN_AIR]! + came;
  const went = held - held / (1 + (airThrough(room, state) * dt) / room.volume);
  air[IN_AIR] = held - went;
  air[CAME] = air[CAME]! + came;
  air[WENT] = air[WENT]! + went;
}

interface Surface {
  readonly kind: Alcohol;
  readonly room: RoomPlan;
  readonly dt: number;
}

/** kg off a surface of `area` m2 of liquid at t C and fraction x; none where the air holds more. */
function off(state: State, { kind, room, dt }: Surface, area: number, at: Liquid): number {
  const over = surfaceVapour(kind, at.t, at.x) - state.roomAir[IN_AIR]! / room.volume;
  const kg = evaporationSpeed(kind, area) * area * over * dt;
  return max(0, min(kg, MOST_SHARE * at.kg));
}

/** A liquid's temperature, fraction, and kg of alcohol in it; one for all, made anew by none. */
interface Liquid {
  t: number;
  x: number;
  kg: number;
}
const liquid: Liquid = { t: 0, x: 0, kg: 0 };

function offTank(plan: Plan, state: State, work: Surface & { k: number }): number {
  const { room, k } = work;
  const n = room.tanks[k]!;
  const held = state.solute[n]!;
  if (held <= 0 || state.mass[n]! <= 0) return 0;
  liquid.t = temperatureOf(plan, state, n);
  liquid.x = held / state.mass[n]!;
  liquid.kg = held;
  const kg = off(state, work, plan.tanks[plan.nodes[n]!.tank]!.spec.area_m2, liquid);
  const at = room.ledger * LEDGER_STRIDE;
  state.solute[n] = held - kg;
  state.mass[n] = state.mass[n]! - kg;
  state.ledger[at] = state.ledger[at]! + kg;
  state.ledger[at + 1] = state.ledger[at + 1]! + kg;
  if (plan.thermal !== null) {
    const J = kg * state.heatShare[n]!;
    state.heat[n] = state.heat[n]! - J;
    state.heatBook[room.ledger] = state.heatBook[room.ledger]! + J;
  }
  return kg;
}

/** What lies on the floor has left the rig's books already; what came off it is in `roomAir`. */
function offSpills(plan: Plan, state: State, work: Surface): number {
  let mass = 0;
  let alcohol = 0;
  for (let k = 0; k < work.room.spills.length; k++) {
    const at = work.room.spills[k]! * LEDGER_STRIDE;
    mass += max(0, state.ledger[at]!);
    alcohol += max(0, state.ledger[at + 1]!);
  }
  mass -= state.roomAir[OFF_SPILLS]!;
  alcohol -= state.roomAir[OFF_SPILLS]!;
  if (mass <= 0 || alcohol <= 0) return 0;
  liquid.t = airTemperature(plan);
  liquid.x = min(1, alcohol / mass);
  liquid.kg = alcohol;
  const kg = off(state, work, mass / plan.water.rho / SPILL_DEPTH, liquid);
  state.roomAir[OFF_SPILLS] = state.roomAir[OFF_SPILLS]! + kg;
  return kg;
}
