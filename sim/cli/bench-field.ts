// The field that the benchmark purges: any number of trench circuits of 150 m on one header, with
// a pump, a tank, headers and fittings that grow with the flow they carry, and air in two fifths
// of every crest.
import { max, PI, round, sqrt } from '../base/math.ts';
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

function circuit(k: number): object {
  const stretches = Array.from({ length: LENGTH / CREST }, (_, i) => i);
  const profile = stretches
    .slice(1)
    .map((i) => ({ at_m: i * CREST, elevation_m: i % 2 === 1 ? -1.4 : -1.05 }));
  const gas = stretches.map((i) => ({ from_m: i * CREST, to_m: i * CREST + 0.4 * CREST }));
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

/** A bench rig of `circuits` parallel circuits on a direct-return header. */
export function benchField(circuits: number): Scenario {
  const main = boreFor(circuits);
  const header = (after: number) => ({
    kind: 'pipe',
    bore_mm: boreFor(circuits - after),
    wall_mm: 5,
    length_m: 3,
  });
  const joint = (id: string, after: number) => ({
    id,
    kind: 'junction',
    elevation_m: -1.2,
    volume_L: roomFor(circuits - after),
  });
  const nodes: object[] = [
    tank(circuits),
    { id: 'casing', kind: 'junction', elevation_m: 0.45, volume_L: max(2, roomFor(circuits)) },
    { id: 'out', kind: 'junction', elevation_m: 0.7, volume_L: roomFor(circuits) },
    joint('s0', 0),
    joint('r0', 0),
  ];
  const links: object[] = [
    {
      id: 'suction',
      kind: 'valve',
      from: 'tank.outlet',
      to: 'casing',
      bore_mm: main,
      start_deg: 90,
    },
    {
      id: 'pump',
      kind: 'pump',
      from: 'casing',
      to: 'out',
      bore_mm: main,
      start_on: true,
      best_flow_L_s: CIRCUIT_FLOW * circuits,
      curve: [
        { flow_L_s: 0, head_m: 30 },
        { flow_L_s: 0.3 * circuits, head_m: 24 },
        { flow_L_s: 0.49 * circuits, head_m: 5 },
      ],
    },
    { id: 'supply_hose', kind: 'hose', from: 'out', to: 's0', bore_mm: main, length_m: 10 },
    { id: 'return_hose', kind: 'hose', from: 'r0', to: 'tank.back', bore_mm: main, length_m: 10 },
  ];
  for (let k = 1; k <= circuits; k++) {
    nodes.push(joint(`s${k}`, k - 1), joint(`r${k}`, k - 1));
    links.push({ id: `header_s${k}`, from: `s${k - 1}`, to: `s${k}`, ...header(k - 1) });
    links.push({ id: `header_r${k}`, from: `r${k}`, to: `r${k - 1}`, ...header(k - 1) });
    links.push(circuit(k));
  }
  return parseScenario({
    format: 1,
    id: `bench_${circuits}`,
    temperature_C: 12,
    antifreeze: 'propylene_glycol',
    ends_after_s: 172800,
    nodes,
    links,
  });
}
