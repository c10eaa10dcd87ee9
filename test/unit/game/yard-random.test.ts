// The yard draws any loop: a hundred sites by chance, three rigs, trenches, bores and both, direct
// and reverse return, with and without banks and plant, in both shapes; whole days by chance; and
// the jobs. Geometry of the layout only [independent method: what may not overlap is computed here,
// not by the layout's own code].
import { describe, expect, it } from 'vitest';
import {
  layoutYard,
  type Drawing,
  type Shape,
  type YardLayout,
} from '../../../game/yard/layout.ts';
import yardWords from '../../../game/yard/words.en.json';
import { LEVELS } from '../../../levels/index.ts';
import { buildSite } from '../../../sim/field/build.ts';
import { RIGS } from '../../../sim/field/site.ts';
import { formOf } from '../../../sim/index.ts';
import { daySite } from '../../support/day-site.ts';
import { seedOfRun } from '../../tools/chance.ts';
import { dayBySeed } from '../../tools/days-by-chance.ts';
import { scenarioBySeed } from '../../tools/sites.ts';
import { yardFaults } from '../../tools/yard-faults.ts';

const SEED = seedOfRun() % 1_000_000;
const COUNT = 100;
const SHARE = 20;
const SHAPES: readonly Shape[] = ['wide', 'tall'];
/** The machine that runs this may have two slow cores. */
const LONG_ms = 180_000;

describe(`a hundred sites from seed ${SEED}`, () => {
  for (let first = 0; first < COUNT; first += SHARE) {
    it(`draws sites ${first + 1} to ${first + SHARE} without a fault`, { timeout: LONG_ms }, () => {
      const faults: string[] = [];
      for (let k = first; k < first + SHARE; k++) {
        const scenario = scenarioBySeed(SEED + k);
        for (const shape of SHAPES) {
          const found = yardFaults(layoutYard(scenario, null, shape), scenario);
          faults.push(...found.map((f) => `seed ${SEED + k} ${shape}: ${f}`));
        }
      }
      expect(faults).toEqual([]);
    });
  }

  it('draws every count of circuits from 1 to 24', { timeout: LONG_ms }, () => {
    for (let n = 1; n <= 24; n++) {
      const scenario = scenarioBySeed(SEED + n, n);
      for (const shape of SHAPES) {
        const yard = layoutYard(scenario, null, shape);
        const drawn = new Set(yard.conduits.map((c) => c.id));
        const pipes = scenario.links.filter((l) => l.kind === 'pipe' || l.kind === 'hose');
        expect(pipes.filter((p) => !drawn.has(p.id)).map((p) => p.id)).toEqual([]);
      }
    }
  });
});

/** Days by chance: any rig, plant room, field and vault, with any of the equipment. */
const DAYS = 9;

describe(`${DAYS} whole days from seed ${SEED}`, () => {
  it.each(Array.from({ length: DAYS }, (_, k) => SEED + k))(
    'draws day %i without a fault',
    { timeout: LONG_ms },
    (seed) => {
      const scenario = dayBySeed(seed);
      for (const shape of SHAPES) {
        expect(yardFaults(layoutYard(scenario, null, shape), scenario), shape).toEqual([]);
      }
    },
  );

  it.each(RIGS)('draws everything there is on the %s', { timeout: LONG_ms }, (rig) => {
    const scenario = buildSite(daySite(rig));
    for (const shape of SHAPES) {
      expect(yardFaults(layoutYard(scenario, null, shape), scenario), shape).toEqual([]);
    }
  });

  it('sees a device that is not placed', () => {
    const scenario = buildSite(daySite('barrow'));
    const yard = layoutYard(scenario, null, 'wide');
    const placed = yard.placed.filter(({ id }) => id !== 'lock_unit' && id !== 'coil_gauge');
    const faults = yardFaults({ ...yard, placed }, scenario).join('\n');
    expect(faults).toContain('lock_unit is not placed');
    expect(faults).toContain('coil_gauge is not placed');
  });
});

