// Handing over: every control to where the job wants it, in an order that spills nothing: pumps
// off, ways open before others are shut, hoses at rest before they part, drains last, pumps on.
import { abs, max } from '../base/math.ts';
import type { Command } from '../command.ts';
import { astray, bring, NOTHING, type Goal } from './goals.ts';
import type { Know } from './know.ts';

/** Positions by the words of hand-over; of a valve in degrees. */
const STATES: Readonly<Record<string, number>> = {
  shut: 0,
  open: 90,
  off: 0,
  on: 1,
  made: 1,
  apart: 0,
  all_joined: 0,
  from_shut: 90,
  branch_shut: 180,
  to_shut: 270,
  pinned: 2,
  worn: 1,
  not_worn: 0,
  fitted: 1,
  not_fitted: 0,
  done: 1,
  not_done: 0,
};
/** Of the arms of a coupling. */
const ARMS: Readonly<Record<string, number>> = { open: 0, shut: 1, pinned: 2 };

type Wanted = [string, number][];

export function wantedAtEnd(know: Know): Wanted {
  const { briefing } = know.rig;
  const arms = briefing.devices.filter(({ kind }) => kind === 'latch').map(({ id }) => id);
  return briefing.hand_over.flatMap(({ control, state }): Wanted => {
    const position = (arms.includes(control) ? ARMS : STATES)[state];
    return position === undefined ? [] : [[control, position]];
  });
}

/** Where a control is wanted at the end, or null where nobody asks. */
export function wantedOf(know: Know, control: string): number | null {
  return wantedAtEnd(know).find(([one]) => one === control)?.[1] ?? null;
}

/** m3/s that count as nothing, and s that nothing has to run before hoses part. */
const NOTHING_RUNS = 2e-6;
const AT_REST_FOR = 15;

export function isAtRest(know: Know, counts = NOTHING_RUNS): boolean {
  // A tank that is emptied goes by its level.
  const others = know.scene.outlets.filter(({ id }) => !know.kit.tankEnds.includes(id));
  const most = others.reduce((rate, one) => max(rate, abs(one.rate)), 0);
  return know.pumpStill && most < counts;
}

/** Away from the pump first, so that what lies behind stays full. */
function rank(know: Know, control: string): number {
  return -[...(know.rig.ways[0]?.open.keys() ?? [])].indexOf(control);
}

function next(know: Know, off: Wanted): readonly Command[] {
  const { rig, kit, scene } = know;
  const is = {
    pump: (id: string) => scene.pumps.some((p) => p.id === id),
    valve: (id: string) => scene.valves.some((v) => v.id === id),
    coupling: (id: string) => scene.couplings.some((c) => c.id === id),
    arms: (id: string) => rig.briefing.devices.some((d) => d.id === id && d.kind === 'latch'),
  };
  const some = (test: (id: string, to: number) => boolean): Wanted =>
    off.filter(([id, to]) => test(id, to));
  const stops = some((id, to) => is.pump(id) && to === 0);
  if (stops.length > 0) return bring(know, stops);
  const valves = some((id, to) => is.valve(id) && !(kit.drains.includes(id) && to === 0));
  const onWay = new Set(rig.ways.flatMap((way) => [...way.open.keys()]));
  const turns = valves.some(([id]) => onWay.has(id));
  if (know.pumpOn && turns) return [know.to(rig.pump, 0)];
  const down = kit.devices('entry').map(({ id }) => id);
  const plain = some(
    (id) => !is.pump(id) && !is.valve(id) && !is.coupling(id) && !is.arms(id) && !down.includes(id),
  );
  if (plain.length > 0) return bring(know, plain);
  if (valves.length > 0) {
    if (turns && !know.pumpStill) return NOTHING;
    return bring(
      know,
      valves.sort(([x], [y]) => rank(know, x) - rank(know, y)),
    );
  }
  const out = some((id) => down.includes(id));
  if (out.length > 0) return bring(know, out);
  const makes = some((id, to) => is.coupling(id) && to === 1);
  if (makes.length > 0) return bring(know, makes);
  const pins = some((id, to) => is.arms(id) && to > 0);
  if (pins.length > 0) return bring(know, pins);
  const parts = some((id) => is.coupling(id) || is.arms(id));
  if (parts.length > 0) {
    if (know.held('hoses_at_rest', isAtRest(know)) < AT_REST_FOR) return NOTHING;
    const arms = parts.filter(([id]) => is.arms(id));
    return bring(know, arms.length > 0 ? arms : parts);
  }
  const drains = some((id) => is.valve(id));
  if (drains.length > 0) return bring(know, drains);
  return bring(know, off);
}

export const handOver: Goal = {
  id: 'hand_over',
  why: 'hand_over',
  wants: (know) => know.habits.handsOver && off(know).length > 0,
  act: (know) => next(know, off(know)),
};

function off(know: Know): Wanted {
  const { fill } = know.rig;
  const last = fill.at(-1);
  const wanted = wantedAtEnd(know);
  const down = know.kit.devices('entry').flatMap(({ id }): Wanted => {
    return wanted.some(([one]) => one === id) ? [] : [[id, 0]];
  });
  const runs = last !== undefined && !know.drill && wanted.every(([id]) => id !== last);
  return astray(know, [...wanted, ...down, ...(runs ? [[last, 0] as [string, number]] : [])]);
}
