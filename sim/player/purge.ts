// Fill and purge: the goals from a rig full of air to a return that stays clear, whatever way and
// however many circuits there are.
import { min } from '../base/math.ts';
import type { Command } from '../command.ts';
import { astray, bring, NOTHING, type Goal } from './goals.ts';
import type { Habits } from './habits.ts';
import { armsOf, jointsOf } from './kit.ts';
import type { Know } from './know.ts';
import type { Rig, Way } from './map.ts';
import { note } from './tasks.ts';
import { fieldValves, gone, isTired, passesOf, passNow, type Pass, type Passes } from './passes.ts';

/** Where handles outside the field stand for a way. */
function* handles(know: Know, { way, opens_deg = 90 }: Pass): Iterable<readonly [string, number]> {
  const { open, shut } = way;
  let first = true;
  for (const [control, deg] of open) {
    yield [control, first && deg === 90 ? min(opens_deg, know.habits.opens_deg) : deg];
    first = false;
  }
  // A vent may stand open until the casing is full.
  const vents = know.has('primed') ? [] : know.kit.vents;
  for (const control of shut) if (!vents.includes(control)) yield [control, 0];
}

/** s. Longest that a pump may growl before it is stopped and primed again. */
const BEARS: Readonly<Record<string, number>> = { dry: 3, starved: 8, locked: 15 };

/** m of water over the tank's outlet below which no pump is left running. */
const OVER_OUTLET = 0.06;

export function lowest({ rig }: Know): number {
  return rig.outlet + OVER_OUTLET;
}

