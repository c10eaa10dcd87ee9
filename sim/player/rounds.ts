// Phases of a day in which something goes round: which ways, which circuits, how long. What is
// asked for names a link; what carries its water is worked out from the drawing.
import { min } from '../base/math.ts';
import { cutOff, type Chain, type Field } from './field.ts';
import { astray, type Goal } from './goals.ts';
import type { Know } from './know.ts';
import { waysOf, type Rig, type Way } from './map.ts';
import { testBand } from './part.ts';
import { contents, fieldValves, CLEAR, FULL, HAZY, WET, type Pass, type Passes } from './passes.ts';
import { passGoals } from './purge.ts';
import type { Asked } from './view.ts';

/** s beside what is asked for, since a player's look is later than the plant. */
const MARGIN = 12;

/** Worked out once, when it is first asked for: it goes by how things stand then. */
function once(make: Passes): Passes {
  let made: readonly Pass[] | null = null;
  return (know) => (made ??= make(know));
}

/** The way that needs the fewest hands: by hoses as they are, then by handles. */
export function nearest(know: Know, ways: readonly Way[]): Way | null {
  const cost = ({ open, couplings, shut }: Way): number =>
    100 *
      astray(
        know,
        couplings.map((id) => [id, 1] as const),
      ).length +
    astray(know, [...open, ...shut.map((id) => [id, 0] as const)]).length;
  return [...ways].sort((x, y) => cost(x) - cost(y))[0] ?? null;
}

export function wayFor(
  know: Know,
  field: Field,
  end: 'tank' | 'waste',
  named?: string,
): Way | null {
  const ways = waysOf(know.rig, field, end);
  const forth = named === 'forth' ? [true] : named === 'back' ? [false] : [true, false];
  return nearest(
    know,
    ways.filter((way) => forth.includes(way.forth)),
  );
}

/** Circuits whose water goes through a link, and not through those that have to be still. */
function through({ rig, habits }: Know, link: string, still: readonly string[]): readonly Chain[] {
  const { field } = rig;
  const on = cutOff(field, link);
  const quiet = still.flatMap((id) => [...cutOff(field, id)]);
  const open = field.circuits.filter((circuit) => on.has(circuit) && !quiet.includes(circuit));
  return open.length > 0 && habits.oneByOne ? open : field.circuits;
}

const isIn = (field: Field | null, link: string): boolean =>
  field !== null && field.pieces.some((piece) => piece.link.id === link);

interface Sort {
  readonly phase: string;
  readonly end: 'tank' | 'waste';
  readonly good: Pass['good'];
  readonly by: Pass['by'];
}

/** A pass for something that is to run, or to pass, through a link. */
function passFor(know: Know, one: Asked, { phase, end, good, by }: Sort): Pass | null {
  const { rig } = know;
  const link = one.names['link'] ?? '';
  const unit = isIn(rig.unit, link);
  const field = unit ? rig.unit! : rig.field;
  // A machine's check valve lets water through one way only: as it is drawn.
  const way = wayFor(know, field, end, unit ? 'forth' : one.names['way']);
  if (way === null) return null;
  const whole = !isIn(field, link);
  return {
    id: `${phase}_${one.id}`,
    way,
    open: unit ? null : whole ? rig.field.circuits : through(know, link, one.still),
    enough: ((one.numbers['litres'] ?? 0) / 1000) * 1.1,
    for_s: one.numbers['for_s'] === undefined ? 0 : one.numbers['for_s'] + MARGIN,
    good,
    least: (one.numbers['above_L_s'] ?? 0) / 1000,
    by,
  };
}

/** Which one has to run is not said: only among which it is. */
const isSought = ({ kind, names, still }: Asked): boolean =>
  kind === 'ran' && names['link'] === undefined && still.length > 1;

/** The same, asked of each of those among which it is, one after the other. */
function askedOfEach(one: Asked): Asked[] {
  return one.still.map((link) => {
    const still = one.still.filter((id) => id !== link);
    return { ...one, id: `${one.id}_${link}`, names: { ...one.names, link }, still };
  });
}

