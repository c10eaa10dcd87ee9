// Small rigs built through the door, and seeded hands to work them. No mocks.
import { parseScenario, type Command, type Scenario } from '../../sim/index.ts';

/** A repeatable draw in [0, 1); print the seed with every failure. */
export function generator(seed: number): () => number {
  let s = (seed ^ 0x9e3779b9) >>> 0;
  return () => {
    s = (Math.imul(s, 1664525) + 1013904223) >>> 0;
    let x = s;
    x ^= x >>> 15;
    x = Math.imul(x, 0x2c1b3c6d);
    x ^= x >>> 12;
    return (x >>> 0) / 4294967296;
  };
}

export interface BendOptions {
  readonly bore_mm: number;
  readonly flow_L_s: number;
  readonly depth_m?: number;
  readonly cell_m?: number;
  readonly tick_s?: number;
  /** Stretch of gas, metres from the inlet. */
  readonly gas?: { from_m: number; to_m: number };
  readonly profile?: readonly { at_m: number; elevation_m: number }[];
  readonly length_m?: number;
  readonly end_m?: number;
}

/** A bench: imposed flow of water into one pipe that ends under a constant-level basin. */
export function bench(o: BendOptions): Scenario {
  const depth = o.depth_m ?? 30;
  const length = o.length_m ?? 2 * depth + 4;
  return parseScenario({
    format: 1,
    id: 'bench',
    temperature_C: 20,
    ends_after_s: 100000,
    solver: { tick_s: o.tick_s ?? 0.1, cell_m: o.cell_m ?? 1 },
    nodes: [
      { id: 'source', kind: 'reservoir', elevation_m: 0, pressure_kPa: 100 },
      { id: 'inlet', kind: 'junction', elevation_m: 0, volume_L: 0.5 },
      { id: 'basin', kind: 'reservoir', elevation_m: o.end_m ?? 0, pressure_kPa: 20 },
    ],
    links: [
      {
        id: 'feed',
        kind: 'fixed_flow',
        from: 'source',
        to: 'inlet',
        bore_mm: o.bore_mm,
        flow_L_s: o.flow_L_s,
      },
      {
        id: 'pipe',
        kind: 'pipe',
        from: 'inlet',
        to: 'basin',
        bore_mm: o.bore_mm,
        wall_mm: o.bore_mm / 9,
        length_m: length,
        profile: o.profile ?? [
          { at_m: 2, elevation_m: 0 },
          { at_m: 2 + depth, elevation_m: -depth },
          { at_m: 2 + 2 * depth, elevation_m: 0 },
        ],
        gas: o.gas ? [o.gas] : [],
      },
    ],
  });
}

/** Random instructions to one pair of hands, as a careless beginner might give them. */
export function randomHands(scenario: Scenario, chance: () => number): Command[] {
  const valves = scenario.links.filter((l) => l.kind === 'valve');
  const pumps = scenario.links.filter((l) => l.kind === 'pump');
  const tanks = scenario.nodes.filter((n) => n.kind === 'tank');
  const pick = <T>(list: readonly T[]): T => list[Math.floor(chance() * list.length)]!;
  const x = chance();
  if (x < 0.72)
    return [
      { kind: 'valve', valve: pick(valves).id, target_deg: pick([0, 0, 20, 45, 60, 75, 90, 90]) },
    ];
  if (x < 0.95 && pumps.length > 0)
    return [{ kind: 'switch', pump: pick(pumps).id, on: chance() < 0.6 }];
  return tanks.length > 0 ? [{ kind: 'mark', tank: pick(tanks).id }] : [];
}