export const SPARE: Goal = {
  id: 'spare_pump',
  why: 'spare_pump',
  reflex: true,
  wants: (know) => {
    const bad = Object.entries(BEARS).some(
      ([note, s]) => know.held(`note_${note}`, know.pumpOn && know.note === note) >= s,
    );
    const patient = know.habits.hopes_s > 0 && !know.has('hoped');
    if (patient && know.held('hoping', know.pumpOn) < know.habits.hopes_s) return false;
    return know.willRun(know.rig.pump) && (bad || (know.pumpOn && know.level < lowest(know)));
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

/** True while hands are at something that takes longer than a handle. */
function isAway({ scene, rig }: Know): boolean {
  const { busy, waiting } = scene.hands;
  return rig.briefing.devices.some(({ id }) => id === busy || waiting.includes(id));
}

/** True while there is water to be let in. */
export const hasTap = ({ kit, at }: Know): boolean => kit.taps.every((tap) => at(tap) === 90);

/** Where the fill valve has to go, or null where it may stay. */
function fillTo(know: Know): number | null {
  const valve = know.scene.valves.find(({ id }) => id === know.rig.fill.at(-1));
  if (valve === undefined) return null;
  const share = know.level / know.rig.tank.height;
  if (share < LOW && valve.target_deg !== 90) return isAway(know) || !hasTap(know) ? null : 90;
  return share > HIGH && valve.target_deg !== 0 && hasTap(know) ? 0 : null;
}

/** Waits until there is water again; the reflex above lets it in. */
const water: Goal = {
  id: 'await_water',
  why: 'await_water',
  wants: (know) => hasTap(know) && !know.pumpOn && know.level < 2 * lowest(know),
  act: () => NOTHING,
};

function turn(passes: Passes): Goal {
  return {
    id: 'set_way',
    why: 'set_way',
    wants: (know) => {
      const to = passNow(know, passes);
      return to !== null && (astray(know, handles(know, to)).length > 0 || joins(know, to.way));
    },
    act: (know) => {
      if (know.pumpOn) return [know.to(know.rig.pump, 0)];
      if (!know.pumpStill) return NOTHING;
      const to = passNow(know, passes)!;
      return joins(know, to.way) ? join(know, to.way) : bring(know, handles(know, to));
    },
  };
}

function joins(know: Know, { couplings }: Way): boolean {
  return couplings.some((id) => know.at(id) === 0);
}

/** Hoses change places: arms, halves, halves, arms; with the pump at rest. */
function join({ rig, kit, at, to }: Know, { couplings }: Way): readonly Command[] {
  const others = jointsOf(rig.briefing, couplings).filter((id) => !couplings.includes(id));
  const order: [string, number][] = [
    ...armsOf(kit, others).map((id): [string, number] => [id, 0]),
    ...others.map((id): [string, number] => [id, 0]),
    ...couplings.map((id): [string, number] => [id, 1]),
    ...armsOf(kit, couplings).map((id): [string, number] => [id, 2]),
  ];
  return order.filter(([id, position]) => at(id) !== position).map(([id, p]) => to(id, p));
}

function valvesOf({ rig }: Know, { open }: Pass): [string, number][] {
  return open === null ? [] : fieldValves(rig.field, open);
}

function choose(passes: Passes): Goal {
  return {
    id: 'choose_circuit',
    why: 'choose_circuit',
    wants: (know) => {
      const pass = passNow(know, passes);
      return pass !== null && astray(know, valvesOf(know, pass)).length > 0;
    },
    act: (know) => bring(know, valvesOf(know, passNow(know, passes)!)),
  };
}

/** s. Until a casing below the water line has filled; until a primed hose has stayed clear. */
const FLOODS_IN = 10;
const CLEAR_FOR = 8;

function prime(passes: Passes): Goal {
  return {
    id: 'prime',
    why: 'prime',
    wants: (know) => !know.pumpOn && !know.has('primed') && passNow(know, passes)?.by === 'pump',
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
  if (hopes) {
    know.keep('primed');
    return NOTHING;
  }
  if (last === undefined) return flood(know);
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

/** A casing below the water line fills by itself, and lets its air out where it has a vent. */
function flood(know: Know): readonly Command[] {
  const { vents } = know.kit;
  const vented = know.has('vented');
  const off = astray(
    know,
    vents.map((vent) => [vent, vented ? 0 : 90] as const),
  );
  if (off.length > 0) return bring(know, off);
  if (vented || vents.length === 0) {
    if (vented || know.held('flooding', true) >= FLOODS_IN) know.keep('primed');
    know.mind.delete('vented');
    return NOTHING;
  }
  if (know.held('venting', true) >= FLOODS_IN) know.keep('vented');
  return NOTHING;
}

function start(passes: Passes): Goal {
  const off = (know: Know): [string, number][] => {
    const pass = passNow(know, passes);
    if (pass === null) return [];
    if (pass.by === 'pump') return astray(know, [[know.rig.pump, 1]]);
    return astray(
      know,
      know.rig.prime.map((valve) => [valve, 90] as const),
    );
  };
  return {
    id: 'start_pump',
    why: 'start_pump',
    wants: (know) => off(know).length > 0,
    act: (know) => bring(know, off(know)),
  };
}

/** Out of a pit or vault again before anything runs. */
function comeOut(passes: Passes): Goal {
  return {
    id: 'come_out',
    why: 'come_out',
    wants: (know) => passNow(know, passes) !== null && inside(know).length > 0,
    act: (know) => inside(know).map((id) => know.to(id, 0)),
  };
}

/** Places that somebody is down in. */
export function inside(know: Know): string[] {
  return know.kit.devices('entry').flatMap(({ id }) => (know.at(id) === 1 ? [id] : []));
}

function purge(passes: Passes): Goal {
  return {
    id: 'purge',
    why: 'purge',
    wants: (know) => passNow(know, passes) !== null,
    act: (know) => {
      const pass = passNow(know, passes)!;
      const { waitsForClear } = know.habits;
      const tired = isTired(know, pass);
      if (pass.until !== undefined) {
        if (tired || pass.until(know)) know.keep(pass.id);
        return NOTHING;
      }
      const flow = know.flow(pass.way);
      const sight = know.back(pass.way);
      const comes = waitsForClear ? pass.good.includes(sight) : sight !== 'empty';
      const good = comes && flow >= pass.least;
      const { volume, time_s } = know.span(pass.id, good, flow);
      const enough = volume >= pass.enough && time_s >= pass.for_s;
      const over = pass.most !== undefined && gone(know, pass, flow) >= pass.most;
      if ((!good || (!enough && waitsForClear)) && !tired && !over) return NOTHING;
      for (const line of pass.writes ?? []) {
        const written = note(line)(know);
        if (written !== null) return written;
      }
      know.keep(pass.id, flow); // What it carried at the end is worth keeping.
      return NOTHING;
    },
  };
}

/** What keeps pump and tank from harm, whatever is on. */
export const CARE: readonly Goal[] = [SPARE, follow, water];

export function passGoals(passes: Passes): Goal[] {
  return [turn, choose, comeOut, prime, start, purge].map((goal) => goal(passes));
}

/** From a rig full of air to a return that has stayed clear. */
export function purgeGoals(rig: Rig, habits: Habits): Goal[] {
  const passes = passesOf(rig, habits);
  return [...CARE, ...passGoals(() => passes)];
}
