// Neat antifreeze: into a low tank, spread over a turn of the loop, and looked at in samples.
import { abs, max, min, pow } from '../base/math.ts';
import { FULL_TO, goRound, put, shutDrum, still, taken, type Drum } from './dose-drum.ts';
import type { Goal } from './goals.ts';
import type { Know } from './know.ts';
import type { Part } from './part.ts';
import type { Rig } from './map.ts';
import { FULL } from './passes.ts';
import { lowest, passGoals } from './purge.ts';
import { goalOf, rest, stand, type Step } from './tasks.ts';

/** m over the level at which the pump is stopped, for what has to be pushed out. */
const LOW = 0.08;

/** Everything that holds liquid which has to be mixed, but the tank, m3. */
function aroundOf({ field, unit, ways }: Rig): number {
  return field.volume + (unit?.volume ?? 0) + (ways[0]?.volume ?? 0);
}

/** m over the place where the loop comes home, so that it draws no air under. */
const OVER_BACK = 0.04;
/** s for which a pump runs before anything is put in. */
const RUNS = 3;

/** m over the floor at which the loop comes home into the tank. */
function backOf({ ways, tank }: Rig): number {
  const last = ways[0]?.back.pieces.at(-1)?.link;
  const port = last?.ports[last.ends.indexOf(tank.id)];
  return tank.ports[port ?? ''] ?? 0;
}

/**
 * Neat: into a low tank until it covers the way home, the rest while it goes round, so that it is
 * spread over a turn. Where the tank is too small for all of it, a part goes into the loop before.
 */
export function neatGoals(part: Part, drum: Drum): Goal[] {
  const { rig } = part;
  const { tank } = rig;
  const { share } = drum;
  const isLow = (know: Know): boolean => know.level < lowest(know) + LOW;
  const all = (know: Know): number => aroundOf(rig) + tank.area * know.level;
  const lacks = (know: Know): number => (share * all(know) - taken(know, drum)) / (1 - share);
  /** What is pushed into the loop, so that the rest has room in the tank. */
  const first = (know: Know): number => {
    const room = tank.area * (FULL_TO * tank.height - know.level);
    const ahead = max(0, share * all(know) - (1 - share) * room);
    if (ahead > 0) know.keep('dose_more');
    return ahead;
  };
  const covers = (know: Know): number =>
    min(lacks(know), max(0, tank.area * (backOf(rig) + OVER_BACK - know.level)));
  const more = (know: Know): boolean => know.has('dose_more');
  const runs = (know: Know): boolean => know.held('dose_runs', know.pumpOn) >= RUNS;
  const task: MakeTask = (id, steps, when) =>
    goalOf({ id: `dose_${id}`, why: 'dose', steps, ...(when === undefined ? {} : { when }) });
  return [
    ...passGoals(goRound({ id: 'dose_lower', end: 'waste', until: isLow })),
    task('first', [still, put(drum, 'dose_first', first)]),
    ...passGoals(goRound({ id: 'dose_push', end: 'waste', until: isLow, when: more })),
    task('cover', [still, put(drum, 'dose_cover', covers)]),
    ...passGoals(goRound({ id: 'dose_round', end: 'tank', until: runs })),
    task('rest', [put(drum, 'dose_rest', lacks), shutDrum(drum)]),
    ...passGoals(goRound({ id: 'dose_mix', end: 'tank', turnovers: 2 })),
    ...evened(part, drum, task),
    task('make_up', [put(drum, 'dose_third', tooWeak(drum, all)), shutDrum(drum)]),
    ...passGoals(goRound({ id: 'dose_mix_more', end: 'tank', turnovers: 1 })),
    ...passGoals(goRound({ id: 'dose_unit', end: 'tank', unit: true, turnovers: 3 })),
    ...passGoals(goRound({ id: 'dose_mix_at_last', end: 'tank', turnovers: 1.5, good: FULL })),
  ];
}

/** s until an instrument in a sample stands still. */
const READS_IN = 12;

/** A sample of one place; what it freezes at is kept. */
function sampled({ kit, rig }: Part, at: number, key: string): Step[] {
  const [cup] = kit.devices('cup');
  const scale = rig.briefing.instruments.find(({ kind }) => kind === 'refractometer');
  if (cup === undefined || at === 0 || scale === undefined) return [];
  return [
    stand([[cup.id, at]]),
    rest(key, READS_IN),
    (know) => {
      const shown = know.number(scale.id);
      if (shown !== null) know.keep(key, shown);
      return null;
    },
  ];
}

/** K by which tank and return may differ, and how often it goes round once more for it. */
const ALIKE = 0.5;
const AGAIN = 4;

type MakeTask = (id: string, steps: readonly Step[], when?: (know: Know) => boolean) => Goal;

/** Round until what comes back freezes where the tank's does. */
function evened(part: Part, drum: Drum, task: MakeTask): Goal[] {
  const { kit, rig } = part;
  const [cup] = kit.devices('cup');
  const places = cup?.places ?? [];
  const back = places.findIndex((place) => place !== rig.tank.id && place !== drum.id) + 1;
  const uneven = (know: Know): boolean => !know.has('even');
  return Array.from({ length: AGAIN }, (_, n) => n).flatMap((n) => {
    const [tank, loop] = [`tank_freezes_${n}`, `loop_freezes_${n}`];
    const looked: Step = (know) => {
      const [here, there] = [know.mind.get(tank), know.mind.get(loop)];
      if (here === undefined || there === undefined) know.keep('even');
      else {
        know.keep('freezes_at', (here + there) / 2);
        if (abs(here - there) <= ALIKE) know.keep('even');
      }
      return null;
    };
    const steps = [
      ...sampled(part, places.indexOf(rig.tank.id) + 1, tank),
      ...sampled(part, back, loop),
      stand(cup === undefined ? [] : [[cup.id, 0]]),
      looked,
    ];
    const mix = goRound({ id: `dose_even_${n}`, end: 'tank', turnovers: 1, when: uneven });
    return [task(`look_${n}`, steps, uneven), ...passGoals(mix)];
  });
}

/** Freezing points go with the strength to about this power. */
const BENDS = 0.75;
/** Share of all that is lacking, which is not worth a hand. */
const WORTH = 0.004;
/** A little more than is asked for, since some part is always weaker than the mean. */
const SURE = 1.02;
/** Times what the volumes on the drawing ask for: a sample that says more is not of all. */
const BELIEVED = 1.15;
/** Of a machine's pipes: what strainer, pump and fittings hold beside them. */
const BESIDES = 0.5;

/** m3 that a sample shows to be lacking, the machine's water with it, which is still to come. */
function tooWeak(drum: Drum, all: (know: Know) => number): (know: Know) => number {
  return (know) => {
    const { rig } = know;
    const aim = aimOf(rig);
    const shown = know.mind.get('freezes_at');
    if (aim === null || shown === undefined || shown >= 0) return 0;
    const unit = rig.unit?.volume ?? 0;
    const whole = all(know);
    const found = drum.share * pow(abs(shown / aim), BENDS) * (whole - unit);
    const lacks = SURE * drum.share * (whole + BESIDES * unit) - found;
    const most = (BELIEVED * drum.share * whole - taken(know, drum)) / (1 - drum.share);
    return lacks < WORTH * whole ? 0 : max(0, min(most, lacks / (1 - drum.share)));
  };
}

function aimOf({ briefing }: Rig): number | null {
  return briefing.aims.find(({ kind }) => kind === 'freeze')?.numbers['aim_C'] ?? null;
}
