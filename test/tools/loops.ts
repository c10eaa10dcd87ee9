// Random loops: any structure that the scenario's format allows, from three parts to forty, all
// from one seed. Leaves out sense: most of these rigs would make no installer happy, which is the
// point; and hands (loop-hands.ts). Lengths, heights and flows stay such that pipes are long
// enough for their profiles and no fitting stands metres high.
import { chance, type Chance } from './chance.ts';
import { makeDebris } from './loop-debris.ts';
import { loopDefects, reachable, type Loop } from './loop-defects.ts';
import { addDevices, addRoom, addVessels } from './loop-kit.ts';
import { FITTINGS, makeFitting } from './loop-fittings.ts';
import { withPower } from './loop-power.ts';

interface Node {
  readonly id: string;
  readonly kind: 'junction' | 'tank' | 'reservoir' | 'open';
  readonly z: number;
  readonly json: Record<string, unknown>;
  readonly ports: { id: string; height_mm: number; bore_mm: number }[];
}
type Link = Record<string, unknown> & { id: string; kind: string };

/** What every maker needs; `p` answers how likely. */
interface Draft {
  readonly random: Chance;
  readonly antifreeze: string;
  readonly cell_m: number;
  readonly gassy: number;
  readonly pressed: number;
  readonly nodes: Node[];
  readonly links: Link[];
}

const BORES = [12, 16, 21.84, 27.3, 34.5, 49.35, 72.75];
const between = (random: Chance, lo: number, hi: number) => lo + (hi - lo) * random.unit();
export const likely = (random: Chance, p: number) => random.unit() < p;
const rounded = (x: number) => Math.round(x * 1000) / 1000;

function fraction(d: Draft): number {
  if (d.antifreeze === 'none' || likely(d.random, 0.4)) return 0;
  return rounded(between(d.random, 0, 0.5));
}

/** Test air and filled loops stand under pressure; most things do not. */
function gauge(d: Draft): number {
  return likely(d.random, d.pressed) ? rounded(between(d.random, 0, 400)) : 0;
}

function addJunction(d: Draft, z: number): Node {
  const { random } = d;
  const id = `n${d.nodes.length}`;
  const json: Record<string, unknown> = {
    id,
    kind: 'junction',
    elevation_m: z,
    volume_L: rounded(between(random, 0.5, likely(random, 0.1) ? 20 : 1)),
  };
  const share = random.pick([1, 1, rounded(random.unit())]);
  if (likely(random, d.gassy)) json['start_gas_fraction'] = share;
  if (likely(random, d.pressed)) json['start_pressure_kPa'] = gauge(d);
  if (likely(random, 0.1)) json['rating_kPa'] = 400;
  const node: Node = { id, kind: 'junction', z, json, ports: [] };
  d.nodes.push(node);
  return node;
}

function addBoundary(d: Draft, z: number): Node {
  const { random } = d;
  const id = `n${d.nodes.length}`;
  const kind = random.pick(['tank', 'tank', 'reservoir', 'open'] as const);
  const height_mm = random.pick([200, 600, 1200]);
  const json: Record<string, unknown> = { id, kind };
  if (kind === 'tank') {
    json['floor_m'] = z;
    json['area_m2'] = rounded(between(random, 0.02, 0.8));
    json['height_mm'] = height_mm;
    json['start_level_mm'] = Math.round(between(random, 0, height_mm));
    json['start_antifreeze_fraction'] = fraction(d);
  } else json['elevation_m'] = z;
  if (kind === 'reservoir') {
    json['pressure_kPa'] = rounded(between(random, -30, 400));
    json['antifreeze_fraction'] = fraction(d);
  }
  if (kind === 'open') json['goes_to'] = random.pick(['waste', 'ground', 'pail']);
  const node: Node = { id, kind, z, json, ports: [] };
  d.nodes.push(node);
  return node;
}

/** How a link names this node: a tank gets a port of its own for each, up to eight. */
function endAt(d: Draft, node: Node, bore_mm: number): string {
  if (node.kind !== 'tank') return node.id;
  if (node.ports.length < 8) {
    const height_mm = Math.round(between(d.random, 0, node.json['height_mm'] as number));
    node.ports.push({ id: `p${node.ports.length}`, height_mm, bore_mm });
  }
  return `${node.id}.${node.ports[node.ports.length - 1]!.id}`;
}

