// What the tasks of every phase share: the part of a day that a phase is, and its lines.
import { min } from '../base/math.ts';
import { wantedAtEnd } from './handover.ts';
import type { Habits } from './habits.ts';
import type { Kit } from './kit.ts';
import type { Know } from './know.ts';
import type { Rig } from './map.ts';
import { await_, note, stand, type Step } from './tasks.ts';
import type { Asked } from './view.ts';

export interface Part {
  readonly rig: Rig;
  readonly kit: Kit;
  readonly habits: Habits;
  readonly asked: readonly Asked[];
}

/** Pa that a gauge within its class shows of a loop that is let off, and s for which it has to. */
const LET_OFF = 16000;
const LET_OFF_FOR = 180;

export const each = (ids: readonly string[], to: number): [string, number][] =>
  ids.map((id) => [id, to]);

export const ofKind = (kit: Kit, kind: string): string[] => kit.devices(kind).map(({ id }) => id);

/** Lines of the sheet that a phase asks for. */
export function lines({ asked }: Part): string[] {
  return asked.flatMap(({ kind, names }) => (kind === 'noted' ? [names['entry'] ?? ''] : []));
}

export function notes(part: Part): Step[] {
  return lines(part).map(note);
}

/** Acts that a phase asks for, and those that are wanted at the end where it is the last. */
export function acts({ kit, asked }: Part, last: boolean): Step {
  const ids = ofKind(kit, 'act');
  const own = asked.map(({ names }) => names['control'] ?? '').filter((id) => ids.includes(id));
  return stand((know) => {
    const wanted = wantedAtEnd(know).filter(([id, to]) => ids.includes(id) && to === 1);
    return [...new Map([...each(own, 1), ...(last ? wanted : [])])];
  });
}

/** m over the tank's lowest port, below which it counts as empty. */
const EMPTY = 0.008;

export function isTankEmpty({ level, rig }: Know): boolean {
  return level < min(...Object.values(rig.tank.ports)) + EMPTY;
}

/** True where a phase is asked for. */
export const asksFor = ({ briefing }: Rig, phase: string): boolean =>
  briefing.asked.some((one) => one.phase === phase);

/** True where the loop is to stand under no pressure. */
export const isLetOff = ({ kind, numbers }: Asked): boolean =>
  kind === 'held' && (numbers['from_kPa'] ?? 1) < 0;

export function letOff({ kit }: Part): Step[] {
  const { cock, loopGauge } = kit;
  if (cock === null || loopGauge === null) return [];
  return [
    stand([[cock, 45]]),
    await_('let_off', (know) => (know.number(loopGauge) ?? 0) < LET_OFF, LET_OFF_FOR),
    stand([[cock, 0]]),
  ];
}

/** Pa and s of a test that the job asks for, well above nothing. */
export function testBand(
  asked: readonly Asked[],
): { readonly from: number; readonly to: number; readonly for_s: number } | null {
  const band = asked.find(({ kind, numbers }) => kind === 'held' && (numbers['from_kPa'] ?? 0) > 0);
  if (band === undefined) return null;
  const { from_kPa = 0, to_kPa = 0, for_s = 0 } = band.numbers;
  return { from: from_kPa * 1000, to: to_kPa * 1000, for_s };
}
