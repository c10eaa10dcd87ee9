// Proof, stop and hand-over: what air is left, the pump at rest before anything is shut, and every
// control where the job wants it.
import { abs } from '../base/math.ts';
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

/** The last handle on the way back: shut against the pump, it squeezes what air is left. */
export function proofValve({ rig }: Know): string | null {
  const handles = rig.ways[0]?.back.pieces.filter(({ deg }) => deg === 90) ?? [];
  return handles.at(-1)?.link.id ?? null;
}

/** Share of the contents by which pipes and hoses widen under a cart's pump, about. */
const GIVES = 0.008;

/** Share of the air that is squeezed away, about, and m that two readings may differ by. */
const SQUEEZED = 0.6;
const READS = 0.01;

/** s. Until the level stands still before it is read. */
const SETTLES = 5;

/** Passes that are gone through again before it is left at that. */
const AGAIN = 3;

const prove: Goal = {
  id: 'prove',
  why: 'prove',
  wants: (know) =>
    know.pumpOn && know.habits.proof_s > 0 && !know.has('proved') && proofValve(know) !== null,
  act: (know) => {
    const valve = proofValve(know)!;
    if (!know.has('level_open')) {
      // The level has to stand still: nothing may run in meanwhile.
      const fill = know.rig.fill.at(-1);
      if (fill !== undefined && know.at(fill) !== 0) return [know.to(fill, 0)];
      if (know.held('settling', true) < SETTLES) return NOTHING;
      know.keep('level_open', know.level);
      return NOTHING;
    }
    if (!know.has('shut_since')) {
      const next = slower(know.at(valve)!);
      if (next !== null) return [know.to(valve, next)];
      know.keep('shut_since', know.now);
      return NOTHING;
    }
    if (know.now - know.mind.get('shut_since')! < know.habits.proof_s) return NOTHING;
    if (know.at(valve) === 0) {
      know.keep('level_shut', know.level);
      return [know.to(valve, 90)];
    }
    const more = know.habits.heedsProof && (know.mind.get('again') ?? 0) < AGAIN;
    if (more && isAirLeft(know)) again(know);
    else know.keep('proved');
    return NOTHING;
  },
};

/** Degrees at which a hand rests on the way: water that is stopped at once strikes. */
const RESTS: readonly number[] = [45, 25, 15, 10, 6, 3, 0];

function slower(deg: number): number | null {
  return RESTS.find((rest) => rest < deg) ?? null;
}

/** True where the level fell by more than what widens, and a job's air, would make it fall. */
export function isAirLeft(know: Know): boolean {
  const { rig, mind } = know;
  const way = rig.ways[0];
  const fell = (mind.get('level_open') ?? 0) - (mind.get('level_shut') ?? 0);
  const widens = GIVES * (rig.field.volume + (way?.volume ?? 0));
  const squeezed = (SQUEEZED * rig.briefing.air_allowed_L) / 1000;
  return fell > (widens + squeezed) / rig.tank.area + READS;
}

/** Once more round, and another proof. */
function again(know: Know): void {
  const passes = [...know.mind.keys()].filter((key) => key.startsWith('pass_'));
  for (const key of [...passes.slice(-1), 'level_open', 'shut_since']) know.mind.delete(key);
  know.keep('again', (know.mind.get('again') ?? 0) + 1);
}

const stop: Goal = {
  id: 'stop_pump',
  why: 'stop_pump',
  wants: (know) => !know.has('stopped'),
  act: (know) => {
    const wanted = know.rig.briefing.hand_over.some((h) => h.control === know.rig.pump);
    if (wanted && know.pumpOn && stateOf(know, know.rig.pump) === 0) {
      return [know.to(know.rig.pump, 0)];
    }
    know.keep('stopped');
    return NOTHING;
  },
};

function stateOf(know: Know, control: string): number | null {
  const line = know.rig.briefing.hand_over.find((h) => h.control === control);
  return line === undefined ? null : (STATES[line.state] ?? null);
}

/** Away from the pump first, so that what lies behind stays full. */
function rank(know: Know, control: string): number {
  const way = know.rig.ways[0];
  const along = [...(way?.open.keys() ?? [])];
  return -abs(along.indexOf(control));
}

function* handOver(know: Know): Iterable<readonly [string, number]> {
  const { rig } = know;
  const lines = rig.briefing.hand_over.flatMap(({ control, state }): [string, number][] => {
    const position = STATES[state];
    return position === undefined ? [] : [[control, position]];
  });
  yield* lines.sort(([x], [y]) => rank(know, x) - rank(know, y));
  const fill = rig.fill.at(-1);
  if (fill !== undefined && stateOf(know, fill) === null) yield [fill, 0];
}

const leave: Goal = {
  id: 'hand_over',
  why: 'hand_over',
  wants: (know) => know.habits.handsOver && astray(know, handOver(know)).length > 0,
  act: (know) => bring(know, handOver(know)),
};

const done: Goal = {
  id: 'done',
  why: 'done',
  wants: () => true,
  act: () => [{ kind: 'done' }],
};

export const FINISH: readonly Goal[] = [prove, stop, leave, done];
