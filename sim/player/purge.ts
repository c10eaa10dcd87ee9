// Fill and purge: the goals from a rig full of air to a return that stays clear, whatever way and
// however many circuits there are.
import { min } from '../base/math.ts';
import type { Command } from '../command.ts';
import type { Chain } from './field.ts';
import { astray, bring, NOTHING, type Goal } from './goals.ts';
import type { Habits } from './habits.ts';
import type { Know } from './know.ts';
import type { Rig, Way } from './map.ts';

/** A way round and the circuits that are open meanwhile. */
export interface Pass {
  readonly id: string;
  readonly way: Way;
  readonly open: readonly Chain[];
  readonly last: boolean;
}

/** One circuit after the other where they have valves, then all; the other way round; and back. */
export function passesOf({ ways, field }: Rig, habits: Habits): Pass[] {
  const alone = field.circuits.filter(({ valves }) => valves.length > 0);
  const single = habits.oneByOne && alone.length > 1 ? alone.map((c) => [c]) : [];
  const [forth, back] = ways;
  if (forth === undefined) return [];
  const round = [...single, field.circuits].map((open) => ({ way: forth, open }));
  const turned = back === undefined || !habits.reverses ? [] : [back, forth];
  const all = [...round, ...turned.map((way) => ({ way, open: field.circuits }))];
  return all.map((pass, at) => ({ ...pass, id: `pass_${at}`, last: at === all.length - 1 }));
}

export function passNow(know: Know, passes: readonly Pass[]): Pass | null {
  return passes.find(({ id }) => !know.has(id)) ?? null;
}

/** Where handles outside the field stand for a way. */
function* handles(know: Know, { open, shut }: Way): Iterable<readonly [string, number]> {
  let first = true;
  for (const [control, deg] of open) {
    yield [control, first && deg === 90 ? know.habits.opens_deg : deg];
    first = false;
  }
  for (const control of shut) yield [control, 0];
}

function* circuitValves(know: Know, pass: Pass): Iterable<readonly [string, number]> {
  for (const chain of know.rig.field.circuits) {
    for (const valve of chain.valves) yield [valve, pass.open.includes(chain) ? 90 : 0];
  }
}

function volumeOfPass({ rig }: Know, { way, open }: Pass): number {
  const shut = rig.field.circuits.filter((c) => !open.includes(c));
  return way.volume + rig.field.volume - shut.reduce((sum, { volume }) => sum + volume, 0);
}

/** s. Longest that a pump may growl before it is stopped and primed again. */
const BEARS: Readonly<Record<string, number>> = { dry: 3, starved: 8, locked: 15 };

/** m of water over the tank's outlet below which no pump is left running. */
const OVER_OUTLET = 0.06;

function lowest({ rig }: Know): number {
  return min(...Object.values(rig.tank.ports)) + OVER_OUTLET;
}

const spare: Goal = {
  id: 'spare_pump',
  why: 'spare_pump',
  reflex: true,
  wants: (know) => {
    const bad = Object.entries(BEARS).some(
      ([note, s]) => know.held(`note_${note}`, know.pumpOn && know.note === note) >= s,
    );
    const patient = know.habits.hopes_s > 0 && !know.has('hoped');
    if (patient && know.held('hoping', know.pumpOn) < know.habits.hopes_s) return false;
    return know.pumpOn && (bad || know.level < lowest(know));
  },
  act: (know) => {
    know.mind.delete('primed');
    know.keep('hoped');
    return [know.to(know.rig.pump, 0)];
  },
};

/** Shares of the tank's height between which its level is kept. */
const LOW = 0.6;
const HIGH = 0.72;

const follow: Goal = {
  id: 'follow_tank',
  why: 'follow_tank',
  reflex: true,
  // Not while a proof goes by the level, nor when all is done.
  wants: (know) =>
    !know.has('stopped') &&
    (know.has('proved') || !know.has('level_open')) &&
    fillTo(know) !== null,
  act: (know) => [know.to(know.rig.fill.at(-1)!, fillTo(know)!)],
};

