// Flow, head and banks: what the rule velocity asks of the pump, and whether the pump can.
import { max, min } from '../base/math.ts';
import type { Steady } from '../steady.ts';
import { NoSteadyFlow } from '../steady-net.ts';
import { conduit, exactly, given, lineOf, NO_ANSWERS, ownOr } from './ask.ts';
import type { Ask, Expected, Given, LineOf } from './ask.ts';
import {
  areaOf,
  flowing,
  groupsOf,
  headFor,
  headGiven,
  needOf,
  steadyWith,
  type Need,
  type Rig,
} from './rig.ts';

/** Share by which a head may be off with another number of banks still as right. */
const HEAD_SHARE = 0.1;

export function ofFlow({ rig, job }: Ask, line: LineOf<'flow'>): Expected {
  const { bore_mm } = conduit(rig, line.link);
  const v = job.rule_velocity_m_s;
  return exactly(v * areaOf({ bore_mm }), [
    given('velocity', v, 'velocity'),
    given('bore', bore_mm / 1000, 'bore'),
  ]);
}

/** Whether a section is one of those that must have the rule velocity. */
function counts(rig: Rig): (link: { readonly id: string }) => boolean {
  const line = lineOf(rig, 'total');
  const sections = line?.kind === 'total' ? line.sections : undefined;
  return ({ id }) => sections === undefined || sections.includes(id);
}

/** What each loop link must carry: as the trainee has it for pipes of its bore, or as it is. */
function leastOf(ask: Ask): ReadonlyMap<string, number> {
  const { rig, job } = ask;
  return new Map(
    rig.loop.filter(counts(rig)).map((link) => {
      const line = rig.sheet.lines.find(
        (one) => one.kind === 'flow' && conduit(rig, one.link).bore_mm === link.bore_mm,
      );
      return [link.id, ownOr(ask, line, job.rule_velocity_m_s * areaOf(link))];
    }),
  );
}

const truly = (ask: Ask): Ask => ({ ...ask, own: NO_ANSWERS });

/** Most that the real split may ask for besides the even one: beyond it, valves are throttled. */
const SPLIT_MOST = 1.25;

function totalNeed(ask: Ask): Need {
  return needOf(ask.rig, ask.rig.purge, leastOf(ask));
}

export function ofTotal(ask: Ask): Expected {
  const { value, most } = totalNeed(ask);
  const to = min(most, SPLIT_MOST * value);
  return { ...exactly(value, [given('most', most, 'flow')]), to };
}

function totalGoneOnFrom(ask: Ask): number {
  return ownOr(ask, lineOf(ask.rig, 'total'), totalNeed(truly(ask)).value);
}

/** m at a flow of one's own; at the true one where that is beyond what can be worked out. */
function headAt(ask: Ask): { readonly Q: number; readonly head: number } {
  const { rig } = ask;
  for (const one of [ask, truly(ask)]) {
    const Q = totalGoneOnFrom(one);
    const head = headFor(rig, rig.sheet.purge, Q);
    if (head !== null && head > 0) return { Q, head };
  }
  throw new NoSteadyFlow('none at the rule velocity, so that the sheet of this job cannot be');
}

export function ofHead(ask: Ask): Expected {
  const { Q, head } = headAt(ask);
  return exactly(head, [
    given('flow', Q, 'flow'),
    given('pump_gives', max(0, headGiven(ask.rig, Q)), 'length'),
  ]);
}

/** Head given over head asked for in the hardest of n groups, by own flow and head; with both. */
function margin(ask: Ask, n: number): { share: number; flow: number; asks: number; gives: number } {
  const { rig } = ask;
  const least = leastOf(ask);
  const whole = needOf(rig, rig.purge, least).value;
  const { Q, head } = headAt(ask);
  const more = Q / whole;
  const heavier = ownOr(ask, lineOf(rig, 'head'), head) / head;
  const groups = groupsOf(rig, n).map((settings) => {
    const steady = n === 1 ? rig.purge : steadyWith(rig, settings);
    const flow = more * needOf(rig, steady, leastIn(steady, least)).value;
    const asks = (headFor(rig, settings, flow) ?? Infinity) * heavier;
    const gives = max(0, headGiven(rig, flow));
    return { share: gives / asks, flow, asks, gives };
  });
  return groups.reduce((worst, one) => (one.share < worst.share ? one : worst));
}

/** Of what must be carried, that which flows just now. */
function leastIn(steady: Steady, least: ReadonlyMap<string, number>): Map<string, number> {
  const moving = new Set(flowing(steady).map(({ id }) => id));
  return new Map([...least].filter(([id]) => moving.has(id)));
}

export function ofBanks(ask: Ask): Expected {
  const { rig } = ask;
  const most = max(1, rig.sheet.banks.length);
  let [value, from, to] = [0, 0, 0];
  let last = margin(ask, 1);
  const once = last;
  for (let n = 1; n <= most; n++) {
    if (n > 1) last = margin(ask, n);
    if (from === 0 && last.share >= 1 - HEAD_SHARE) from = n;
    if (value === 0 && last.share >= 1) value = n;
    if (from > 0) to = n;
    if (last.share >= 1 + HEAD_SHARE) break;
  }
  const of = ({ flow, asks, gives }: typeof last, name: string): Given[] => [
    given(`${name}flow`, flow, 'flow'),
    given(`${name}asks`, asks, 'length'),
    given(`${name}gives`, gives, 'length'),
  ];
  const numbers = [...of(once, 'once_'), ...of(last, '')];
  return { value, from, to, cannot_tell: false, given: numbers };
}
