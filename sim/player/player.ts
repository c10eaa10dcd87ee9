// A player: told what the job is, then asked each second for what it does next. It is its goals and
// its habits, and has no other way to a world than the views that it is handed.
import type { Command } from '../command.ts';
import { FINISH, LAST } from './finish.ts';
import type { Goal } from './goals.ts';
import { wantedOf } from './handover.ts';
import { GOOD, type Habits } from './habits.ts';
import { Know } from './know.ts';
import { rigOf, type Rig } from './map.ts';
import { phaseGoals } from './phases.ts';
import { hasTap, purgeGoals } from './purge.ts';
import type { Briefing, View } from './view.ts';

export interface Decision {
  /** Key of the reason among the words of players. */
  readonly why: string;
  readonly commands: readonly Command[];
}

export interface Player {
  readonly id: string;
  readonly begin: (briefing: Briefing) => (view: View) => Decision;
}

const IDLE: Decision = { why: 'wait', commands: [] };

/** m3/s that run out into the open, by which a tank is soon empty. */
const RUNS_OUT = 1e-4;

/** What takes hands long is begun with no water running in, and none pumped away. */
function settled(know: Know, commands: readonly Command[]): readonly Command[] {
  const { rig, at, to } = know;
  const fill = rig.fill.at(-1);
  const long = commands.some(({ kind }) => kind === 'set' || kind === 'coupling');
  if (!long) return [];
  const empties = know.pumpOn && know.scene.outlets.some(({ rate }) => rate > RUNS_OUT);
  const stop = empties ? [to(rig.pump, 0)] : [];
  if (fill === undefined || !hasTap(know) || at(fill) === 0) return stop;
  return wantedOf(know, fill) === 90 ? stop : [...stop, to(fill, 0)];
}

export function playerOf(id: string, edit: Partial<Habits> = {}): Player {
  const habits = { ...GOOD, ...edit };
  return {
    id,
    begin: (briefing) => {
      const rig = rigOf(briefing);
      const goals = goalsOf(rig, habits);
      let know: Know | null = null;
      return (view) => {
        know ??= new Know(rig, habits, view);
        know.look(view);
        return decide(know, goals);
      };
    },
  };
}

function goalsOf(rig: Rig, habits: Habits): Goal[] {
  if (rig.toPurge) return [...purgeGoals(rig, habits), ...FINISH];
  return [...phaseGoals(rig, habits), ...LAST];
}

/** Reflexes whenever they are due; of the others the first that wants something, hands free. */
function decide(know: Know, goals: readonly Goal[]): Decision {
  const { free } = know;
  for (const goal of goals) {
    if ((!goal.reflex && !free) || !goal.wants(know)) continue;
    const commands = goal.act(know);
    if (goal.reflex === true && commands.length === 0) continue;
    return { why: goal.why, commands: [...settled(know, commands), ...commands] };
  }
  return IDLE;
}
