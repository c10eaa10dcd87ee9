// What a day asks for, phase by phase: the tasks by which it is done. Each goes by what the job
// names (a control, a line of the sheet, a band of pressure) and by what is seen.
import { doseGoals } from './dose.ts';
import { airLeft, prove } from './finish.ts';
import type { Goal } from './goals.ts';
import type { Habits } from './habits.ts';
import { kitOf } from './kit.ts';
import type { Rig } from './map.ts';
import { acts, each, notes, type Part } from './part.ts';
import { flushed, housings, leakTest, pressure, run, secondVisit, verify } from './phases-loop.ts';
import { arrive, disconnect, drain, goHome, setUp } from './phases-site.ts';
import { CARE } from './purge.ts';
import { roundGoals } from './rounds.ts';
import { goalOf, stand, type Step } from './tasks.ts';

const BY_PHASE: Readonly<Record<string, (part: Part) => Step[]>> = {
  arrive,
  set_up: setUp,
  run,
  record: (part) => [acts(part, true), ...goHome(part)],
  pressure,
  second_visit: secondVisit,
  verify,
  winterise: drain,
  flush: flushed,
  flow_test: notes,
  unit: housings,
  leak_test: leakTest,
  disconnect,
};

/** Hoses come off when the machine has run, before the cart is drained and anybody goes home. */
function withParting(phases: readonly string[]): string[] {
  const after = ['winterise', 'record', 'second_visit'];
  const at = phases.findIndex((phase) => after.includes(phase));
  const cut = at < 0 ? phases.length : at;
  return [...phases.slice(0, cut), 'disconnect', ...phases.slice(cut)];
}

/** Tasks for all that a job asks for, in the order in which it asks. */
export function phaseGoals(rig: Rig, habits: Habits): Goal[] {
  const kit = kitOf(rig);
  const { asked, hand_over } = rig.briefing;
  const phases = [...new Set(asked.map(({ phase }) => phase))];
  // Hoses that are to come off are asked for by how they stand at the end.
  const joint = (id: string): boolean =>
    rig.briefing.links.some((link) => link.id === id && link.kind === 'coupling');
  const stays = hand_over.some(({ control, state }) => joint(control) && state !== 'apart');
  const parts = !stays && hand_over.some(({ control }) => joint(control));
  const all = parts && !phases.includes('disconnect') ? withParting(phases) : phases;
  return all.flatMap((phase) => {
    const own = asked.filter((one) => one.phase === phase);
    const part: Part = { rig, kit, habits, asked: own };
    if (phase === 'dose') return doseGoals(part);
    const steps = BY_PHASE[phase]?.(part) ?? [];
    const rounds = roundGoals(rig, phase, own);
    const proof = own.some(({ kind }) => kind === 'shut_in') ? [prove, airLeft] : [];
    const care = rounds.length > 0 ? CARE : [];
    const tap = goalOf({ id: `${phase}_tap`, why: 'open_tap', steps: [stand(each(kit.taps, 90))] });
    const first = phase === 'flush' || phase === 'leak_test' ? [tap] : [];
    return [...first, ...care, ...rounds, ...proof, goalOf({ id: phase, why: phase, steps })];
  });
}
