// Files broken at random: what is planted must be named by its path, and what is still good
// must run. The seed is printed; LOOPYARD_SEED takes another.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { recordFaults } from '../../sim/record-schema.ts';
import { advance, recordOf, replay, startRun, type RunRecord } from '../../sim/run.ts';
import { parseScenario, scenarioFaults } from '../../sim/scenario.ts';
import { createWorld, hash, step } from '../../sim/world.ts';
import { chance, seedOfRun, type Chance } from '../tools/chance.ts';
import { breakLeaf, broken, leavesOf, nudged, placeOf, type Break } from '../tools/leaves.ts';
import { copyOf, written } from '../tools/planting.ts';
import { PLANTED } from '../tools/scenario-faults.ts';

const CASES = 200;
const seed = seedOfRun();
const load = (name: string): unknown =>
  JSON.parse(readFileSync(new URL(`../../levels/01-heron-lane/${name}`, import.meta.url), 'utf8'));
const level = load('scenario.json');

/** A break with the places that must otherwise be whole for it to be seen. */
interface Plan extends Break {
  readonly places: readonly string[];
}

function genericPlan(random: Chance, json: unknown): Plan {
  // What a choice puts somewhere is looked at as a part of its form, and named by its range.
  const own = leavesOf(json).filter(({ path }) => !/^ranges\..*\.value\b/.test(path));
  const plan = breakLeaf(random, random.pick(own));
  return { ...plan, places: [placeOf(plan.path)] };
}

/** Ids in a path turned to indices, so that two ways to say one place are one. */
function dotted(json: unknown, path: string): string {
  return written(json, path).replace(/\[(\d+)\]/g, '.$1');
}

function crossPlan(random: Chance): Plan {
  const { path, value, named, needs } = random.pick(PLANTED);
  const where = dotted(level, path);
  const places = [where, ...(needs ?? []).map((need) => dotted(level, need))].map(placeOf);
  // A row that names another place than its own is about that place too.
  const other = named === undefined ? [] : [placeOf(named.replace(/\[(\d+)\]/g, '.$1'))];
  return { path: where, value, named: named ?? where, places: [...places, ...other] };
}

/** One to four breaks, no two of which touch the same place. */
function plansFor(random: Chance, make: () => Plan): Plan[] {
  const wanted = 1 + random.below(4);
  const taken = new Set<string>();
  const plans: Plan[] = [];
  for (let tries = 0; plans.length < wanted && tries < 100; tries += 1) {
    const plan = make();
    const clash = plan.places.some((p) =>
      [...taken].some((t) => t === p || t.startsWith(`${p}.`) || p.startsWith(`${t}.`)),
    );
    if (clash) continue;
    plan.places.forEach((p) => taken.add(p));
    plans.push(plan);
  }
  return plans;
}

function named(json: unknown, path: string): string {
  return path.includes('[') ? path : written(json, path);
}

describe(`broken scenarios, seed ${seed}`, () => {
  it(`names every planted fault in ${CASES} files`, () => {
    const random = chance(seed);
    let planted = 0;
    for (let n = 0; n < CASES; n += 1) {
      const make = () => (random.below(3) === 0 ? crossPlan(random) : genericPlan(random, level));
      const plans = plansFor(random, make);
      const found = new Set(scenarioFaults(broken(level, plans)).map((f) => f.path));
      for (const plan of plans) {
        planted += 1;
        const about = `seed ${seed}, file ${n}: ${plan.path} = ${JSON.stringify(plan.value)}`;
        expect([...found], about).toContain(named(level, plan.named));
      }
    }
    expect(planted).toBeGreaterThan(CASES);
  });

  it('runs every nudged file that it accepts, and names the fault of any other', () => {
    const random = chance(seed + 1);
    const numbers = leavesOf(level).filter((leaf) => typeof leaf.value === 'number');
    let accepted = 0;
    for (let n = 0; n < 60; n += 1) {
      const changed = broken(level, [nudged(random, level, random.pick(numbers).path)]);
      const faults = scenarioFaults(changed);
      if (faults.length > 0) {
        expect(faults.every((f) => f.path !== '' && f.message !== '')).toBe(true);
        continue;
      }
      accepted += 1;
      const world = createWorld(parseScenario(changed), n);
      const open = { kind: 'valve', valve: 'suction_valve', target_deg: 90 } as const;
      for (let tick = 0; tick < 20; tick += 1) step(world, tick === 0 ? [open] : []);
      expect(hash(world)).toMatch(/^[0-9a-f]{16}$/);
    }
    expect(accepted).toBeGreaterThan(30);
  });
});

/** A minute of hands at work, recorded. */
function minuteOfWork(): RunRecord {
  const run = startRun(parseScenario(level), 5);
  const hands = ['suction_valve', 'discharge_valve', 'loop_supply_valve', 'loop_return_valve'];
  for (let tick = 0; tick < 1200; tick += 1) {
    const valve = hands[tick / 100];
    advance(run, valve === undefined ? [] : [{ kind: 'valve', valve, target_deg: 90 - tick / 20 }]);
  }
  return recordOf(run);
}

describe(`broken records, seed ${seed}`, () => {
  const scenario = parseScenario(level);
  const record = minuteOfWork();

  /** A command that goes back in time, or speaks of a control that is not there. */
  function crossRecord(random: Chance): Plan {
    const at = 2 + random.below(record.commands.length - 2);
    const place = [`commands.${at}`];
    if (random.below(2) === 0) {
      // The one before it must keep its tick for this to be seen.
      const path = `commands.${at}.0`;
      return { path, value: 0, named: path, places: [...place, `commands.${at - 1}`] };
    }
    const path = `commands.${at}.1.valve`;
    return {
      path,
      value: random.pick(['pump', 'attic_valve', 'tank']),
      named: path,
      places: place,
    };
  }

  it('finds nothing wrong with the record before it is broken', () => {
    expect(recordFaults(record, scenario)).toEqual([]);
  });

  it(`names every planted fault in ${CASES} files`, () => {
    const random = chance(seed + 2);
    for (let n = 0; n < CASES; n += 1) {
      const make = () =>
        random.below(3) === 0 ? crossRecord(random) : genericPlan(random, record);
      const plans = plansFor(random, make);
      const found = recordFaults(broken(record, plans), scenario).map((f) => f.path);
      for (const plan of plans) {
        const about = `seed ${seed}, file ${n}: ${plan.path} = ${JSON.stringify(plan.value)}`;
        expect(found, about).toContain(written(record, plan.named));
      }
    }
  });

  it('sees by replaying what no check of the file can see', () => {
    expect(replay(scenario, record).divergedAt).toBeNull();
    const turned = copyOf(record) as unknown as { commands: [number, { target_deg: number }][] };
    turned.commands[1]![1].target_deg -= 1;
    const other = turned as unknown as RunRecord;
    expect(recordFaults(other, scenario)).toEqual([]);
    expect(replay(scenario, other).divergedAt).toBe(200);
    const [tick, text] = record.checks[2]!;
    const swapped = text.replace(/^./, (digit) => (digit === '0' ? '1' : '0'));
    const checks = record.checks.map((c, at) => (at === 2 ? ([tick, swapped] as const) : c));
    expect(replay(scenario, { ...record, checks }).divergedAt).toBe(300);
  });
});