/** Where the fill valve has to go, or null where it may stay. */
function fillTo(know: Know): number | null {
  const valve = know.scene.valves.find(({ id }) => id === know.rig.fill.at(-1));
  if (valve === undefined) return null;
  const share = know.level / know.rig.tank.height;
  if (share < LOW && valve.target_deg !== 90) return 90;
  return share > HIGH && valve.target_deg !== 0 ? 0 : null;
}

/** Waits until there is water again; the reflex above lets it in. */
const water: Goal = {
  id: 'await_water',
  why: 'await_water',
  wants: (know) => !know.pumpOn && know.level < 2 * lowest(know),
  act: () => NOTHING,
};

function turn(passes: readonly Pass[]): Goal {
  const off = (know: Know): [string, number][] => {
    const pass = passNow(know, passes);
    return pass === null ? [] : astray(know, handles(know, pass.way));
  };
  return {
    id: 'set_way',
    why: 'set_way',
    wants: (know) => off(know).length > 0,
    act: (know) => {
      if (know.pumpOn) return [know.to(know.rig.pump, 0)];
      if (!know.pumpStill) return NOTHING;
      return bring(know, handles(know, passNow(know, passes)!.way));
    },
  };
}

function choose(passes: readonly Pass[]): Goal {
  return {
    id: 'choose_circuit',
    why: 'choose_circuit',
    wants: (know) => {
      const pass = passNow(know, passes);
      return pass !== null && astray(know, circuitValves(know, pass)).length > 0;
    },
    act: (know) => bring(know, circuitValves(know, passNow(know, passes)!)),
  };
}

/** s. Until a casing below the water line has filled; until a primed hose has stayed clear. */
const FLOODS_IN = 10;
const CLEAR_FOR = 8;

function prime(passes: readonly Pass[]): Goal {
  return {
    id: 'prime',
    why: 'prime',
    wants: (know) => !know.pumpOn && !know.has('primed') && passNow(know, passes) !== null,
    act: primeIt,
  };
}

function primeIt(know: Know): readonly Command[] {
  const { suction, prime: valves, suctionSight } = know.rig;
  const shut = astray(
    know,
    suction.map((valve) => [valve, 90] as const),
  );
  if (shut.length > 0) return bring(know, shut);
  const last = valves.at(-1);
  const hopes = know.habits.hopes_s > 0 && !know.has('hoped');
  if (last === undefined || hopes) {
    if (hopes || know.held('flooding', true) >= FLOODS_IN) know.keep('primed');
    return NOTHING;
  }
  if (know.has('filled')) {
    if (know.at(last) !== 0) return [know.to(last, 0)];
    know.mind.delete('filled');
    know.keep('primed');
    return NOTHING;
  }
  const off = astray(
    know,
    valves.map((valve) => [valve, 90] as const),
  );
  if (off.length > 0) return bring(know, off);
  const clear = know.reading(suctionSight)?.value === 'clear';
  if (know.held('suction_clear', clear) >= CLEAR_FOR) know.keep('filled');
  return NOTHING;
}

function start(passes: readonly Pass[]): Goal {
  return {
    id: 'start_pump',
    why: 'start_pump',
    wants: (know) => !know.pumpOn && passNow(know, passes) !== null,
    act: (know) => [know.to(know.rig.pump, 1)],
  };
}

function purge(passes: readonly Pass[]): Goal {
  return {
    id: 'purge',
    why: 'purge',
    wants: (know) => passNow(know, passes) !== null,
    act: (know) => {
      const pass = passNow(know, passes)!;
      const { turnovers, waitsForClear } = know.habits;
      const sight = know.back(pass.way);
      const good = waitsForClear ? sight === 'clear' : sight !== 'empty';
      const { volume } = know.span(pass.id, good, know.flow(pass.way));
      const enough = turnovers[pass.last ? 1 : 0] * volumeOfPass(know, pass);
      const tired = know.held(`${pass.id}_on`, true) > know.habits.patience_s;
      if (volume > enough || (!waitsForClear && good) || tired) know.keep(pass.id);
      return NOTHING;
    },
  };
}

/** From a rig full of air to a return that has stayed clear. */
export function purgeGoals(rig: Rig, habits: Habits): Goal[] {
  const passes = passesOf(rig, habits);
  const next = [turn, choose, prime, start, purge].map((goal) => goal(passes));
  return [spare, follow, water, ...next];
}
