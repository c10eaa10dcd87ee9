// Defects: each stands at a part of the right kind, no part has two of one kind, moments look at
// parts that are there, and ends that are changed over still reach.
import { abs } from '../base/math.ts';
import { NEEDLES } from '../lens.ts';
import { endOf, fault, itemsOf, namedPart, numberOf, objectOf, textOf } from './raw.ts';
import type { Draft, Item, Wanted } from './raw.ts';

const LINKS = ['blocked', 'swapped_header', 'trapped_air'];

/** What each kind of defect stands at. */
const AT: Readonly<Record<string, Wanted>> = {
  blocked: { list: 'link', kinds: null },
  stuck_valve: { list: 'link', kinds: ['valve', 'three_way'] },
  handle_slips: { list: 'link', kinds: ['valve'] },
  gauge_offset: { list: 'instrument', kinds: NEEDLES },
  gauge_sticks: { list: 'instrument', kinds: NEEDLES },
  gauge_dead: { list: 'instrument', kinds: [...NEEDLES, 'meter'] },
  gauge_slow: { list: 'instrument', kinds: NEEDLES },
  meter_scale: { list: 'instrument', kinds: ['flow', 'meter'] },
  clogged_filter: { list: 'link', kinds: ['filter'] },
  worn_impeller: { list: 'link', kinds: ['pump'] },
  suction_air_leak: { list: 'node', kinds: ['junction'] },
  leak: { list: 'node', kinds: ['junction'] },
  weak_supply: { list: 'node', kinds: ['reservoir'] },
  cycling_supply: { list: 'node', kinds: ['reservoir'] },
  swapped_header: { list: 'link', kinds: ['pipe', 'hose'] },
  trapped_air: { list: 'link', kinds: null },
  wrong_drum: { list: 'node', kinds: ['tank', 'reservoir'] },
  unknown_fluid: { list: 'link', kinds: ['pipe', 'hose'] },
};

export function checkDefects(draft: Draft): void {
  const defects = itemsOf(draft.raw.defects, 'defects');
  const seen = new Set<string>();
  for (const defect of defects) {
    const { path } = defect;
    const wanted = AT[defect.kind ?? ''];
    if (wanted === undefined) continue;
    namedPart(draft, defect.raw.at, `${path}.at`, wanted);
    const place = `${defect.kind ?? ''} ${textOf(defect.raw.at) ?? path}`;
    if (seen.has(place)) fault(draft, `${path}.at`, 'has a defect of this kind already');
    seen.add(place);
    checkOwn(draft, defect);
    for (const key of ['from', 'until'])
      checkMoment(draft, objectOf(defect.raw[key]), `${path}.${key}`);
  }
}

/** What only one kind of defect has. */
function checkOwn(draft: Draft, defect: Item): void {
  const { kind, raw, path } = defect;
  const at = textOf(raw.at) ?? '';
  const link = LINKS.includes(kind ?? '') ? draft.linkById.get(at) : undefined;
  if (kind === 'swapped_header') checkSwap(draft, defect);
  if (kind === 'trapped_air' && link !== undefined) {
    const beside = endOf(draft, link.raw.from)?.node.kind;
    if (beside !== 'junction') fault(draft, `${path}.at`, `"${at}" does not begin at a junction`);
  }
  if (kind === 'blocked') checkMetre(draft, defect, link);
  if (kind === 'cycling_supply') {
    const low = numberOf(raw.low_kPa);
    const high = numberOf(draft.nodeById.get(at)?.raw.pressure_kPa);
    if (low !== null && high !== null && low >= high) {
      fault(draft, `${path}.low_kPa`, `must be less than the supply's own ${high} kPa`);
    }
  }
  const x = numberOf(raw.antifreeze_fraction);
  if (x !== null && x > 0 && (textOf(draft.raw.antifreeze) ?? 'none') === 'none') {
    fault(draft, `${path}.antifreeze_fraction`, 'must be 0, because the antifreeze is "none"');
  }
}

