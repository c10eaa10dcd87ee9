// Tasks around the work itself: arriving, setting up, parting hoses, draining, going home.
import { ceil, min } from '../base/math.ts';
import { isAtRest, wantedAtEnd } from './handover.ts';
import { acts, each, letOff, notes, ofKind, type Part } from './part.ts';
import { await_, rest, stand, type Step } from './tasks.ts';

export function arrive(part: Part): Step[] {
  const { kit, rig, asked } = part;
  const off = asked.some(({ kind, numbers }) => kind === 'held' && (numbers['from_kPa'] ?? 1) < 0);
  const named = rig.briefing.hand_over.some(({ control }) => control === kit.cock);
  return [
    acts(kit),
    stand(each(ofKind(kit, 'wear'), 1)),
    stand(each(ofKind(kit, 'flame'), 0)),
    stand(each([...ofKind(kit, 'fan'), ...ofKind(kit, 'lock')], 1)),
    ...notes(part),
    ...(off || named ? letOff(part) : []),
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

export function goHome({ asked }: Part): Step[] {
  return asked.flatMap(({ kind, numbers }): Step[] => {
    if (kind !== 'left') return [];
    const hours = ceil(numbers['hours'] ?? 1);
    return [
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

/** m over the tank's lowest port, below which it counts as empty. */
const EMPTY = 0.008;

export function drain({ kit, rig }: Part): Step[] {
  const lowest = min(...Object.values(rig.tank.ports));
  const all = [...kit.drains, ...kit.tankDrains];
  return [
    stand(each(all, 90)),
    rest('runs_out', 20),
    await_('ran_out', (know) => isAtRest(know) && know.level < lowest + EMPTY, EMPTY_FOR, 900),
  ];
}

/** s for which a hose is left to run empty. */
const RUNS_EMPTY = 100;

/** Air in above and liquid out below, into the pail, by each way that the handles give. */
export function disconnect({ kit, rig, habits }: Part): Step[] {
  if (!habits.drains) return [];
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
  return [
    stand(each(ofKind(kit, 'plug'), 0)),
    toAir,
    stand(turned),
    stand(
      each(
        kit.drains.filter((id) => !casing(id)),
        90,
      ),
    ),
    rest('one_hose', RUNS_EMPTY),
    stand(other),
    await_('other_hose', isAtRest, 20, RUNS_EMPTY),
  ];
}