function heightOf(node: Node): number {
  const port = node.ports[node.ports.length - 1];
  return node.z + (port === undefined ? 0 : port.height_mm / 1000);
}

/** Points between two heights, none steeper than the pipe is long. */
function profile(random: Chance, length: number, ends: readonly [number, number]) {
  const count = random.below(5);
  const at = Array.from({ length: count }, () => rounded(between(random, 0.05, 0.95) * length));
  const rows: { at_m: number; elevation_m: number }[] = [];
  let [s, z] = [0, ends[0]];
  for (const at_m of [...new Set(at)].sort((a, b) => a - b)) {
    const [run, rest] = [at_m - s - 0.002, length - at_m - 0.002];
    if (run <= 0 || rest <= 0) continue;
    const lo = Math.max(z - run, ends[1] - rest, -190);
    const hi = Math.min(z + run, ends[1] + rest, 90);
    if (lo > hi) continue;
    const elevation_m = Math.round(between(random, lo, hi) * 1000) / 1000;
    rows.push({ at_m, elevation_m });
    [s, z] = [at_m, elevation_m];
  }
  return rows;
}

function stretches(random: Chance, length: number) {
  if (likely(random, 0.3)) return [{ from_m: 0, to_m: length }];
  const cuts = Array.from({ length: 2 * (1 + random.below(3)) }, () => random.unit() * length);
  const sorted = [...new Set(cuts.map(rounded))].sort((a, b) => a - b);
  const rows: { from_m: number; to_m: number }[] = [];
  for (let k = 0; k + 1 < sorted.length; k += 2) {
    rows.push({ from_m: sorted[k]!, to_m: Math.min(length, sorted[k + 1]!) });
  }
  return rows;
}

function addConduit(d: Draft, a: Node, b: Node): void {
  const { random } = d;
  const bore_mm = random.pick(BORES);
  const from = endAt(d, a, bore_mm);
  const zFrom = heightOf(a);
  const to = endAt(d, b, bore_mm);
  const zTo = heightOf(b);
  const shortest = Math.max(0.3, Math.abs(zFrom - zTo) * 1.02 + 0.05);
  const length_m = rounded(shortest + random.pick([0, 1, 8, 40]) * random.unit());
  const kind = likely(random, 0.25) ? 'hose' : 'pipe';
  const more =
    kind === 'pipe'
      ? { wall_mm: rounded(bore_mm / 9), modulus_MPa: random.pick([660, 660, 200000]) }
      : { compliance_per_MPa: random.pick([0.0005, 0.02, 0.3]) };
  d.links.push({
    id: `l${d.links.length}`,
    kind,
    from,
    to,
    bore_mm,
    length_m,
    loss_k: random.pick([0, 0, 1.5]),
    profile: profile(random, length_m, [zFrom, zTo]),
    gas: likely(random, d.gassy) ? stretches(random, length_m) : [],
    start_pressure_kPa: gauge(d),
    start_antifreeze_fraction: fraction(d),
    clear: likely(random, 0.3),
    ...more,
  });
}

/** Joins a and b by a part without length; a three-way valve also takes a third node. */
function addFitting(d: Draft, a: Node, b: Node): void {
  const { random } = d;
  const bore_mm = random.pick(BORES);
  let kind: string = random.pick(FITTINGS);
  const third = d.nodes.filter((n) => n !== a && n !== b && Math.abs(n.z - a.z) < 3);
  if (kind === 'three_way' && third.length === 0) kind = 'valve';
  const from = endAt(d, a, bore_mm);
  const link: Link = { id: `l${d.links.length}`, kind, from, to: endAt(d, b, bore_mm), bore_mm };
  if (kind === 'three_way') link['branch'] = endAt(d, random.pick(third), bore_mm);
  d.links.push(Object.assign(link, makeFitting(random, kind)));
}

/** Joins two nodes: by a pipe where they lie apart in height or nothing else will do. */
function join(d: Draft, a: Node, b: Node): void {
  const near = Math.abs(a.z - b.z) < 3;
  if (near && likely(d.random, 0.6)) addFitting(d, a, b);
  else addConduit(d, a, b);
}

