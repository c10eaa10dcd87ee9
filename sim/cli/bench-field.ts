// The field that the benchmark purges: any number of trench circuits of 150 m on one header, with
// a pump and a tank that grow with them, and air in two fifths of every crest.
import { parseScenario, type Scenario } from '../scenario.ts';

const LENGTH = 150;
const CREST = 10;

function circuit(k: number): object {
  const stretches = Array.from({ length: LENGTH / CREST }, (_, i) => i);
  const profile = stretches
    .slice(1)
    .map((i) => ({ at_m: i * CREST, elevation_m: i % 2 === 1 ? -1.4 : -1.05 }));
  const gas = stretches.map((i) => ({ from_m: i * CREST, to_m: i * CREST + 0.4 * CREST }));
  const pipe = { kind: 'pipe', bore_mm: 21.8, wall_mm: 2.4, length_m: LENGTH };
  return { id: `circuit_${k}`, from: `s${k}`, to: `r${k}`, ...pipe, profile, gas };
}

/** A bench rig of `circuits` parallel circuits on a direct-return header. */
export function benchField(circuits: number): Scenario {
  const header = { kind: 'pipe', bore_mm: 60, wall_mm: 5, length_m: 3 };
  const joint = (id: string) => ({ id, kind: 'junction', elevation_m: -1.2 });
  const nodes: object[] = [
    {
      id: 'tank',
      kind: 'tank',
      floor_m: 0.3,
      area_m2: 1 + 0.05 * circuits,
      height_mm: 1000,
      start_level_mm: 800,
      start_antifreeze_fraction: 0.1,
      ports: [
        { id: 'outlet', height_mm: 60, bore_mm: 60 },
        { id: 'back', height_mm: 130, bore_mm: 60 },
      ],
    },
    { id: 'casing', kind: 'junction', elevation_m: 0.36, volume_L: 2 },
    { id: 'out', kind: 'junction', elevation_m: 0.6 },
    joint('s0'),
    joint('r0'),
  ];
  const links: object[] = [
    { id: 'suction', kind: 'valve', from: 'tank.outlet', to: 'casing', bore_mm: 60, start_deg: 90 },
    {
      id: 'pump',
      kind: 'pump',
      from: 'casing',
      to: 'out',
      bore_mm: 60,
      start_on: true,
      best_flow_L_s: 0.35 * circuits,
      curve: [
        { flow_L_s: 0, head_m: 30 },
        { flow_L_s: 0.3 * circuits, head_m: 24 },
        { flow_L_s: 0.49 * circuits, head_m: 5 },
      ],
    },
    { id: 'supply_hose', kind: 'hose', from: 'out', to: 's0', bore_mm: 60, length_m: 10 },
    { id: 'return_hose', kind: 'hose', from: 'r0', to: 'tank.back', bore_mm: 60, length_m: 10 },
  ];
  for (let k = 1; k <= circuits; k++) {
    nodes.push(joint(`s${k}`), joint(`r${k}`));
    links.push({ id: `header_s${k}`, from: `s${k - 1}`, to: `s${k}`, ...header });
    links.push({ id: `header_r${k}`, from: `r${k}`, to: `r${k - 1}`, ...header });
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