describe('the levels', () => {
  const cases = LEVELS.flatMap((level) => SHAPES.map((shape) => ({ id: level.id, level, shape })));
  it.each(cases)('$id is drawn $shape without a fault, in its own words', ({ level, shape }) => {
    const words: Readonly<Record<string, string>> = { ...yardWords, ...level.words };
    const say = (key: string): string => words[key] ?? key;
    const yard = layoutYard(level.scenario, level.drawing as Drawing, shape, say);
    expect(yardFaults(yard, level.scenario)).toEqual([]);
    const asked = [...yard.labels, ...(yard.key?.rows ?? [])].map((l) => l.key);
    expect(asked.filter((key) => words[key] === undefined)).toEqual([]);
  });
});

describe('the forms of the levels', () => {
  it.each(LEVELS)('are drawn as well as the job as written: $id', (level) => {
    for (const seed of [SEED + 2, SEED + 3]) {
      const scenario = formOf(level.scenario, seed);
      for (const shape of SHAPES) {
        const yard = layoutYard(scenario, level.drawing as Drawing, shape);
        expect(yardFaults(yard, scenario), `seed ${seed}, ${shape}`).toEqual([]);
      }
    }
  });
});

describe('the check itself', () => {
  const scenario = scenarioBySeed(11);
  const good = layoutYard(scenario, null, 'wide');
  const faultsOf = (change: Partial<YardLayout>): string => {
    return yardFaults({ ...good, ...change }, scenario).join('\n');
  };

  it('finds nothing on a good drawing', () => {
    expect(yardFaults(good, scenario)).toEqual([]);
  });

  it('sees a name over a name, over a valve and outside the drawing', () => {
    const [a, b, ...rest] = good.labels;
    const onto = { ...b!, x: a!.x + 2, y: a!.y + 2 };
    expect(faultsOf({ labels: [a!, onto, ...rest] })).toMatch(/ lies over /);
    const valve = good.valves[0]!;
    const over = { ...a!, x: valve.x - 10, y: valve.y - 6 };
    expect(faultsOf({ labels: [over, ...rest] })).toContain(`lies over ${valve.id}`);
    const out = { ...a!, x: good.width - 4 };
    expect(faultsOf({ labels: [out, ...rest] })).toContain('outside the drawing');
  });

  it('sees a pipe through a valve that is not its own', () => {
    const valve = good.valves[0]!;
    const line = [-200, 200].map((d) => ({ x: valve.x + d * 0.3, y: valve.y + d }));
    const fittings = [...good.fittings, { points: line, width: 12 }];
    expect(faultsOf({ fittings })).toContain(`runs through ${valve.id}`);
  });

  it('sees a control that is missing, too small, outside or over another', () => {
    const [a, b, ...rest] = good.placed;
    expect(faultsOf({ placed: [b!, ...rest] })).toContain(`${a!.id} is not placed`);
    expect(faultsOf({ placed: [{ ...a!, w: 40 }, b!, ...rest] })).toMatch(/ is 28 px/);
    expect(faultsOf({ placed: [{ ...a!, x: -30 }, b!, ...rest] })).toContain('outside');
    const onto = { ...a!, x: b!.x + 4, y: b!.y + 4 };
    expect(faultsOf({ placed: [onto, b!, ...rest] })).toContain(`${a!.id} lies over ${b!.id}`);
  });

  it('sees heights out of order: a valve on the cart, and a crest in a strip', () => {
    const low = good.valves.find((v) => v.id === 'suction_valve')!;
    const valves = good.valves.map((v) => (v === low ? { ...v, y: 20 } : v));
    expect(faultsOf({ valves })).toContain('stands higher than suction_valve');
    const strip = good.strips.find((s) => good.conduits.some((c) => c.id === s.circuit))!;
    const conduits = good.conduits.map((c) => {
      if (c.id !== strip.circuit) return c;
      const flip = (y: number): number => strip.top + strip.bottom - y;
      return { ...c, points: c.points.map((p) => ({ ...p, y: flip(p.y) })) };
    });
    expect(faultsOf({ conduits })).toContain(`strip ${strip.circuit}`);
  });
});
