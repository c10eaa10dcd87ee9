// Proof, stop and hand-over: what air is left, the pump at rest before anything is shut, and every
// control where the job wants it.
import { round } from '../base/math.ts';
import { NOTHING, type Goal } from './goals.ts';
import { handOver, wantedOf } from './handover.ts';
import type { Know } from './know.ts';
import { onceMore } from './passes.ts';
import { note } from './tasks.ts';
import type { Command } from '../command.ts';

/** The last handle on the way back: shut against the pump, it squeezes what air is left. */
export function proofValve({ rig }: Know): string | null {
  const asked = rig.briefing.asked.find(({ kind }) => kind === 'shut_in')?.names['valve'];
  if (asked !== undefined) return asked;
  const handles = rig.ways[0]?.back.pieces.filter(({ deg }) => deg === 90) ?? [];
  return handles.at(-1)?.link.id ?? null;
}

/** Share of the contents by which pipes and hoses widen under a cart's pump, about. */
const GIVES = 0.004;

/** Share of the air that is squeezed away, about, and m that two readings may differ by. */
const SQUEEZED = 0.6;
const READS = 0.01;

/** s. Until the level stands still before it is read. */
const SETTLES = 5;

/** Passes that are gone through again before it is left at that. */
const AGAIN = 3;

/** Lines of the sheet for the level before and after. */
function levelLines({ rig }: Know): { open: string | null; shut: string | null } {
  const { asked, sheet, proof } = rig.briefing;
  if (proof !== null) return proof;
  const phase = asked.find(({ kind }) => kind === 'shut_in')?.phase;
  const lines = asked.flatMap(({ kind, names, phase: own }) =>
    kind === 'noted' && own === phase ? [names['entry'] ?? ''] : [],
  );
  const level = lines.filter((line) => sheet.find(({ id }) => id === line)?.reading === rig.level);
  const shut = level.at(-1) ?? null;
  return { open: level.length > 1 ? level[0]! : null, shut };
}

/** A note that is still to be written, or nothing. */
function written(know: Know, line: string | null): readonly Command[] {
  return line === null ? NOTHING : (note(line)(know) ?? NOTHING);
}

export const prove: Goal = {
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
      return written(know, levelLines(know).open);
    }
    if (!know.has('shut_since')) {
      const next = slower(know.at(valve)!);
      if (next !== null) return [know.to(valve, next)];
      know.keep('shut_since', know.now);
      return NOTHING;
    }
    if (know.now - know.mind.get('shut_since')! < know.habits.proof_s) return NOTHING;
    if (know.at(valve) === 0) {
      const line = written(know, levelLines(know).shut);
      if (line.length > 0) return line;
      know.keep('level_shut', know.level);
      return [know.to(valve, 90)];
    }
    const more = know.habits.heedsProof && !know.drill && (know.mind.get('again') ?? 0) < AGAIN;
    if (more && isAirLeft(know)) again(know);
    else know.keep('proved');
    return NOTHING;
  },
};

/** m in a thousandth of a mm, in which a level is written down. */
const MICRO = 1e-6;
/** m3 in a thousandth of a litre. */
const MILLILITRE = 1e-6;

/** The line that no instrument shows, once the level has been written down with the return shut. */
export const airLeft: Goal = {
  id: 'air_left',
  why: 'air_left',
  wants: ({ rig, mind }) => {
    const { proof } = rig.briefing;
    return proof !== null && mind.has(`noted_${proof.shut}`) && !mind.has('air_left');
  },
  act: (know) => {
    const { proof } = know.rig.briefing;
    if (proof === null) return NOTHING;
    know.keep('air_left');
    const noted = (line: string): number => know.mind.get(`noted_${line}`) ?? NaN;
    const fall = MICRO * (noted(proof.open) - noted(proof.shut)) - proof.stretch;
    const tells = fall >= proof.read;
    const value_milli = tells ? round(fall / proof.each / MILLILITRE) : null;
    return [{ kind: 'answer', line: 'residual', value_milli }];
  },
};

/** Degrees at which a hand rests on the way: water that is stopped at once strikes. */
const RESTS: readonly number[] = [45, 25, 15, 10, 6, 3, 0];

export function slower(deg: number): number | null {
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
  onceMore(know, 'pass');
  for (const key of ['level_open', 'shut_since']) know.mind.delete(key);
  know.keep('again', (know.mind.get('again') ?? 0) + 1);
}

const stop: Goal = {
  id: 'stop_pump',
  why: 'stop_pump',
  wants: (know) => !know.has('stopped'),
  act: (know) => {
    if (know.pumpOn && wantedOf(know, know.rig.pump) === 0) return [know.to(know.rig.pump, 0)];
    know.keep('stopped');
    return NOTHING;
  },
};

const done: Goal = {
  id: 'done',
  why: 'done',
  wants: () => true,
  act: () => [{ kind: 'done' }],
};

/** The end of every job. */
export const LAST: readonly Goal[] = [stop, handOver, done];
export const FINISH: readonly Goal[] = [prove, ...LAST];
