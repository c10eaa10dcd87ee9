// Milestones and outcomes: what they look at exists and is of the right kind, an order that can
// be kept, shares that make a whole.
import { OUTCOME_MILESTONES_MOST } from '../scenario-goals.ts';
import { fault, itemsOf, namedPart, numberOf, objectOf, textOf } from './raw.ts';
import type { Draft, Item, Wanted } from './raw.ts';

const NODES: Wanted = { list: 'node', kinds: ['junction'] };
/** Every link that is one: a three-way valve has three ways. */
const LINKS: Wanted = {
  list: 'link',
  kinds: [
    ...['pipe', 'hose', 'valve', 'check_valve', 'filter', 'coil'],
    ...['coupling', 'pump', 'fixed_flow', 'hand_pump'],
  ],
};
const PUMPS: Wanted = { list: 'link', kinds: ['pump'] };
const VALVES: Wanted = { list: 'link', kinds: ['valve'] };

/** Last place of a control that `stood` can ask for, by its kind. */
const LAST: Readonly<Record<string, number>> = {
  ...{ valve: 90, three_way: 270, pump: 1, coupling: 1 },
  ...{ wear: 1, lock: 1, latch: 2, guard: 1, fan: 1, flame: 1, entry: 1, act: 1 },
  ...{ plug: 2, breaker: 1, ground_fault: 2 },
};
const SUM_HAIR = 1e-6;

export function checkGoals(draft: Draft): void {
  const job = objectOf(draft.raw.job);
  if (job === null) return;
  const milestones = itemsOf(job.milestones, 'job.milestones');
  const seen = new Set<string>();
  for (const one of milestones) {
    if (one.id !== null && seen.has(one.id)) {
      fault(draft, `${one.path}.id`, `"${one.id}" is in the list already`);
    }
    if (one.id !== null) seen.add(one.id);
    checkMilestone(draft, one);
    if (one.kind === 'noted') checkDuring(draft, one, milestones);
  }
  checkOrder(draft, milestones);
  checkOutcomes(draft, job.outcomes);
  checkOutcomePoints(draft, milestones, job.outcomes);
}

function checkMilestone(draft: Draft, { raw, path, kind }: Item): void {
  switch (kind) {
    case 'held':
      namedPart(draft, raw.node, `${path}.node`, NODES);
      checkBand(draft, raw, path);
      return;
    case 'ran':
      namedPart(draft, raw.link, `${path}.link`, LINKS);
      if (raw.found !== undefined) checkFound(draft, raw, path);
      if (!Array.isArray(raw.still)) return;
      raw.still.forEach((id: unknown, at) => {
        namedPart(draft, id, `${path}.still[${at}]`, LINKS);
        if (id !== raw.link || raw.found !== undefined) return;
        fault(draft, `${path}.still[${at}]`, 'cannot be still while it runs');
      });
      return;
    case 'passed':
      namedPart(draft, raw.link, `${path}.link`, LINKS);
      return;
    case 'shut_in':
      namedPart(draft, raw.pump, `${path}.pump`, PUMPS);
      namedPart(draft, raw.valve, `${path}.valve`, VALVES);
      return;
    case 'noted':
      checkEntry(draft, raw.entry, `${path}.entry`);
      return;
    case 'stood':
      checkControl(draft, raw, path);
      return;
    default:
  }
}

/** It is at a defect that is there in every form, and stands among its likes. */
function checkFound(draft: Draft, raw: Item['raw'], path: string): void {
  const id = textOf(raw.found);
  const link = textOf(raw.link);
  if (id === null || link === null) return;
  const defect = itemsOf(draft.raw.defects, 'defects').find((one) => one.id === id);
  if (defect === undefined) {
    fault(draft, `${path}.found`, `there is no defect "${id}"`);
    return;
  }
  if ((numberOf(defect.raw.chance) ?? 1) < 1) {
    fault(draft, `${path}.found`, `"${id}" may not be there: it has a chance`);
  }
  const at = textOf(defect.raw.at);
  if (at !== null && at !== link) {
    fault(draft, `${path}.link`, `"${id}" is at "${at}": that is what has to be found`);
  }
  const among: readonly unknown[] = Array.isArray(raw.still) ? raw.still : [];
  if (among.length > 0 && !among.includes(link)) {
    fault(draft, `${path}.still`, `"${link}" is told by being left out`);
  }
}

function checkDuring(draft: Draft, { raw, path }: Item, milestones: readonly Item[]): void {
  const id = textOf(raw.during);
  if (id === null) return;
  const other = milestones.find((one) => one.id === id);
  if (other === undefined) fault(draft, `${path}.during`, `there is no milestone "${id}"`);
  else if (other.kind !== null && other.kind !== 'ran') {
    fault(draft, `${path}.during`, `"${id}" is a ${other.kind}; a ran is needed here`);
  }
}

function checkBand(draft: Draft, raw: Item['raw'], path: string): void {
  const [from, to] = [numberOf(raw.from_kPa), numberOf(raw.to_kPa)];
  if (from === null || to === null || to > from) return;
  fault(draft, `${path}.to_kPa`, `must be more than from_kPa, which is ${from}`);
}

