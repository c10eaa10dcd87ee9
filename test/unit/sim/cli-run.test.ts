// The verb `run --out`: the series that it writes, and that nothing is written on bad input.
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { formOf, InputFaults, parseScenario } from '../../../sim/index.ts';
import { together, type Options } from '../../../sim/cli/files.ts';
import { recordVerb, scoreVerb } from '../../../sim/cli/records.ts';
import { runVerb } from '../../../sim/cli/run.ts';
import { faultPaths, folderOfTests, LEVEL, ROOT, sim } from './cli-tools.ts';

const { at, written } = folderOfTests();
const HERON = join(ROOT, LEVEL);

type ById = Readonly<Record<string, readonly number[]>>;

interface Written {
  readonly every_s: number;
  readonly times_s: readonly number[];
  readonly air_L_at_1atm: { total: readonly number[]; loop: readonly number[]; links: ById };
  readonly flow_L_s: ById;
  readonly velocity_m_s: ById;
  readonly pressure_kPa: ById;
  readonly level_mm: ById;
  readonly antifreeze_fraction: ById;
  readonly ledgers_kg: ById;
  readonly facts: unknown;
  readonly score: unknown;
}

const seriesIn = (path: string): Written => JSON.parse(readFileSync(path, 'utf8')) as Written;

const SCRIPT = {
  format: 1,
  level: 'heron_lane',
  seed: 11,
  steps: [
    { do: { kind: 'valve', valve: 'fill_valve', target_deg: 90 } },
    { wait_s: 25 },
    { do: { kind: 'done' } },
  ],
};

const refused = (options: Options): string[] => faultPaths(() => runVerb(HERON, options));

describe('run --out', () => {
  const out = at('fill.series.json');
  const script = written('fill.script.json', SCRIPT);
  const told = sim('run', LEVEL, '--script', script, '--out', out, '--every', '5');
  const series = seriesIn(out);

  it('prints what it prints without', () => {
    const plain = runVerb(HERON, { script });
    expect(told.code).toBe(plain.code);
    expect(told.json).toEqual({ ...(JSON.parse(JSON.stringify(plain.json)) as object), out });
    expect(series.facts).toEqual(told.json['facts']);
    expect(series.score).toEqual(told.json['score']);
  });

  it('writes columns of one length, from the start to the end', () => {
    expect(series.every_s).toBe(5);
    expect(series.times_s).toEqual([0, 5, 10, 15, 20, 25, told.json['time_s']]);
    const { total, loop, links } = series.air_L_at_1atm;
    const { flow_L_s, velocity_m_s, pressure_kPa, level_mm, antifreeze_fraction } = series;
    const byId = [flow_L_s, velocity_m_s, pressure_kPa, level_mm, antifreeze_fraction, links];
    const columns = [...byId, series.ledgers_kg].flatMap((columns) => Object.values(columns));
    expect(columns.length).toBeGreaterThan(50);
    for (const column of [...columns, total, loop]) {
      expect(column).toHaveLength(7);
      expect(column.every((x) => Number.isFinite(x))).toBe(true);
    }
  });

  it('writes what happened', () => {
    const { total, loop, links } = series.air_L_at_1atm;
    const books = told.json['truth'] as {
      gas: { start: number; now: number };
      gas_by_link: Record<string, number>;
      loop_air_m3: number;
      ledgers: Record<string, number>;
    };
    expect(total[0]).toBeCloseTo(1000 * books.gas.start, 5);
    expect(total.at(-1)).toBeCloseTo(1000 * books.gas.now, 5);
    expect(loop.at(-1)).toBeCloseTo(1000 * books.loop_air_m3, 5);
    expect(total.at(-1)! - loop.at(-1)!).toBeGreaterThan(1); // The hoses are full of air.
    expect(Object.keys(links)).toEqual(Object.keys(books.gas_by_link));
    for (const [id, m3] of Object.entries(books.gas_by_link)) {
      expect(links[id]!.at(-1), id).toBeCloseTo(1000 * m3, 5);
    }
    for (const [id, kg] of Object.entries(books.ledgers)) {
      expect(series.ledgers_kg[id]!.at(-1)).toBeCloseTo(kg, 6);
    }
    // What the hose has brought by its ledger has passed its valve and stands in the tank.
    const Q = series.flow_L_s['fill_valve']!;
    expect(Q[3]).toBeGreaterThan(0.05);
    const area = Math.PI * (readBore('fill_valve') / 2000) ** 2;
    expect(series.velocity_m_s['fill_valve']![3]).toBeCloseTo(Q[3]! / 1000 / area, 6);
    const level = series.level_mm['tank']!;
    expect(level[4]! - level[3]!).toBeGreaterThan(1);
    const mains = mainsOf(SCRIPT.seed); // That form of the job.
    expect(series.pressure_kPa['mains']).toEqual(Array.from({ length: 7 }, () => mains));
    expect(series.pressure_kPa['fill_in']![3]).toBeGreaterThan(0);
    expect(series.pressure_kPa['fill_in']![3]).toBeLessThan(mains);
  });

  it('looks every second with idle hands, or every tick at the least', () => {
    const idle = at('idle.series.json');
    runVerb(HERON, { until: '3', out: idle });
    expect(seriesIn(idle).times_s).toEqual([0, 1, 2, 3]);
    runVerb(HERON, { until: '0.4', out: idle, every: '0.001' });
    expect(seriesIn(idle)).toMatchObject({ every_s: 0.2, times_s: [0, 0.2, 0.4] });
  });
});