/** All that is asked for in a phase, what is near first. */
function asAsked(asked: readonly Asked[], sort: Sort): Passes {
  return once((know) => {
    const passes = asked.flatMap((one) => {
      if (one.kind !== 'ran' && one.kind !== 'passed') return [];
      if (!know.habits.reverses && one.names['way'] === 'back') return [];
      const each = isSought(one) ? askedOfEach(one) : [one];
      return each.flatMap((own) => passFor(know, own, sort) ?? []);
    });
    return nearestFirst(know, passes);
  });
}

/** Handles that differ between two passes; down into a pit counts as many. */
const DOWN = 20;

function nearestFirst(know: Know, passes: readonly Pass[]): Pass[] {
  const { rig, kit } = know;
  const down = kit.devices('entry').flatMap(({ inside }) => inside);
  let stands = (id: string): number => know.at(id) ?? 0;
  const cost = (pass: Pass): number =>
    [...positions(rig, pass)].reduce((sum, [id, to]) => {
      return stands(id) === to ? sum : sum + (down.includes(id) ? DOWN : 1);
    }, 0);
  const left = [...passes];
  const order: Pass[] = [];
  while (left.length > 0) {
    const costs = left.map(cost);
    const at = costs.indexOf(min(...costs));
    const [next] = left.splice(at, 1);
    order.push(next!);
    const then = new Map(positions(rig, next!));
    const before = stands;
    stands = (id) => then.get(id) ?? before(id);
  }
  return order;
}

function* positions({ field }: Rig, { way, open }: Pass): Iterable<[string, number]> {
  yield* way.open;
  for (const id of way.couplings) yield [id, 1];
  if (open !== null) yield* fieldValves(field, open);
}

/** One round on the way as it is, with circuits as they have to stand at the end. */
function asItIs(phase: string, change: Partial<Pass>): Passes {
  return once((know) => {
    const way = wayFor(know, know.rig.field, 'tank');
    if (way === null) return [];
    const base = { id: phase, way, open: null, enough: 0, for_s: 5, good: WET, least: 0 };
    return [{ ...base, by: 'pump', ...change }];
  });
}

/** Flows that are read of parts, each with no more open than it goes through; or as it is. */
function toRead(asked: readonly Asked[], sort: Sort): Passes {
  const whole = asItIs(sort.phase, { for_s: STEADY_FOR, good: HAZY });
  return once((know) => {
    const { field, briefing } = know.rig;
    const way = wayFor(know, field, sort.end);
    const lines = asked.flatMap(({ kind, names }) => {
      const line = briefing.sheet.find(({ id }) => kind === 'noted' && id === names['entry']);
      const of = line?.of.find((id) => isIn(field, id));
      return line === undefined || of === undefined ? [] : [{ id: line.id, of }];
    });
    if (way === null || lines.length === 0) return whole(know);
    const read = lines.map(({ id, of }): Pass => {
      const open = through(know, of, []);
      const base = { id: `read_${id}`, way, open, enough: 0, least: 0, good: sort.good };
      return { ...base, for_s: STEADY_FOR, by: sort.by, writes: [id] };
    });
    const ran = asked.flatMap((one) =>
      one.kind === 'ran' && !isSought(one) ? (passFor(know, one, sort) ?? []) : [],
    );
    return nearestFirst(know, [...read, ...ran]);
  });
}

/** Each of those among which one has to be found, alone. */
function toTry(asked: readonly Asked[], sort: Sort): Passes {
  return once((know) => {
    if (!know.habits.oneByOne) return [];
    const each = asked.filter(isSought).flatMap(askedOfEach);
    const passes = each.flatMap((one) => passFor(know, one, sort) ?? []);
    return nearestFirst(know, passes);
  });
}

/**
 * Then the one that carried least once more, for the lines that are about it; and the one that
 * carried most, for those that are about no part that has a name.
 */
