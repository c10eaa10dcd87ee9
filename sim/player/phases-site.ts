// Tasks around the work itself: arriving, setting up, parting hoses, draining, going home.
import { ceil } from '../base/math.ts';
import { isAtRest, wantedAtEnd } from './handover.ts';
import {
  acts,
  asksFor,
  each,
  isLetOff,
  isTankEmpty,
  letOff,
  notes,
  ofKind,
  type Part,
} from './part.ts';
import { armsOf, jointsOf, type Kit } from './kit.ts';
import type { Know } from './know.ts';
import { await_, rest, stand, type Step } from './tasks.ts';

export function arrive(part: Part): Step[] {
  const { kit, rig, asked } = part;
  const { briefing } = rig;
  // Where no other phase asks for it, test air is let off before anything is joined.
  const later = briefing.asked.some((one) => one.phase !== 'arrive' && isLetOff(one));
  const off = !later && (asked.some(isLetOff) || asksFor(rig, 'set_up'));
  const named = briefing.hand_over.some(({ control }) => control === kit.cock);
  return [
    acts(part, !asksFor(rig, 'record')),
    stand(each(ofKind(kit, 'wear'), 1)),
    stand(each(ofKind(kit, 'flame'), 0)),
    stand(each([...ofKind(kit, 'fan'), ...ofKind(kit, 'lock')], 1)),
    ...notes(part),
    ...(off || (named && !later) ? letOff(part) : []),
  ];
}

/** The protector's test must trip it; then it is set again. */
function tryProtector(id: string): Step[] {
  return [
    (know) => {
      if (know.at(id) === 0 || know.has('pressed')) return null;
      know.keep('pressed');
      return [know.to(id, 2)];
    },
    await_('tripped', (know) => know.at(id) === 0, 1, 30),
    stand([[id, 1]]),
  ];
}

export function setUp({ kit }: Part): Step[] {
  return [
    stand(each(ofKind(kit, 'guard'), 1)),
    stand(each(ofKind(kit, 'plug'), 1)),
    ...ofKind(kit, 'ground_fault').flatMap(tryProtector),
  ];
}

export function goHome({ asked, kit }: Part): Step[] {
  return asked.flatMap(({ kind, numbers }): Step[] => {
    if (kind !== 'left') return [];
    const hours = ceil(numbers['hours'] ?? 1);
    return [
      // Nobody is there: the machine's pump stands, and nobody starts it.
      stand(kit.loopPump === null ? [] : [[kit.loopPump, 0]]),
      stand(each(ofKind(kit, 'lock'), 1)),
      (know) => {
        if (know.has('went_home')) return null;
        know.keep('went_home');
        return [{ kind: 'leave', hours }];
      },
      await_('back', (know) => know.free, 3),
    ];
  });
}

/** s for which nothing has to run any more. */
const EMPTY_FOR = 30;

/** True where no more than drops come out. */
const drips = (know: Know): boolean => isAtRest(know, 6e-6);

export function drain({ kit, rig }: Part): Step[] {
  const all = [...kit.drains, ...kit.tankDrains];
  const hose = kit.taps.length > 0 ? rig.fill.slice(-1) : [];
  return [
    stand(each(kit.taps, 0)),
    stand(each(all, 90)),
    rest('runs_out', 20),
    await_('ran_out', (know) => drips(know) && isTankEmpty(know), EMPTY_FOR, 300),
    // Nothing stays shut in between two valves, where sun or frost would press it up.
    stand(each(hose, 90)),
  ];
}

/** s for which a hose is left to run empty. */
const RUNS_EMPTY = 100;

/** Arms, then halves, once nothing runs any more. */
function parted(kit: Kit, joints: readonly string[]): Step[] {
  const made = (know: Know): string[] => joints.filter((id) => know.at(id) === 1);
  return [
    await_('hoses_empty', (know) => isAtRest(know), 15, RUNS_EMPTY),
    stand((know) => each(armsOf(kit, made(know)), 0)),
    stand((know) => each(made(know), 0)),
  ];
}

/** Air in above and liquid out below, into the pail, by each way that the handles give. */
export function disconnect({ kit, rig, habits }: Part): Step[] {
  const couplings = rig.ways.flatMap(({ couplings: on }) => on);
  const hoses = rig.briefing.links.flatMap(({ id, ends }) =>
    couplings.includes(id) ? [...ends] : [],
  );
  const casing = (id: string): boolean =>
    rig.briefing.links.some((link) => link.id === id && link.ends.includes(rig.casing));
  if (hoses.length === 0) return [];
  const [forth, back] = rig.ways.map(({ open }) => [...open]);
  const turned = (forth ?? []).filter(
    ([id, deg]) => deg > 90 && (back ?? []).some(([other, to]) => other === id && to !== deg),
  );
  const other = turned.map(([id]): [string, number] => [id, new Map(back).get(id) ?? 0]);
  const toAir = stand((know) => {
    const valves = wantedAtEnd(know).filter(([id]) => know.scene.valves.some((v) => v.id === id));
    return valves.filter(([id]) => !kit.drains.includes(id) && turned.every(([t]) => t !== id));
  });
  const off = [stand(each(ofKind(kit, 'plug'), 0)), toAir];
  const apart = parted(kit, jointsOf(rig.briefing, couplings));
  if (!habits.drains) return [...off, stand([...other, ...each(kit.vents, 90)]), ...apart];
  return [
    ...off,
    stand(turned),
    stand(
      each(
        kit.drains.filter((id) => !casing(id)),
        90,
      ),
    ),
    rest('one_hose', RUNS_EMPTY),
    stand(other),
    await_('other_hose', (know) => isAtRest(know), 20, RUNS_EMPTY),
    ...apart,
  ];
}
