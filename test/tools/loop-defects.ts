// What may be wrong with a random loop: one or more defects of any kind at parts that suit, from a
// chance of its own, so that loops without any stay as they were.
import { scenarioFaults } from '../../sim/index.ts';
import { chance, type Chance } from './chance.ts';

type Part = Record<string, unknown> & { readonly id: string; readonly kind: string };

export interface Loop {
  readonly antifreeze: string;
  readonly nodes: readonly Part[];
  readonly links: readonly Part[];
  readonly instruments: readonly Part[];
}

const CONDUITS = ['pipe', 'hose'];
const NEEDLES = ['pressure', 'flow', 'difference', 'temperature'];

/** Keys of a defect of a kind at a part, or null where the part does not suit. */
type Maker = (random: Chance, part: Part, loop: Loop) => object | null;

const of =
  (kinds: readonly string[], keys: (random: Chance, part: Part) => object): Maker =>
  (random, part) =>
    kinds.includes(part.kind) ? keys(random, part) : null;

const NODE_KINDS: Readonly<Record<string, Maker>> = {
  leak: of(['junction'], (r) => ({
    bore_mm: r.pick([0.5, 2, 10]),
    ...r.pick([{}, { opens_at_kPa: 50 }, { grows_per_100kPa: 1 }]),
    visible: r.unit() < 0.5,
  })),
  suction_air_leak: of(['junction'], (r) => ({ bore_mm: r.pick([0.5, 2, 10]) })),
  weak_supply: of(['reservoir'], () => ({})),
  cycling_supply: (r, part) => {
    const high = part['pressure_kPa'];
    if (part.kind !== 'reservoir' || typeof high !== 'number' || high < 20) return null;
    return { low_kPa: high / 2, drawdown_L: r.pick([0.5, 20]), pump_L_min: r.pick([0, 20, 200]) };
  },
  wrong_drum: (r, part, { antifreeze }) =>
    part.kind === 'tank' || part.kind === 'reservoir'
      ? { antifreeze_fraction: antifreeze === 'none' ? 0 : r.unit() / 2 }
      : null,
};
const LINK_KINDS: Readonly<Record<string, Maker>> = {
  blocked: () => ({}),
  stuck_valve: of(['valve', 'three_way'], (r) => ({
    ...r.pick([{}, { stop_deg: 40 }]),
    turns: r.pick(['below', 'above']),
  })),
  handle_slips: of(['valve'], () => ({})),
  clogged_filter: of(['filter'], () => ({})),
  worn_impeller: of(['pump'], () => ({})),
  trapped_air: (r, part, { nodes }) =>
    nodes.some((n) => n.id === part['from'] && n.kind === 'junction')
      ? { air_L: r.pick([0.1, 2]), clears_L_min: r.pick([1, 30, 1000]) }
      : null,
  unknown_fluid: (r, part, { antifreeze }) =>
    CONDUITS.includes(part.kind)
      ? { antifreeze_fraction: antifreeze === 'none' ? 0 : r.unit() / 2 }
      : null,
  swapped_header: (r, part, { links }) => {
    const others = links.filter((l) => l !== part && CONDUITS.includes(l.kind));
    if (!CONDUITS.includes(part.kind) || others.length === 0) return null;
    return { with: r.pick(others).id, ends: r.pick(['from', 'to']) };
  },
};
const GAUGE_KINDS: Readonly<Record<string, Maker>> = {
  gauge_offset: of(NEEDLES, (r) => ({ by_share: r.unit() - 0.5 })),
  gauge_sticks: of(NEEDLES, () => ({ band_share: 0.1 })),
  gauge_dead: of([...NEEDLES, 'meter'], () => ({})),
  gauge_slow: of(NEEDLES, () => ({ lag_s: 5 })),
  meter_scale: of(['flow', 'meter'], () => ({ factor: 0.7 })),
};

const BUILT = ['swapped_header', 'trapped_air', 'wrong_drum', 'unknown_fluid'];

/** From when, to what share, how fast; nothing for what is wrong from the start. */
function course(random: Chance, kind: string, loop: Loop): object {
  const some = random.pick([1, 1, 0.5]);
  if (BUILT.includes(kind)) return { chance: some };
  const node = loop.nodes.find((n) => n.kind === 'junction');
  const flow = { when: { flow: random.pick(loop.links).id, above_L_min: random.below(40) } };
  const from = random.pick<object>([
    {},
    { from: { after_s: random.below(20) } },
    { from: flow },
    node === undefined ? {} : { from: { when: { pressure: node.id, above_kPa: 5 } } },
  ]);
  const until = random.pick<object>([{}, {}, { until: { after_s: random.below(20) } }]);
  const share = random.pick([1, 0.8, random.unit()]);
  return { ...from, ...until, share, ramp_s: random.pick([0, 0, 5]), chance: some };
}

/** More to read, for what may be wrong with it. */
function moreInstruments(loop: Loop): Part[] {
  const [one, two] = loop.nodes.filter((n) => n.kind === 'junction');
  const [link] = loop.links;
  const scale = { resolution_kPa: 0.5, lag_s: 0.5, range_kPa: 50 };
  return [
    { id: 'counter', kind: 'meter', link: link!.id, resolution_L: 0.1 },
    { id: 'warmth', kind: 'temperature', link: link!.id, resolution_C: 0.5, lag_s: 2 },
    ...(two === undefined
      ? []
      : [{ id: 'drop', kind: 'difference', high: one!.id, low: two.id, ...scale }]),
  ];
}

/** Defects of a loop, and more instruments; neither in four of five. */
export function loopDefects(
  seed: number,
  loop: Loop,
): Partial<Record<'defects' | 'instruments', object[]>> {
  const random = chance(seed ^ 0x0d_ef_ec_75);
  if (random.unit() > 0.2) return {};
  const instruments = [...loop.instruments, ...moreInstruments(loop)];
  const whole = { ...loop, instruments };
  const lists = [
    [NODE_KINDS, loop.nodes],
    [LINK_KINDS, loop.links],
    [LINK_KINDS, loop.links],
    [GAUGE_KINDS, instruments],
  ] as const;
  const defects: Part[] = [];
  for (let n = 1 + random.below(8); n > 0; n--) {
    const [kinds, parts] = random.pick(lists);
    const kind = random.pick(Object.keys(kinds));
    const part = random.pick(parts);
    const keys = kinds[kind]!(random, part, whole);
    if (keys === null || defects.some((d) => d.kind === kind && d['at'] === part.id)) continue;
    defects.push({ id: `defect${n}`, kind, at: part.id, ...keys, ...course(random, kind, whole) });
  }
  const swaps = defects.filter(({ kind }) => kind === 'swapped_header').slice(0, 1);
  const rest = defects.filter(({ kind }) => kind !== 'swapped_header');
  return { defects: [...rest, ...swaps], instruments };
}

/** Ends that cannot be changed over, since a pipe is too short for it, stay as they are. */
export function reachable<T extends { readonly defects?: readonly object[] }>(json: T): T {
  const swap = json.defects?.find((d) => 'with' in d);
  if (swap === undefined || scenarioFaults(json).length === 0) return json;
  return { ...json, defects: json.defects!.filter((d) => d !== swap) };
}