function checkMetre(draft: Draft, { raw, path }: Item, link: Item | undefined): void {
  const at = numberOf(raw.at_m);
  const length = numberOf(link?.raw.length_m);
  if (at === null || link === undefined) return;
  if (link.kind !== 'pipe' && link.kind !== 'hose') {
    fault(draft, `${path}.at_m`, 'only a pipe or hose is so long');
  } else if (length !== null && at > length) {
    fault(draft, `${path}.at_m`, `lies beyond the end of the pipe at ${length} m`);
  }
}

/** Both are there, and each is long enough for the other's end. */
function checkSwap(draft: Draft, defect: Item): void {
  const { raw, path } = defect;
  const other = namedPart(draft, raw.with, `${path}.with`, AT.swapped_header as Wanted);
  const one = draft.linkById.get(textOf(raw.at) ?? '');
  if (other === null || one === undefined) return;
  if (other === one) return fault(draft, `${path}.with`, 'is the same link');
  const key = raw.ends === 'from' ? 'from' : 'to';
  for (const [link, taker] of [
    [one, other],
    [other, one],
  ] as const) {
    const end = endOf(draft, taker.raw[key]);
    if (end === null || end.z === null) continue;
    if (textOf(link.raw[key === 'to' ? 'from' : 'to']) === textOf(taker.raw[key])) {
      fault(draft, `${path}.with`, `"${link.id ?? ''}" would start and end at one place`);
    }
    const reach = lastStretch(draft, link, key);
    if (reach === null || abs(end.z - reach.z) <= reach.run) continue;
    fault(draft, `${path}.with`, `"${link.id ?? ''}" is too short for the height of that end`);
  }
}

/** Length of a pipe's last stretch towards an end, and the height it comes from. */
function lastStretch(
  draft: Draft,
  link: Item,
  key: 'from' | 'to',
): { run: number; z: number } | null {
  const length = numberOf(link.raw.length_m);
  const points = itemsOf(link.raw.profile, '');
  const near = key === 'to' ? points[points.length - 1] : points[0];
  const far = endOf(draft, link.raw[key === 'to' ? 'from' : 'to'])?.z ?? null;
  if (length === null) return null;
  if (near === undefined) return far === null ? null : { run: length, z: far };
  const at = numberOf(near.raw.at_m);
  const z = numberOf(near.raw.elevation_m);
  if (at === null || z === null) return null;
  return { run: key === 'to' ? length - at : at, z };
}

/** What each look needs, and the units of its limits. */
const LOOKS: ReadonlyArray<readonly [string, Wanted, string | null]> = [
  ['pressure', { list: 'node', kinds: ['junction', 'reservoir'] }, 'kPa'],
  ['flow', { list: 'link', kinds: null }, 'L_min'],
  ['level', { list: 'node', kinds: ['tank'] }, 'mm'],
  ['valve', { list: 'link', kinds: ['valve', 'three_way'] }, 'deg'],
  ['pump', { list: 'link', kinds: ['pump'] }, null],
];

function checkMoment(
  draft: Draft,
  moment: Readonly<Record<string, unknown>> | null,
  path: string,
): void {
  const when = objectOf(moment?.when);
  if (when === null) return;
  const here = `${path}.when`;
  for (const [key, wanted, unit] of LOOKS) {
    if (when[key] === undefined) continue;
    namedPart(draft, when[key], `${here}.${key}`, wanted);
    if (unit === null) continue;
    const above = when[`above_${unit}`];
    const below = when[`below_${unit}`];
    if (above === undefined && below === undefined) fault(draft, here, 'gives no limit');
    const [lo, hi] = [numberOf(above), numberOf(below)];
    if (lo !== null && hi !== null && lo >= hi) {
      fault(draft, `${here}.below_${unit}`, `must be more than the ${lo} above it`);
    }
  }
}
