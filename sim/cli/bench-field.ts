// The field that the benchmark purges: any number of trench circuits of 150 m in banks of up to
// twelve, each bank on a header of its own, with a pump, a tank, headers and fittings that grow
// with the flow they carry, and air in two fifths of every crest.
import { max, min, PI, round, sqrt } from '../base/math.ts';
import { parseScenario, type Scenario } from '../scenario.ts';

const LENGTH = 150;
const CREST = 10;
/** L/s that one circuit takes while it is purged, and m/s that headers and hoses are sized for. */
const CIRCUIT_FLOW = 0.35;
const HEADER_SPEED = 1.2;
/** s of its flow that a fitting holds: several ticks, as a fitting of that bore does. */
const FITTING_SECONDS = 0.3;

/** mm. Bore of what carries so many circuits' flow; a header never narrows below 60 mm. */
function boreFor(circuits: number): number {
  const area = (CIRCUIT_FLOW * circuits) / 1000 / HEADER_SPEED;
  return max(60, round(1000 * sqrt((4 * area) / PI)));
}

/** L. */
function roomFor(circuits: number): number {
  return max(0.5, CIRCUIT_FLOW * circuits * FITTING_SECONDS);
}

function circuit(k: number, air: boolean): object {
  const stretches = Array.from({ length: LENGTH / CREST }, (_, i) => i);
  const profile = stretches
    .slice(1)
    .map((i) => ({ at_m: i * CREST, elevation_m: i % 2 === 1 ? -1.4 : -1.05 }));
  const pocket = (i: number) => ({ from_m: i * CREST, to_m: i * CREST + 0.4 * CREST });
  const gas = air ? stretches.map(pocket) : [];
  const pipe = { kind: 'pipe', bore_mm: 21.8, wall_mm: 2.4, length_m: LENGTH };
  return { id: `circuit_${k}`, from: `s${k}`, to: `r${k}`, ...pipe, profile, gas };
}

function tank(circuits: number): object {
  const bore_mm = boreFor(circuits);
  return {
    id: 'tank',
    kind: 'tank',
    floor_m: 0.3,
    area_m2: 1 + 0.05 * circuits,
    height_mm: 2000,
    start_level_mm: 1600,
    start_antifreeze_fraction: 0.1,
    ports: [
      { id: 'outlet', height_mm: 150, bore_mm },
      { id: 'back', height_mm: 300, bore_mm },
    ],
  };
}

/** Circuits on one header. */
const BANK = 12;

/** A bank's two mains from the vault and its header, with circuits `first` to `last`. */
function bank(first: number, last: number, air: boolean): { nodes: object[]; links: object[] } {
  const nodes: object[] = [];
  const links: object[] = [];
  for (let k = first; k <= last; k++) {
    const left = last - k + 1;
    const volume_L = roomFor(left);
    for (const side of ['s', 'r']) {
      const [here, before] = [`${side}${k}`, k === first ? `${side}0` : `${side}${k - 1}`];
      nodes.push({ id: here, kind: 'junction', elevation_m: -1.2, volume_L });
      links.push({
        id: `header_${here}`,
        ...(side === 's' ? { from: before, to: here } : { from: here, to: before }),
        kind: 'pipe',
        bore_mm: boreFor(left),
        wall_mm: 5,
        length_m: k === first ? 6 : 3,
      });
    }
    links.push(circuit(k, air));
  }
  return { nodes, links };
}

function pumpAndHoses(circuits: number): { nodes: object[]; links: object[] } {
  const bore_mm = boreFor(circuits);
  const volume_L = roomFor(circuits);
  const joint = (id: string, elevation_m: number) => ({ id, kind: 'junction', elevation_m });
  const curve = [
    { flow_L_s: 0, head_m: 30 },
    { flow_L_s: 0.3 * circuits, head_m: 24 },
    { flow_L_s: 0.49 * circuits, head_m: 5 },
  ];
  const pump = { kind: 'pump', start_on: true, best_flow_L_s: CIRCUIT_FLOW * circuits, curve };
  const suction = { kind: 'valve', start_deg: 90, from: 'tank.outlet', to: 'casing' };
  const hose = { kind: 'hose', bore_mm, length_m: 10 };
  return {
    nodes: [
      { ...joint('casing', 0.45), volume_L: max(2, volume_L) },
      { ...joint('out', 0.7), volume_L },
      { ...joint('s0', -1.2), volume_L },
      { ...joint('r0', -1.2), volume_L },
    ],
    links: [
      { id: 'suction', ...suction, bore_mm },
      { id: 'pump', ...pump, from: 'casing', to: 'out', bore_mm },
      { id: 'supply_hose', ...hose, from: 'out', to: 's0' },
      { id: 'return_hose', ...hose, from: 'r0', to: 'tank.back' },
    ],
  };
}

/** A bench rig of `circuits` in banks on direct-return headers, with air or full of water. */
export function benchField(circuits: number, air: boolean): Scenario {
  const { nodes, links } = pumpAndHoses(circuits);
  nodes.unshift(tank(circuits));
  for (let first = 1; first <= circuits; first += BANK) {
    const more = bank(first, min(circuits, first + BANK - 1), air);
    nodes.push(...more.nodes);
    links.push(...more.links);
  }
  return parseScenario({
    format: 1,
    id: `bench_${circuits}`,
    solver: { tick_s: 0.2, cell_m: 1 }, // What the jobs are played with.
    temperature_C: 12,
    antifreeze: 'propylene_glycol',
    ends_after_s: 172800,
    nodes,
    links,
  });
}
