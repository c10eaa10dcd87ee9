// Hazards of electricity: for each, hands that bring it about, and hands that come to four fifths
// of it and no further. What shows it beforehand is on the panel or in the scene in time.
import { describe, expect, it } from 'vitest';
import {
  snapshot,
  type Command,
  type Fact,
  type HazardKind,
  type Snapshot,
  type World,
} from '../../../sim/index.ts';
import { POWER_LIMITS } from '../../../sim/hazards/power.ts';
import { cart } from '../../support/power.ts';
import { during, set, turnOn } from '../../support/hands.ts';

type Act = readonly [seconds: number, ...commands: Command[]];

interface Story {
  readonly hazard: HazardKind;
  readonly at: string;
  readonly trip: () => World;
  readonly trips: readonly Act[];
  readonly near: () => World;
  readonly nears: readonly Act[];
  /** What a person sees before it is too late. */
  readonly sign: (seen: Snapshot) => boolean;
}

const value = (seen: Snapshot, id: string): number =>
  seen.panel.readings.find((r) => r.id === id)!.value as number;
const position = (seen: Snapshot, id: string): number =>
  seen.scene.devices.find((d) => d.id === id)!.position;

/** Ticks of a fifth of a second: these stories are long, and their pumps steady. */
const slow = { world: { solver: { tick_s: 0.2, cell_m: 1 } } };
const small = { ...slow, supply: { breaker_A: 15 } };

const STORIES: readonly Story[] = [
  {
    hazard: 'overload', // The pump's 16.5 A and something else on a breaker of 15 A.
    at: 'breaker',
    trip: () => cart({ ...slow, supply: { breaker_A: 15, other_load_A: 8 } }),
    trips: [[200, turnOn(true)]],
    near: () => cart(small), // 110 %: out of code, not out of service.
    nears: [[1200, turnOn(true)]],
    sign: (seen) => value(seen, 'clamp') > 15,
  },
  {
    hazard: 'overload', // A wheel that hangs on a long thin cord.
    at: 'pump',
    trip: () => cart({ ...slow, cord: { length_m: 100, copper_mm2: 0.8 } }),
    trips: [[2400, turnOn(true)]],
    near: () => cart(slow), // 8 % more than the plate, on a motor that bears no more than it says.
    nears: [[2400, turnOn(true)]],
    sign: (seen) => value(seen, 'clamp') > 15.4, // A on the plate.
  },
  {
    hazard: 'ground_fault',
    at: 'plug',
    trip: () => cart({ plug: 0, motor: { leak_mA: 8 } }),
    trips: [
      [5, set('plug', 2)],
      [5, turnOn(true)],
    ],
    near: () => cart({ plug: 0, motor: { leak_mA: 5 } }),
    nears: [
      [5, set('plug', 2)],
      [30, turnOn(true)],
      [5, turnOn(false)],
      [5, set('plug', 0)],
    ],
    sign: (seen) => position(seen, 'plug') === 2,
  },
  {
    hazard: 'restart',
    at: 'pump',
    trip: () => cart({ start_on: true }),
    trips: [
      [30, set('breaker', 0)],
      [5, set('breaker', 1)],
    ],
    near: () => cart({ start_on: true }),
    nears: [
      [30, set('breaker', 0)],
      [2, turnOn(false)],
      [5, set('breaker', 1)],
      [5, turnOn(true)],
    ],
    sign: (seen) => seen.scene.pumps[0]!.on && value(seen, 'volts') === 0,
  },
];

interface Told {
  readonly facts: readonly Fact[];
  /** When the sign was first seen, s. */
  readonly sign: number;
}

function tell(world: World, acts: readonly Act[], sign: Story['sign']): Told {
  const facts: Fact[] = [];
  let seen = Infinity;
  let now = 0;
  for (const [seconds, ...commands] of acts) {
    for (let t = 0; t < seconds; t++) {
      facts.push(...during(world, 1, t === 0 ? commands : []));
      now += 1;
      if (seen === Infinity && sign(snapshot(world))) seen = now;
    }
  }
  return { facts, sign: seen };
}

const stages = ({ facts }: Told, { hazard, at }: Story) =>
  facts.flatMap((f) => (f.kind === 'hazard' && f.hazard === hazard && f.at === at ? [f] : []));

describe.each(STORIES)('$hazard at the $at', (story) => {
  it('trips, and was there to be seen before', () => {
    const world = story.trip();
    const told = tell(world, story.trips, story.sign);
    const tripped = stages(told, story).find((f) => f.stage === 'tripped');
    expect(stages(told, story)[0]?.stage).toBe('warning');
    expect(tripped?.value).toBeGreaterThanOrEqual(1);
    expect(told.sign).toBeLessThan(tripped!.tick * world.dt);
  });

  it('warns from four fifths on, and comes no further', () => {
    const world = story.near();
    const found = stages(tell(world, story.nears, story.sign), story);
    expect(found[0]).toMatchObject({ stage: 'warning', limit: POWER_LIMITS.warn });
    expect(POWER_LIMITS.warn).toBeGreaterThanOrEqual(0.8 * POWER_LIMITS.trip);
    expect(found.map((f) => f.stage)).not.toContain('tripped');
  });
});