/** Marks some of the places where three links meet as tees. */
function markTees(d: Draft): void {
  for (const node of d.nodes) {
    if (node.kind !== 'junction' || likely(d.random, 0.3)) continue;
    const legs = d.links.filter(
      (l) => l.kind !== 'three_way' && (l['from'] === node.id || l['to'] === node.id),
    );
    if (legs.length < 3) continue;
    const [one, two, branch] = legs.map((l) => l.id);
    node.json['tee'] = { run: [one, two], branch, angle_deg: d.random.pick([90, 45]) };
  }
}

const gaugeOf = { range_kPa: 600, resolution_kPa: 5, lag_s: 0.4 };

function addInstruments(d: Draft): unknown[] {
  const junction = d.nodes.find((n) => n.kind === 'junction');
  const pump = d.links.find((l) => l.kind === 'pump');
  const clear = d.links.find((l) => l['clear'] === true);
  const tank = d.nodes.find((n) => n.kind === 'tank');
  const [first] = d.links;
  return [
    junction && { kind: 'pressure', node: junction.id, ...gaugeOf },
    { kind: 'flow', link: first!.id, range_L_min: 200, resolution_L_min: 0.5, lag_s: 1 },
    clear && { kind: 'sight', link: clear.id },
    pump && { kind: 'note', pump: pump.id },
    tank && { kind: 'level', tank: tank.id, resolution_mm: 5 },
  ].flatMap((one, k) => (one ? [{ id: `i${k}`, ...one }] : []));
}

/** A scenario as JSON, which `parseScenario` must accept. */
export function randomLoop(random: Chance): unknown {
  const antifreeze = likely(random, 0.5)
    ? 'none'
    : random.pick(['propylene_glycol', 'ethanol', 'methanol'] as const);
  const cell_m = random.pick([0.3, 0.5, 1, 1, 2]);
  const share = () => random.pick([0, 0.2, 0.6, 1]);
  const d: Draft = {
    random,
    antifreeze,
    cell_m,
    gassy: share(),
    pressed: share(),
    nodes: [],
    links: [],
  };
  const links = 3 + random.below(38);
  const nodes = 2 + random.below(Math.max(2, Math.ceil(links * between(random, 0.3, 0.9))));
  const ground = rounded(between(random, -5, 5));
  addBoundary(d, ground);
  while (d.nodes.length < nodes) {
    const a = random.pick(d.nodes);
    const reach = likely(random, 0.8) ? 1 : 40;
    const z = rounded(Math.max(-150, Math.min(60, a.z + between(random, -reach, reach / 2))));
    const b = likely(random, 0.15) ? addBoundary(d, z) : addJunction(d, z);
    if (likely(random, 0.5)) join(d, a, b);
    else join(d, b, a);
  }
  while (d.links.length < links) {
    const a = random.pick(d.nodes);
    const others = d.nodes.filter((n) => n !== a);
    const near = others.filter((n) => Math.abs(n.z - a.z) < 3);
    join(d, a, random.pick(near.length > 0 && likely(random, 0.8) ? near : others));
  }
  markTees(d);
  // Draws of its own, so that loops without debris are what they were.
  const own = chance(random.seed ^ 0x64656272);
  const debris = likely(own, 0.25) ? { debris: makeDebris(own, d.links) } : {};
  const nodeJson = d.nodes.map((n) => (n.kind === 'tank' ? { ...n.json, ports: n.ports } : n.json));
  const parts = { antifreeze, nodes: nodeJson, links: d.links, instruments: addInstruments(d) };
  const devices = [...addDevices(d), ...addVessels(d)];
  const whole = {
    format: 1,
    id: `loop_${random.seed >>> 0}`,
    temperature_C: random.pick([2, 10, 20, 35]),
    tee_losses: likely(random, 0.5),
    solver: { tick_s: cell_m < 0.5 ? 0.05 : random.pick([0.02, 0.05, 0.05, 0.1]), cell_m },
    ends_after_s: 172800,
    ...parts,
    devices,
    record: devices.length > 0 ? [{ id: 'line', reading: 'i1' }] : [],
    ...addRoom(d),
    ...debris,
    ...loopDefects(random.seed, parts as unknown as Loop),
  };
  return reachable(withPower(random, whole));
}
