// Names: every id stands once, every end of a link leads somewhere, all is one network with a
// boundary, and instruments look at things of the right kind.
import { endOf, fault, itemsOf, namedPart, numberOf, objectOf, portsOf, textOf } from './raw.ts';
import type { Draft, Item } from './raw.ts';
import { checkMore } from './instruments.ts';

const BOUNDARIES: readonly (string | null)[] = ['tank', 'reservoir', 'open'];

export function checkReferences(draft: Draft): void {
  checkIds(draft);
  for (const link of draft.links) checkEnds(draft, link);
  for (const node of draft.nodes) checkTee(draft, node);
  checkNetwork(draft);
  for (const instrument of draft.instruments) checkInstrument(draft, instrument);
  checkPlaces(draft);
}

/** What lies somewhere is a pipe or hose, and lies there once. */
function checkPlaces(draft: Draft): void {
  const seen = new Set<string>();
  for (const { raw, path } of itemsOf(objectOf(draft.raw.heat)?.places, 'heat.places')) {
    const id = textOf(raw.link);
    if (id === null) continue;
    const link = draft.linkById.get(id);
    if (link === undefined) fault(draft, `${path}.link`, `there is no link "${id}"`);
    else if (link.kind !== 'pipe' && link.kind !== 'hose' && link.kind !== null) {
      fault(draft, `${path}.link`, `"${id}" is no pipe or hose`);
    }
    if (seen.has(id)) fault(draft, `${path}.link`, `"${id}" has a place already`);
    seen.add(id);
  }
}

/** One list of names for all parts, because facts and words go by id alone. */
function checkIds(draft: Draft): void {
  const { nodes, links, instruments, devices } = draft;
  const lines = itemsOf(draft.raw.record, 'record');
  const defects = itemsOf(draft.raw.defects, 'defects');
  reportTwins(draft, [...nodes, ...links, ...instruments, ...devices, ...lines, ...defects]);
  for (const node of draft.nodes) if (node.kind === 'tank') reportTwins(draft, portsOf(node));
}

function reportTwins(draft: Draft, items: readonly Item[]): void {
  const seen = new Map<string, string>();
  for (const { id, path } of items) {
    if (id === null) continue;
    const first = seen.get(id);
    if (first === undefined) seen.set(id, path);
    else fault(draft, `${path}.id`, `"${id}" is taken already by ${first}`);
  }
}

function checkEnds(draft: Draft, link: Item): void {
  for (const key of link.kind === 'three_way' ? THREE_ENDS : TWO_ENDS) {
    const text = textOf(link.raw[key]);
    if (text === null || endOf(draft, text) !== null) continue;
    fault(draft, `${link.path}.${key}`, endMessage(draft, text));
  }
  const from = textOf(link.raw.from);
  if (from !== null && from === link.raw.to) {
    fault(draft, `${link.path}.to`, `starts and ends at the same place, "${from}"`);
  }
  const branch = link.kind === 'three_way' ? textOf(link.raw.branch) : null;
  if (branch !== null && (branch === from || branch === link.raw.to)) {
    fault(draft, `${link.path}.branch`, `"${branch}" is another end of it already`);
  }
}

const TWO_ENDS = ['from', 'to'] as const;
const THREE_ENDS = ['from', 'to', 'branch'] as const;

/** A tee's three links are different ones, they are there, and they end at it. */
function checkTee(draft: Draft, node: Item): void {
  const tee = objectOf(node.raw.tee);
  if (tee === null || node.id === null) return;
  const seen = new Set<string>();
  const run: unknown[] = Array.isArray(tee.run) ? tee.run : [];
  const legs = [
    ...run.map((id, at) => [`run[${at}]`, id] as const),
    ['branch', tee.branch] as const,
  ];
  for (const [key, value] of legs) {
    const id = textOf(value);
    if (id === null) continue;
    const path = `${node.path}.tee.${key}`;
    const link = draft.linkById.get(id);
    if (link === undefined) fault(draft, path, `there is no link "${id}"`);
    else if (link.kind === 'three_way') fault(draft, path, `"${id}" is a three-way valve`);
    else if (link.raw.from !== node.id && link.raw.to !== node.id) {
      fault(draft, path, `"${id}" does not end at "${node.id}"`);
    }
    if (seen.has(id)) fault(draft, path, `"${id}" is another leg of it already`);
    seen.add(id);
  }
}

