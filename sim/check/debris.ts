// Debris of a scenario: what lies somewhere lies in a pipe or hose and is of a class that is told;
// what catches is a filter, coil or check valve and wears an element that is told.
import { fault, itemsOf, numberOf, objectOf, textOf, type Draft, type Item } from './raw.ts';

const WEARERS: readonly (string | null)[] = ['filter', 'coil', 'check_valve', null];
const CONDUITS: readonly (string | null)[] = ['pipe', 'hose', null];
/** m. Slack for lengths typed with few digits. */
const SLACK = 1e-6;

export function checkDebris(draft: Draft): void {
  const debris = objectOf(draft.raw.debris);
  if (debris === null) return;
  const classes = named(draft, itemsOf(debris.classes, 'debris.classes'));
  const elements = named(draft, itemsOf(debris.elements, 'debris.elements'));
  for (const item of itemsOf(debris.lying, 'debris.lying')) {
    const link = linkOf(draft, item, CONDUITS, 'pipe or hose');
    known(draft, item, 'class', classes);
    checkStretch(draft, item, link === undefined ? null : numberOf(link.raw.length_m));
  }
  const worn = new Set<string>();
  for (const item of itemsOf(debris.catchers, 'debris.catchers')) {
    linkOf(draft, item, WEARERS, 'filter, coil or check valve');
    known(draft, item, 'element', elements);
    const id = textOf(item.raw.link);
    if (id === null) continue;
    if (worn.has(id)) fault(draft, `${item.path}.link`, `"${id}" wears an element already`);
    worn.add(id);
  }
}

/** Ids of a list, each of which may stand once. */
function named(draft: Draft, items: readonly Item[]): ReadonlySet<string> {
  const ids = new Set<string>();
  for (const { id, path } of items) {
    if (id === null) continue;
    if (ids.has(id)) fault(draft, `${path}.id`, `"${id}" is taken already`);
    ids.add(id);
  }
  return ids;
}

function known(draft: Draft, item: Item, key: string, ids: ReadonlySet<string>): void {
  const id = textOf(item.raw[key]);
  if (id === null || ids.has(id)) return;
  fault(draft, `${item.path}.${key}`, `there is no ${key} "${id}" in the debris`);
}

function linkOf(
  draft: Draft,
  item: Item,
  kinds: readonly (string | null)[],
  wanted: string,
): Item | undefined {
  const id = textOf(item.raw.link);
  if (id === null) return undefined;
  const link = draft.linkById.get(id);
  const path = `${item.path}.link`;
  if (link === undefined) fault(draft, path, `there is no link "${id}"`);
  else if (!kinds.includes(link.kind)) fault(draft, path, `"${id}" is no ${wanted}`);
  return link;
}

function checkStretch(draft: Draft, { raw, path }: Item, length: number | null): void {
  const from = numberOf(raw.from_m);
  const to = numberOf(raw.to_m);
  if (from === null || to === null) return;
  if (to <= from) fault(draft, `${path}.to_m`, `must be more than the ${from} m it starts at`);
  else if (length !== null && to > length + SLACK) {
    fault(draft, `${path}.to_m`, `lies beyond the end at ${length} m`);
  }
}
