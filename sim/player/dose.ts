// Antifreeze out of a drum. What is neat is put into the tank by what the loop holds, mixed round
// and looked at in a sample; what is mixed already pushes the water out of the loop, once through.
import { drumOf, type Drum } from './dose-drum.ts';
import { neatGoals } from './dose-neat.ts';
import { premixGoals } from './dose-premix.ts';
import type { Goal } from './goals.ts';
import { each, notes, ofKind, type Part } from './part.ts';
import { SPARE } from './purge.ts';
import { goalOf, stand, type Step } from './tasks.ts';

/** Of mixture at the least, for which a drum counts as mixed already. */
const MIXED = 0.9;

/** What else is asked for by how it stands: the tap shut, its hose open to the air at both ends. */
function before({ rig, kit, asked }: Part, drum: Drum): Step[] {
  const stood = asked.flatMap(({ kind, names, numbers }): [string, number][] => {
    const control = names['control'] ?? '';
    return kind !== 'stood' || drum.valves.includes(control) ? [] : [[control, numbers['at'] ?? 0]];
  });
  const fill = stood.length > 0 ? rig.fill.slice(-1) : [];
  return [
    stand([...each(kit.taps, 0), ...each(ofKind(kit, 'flame'), 0)]),
    stand([...stood, ...each(fill, 90)]),
  ];
}

export function doseGoals(part: Part): Goal[] {
  const drum = drumOf(part.rig, part.habits);
  if (drum === null) return [];
  const mixed = drum.share > MIXED;
  const goals = mixed ? premixGoals(part, drum) : neatGoals(part, drum);
  return [
    SPARE,
    goalOf({ id: 'dose_before', why: 'dose', steps: before(part, drum) }),
    ...goals,
    goalOf({ id: 'dose', why: 'dose', steps: notes(part) }),
  ];
}
