// A tolerant look at a scenario that may be broken in any way: every reader answers null
// where the shape is wrong, because the schema has said so already.
import type { Fault } from '../fault.ts';

export interface Item {
  readonly raw: Readonly<Record<string, unknown>>;
  /** Where it stands, as `links[3]`. */
  readonly path: string;
  readonly id: string | null;
  readonly kind: string | null;
}

/** A scenario as far as it can be read. */
export interface Draft {
  readonly raw: Readonly<Record<string, unknown>>;
  readonly nodes: readonly Item[];
  readonly links: readonly Item[];
  readonly instruments: readonly Item[];
  readonly devices: readonly Item[];
  /** The first of each id. */
  readonly nodeById: ReadonlyMap<string, Item>;
  readonly linkById: ReadonlyMap<string, Item>;
  /** Where faults are gathered. */
  readonly faults: Fault[];
}

export function objectOf(value: unknown): Readonly<Record<string, unknown>> | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return null;
  return value as Record<string, unknown>;
}

export function numberOf(value: unknown): number | null {
  return typeof value === 'number' && Number.isFinite(value) ? value : null;
}

export function textOf(value: unknown): string | null {
  return typeof value === 'string' ? value : null;
}

/** The entries of a list that are objects, each with its path. */
export function itemsOf(value: unknown, path: string): readonly Item[] {
  if (!Array.isArray(value)) return [];
  const items: Item[] = [];
  value.forEach((entry: unknown, at) => {
    const raw = objectOf(entry);
    if (raw === null) return;
    items.push({ raw, path: `${path}[${at}]`, id: textOf(raw.id), kind: textOf(raw.kind) });
  });
  return items;
}

export function draftOf(json: unknown): Draft | null {
  const raw = objectOf(json);
  if (raw === null) return null;
  const nodes = itemsOf(raw.nodes, 'nodes');
  const links = itemsOf(raw.links, 'links');
  const instruments = itemsOf(raw.instruments, 'instruments');
  const devices = itemsOf(raw.devices, 'devices');
  return {
    raw,
    nodes,
    links,
    instruments,
    devices,
    nodeById: firstById(nodes),
    linkById: firstById(links),
    faults: [],
  };
}

function firstById(items: readonly Item[]): ReadonlyMap<string, Item> {
  const map = new Map<string, Item>();
  for (const item of items) if (item.id !== null && !map.has(item.id)) map.set(item.id, item);
  return map;
}

/** What a name must lead to: a part of a list, of one of these kinds or, with `null`, of any. */
export interface Wanted {
  readonly list: 'node' | 'link' | 'instrument' | 'device';
  readonly kinds: readonly string[] | null;
}

/** The part that is named, or null; says what is wrong with the name. */
export function namedPart(
  draft: Draft,
  value: unknown,
  path: string,
  { list, kinds }: Wanted,
): Item | null {
  const id = textOf(value);
  if (id === null) return null;
  const found = partOf(draft, list, id);
  if (found === undefined) {
    fault(draft, path, `there is no ${list} "${id}"`);
    return null;
  }
  if (kinds === null || found.kind === null || kinds.includes(found.kind)) return found;
  fault(draft, path, `"${id}" is a ${found.kind}; a ${kinds.join(' or ')} is needed here`);
  return null;
}

function partOf(draft: Draft, list: Wanted['list'], id: string): Item | undefined {
  if (list === 'node') return draft.nodeById.get(id);
  if (list === 'link') return draft.linkById.get(id);
  return (list === 'device' ? draft.devices : draft.instruments).find((part) => part.id === id);
}

export function fault(draft: Draft, path: string, message: string): void {
  draft.faults.push({ path, message });
}

/** Ports of a tank, in order. */
export function portsOf(tank: Item): readonly Item[] {
  return itemsOf(tank.raw.ports, `${tank.path}.ports`);
}

/** The node that an end of a link names, if it resolves in the right way; with the elevation. */
export function endOf(draft: Draft, value: unknown): { node: Item; z: number | null } | null {
  const text = textOf(value);
  if (text === null) return null;
  const [nodeId, portId] = text.split('.');
  const node = nodeId === undefined ? undefined : draft.nodeById.get(nodeId);
  if (node === undefined) return null;
  if (node.kind !== 'tank') {
    return portId === undefined ? { node, z: numberOf(node.raw.elevation_m) } : null;
  }
  const port = portsOf(node).find((p) => p.id === portId);
  if (port === undefined) return null;
  const floor = numberOf(node.raw.floor_m);
  const height = numberOf(port.raw.height_mm);
  return { node, z: floor === null || height === null ? null : floor + height / 1000 };
}
