// Antifreeze that comes mixed: it pushes the water out of machine and loop, once through to waste.
import { goRound, ranDrum, shutDrum, still, taken, type Drum } from './dose-drum.ts';
import type { Goal } from './goals.ts';
import type { Know } from './know.ts';
import { each, isTankEmpty, type Part } from './part.ts';
import { FULL } from './passes.ts';
import { passGoals } from './purge.ts';
import { await_, goalOf, stand } from './tasks.ts';

/** Shares of the tank's height at which a drum's pump is stopped, and goes on. */
const STOPS_AT = 0.75;
const GOES_ON_AT = 0.6;

/** Contents that are pushed through, since water and mixture mix where they meet. */
const PUSHED = 1.12;
/** A machine is short, and most of its water stands in fittings. */
const PUSHED_UNIT = 3;

/** Degrees to which the pump's valve is opened, so that a drum's pump follows. */
const THROTTLED = 25;

/** Mixed already: tank emptied and filled from the drum, then once through to waste. */
export function premixGoals(part: Part, drum: Drum): Goal[] {
  const { rig, kit } = part;
  const { tank } = rig;
  const emptied = stand((know) => each(kit.tankDrains, know.has('emptied') ? 0 : 90));
  const pushed = (know: Know): number => taken(know, drum) - tank.area * know.level;
  const begun = (know: Know, key: string): number => {
    const old = know.mind.get(key);
    if (old === undefined) know.keep(key, pushed(know));
    return old ?? pushed(know);
  };
  const through = (key: string, volume: (know: Know) => number) => (know: Know) =>
    pushed(know) - begun(know, key) >= volume(know);
  const way = rig.ways[0]?.volume ?? 0;
  const high = (know: Know): boolean => know.level > GOES_ON_AT * tank.height;
  return [
    goalOf({
      id: 'dose_empty',
      why: 'dose',
      steps: [
        still,
        stand(each(rig.suction, 0)),
        emptied,
        await_('tank_empty', isTankEmpty, 5, 600),
        (know) => {
          know.keep('emptied');
          taken(know, drum);
          return null;
        },
        emptied,
        (know) => (high(know) ? null : ranDrum(know, drum, true)),
        stand(each(rig.suction, 90)),
      ],
    }),
    follows(drum),
    ...passGoals(
      goRound({
        id: 'dose_unit',
        end: 'waste',
        unit: true,
        slow: THROTTLED,
        until: through('unit_begun', () => PUSHED_UNIT * ((rig.unit?.volume ?? 0) + way)),
      }),
    ),
    ...passGoals(
      goRound({
        id: 'dose_through',
        end: 'waste',
        slow: THROTTLED,
        until: through('field_begun', () => PUSHED * rig.field.volume + way),
      }),
    ),
    goalOf({
      id: 'dose_stop',
      why: 'dose',
      steps: [
        still,
        (know) => (high(know) ? null : ranDrum(know, drum, true)),
        (know) => (know.at(drum.pump) === 1 ? ranDrum(know, drum, false) : null),
        shutDrum(drum),
        (know) => {
          know.keep('dose_pushed');
          return null;
        },
      ],
    }),
    ...passGoals(goRound({ id: 'dose_mix', end: 'tank', turnovers: 0.3, good: FULL })),
  ];
}

/** The drum's pump as the tank has room, as long as water is pushed out. */
function follows(drum: Drum): Goal {
  const to = (know: Know): number | null => {
    const share = know.level / know.rig.tank.height;
    if (drum.valves.some((id) => know.at(id) !== 90)) return null;
    if (know.willRun(drum.pump)) return share > STOPS_AT ? 0 : null;
    return share < GOES_ON_AT ? 1 : null;
  };
  return {
    id: 'dose_follow',
    why: 'dose',
    reflex: true,
    wants: (know) => know.has('emptied') && !know.has('dose_pushed') && to(know) !== null,
    act: (know) => [know.to(drum.pump, to(know)!)],
  };
}
