// What the clock may do in each mode. An assessment has no freeze; it runs fast only while no hand
// is on a control, and comes back to real time at anything that can be seen or heard.
import type { Snapshot } from '../sim/index.ts';
import { SPEEDS, type Speed } from './loop.ts';
import type { Mode } from './session.ts';

const ASSESSED: readonly Speed[] = [1, 5, 20];
/** A sight that changes again within this, s of the job's clock, is no news. */
const NEWS_S = 30;

export function speedsOf(mode: Mode): readonly Speed[] {
  return mode === 'assess' ? ASSESSED : SPEEDS;
}

export function handsBusy({ scene }: Snapshot): boolean {
  return [scene.hands, scene.helper].some((pair) =>
    pair !== null && (pair.busy !== null || pair.waiting.length > 0));
}

interface Seen { readonly face: string; readonly since_s: number }

/** What eyes and ears get of a rig without reading a dial: sights, notes, water that runs out. */
function facesOf({ panel, scene }: Snapshot): readonly (readonly [string, string])[] {
  const readings = panel.readings.flatMap((one): [string, string][] =>
    one.kind === 'sight' || one.kind === 'note' ? [[one.id, String(one.value)]] : []);
  const rims = scene.tanks.map(({ id, overflow }): [string, string] =>
    [`rim ${id}`, String(overflow > 0)]);
  const outlets = scene.outlets.map(({ id, rate }): [string, string] =>
    [`outlet ${id}`, String(rate > 0)]);
  return [...readings, ...rims, ...outlets];
}

/** Notices a change of something that had stood for a while. */
export class Watch {
  private readonly seen = new Map<string, Seen>();

  /** True where there is news since the last look. */
  news(now: Snapshot): boolean {
    let found = false;
    for (const [id, face] of facesOf(now)) {
      const before = this.seen.get(id);
      if (before?.face === face) continue;
      if (before !== undefined && now.time_s - before.since_s >= NEWS_S) found = true;
      this.seen.set(id, { face, since_s: now.time_s });
    }
    return found;
  }
}