function endMessage(draft: Draft, text: string): string {
  const [nodeId = '', portId] = text.split('.');
  const node = draft.nodeById.get(nodeId);
  if (node === undefined) return `there is no node "${nodeId}"`;
  if (node.kind !== 'tank') return `"${nodeId}" is no tank and has no port "${portId ?? ''}"`;
  const ports = portsOf(node).map((p) => `${nodeId}.${p.id ?? '?'}`);
  const known = ports.length === 0 ? 'it has none' : `one of ${ports.join(', ')}`;
  if (portId === undefined) return `"${nodeId}" is a tank: name its port, ${known}`;
  return `tank "${nodeId}" has no port "${portId}": ${known}`;
}

/** Everything must hang together, and somewhere the pressure must be given. */
function checkNetwork(draft: Draft): void {
  if (draft.nodes.length === 0) return;
  const given = draft.nodes.some(
    (n) => BOUNDARIES.includes(n.kind) || numberOf(n.raw.start_pressure_kPa) !== null,
  );
  if (!given) {
    const kinds = 'no tank, reservoir or open end, and no junction says its start_pressure_kPa';
    fault(draft, 'nodes', `there is ${kinds}: nothing gives the pressure`);
  }
  const near = neighbours(draft);
  const first = draft.nodes.find((n) => (near.get(n)?.length ?? 0) > 0);
  const reached = first === undefined ? new Set<Item>() : spread(first, near);
  for (const node of draft.nodes) {
    if (reached.has(node)) continue;
    const alone = (near.get(node)?.length ?? 0) === 0;
    fault(draft, node.path, `${named(node)} ${alone ? 'has no link' : 'hangs with no other part'}`);
  }
}

function named(item: Item): string {
  return item.id === null ? 'this node' : `"${item.id}"`;
}

function neighbours(draft: Draft): ReadonlyMap<Item, Item[]> {
  const near = new Map<Item, Item[]>();
  for (const link of draft.links) {
    const a = endOf(draft, link.raw.from)?.node;
    if (a === undefined) continue;
    for (const key of ['to', 'branch']) {
      const b = endOf(draft, link.raw[key])?.node;
      if (b === undefined) continue;
      near.set(a, [...(near.get(a) ?? []), b]);
      near.set(b, [...(near.get(b) ?? []), a]);
    }
  }
  for (const { raw, kind } of draft.devices) {
    const a = draft.nodeById.get(textOf(raw.from) ?? '');
    const b = draft.nodeById.get(textOf(raw.to) ?? '');
    if (kind !== 'carry' || a === undefined || b === undefined) continue; // A pail joins them too.
    near.set(a, [...(near.get(a) ?? []), b]);
    near.set(b, [...(near.get(b) ?? []), a]);
  }
  return near;
}

/** All that can be reached from `start`; each node is entered once, so the loop is bounded. */
function spread(start: Item, near: ReadonlyMap<Item, readonly Item[]>): ReadonlySet<Item> {
  const reached = new Set([start]);
  const queue = [start];
  for (let at = 0; at < queue.length; at += 1) {
    for (const next of near.get(queue[at] as Item) ?? []) {
      if (reached.has(next)) continue;
      reached.add(next);
      queue.push(next);
    }
  }
  return reached;
}

function checkInstrument(draft: Draft, instrument: Item): void {
  switch (instrument.kind) {
    case 'pressure':
      return checkTarget(draft, instrument, { key: 'node', kinds: ['junction'] });
    case 'flow':
    case 'meter':
      return checkTarget(draft, instrument, { key: 'link', kinds: null });
    case 'difference':
    case 'temperature':
      return checkMore(draft, instrument);
    case 'level':
      return checkTarget(draft, instrument, { key: 'tank', kinds: ['tank'] });
    case 'sight':
      return checkTarget(draft, instrument, { key: 'link', kinds: ['pipe', 'hose'], clear: true });
    case 'note':
      return checkTarget(draft, instrument, { key: 'pump', kinds: ['pump'] });
    default:
      return;
  }
}

interface Target {
  readonly key: 'node' | 'link' | 'tank' | 'pump';
  readonly kinds: readonly string[] | null;
  readonly clear?: boolean;
}

function checkTarget(draft: Draft, { raw, path }: Item, { key, kinds, clear }: Target): void {
  const list = key === 'node' || key === 'tank' ? 'node' : 'link';
  const target = namedPart(draft, raw[key], `${path}.${key}`, { list, kinds });
  if (target === null || clear !== true || target.raw.clear === true) return;
  const why = `the wall of "${target.id ?? ''}" is not clear, so nobody can look into it`;
  fault(draft, `${path}.${key}`, why);
}