function checkEntry(draft: Draft, value: unknown, path: string): void {
  const id = textOf(value);
  if (id === null) return;
  if (itemsOf(draft.raw.record, 'record').some((line) => line.id === id)) return;
  fault(draft, path, `the sheet has no line "${id}"`);
}

function checkControl(draft: Draft, raw: Item['raw'], path: string): void {
  const id = textOf(raw.control);
  if (id === null) return;
  const part = draft.linkById.get(id) ?? draft.devices.find((device) => device.id === id);
  if (part === undefined) {
    fault(draft, `${path}.control`, `there is no link or device "${id}"`);
    return;
  }
  const { kind } = part;
  if (kind === null) return;
  const last = lastOf(part);
  if (last === null) {
    const text = `"${id}" is a ${kind}; a valve, pump, coupling or device is needed here`;
    fault(draft, `${path}.control`, text);
    return;
  }
  const at = numberOf(raw.at);
  if (at !== null && at > last) fault(draft, `${path}.at`, `"${id}" goes to ${last}, no further`);
}

/** Last place of a control; null where it has none that it could stand in. */
function lastOf({ kind, raw }: Item): number | null {
  if (kind === 'housing') return Array.isArray(raw.elements) ? raw.elements.length : null;
  if (kind === 'cup') return Array.isArray(raw.places) ? raw.places.length : null;
  return LAST[kind ?? ''] ?? null;
}

/** Every `after` names another milestone, and none comes back to where it began. */
function checkOrder(draft: Draft, milestones: readonly Item[]): void {
  const afters = new Map<string, readonly string[]>();
  for (const { id, raw } of milestones) {
    const list: readonly unknown[] = Array.isArray(raw.after) ? raw.after : [];
    const names = list.filter((x) => typeof x === 'string');
    if (id !== null && !afters.has(id)) afters.set(id, names);
  }
  for (const { id, raw, path } of milestones) {
    if (!Array.isArray(raw.after)) continue;
    const names: readonly unknown[] = raw.after;
    names.forEach((name, at) => {
      if (typeof name !== 'string') return;
      const here = `${path}.after[${at}]`;
      if (!afters.has(name)) fault(draft, here, `there is no milestone "${name}"`);
      else if (id !== null && leadsTo(afters, name, id)) {
        fault(draft, here, `"${id}" would have to come before itself`);
      }
      if (names.indexOf(name) < at) {
        fault(draft, here, `"${name}" is in the list already`);
      }
    });
  }
}

/** True where `wanted` is `from`, or comes somewhere before it. */
function leadsTo(
  afters: ReadonlyMap<string, readonly string[]>,
  from: string,
  wanted: string,
): boolean {
  const open = [from];
  const known = new Set<string>(open);
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (id === wanted) return true;
    for (const next of afters.get(id) ?? []) {
      if (known.has(next)) continue;
      known.add(next);
      open.push(next);
    }
  }
  return false;
}

function checkOutcomes(draft: Draft, value: unknown): void {
  const outcomes = itemsOf(value, 'job.outcomes');
  if (outcomes.length === 0) return;
  let sum = 0;
  const seen = new Set<string>();
  for (const { raw, path, kind } of outcomes) {
    sum += numberOf(raw.share) ?? NaN;
    const at = kind === 'pressure' ? raw.node : kind === 'flow' ? raw.link : '';
    const key = `${kind ?? path} ${textOf(at) ?? path}`;
    if (seen.has(key)) fault(draft, path, 'is asked for already');
    seen.add(key);
    if (kind === 'pressure') namedPart(draft, raw.node, `${path}.node`, NODES);
    if (kind === 'flow') namedPart(draft, raw.link, `${path}.link`, LINKS);
    if (kind === 'freeze' && (draft.raw.antifreeze ?? 'none') === 'none') {
      fault(draft, `${path}.kind`, 'there is no antifreeze in this scenario');
    }
    if (kind === 'debris' && draft.raw.debris === undefined) {
      fault(draft, `${path}.kind`, 'there is no debris in this scenario');
    }
  }
  const off = sum - 1;
  if (off > SUM_HAIR || off < -SUM_HAIR) {
    fault(draft, 'job.outcomes', `the shares make ${sum}, they must make 1`);
  }
}

/** Something of the outcome's marks must be left for what is true at the end. */
function checkOutcomePoints(draft: Draft, milestones: readonly Item[], outcomes: unknown): void {
  if (Array.isArray(outcomes) && outcomes.length === 0) return;
  let sum = 0;
  for (const { raw } of milestones) {
    if (raw.dimension === 'outcome') sum += numberOf(raw.points) ?? 0;
  }
  if (sum <= OUTCOME_MILESTONES_MOST) return;
  const text = `those of the outcome make ${sum} points; the most is ${OUTCOME_MILESTONES_MOST}`;
  fault(draft, 'job.milestones', text);
}
