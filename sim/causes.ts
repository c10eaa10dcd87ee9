// What went wrong, one entry for each cause: hazards as episodes, broken orders, and the
// joining of those that come from one act. Looks at facts alone.
import { assert } from './base/assert.ts';
import { max } from './base/math.ts';
import type { Fact, HazardKind } from './fact.ts';
import type { OrderRule, Quantity, Rules } from './rules.ts';
import { sameCause, type Same } from './same-cause.ts';
import type { Scenario } from './scenario.ts';

export interface Cause {
  readonly rule: string;
  readonly dimension: 'safety' | 'record' | 'losses';
  readonly family: string;
  readonly at: string;
  readonly stage: 'warning' | 'tripped' | null;
  readonly from: number;
  /** Last tick; the end of the run where it did not end before. */
  readonly to: number;
  readonly points: number;
  /** The most this rule can take at once. */
  readonly max: number;
  readonly value: number | null;
  readonly limit: number | null;
  readonly quantity: Quantity;
  readonly source: string;
  /** What else came of the same act and is not counted again. */
  readonly includes: readonly string[];
}

export interface Episode {
  readonly hazard: HazardKind;
  readonly at: string;
  readonly from: number;
  to: number;
  tripped: number | null;
  /** How far it went at the most, and the limit of its stage. */
  value: number;
  limit: number;
}

/** Every hazard from its warning to its end, in the order in which they began. */
export function episodes(facts: readonly Fact[]): readonly Episode[] {
  const all: Episode[] = [];
  const running = new Map<string, Episode>();
  const last = facts.reduce((tick, f) => max(tick, f.tick), 0);
  for (const fact of facts) {
    if (fact.kind !== 'hazard') continue;
    const { hazard, at, tick, value, limit } = fact;
    const key = `${hazard} ${at}`;
    let episode = running.get(key);
    if (episode === undefined) {
      if (fact.stage === 'ended') continue;
      episode = { hazard, at, from: tick, to: last, tripped: null, value, limit };
      running.set(key, episode);
      all.push(episode);
    }
    if (fact.stage === 'ended') {
      episode.to = tick;
      episode.value = max(episode.value, value);
      running.delete(key);
    } else if (fact.stage === 'tripped') {
      Object.assign(episode, { tripped: tick, value, limit });
    }
  }
  return all;
}

/** Everything that costs points on the way, each cause once, in order of time. */
export function causes(scenario: Scenario, rules: Rules, facts: readonly Fact[]): Cause[] {
  const found = [
    ...episodes(facts).map((episode) => hazardCause(rules, episode)),
    ...rules.order.flatMap((rule) => orderCauses(scenario, rule, facts)),
  ];
  found.sort((a, b) => a.from - b.from);
  const gap = rules.same_cause_gap_s / scenario.solver.tick_s;
  return joined(found, sameCause(scenario, facts, gap));
}

function hazardCause(rules: Rules, episode: Episode): Cause {
  const rule = rules.hazards[episode.hazard];
  const tripped = episode.tripped !== null;
  return {
    rule: episode.hazard,
    dimension: rule.dimension,
    family: rule.family,
    at: episode.at,
    stage: tripped ? 'tripped' : 'warning',
    from: episode.from,
    to: episode.to,
    points: tripped ? rule.tripped_points : rule.warning_points,
    max: rule.tripped_points,
    value: episode.value,
    limit: episode.limit,
    quantity: rule.quantity,
    source: rule.source,
    includes: [],
  };
}

/** The dearest of those that have one cause stands for all of them. */
function joined(found: readonly Cause[], same: Same): Cause[] {
  const result: Cause[] = [];
  for (const cause of found) {
    const at = result.findIndex((other) => same(other, cause));
    const other = result[at];
    if (other === undefined) result.push(cause);
    else result[at] = merged(other, cause);
  }
  return result;
}

function merged(a: Cause, b: Cause): Cause {
  const [first, second] = a.points >= b.points ? [a, b] : [b, a];
  const includes = [...first.includes];
  for (const rule of [second.rule, ...second.includes]) {
    if (rule !== first.rule && !includes.includes(rule)) includes.push(rule);
  }
  return { ...first, to: max(a.to, b.to), includes };
}

/** Each time a pump was switched on while a valve of its own suction was not open. */
function orderCauses(scenario: Scenario, rule: OrderRule, facts: readonly Fact[]): Cause[] {
  const open = rule.open_at_least_deg;
  const within = rule.corrected_within_s / scenario.solver.tick_s;
  const angle = new Map<string, number>();
  for (const link of scenario.links) if (link.kind === 'valve') angle.set(link.id, link.start_deg);
  const pumps = scenario.links.filter((link) => link.kind === 'pump');
  const suctions = new Map(pumps.map((pump) => [pump.id, suctionValves(scenario, pump.id)]));
  const found: Cause[] = [];
  facts.forEach((fact, at) => {
    if (fact.kind !== 'moved') return;
    if (angle.has(fact.control)) angle.set(fact.control, fact.value);
    const valves = suctions.get(fact.control);
    if (valves === undefined || fact.value < 0.5) return;
    const shut = valves.filter((valve) => (angle.get(valve) ?? 0) < open);
    const valve = shut[0];
    if (valve === undefined) return;
    const later = facts.slice(at + 1).filter((f) => f.tick <= fact.tick + within);
    const mended = shut.every((v) => later.some((f) => opens(f, v, open)));
    found.push({
      rule: rule.id,
      dimension: 'safety',
      family: 'pump',
      at: fact.control,
      stage: null,
      from: fact.tick,
      to: fact.tick + within,
      points: mended ? rule.points / 2 : rule.points,
      max: rule.points,
      value: angle.get(valve) ?? null,
      limit: open,
      quantity: 'angle',
      source: rule.source,
      includes: [],
    });
  });
  return found;
}

function opens(fact: Fact, valve: string, open: number): boolean {
  return fact.kind === 'moved' && fact.control === valve && fact.value >= open;
}

/** Valves between a pump and what it draws from, as far as the way does not branch. */
export function suctionValves(scenario: Scenario, pumpId: string): readonly string[] {
  const pump = scenario.links.find((link) => link.id === pumpId);
  assert(pump !== undefined, `no pump ${pumpId}`);
  const valves: string[] = [];
  let behind = pump;
  let node = pump.from;
  for (let steps = 0; steps < scenario.links.length; steps += 1) {
    const ways = scenario.links.filter((l) => l !== behind && (l.from === node || l.to === node));
    const way = ways[0];
    if (way === undefined || ways.length > 1 || node.includes('.')) break;
    if (way.kind === 'valve') valves.push(way.id);
    node = way.from === node ? way.to : way.from;
    behind = way;
  }
  return valves;
}
