// People where they should not be: hands on hot parts, someone in a vault or trench before it is
// safe, a unit opened while its pump can still be switched on.
import { abs, max } from '../base/math.ts';
import { atWork, firstDevice, PAIRS, wayTo } from '../hands.ts';
import { temperatureOf } from '../instrument.ts';
import { HEAT } from '../machines.ts';
import type { LinkPlan, Plan } from '../network/plan.ts';
import { startOf } from '../start.ts';
import { PUMP_STRIDE } from '../state.ts';
import { timed, type Hazard, type Judged, type Place, type Watch } from './kind.ts';

/** Pumps whose casing is one end of a link; for those that stay outside heat's book. */
function casingsAt(plan: Plan, { from, to }: LinkPlan): number[] {
  return plan.pumps.flatMap(({ link }, ix) => {
    const casing = plan.links[link]!.from;
    return casing === from || casing === to ? [ix] : [];
  });
}

/** Valves and couplings that can get hot; only where a scenario has heat or hands' devices. */
function touched(plan: Plan): Place[] {
  if (plan.thermal === null && plan.scenario.devices.length === 0) return [];
  return plan.links.flatMap((link, index) => {
    const { kind } = link.spec;
    if (kind !== 'coupling' && kind !== 'valve') return [];
    const more = casingsAt(plan, link);
    return plan.thermal === null && more.length === 0 ? [] : [{ at: link.id, index, more }];
  });
}

/** C of the hotter end, and of a pump's casing there. */
function warmthAt({ plan, state }: Judged, { index, more }: Watch): number {
  const { from, to } = plan.links[index]!;
  let warmest = max(temperatureOf(plan, state, from), temperatureOf(plan, state, to));
  for (let k = 0; k < more.length; k++) {
    const heat = state.pump[more[k]! * PUMP_STRIDE + HEAT]!;
    warmest = max(warmest, plan.scenario.temperature_C + heat);
  }
  return warmest;
}

function underHands(world: Judged, watch: Watch): number {
  for (let pair = 0; pair < PAIRS; pair++) {
    if (atWork(world.state, pair) === watch.index) return warmthAt(world, watch);
  }
  return 0;
}

/** Share of the way in while something that it rests on is not done; 1 inside. */
function wayIn({ plan, state }: Judged, { index, more }: Watch): number {
  let missing = false;
  for (let k = 0; k < more.length; k++) missing ||= state.device[more[k]!] !== 1;
  if (!missing) return 0;
  return state.device[index] === 1 ? 1 : wayTo(plan, state, firstDevice(plan) + index);
}

/** True while one of these stands otherwise than it did when the run began. */
function isOpened({ plan, state }: Judged, more: readonly number[]): boolean {
  for (let k = 1; k < more.length; k += 2) {
    const link = more[k]!;
    const slack = plan.links[link]!.spec.kind === 'coupling' ? 0.5 : MOVED_DEG;
    if (abs(state.control[link]! - more[k + 1]!) > slack) return true;
  }
  return false;
}

/** Degrees by which a handle has to be moved to count. */
const MOVED_DEG = 5;
/** s for which a unit may be open before the lock is on; energised at once. */
const UNLOCKED_S = 15;
const ENERGISED = 1.1;

function unlocked(world: Judged, { index, more }: Watch, slot: number): number {
  const { state, dt } = world;
  const opened = state.device[index] === 0 && isOpened(world, more);
  if (opened && state.control[more[0]!] === 1) return ENERGISED;
  return timed(state.watch[slot]!, opened, dt / UNLOCKED_S);
}

/** `more`: the pump, then each control of the unit and where it stands at the start. */
function locks(plan: Plan): Place[] {
  return plan.scenario.devices.flatMap((spec, index) => {
    if (spec.kind !== 'lock' || spec.service.length === 0) return [];
    const stands = spec.service.flatMap((id) => {
      const link = plan.linkIx.get(id)!;
      return [link, startOf(plan, link)];
    });
    return [{ at: spec.id, index, more: [plan.linkIx.get(spec.of)!, ...stands] }];
  });
}

/** C under a hand: bare metal burns in a minute at 51 C, in hours at 43 C [ISO13732]. */
export const hot: Hazard = {
  kind: 'hot',
  limits: { warn: 43, trip: 51 },
  places: touched,
  measure: underHands,
};

/** Share of the way into a vault or trench before what it needs is done. */
export const entry: Hazard = {
  kind: 'entry',
  limits: { warn: 0.1, trip: 1 },
  places: (plan) =>
    plan.scenario.devices.flatMap((spec, index) =>
      spec.kind === 'entry' && spec.needs.length > 0
        ? [{ at: spec.id, index, more: spec.needs.map((id) => plan.deviceIx.get(id)!) }]
        : [],
    ),
  measure: wayIn,
};

/** Share of 15 s that a unit stands open with its pump not locked [common practice, no source]. */
export const lockedOff: Hazard = {
  kind: 'locked_off',
  limits: { warn: 0.1, trip: 1 },
  places: locks,
  measure: unlocked,
};
