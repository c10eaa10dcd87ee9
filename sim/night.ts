// A night, or any time in which nobody is there: hands put down their tools, and the world goes on
// in long steps as far as its flows allow. Leaves the step itself to world.ts. What a night leaves
// out stands in MODEL.md.
import { abs, max, min, round } from './base/math.ts';
import type { Command } from './command.ts';
import type { Fact, RefusedReason } from './fact.ts';
import { inHand, PAIRS } from './hands.ts';
import type { Plan } from './network/plan.ts';
import type { Night } from './night-parts.ts';
import type { State } from './state.ts';

/** Words of `counter`: tick at which hands left; tick at which they are back, 0 while here. */
const LEFT = 2;
const BACK = 3;

/**
 * s. Steps of a night, longest first; the scenario's own tick is the last. The first is shorter
 * than what cools and creeps at night, the second lets a pump run: at half a litre a second a
 * metre of pipe is new in a second.
 */
export const NIGHT_TICKS_S = [10, 1] as const;
/** s by the scenario's own tick, until what was in motion has come to rest: bubbles, surges. */
const SETTLES_S = 300;
/** Share of a cell that may move on in one step. */
const COURANT_MOST = 0.9;

/** True while nobody is there. */
export function isAway({ counter }: State): boolean {
  return counter[BACK]! > 0;
}

/** s until hands are back; null while they are here. */
export function backIn({ scenario }: Plan, { counter }: State): number | null {
  if (counter[BACK] === 0) return null;
  return (counter[BACK]! - counter[0]!) * scenario.solver.tick_s;
}

/** Takes "leave" on, or says why it cannot be. */
export function leave(
  { plan, state }: { readonly plan: Plan; readonly state: State },
  command: Extract<Command, { kind: 'leave' }>,
  facts: Fact[],
): RefusedReason | null {
  if (isBusy(plan, state)) return 'busy';
  const tick = state.counter[0]!;
  state.counter[LEFT] = tick;
  state.counter[BACK] = tick + max(1, round((command.hours * 3600) / plan.scenario.solver.tick_s));
  facts.push({ tick, kind: 'command', command });
  facts.push({ tick, kind: 'left', hours: command.hours });
  return null;
}

function isBusy(plan: Plan, state: State): boolean {
  for (let pair = 0; pair < PAIRS; pair++) if (inHand(state, pair).all.length > 0) return true;
  return plan.pumps.some(({ link }) => state.control[link] === 1 && needsHands(plan, link));
}

/** A pump on a cord does; one that hangs on none where there are cords is the plant's own. */
function needsHands({ links, scenario }: Plan, link: number): boolean {
  const { spec } = links[link]!;
  if (spec.kind !== 'pump' || spec.unattended === true) return false;
  return spec.motor !== undefined || scenario.power === undefined;
}

/** At the end of a step: hands are back when their time has come. */
export function comeBack({ counter }: State, facts: Fact[]): void {
  if (counter[BACK] === 0 || counter[0]! < counter[BACK]!) return;
  counter[BACK] = 0;
  facts.push({ tick: counter[0]!, kind: 'back' });
}

/** m3. Smallest cell of the pipe of each column; endless for a fitting: it mixes in its step. */
function leastRooms({ columns, room }: Plan): Float64Array {
  return Float64Array.from(columns, ({ cell, cells }) => {
    let least = 1e9;
    for (let v = cell; v < cell + cells; v++) least = min(least, room[v]!);
    return least;
  });
}

/** Which of the night's steps this one may be, by the state alone; -1: the scenario's own. */
export function stepNow(state: State, night: Night): number {
  const { counter, flow, flowMean } = state;
  const { tick_s, ends } = night;
  if ((counter[0]! - counter[LEFT]!) * tick_s < SETTLES_S) return -1;
  const left = min(counter[BACK]!, ends) - counter[0]!;
  let fastest = 0; // Cells a second.
  for (let c = 0; c < flow.length; c++) {
    fastest = max(fastest, max(abs(flow[c]!), abs(flowMean[c]!)) / night.least[c]!);
  }
  for (let k = 0; k < night.steps.length; k++) {
    const per = night.steps[k]!;
    if (per > 1 && per <= left && fastest * per * tick_s <= COURANT_MOST) return k;
  }
  return -1;
}

export function planNight(plan: Plan): Night {
  const { solver, ends_after_s } = plan.scenario;
  const { tick_s } = solver;
  const ends = round(ends_after_s / tick_s);
  const steps = NIGHT_TICKS_S.map((s) => round(s / tick_s));
  return { steps, least: leastRooms(plan), tick_s, ends };
}