function mainsOf(seed: number): number {
  const form = formOf(parseScenario(JSON.parse(readFileSync(HERON, 'utf8'))), seed);
  const mains = form.nodes.find(({ id }) => id === 'mains');
  return mains?.kind === 'reservoir' ? mains.pressure_kPa : NaN;
}

function readBore(id: string): number {
  const { links } = JSON.parse(readFileSync(HERON, 'utf8')) as {
    links: { id: string; bore_mm: number }[];
  };
  return links.find((link) => link.id === id)!.bore_mm;
}

describe('bad input', () => {
  it('is told all at once, and nothing is run or written', () => {
    const out = at('no/such/folder.json');
    const bad = written('bad.script.json', { ...SCRIPT, seed: -1 });
    const rules = at('no-rules.json');
    // Days of it: the test would run out of time if the place were tried behind the run.
    const options = { script: bad, out, rules, every: '0', until: '172800', seed: 'x' };
    expect(refused(options)).toEqual(['--every', '--seed', out, 'seed', rules]);
    expect(refused({ until: '172800', out })).toEqual([out]);
    expect(existsSync(at('no'))).toBe(false);
  });

  it('names a script of another level, once the scenario is known', () => {
    const out = at('never.json');
    const bad = written('else.script.json', { ...SCRIPT, level: 'elsewhere' });
    expect(refused({ script: bad, out })).toEqual(['level']);
    expect(existsSync(out)).toBe(false);
  });

  it('keeps options apart that do not go together', () => {
    const script = written('ok.script.json', SCRIPT);
    const record = join(ROOT, 'levels/01-heron-lane/solution.record.json');
    expect(refused({ script, record })).toEqual(['--script']);
    expect(refused({ record, seed: '1' })).toEqual(['--seed']);
    expect(refused({ until: '1', every: '1' })).toEqual(['--every']);
  });

  it('never writes over what it reads, nor over a folder', () => {
    const script = written('kept.script.json', SCRIPT);
    const before = readFileSync(script, 'utf8');
    expect(refused({ script, out: script })).toEqual([script]);
    expect(faultPaths(() => recordVerb(script, { scenario: HERON, out: script }))).toEqual([
      script,
    ]);
    expect(readFileSync(script, 'utf8')).toBe(before);
    expect(refused({ until: '1', out: at('.') })).toEqual([at('.')]);
    expect(refused({ until: '1', out: join(script, 'x.json') })).toEqual([join(script, 'x.json')]);
  });

  it('names the rules that are not there before a record is replayed', () => {
    const record = join(ROOT, 'levels/01-heron-lane/solution.record.json');
    const rules = at('no-rules.json');
    expect(faultPaths(() => scoreVerb(record, { scenario: HERON, rules }))).toEqual([rules]);
  });
});

describe('together', () => {
  const fault = (path: string) => () => {
    throw new InputFaults([{ path, message: 'is bad' }]);
  };

  it('gives what each part gives, or the faults of all', () => {
    expect(
      together(
        () => 1,
        () => 'two',
      ),
    ).toEqual([1, 'two']);
    expect(faultPaths(() => together(fault('a'), () => 1, fault('b')))).toEqual(['a', 'b']);
    const broken = () => {
      throw new TypeError('a fault of the program');
    };
    expect(() => together(fault('a'), broken)).toThrow(TypeError);
  });
});
