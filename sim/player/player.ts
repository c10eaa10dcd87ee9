// A player: told what the job is, then asked each second for what it does next. It is its goals and
// its habits, and has no other way to a world than the views that it is handed.
import type { Command } from '../command.ts';
import { FINISH } from './finish.ts';
import type { Goal } from './goals.ts';
import { GOOD, type Habits } from './habits.ts';
import { Know } from './know.ts';
import { rigOf } from './map.ts';
import { purgeGoals } from './purge.ts';
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

export function playerOf(id: string, edit: Partial<Habits> = {}): Player {
  const habits = { ...GOOD, ...edit };
  return {
    id,
    begin: (briefing) => {
      const rig = rigOf(briefing);
      const goals = [...purgeGoals(rig, habits), ...FINISH];
      let know: Know | null = null;
      return (view) => {
        know ??= new Know(rig, habits, view);
        know.look(view);
        return decide(know, goals);
      };
    },
  };
}

/** Reflexes whenever they are due; of the others the first that wants something, hands free. */
function decide(know: Know, goals: readonly Goal[]): Decision {
  const { free } = know;
  for (const goal of goals) {
    if ((!goal.reflex && !free) || !goal.wants(know)) continue;
    const commands = goal.act(know);
    if (goal.reflex === true && commands.length === 0) continue;
    return { why: goal.why, commands };
  }
  return IDLE;
}