function toTell(asked: readonly Asked[], sort: Sort, tried: Passes): Passes {
  return once((know) => {
    const flowOf = ({ id }: Pass): number => know.mind.get(id) ?? 0;
    const noted = asked.filter(({ kind }) => kind === 'noted');
    const entries = (list: readonly Asked[]): string[] =>
      list.flatMap(({ names }) => names['entry'] ?? []);
    const unnamed = noted.filter(({ names }) => names['during'] === undefined);
    const others = entries(unnamed).filter((entry) => isOfNone(know, entry));
    const passes = asked.filter(isSought).flatMap((one): Pass[] => {
      const own = tried(know).filter(({ id }) => id.startsWith(`${sort.phase}_${one.id}_`));
      const order = [...own].sort((a, b) => flowOf(a) - flowOf(b));
      const [low, most] = [order[0], order.at(-1)];
      if (low === undefined || most === undefined) return [];
      const about = entries(noted.filter(({ names }) => names['during'] === one.id));
      return [
        { ...low, id: `least_${one.id}`, writes: about },
        ...(others.length === 0 ? [] : [{ ...most, id: `most_${one.id}`, writes: others }]),
      ];
    });
    return nearestFirst(know, passes);
  });
}

/** True of a line for a flow, of which the drawing does not say where. */
function isOfNone({ rig: { briefing } }: Know, entry: string): boolean {
  const line = briefing.sheet.find(({ id }) => id === entry);
  const kind = briefing.instruments.find(({ id }) => id === line?.reading)?.kind;
  return line?.of.length === 0 && kind === 'flow';
}

/** Each list when the one before is over: it goes by how things stand then, and what was seen. */
const inTurn =
  (...lists: readonly Passes[]): Passes =>
  (know) => {
    const all: Pass[] = [];
    for (const list of lists) {
      all.push(...list(know));
      if (all.some(({ id }) => !know.has(id))) break;
    }
    return all;
  };

function toReadAndFind(asked: readonly Asked[], sort: Sort): Passes {
  const tried = toTry(asked, sort);
  return inTurn(toRead(asked, sort), tried, toTell(asked, sort, tried));
}

/** s that what comes back has to be more than slugs, before a loop counts as full. */
const FULL_FOR = 25;
/** Contents after which it goes on though bubbles still come: some air stays wherever it stands. */
const AT_MOST = 2.5;

/** Water into a loop that has to be tested with it; nothing where it stands under air for that. */
function toFill(asked: readonly Asked[], tap: boolean): Passes {
  return once((know) => {
    const { rig, kit } = know;
    const band = testBand(asked);
    const way = wayFor(know, rig.field, 'waste');
    if (band === null || way === null || (know.number(kit.loopGauge) ?? 0) >= band.from) return [];
    const alone = rig.field.circuits.filter(({ valves }) => valves.length > 0);
    const single =
      alone.length > 1 && know.habits.oneByOne ? alone.map((circuit) => [circuit]) : [];
    const by = tap ? ('tap' as const) : ('pump' as const);
    return [...single, rig.field.circuits].map((open, at) => {
      const id = `fill_${at}`;
      const good = tap ? FULL : HAZY;
      const most = AT_MOST * contents(rig.field, way, open);
      return { id, way, open, enough: 0, for_s: FULL_FOR, least: 0, good, most, by };
    });
  });
}

/** s that a return is watched before a proof, and before a flow is read. */
const CLEAR_FOR = 45;
const STEADY_FOR = 60;

/** Goals for what goes round in a phase; none where nothing does. */
export function roundGoals(rig: Rig, phase: string, asked: readonly Asked[]): Goal[] {
  const tap = rig.prime.length > 0 && rig.fill.length > 1;
  const sort = (change: Partial<Sort>): Sort => {
    return { phase, end: 'tank', good: HAZY, by: 'pump', ...change };
  };
  switch (phase) {
    case 'flush':
      return passGoals(asAsked(asked, sort({ end: 'waste', good: WET, by: tap ? 'tap' : 'pump' })));
    case 'leak_test':
      return passGoals(toFill(asked, tap));
    case 'prime':
      return passGoals(asItIs(phase, { for_s: 5 }));
    case 'purge':
    case 'unit':
      return passGoals(asAsked(asked, sort({})));
    case 'flow_test':
      return passGoals(toReadAndFind(asked, sort({ good: FULL })));
    case 'prove':
      return passGoals(asItIs(phase, { open: rig.field.circuits, for_s: CLEAR_FOR, good: CLEAR }));
    default:
      return [];
  }
}
