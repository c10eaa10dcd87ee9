// The verb `law`: every public law can be asked, rows are checked, answers are the law's own.
import { readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { InputFaults } from '../../../sim/index.ts';
import { allowed, described, lawRows, LAWS } from '../../../sim/cli/law.ts';
import { lawVerb, LEFT_OUT, rangeOf } from '../../../sim/cli/law.ts';
import { isWithin, rangeText, RANGES } from '../../../sim/cli/laws/ranges.ts';
import type { ArgSpec } from '../../../sim/cli/laws/entry.ts';
import * as alcohol from '../../../sim/laws/alcohol.ts';
import * as antifreeze from '../../../sim/laws/antifreeze.ts';
import * as coil from '../../../sim/laws/coil.ts';
import * as defect from '../../../sim/laws/defect.ts';
import * as dissolved from '../../../sim/laws/dissolved.ts';
import * as elastic from '../../../sim/laws/elastic.ts';
import * as fitting from '../../../sim/laws/fitting.ts';
import * as friction from '../../../sim/laws/friction.ts';
import * as gas from '../../../sim/laws/gas.ts';
import * as heat from '../../../sim/laws/heat.ts';
import * as motor from '../../../sim/laws/motor.ts';
import * as layer from '../../../sim/laws/layer.ts';
import * as pipe from '../../../sim/laws/pipe.ts';
import * as pump from '../../../sim/laws/pump.ts';
import * as refraction from '../../../sim/laws/refraction.ts';
import * as solids from '../../../sim/laws/solids.ts';
import * as tank from '../../../sim/laws/tank.ts';
import * as water from '../../../sim/laws/water.ts';
import { asked, faultPaths, faultsOf as faultsIn, folderOfTests, ROOT, told } from './cli-tools.ts';

const { written } = folderOfTests();

const MODULES: Readonly<Record<string, object>> = {
  ...{ alcohol, antifreeze, coil, defect, dissolved, elastic, fitting, friction },
  ...{ gas, heat, layer, motor, pipe, pump, refraction, solids, tank, water },
};

/** A value that any law can take, by what the argument is. */
function sample(key: string, spec: ArgSpec): unknown {
  if (typeof spec === 'object' && 'one_of' in spec) return spec.one_of.at(-1);
  if (typeof spec === 'object' && 'pairs_of' in spec) {
    return spec.pairs_of[1] === 'm'
      ? [
          [0, 20],
          [0.001, 15],
          [0.002, 0],
        ]
      : [[0.001, 500]];
  }
  const values: Readonly<Record<string, number>> = {
    ...{ t_C: 20, Re: 1e5, e_D: 1e-4, rho_kg_m3: 998, rho_l_kg_m3: 998, rho_g_kg_m3: 1.2 },
    ...{ locked_times: 5.5, times_rating: 2 },
    ...{ D_m: 0.05, e_m: 0.005, L_m: 10, mu_Pa_s: 1e-3, sigma_N_m: 0.072, s: 2.65, dr: 11 },
    ...{ open_deg: 60, angle_deg: 90, t_s: 100, t0_s: 60, p_Pa: 2e5, E_Pa: 6e8, DR: 11 },
    ...{
      m: 1.2,
      Q_m3_s: 0.001,
      d_m: 0.001,
      nu_m2_s: 1e-6,
      sine: -0.2,
      alpha: 0.3,
      Fr1: 3,
      Eo: 100,
    },
  };
  return values[key] ?? 0.4;
}

const rowOf = (args: Readonly<Record<string, ArgSpec>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(args).map(([key, spec]) => [key, sample(key, spec)]));

const ask = (name: string, row: object): unknown =>
  (lawRows(LAWS[name]!, [row])[0] as { result: unknown }).result;

function faultsOf(name: string, rows: unknown): string[] {
  try {
    lawRows(LAWS[name]!, rows);
    return [];
  } catch (error) {
    if (!(error instanceof InputFaults)) throw error;
    return error.faults.map(({ path, message }) => `${path}: ${message}`);
  }
}

describe('the list of laws', () => {
  it('holds every function of every law file, or says why not', () => {
    // Files of data give no laws; a new law file fails here until it is asked.
    const files = readdirSync(`${ROOT}sim/laws`).map((file) => file.replace(/\.ts$/, ''));
    expect(files.filter((file) => !file.endsWith('-data')).sort()).toEqual(
      Object.keys(MODULES).sort(),
    );
    const all = Object.entries(MODULES).flatMap(([file, members]) =>
      Object.entries(members)
        .filter(([, member]) => typeof member === 'function')
        .map(([name]) => `${file}.${name}`),
    );
    expect(all.length).toBeGreaterThan(70);
    expect([...Object.keys(LAWS), ...Object.keys(LEFT_OUT)].sort()).toEqual(all.sort());
    for (const why of Object.values(LEFT_OUT)) expect(why.length).toBeGreaterThan(20);
  });

  it('names units and a source throughout, and units again in the keys of arguments', () => {
    for (const [name, { args, result, source }] of Object.entries(LAWS)) {
      expect(source.length, name).toBeGreaterThan(3);
      const units = typeof result === 'string' ? [result] : Object.values(result);
      for (const unit of units) expect(unit.length, name).toBeGreaterThan(0);
      for (const [key, spec] of Object.entries(args)) {
        if (spec === 'm' || spec === 'Pa' || spec === 'm3/s') {
          expect(key, name).toMatch(spec === 'm' ? /_m$/ : spec === 'Pa' ? /_Pa$/ : /_m3_s$/);
        }
      }
    }
  });

  it.each(Object.entries(LAWS))('%s answers, and wants each argument', (name, { args, result }) => {
    const row = rowOf(args);
    const parts = typeof result === 'string' ? null : Object.keys(result);
    const found = ask(name, row);
    if (parts === null) expect(found).toBeTypeOf('number');
    else expect(Object.keys(found as object)).toEqual(parts);
    for (const [key, spec] of Object.entries(args)) {
      const { [key]: _gone, ...rest } = row;
      const optional = typeof spec === 'object' && 'unless_given' in spec;
      expect(faultsOf(name, [rest])).toEqual(optional ? [] : [`[0].${key}: is missing`]);
    }
  });
});

/** Numbers at or just beyond the limits of an argument, none of them allowed. */
function beyond(key: string, spec: ArgSpec): number[] {
  const { from, above, to, below } = rangeOf(key, spec);
  return [
    ...(from === undefined ? [] : [from - 1e-9]),
    ...(above === undefined ? [] : [above, above - 1]),
    ...(to === undefined ? [] : [to + 1e-9]),
    ...(below === undefined ? [] : [below]),
  ];
}

describe('what is allowed', () => {
  const numbers = Object.entries(LAWS).flatMap(([name, { args }]) =>
    Object.entries(args)
      .filter(([, spec]) => typeof spec === 'string' || 'unit' in spec)
      .map(([key, spec]) => ({ name, key, spec })),
  );

  it('is said in words', () => {
    expect(rangeText({ from: 0, to: 1 })).toBe('from 0 to 1');
    expect(rangeText({ above: 0, below: 1 })).toBe('above 0 below 1');
    expect(allowed('Q_m3_s', 'm3/s')).toBe('a number');
    expect(() => allowed('colour', '1')).toThrow('nobody says what colour may be');
  });

  it('takes the ends that belong to it', () => {
    const ends = (range: object) => [0, 0.5, 1].map((x) => isWithin(x, range));
    expect(ends({ from: 0, to: 1 })).toEqual([true, true, true]);
    expect(ends({ above: 0, below: 1 })).toEqual([false, true, false]);
  });

  it('is asked of every number, and every range has an argument', () => {
    const used = new Set(numbers.map(({ key }) => key));
    expect(Object.keys(RANGES).filter((key) => !used.has(key))).toEqual([]);
    let refused = 0;
    for (const { name, key, spec } of numbers) {
      for (const x of beyond(key, spec)) {
        const faults = faultsOf(name, [{ ...rowOf(LAWS[name]!.args), [key]: x }]);
        expect(faults, name).toEqual([`[0].${key}: must be ${allowed(key, spec)}`]);
        refused += 1;
      }
    }
    expect(refused).toBeGreaterThan(150);
  });
});

describe('what a law answers', () => {
  it('has its arguments in their places', () => {
    expect(ask('water.density', { t_C: 20 })).toBeCloseTo(998.2, 1);
    // 32 mu L V/D^2 at V = Q/A, Re 12.7.
    const slow = { Q_m3_s: 1e-7, D_m: 0.01, L_m: 3, e_m: 0, rho_kg_m3: 998, mu_Pa_s: 1e-3 };
    const V = 1e-7 / ((Math.PI * 1e-4) / 4);
    const lost = ask('friction.pipeLoss', slow) as { loss_Pa: number };
    expect(lost.loss_Pa).toBeCloseTo((32 * 1e-3 * 3 * V) / 1e-4, 9);
    // rho a dV; the hoop of a thin wall D/(e E) (1 - nu^2) to 3 %.
    expect(ask('elastic.joukowsky', { rho_kg_m3: 1000, a_m_s: 300, dV_m_s: 2 })).toBe(6e5);
    const c = ask('elastic.wallCompliance', { D_m: 1, e_m: 0.005, nu: 0.45, E_Pa: 1e9 }) as number;
    expect(c / ((1 / 0.005 / 1e9) * (1 - 0.45 * 0.45))).toBeCloseTo(1, 1);
    const V_half = { V_m3: 2, phi0: 0, phi1: 0.5 };
    expect(ask('antifreeze.bleedAndFeedVolume', V_half)).toBeCloseTo(2 * Math.LN2, 9);
    const npsh = { p_Pa: 1e5, p_v_Pa: 2339, rho_kg_m3: 998.2, z_m: -3, h_m: 0.5 };
    expect(ask('pump.npshAvailable', npsh)).toBeCloseTo(97661 / 998.2 / 9.80665 - 3.5, 6);
    expect(ask('pump.affinity', { speed: 0.5 })).toEqual({ flow: 0.5, head: 0.25, power: 0.125 });
  });

  it('uses what is not given as said', () => {
    const row = { r: 0.5, b2: 1 };
    const square = ask('fitting.teeDivergingBranch', { ...row, angle_deg: 90 });
    expect(ask('fitting.teeDivergingBranch', row)).toBe(square);
    expect(ask('fitting.teeDivergingBranch', { ...row, angle_deg: 45 })).not.toBe(square);
  });
});

describe('rows that are bad', () => {
  it('are all told, each with its place, before any is worked out', () => {
    expect(faultsOf('water.density', { t_C: 20 })).toEqual(['(whole): must be a list [ ] of rows']);
    const rows = [{ t_C: 'warm' }, 7, {}, { t_C: 1, x: 2 }, { t_C: null }, { t_C: 20 }];
    expect(faultsOf('water.density', rows)).toEqual([
      '[0].t_C: must be a number from -60 to 200',
      '[1]: must be an object { } of named arguments',
      '[2].t_C: is missing',
      '[3].x: is no argument: it takes t_C',
      '[4].t_C: must be a number from -60 to 200',
    ]);
    expect(faultsOf('friction.frictionFactor', [{ Re: 0, e_D: -1 }])).toEqual([
      '[0].Re: must be a number above 0',
      '[0].e_D: must be a number from 0 to 1',
    ]);
    const size = 'must be one of 3/4, 1, 1-1/4, 1-1/2, 2, 3, 4';
    expect(faultsOf('pipe.outsideDiameter', [{ size: '7' }])).toEqual([`[0].size: ${size}`]);
  });

  it('are told of a curve or a table that does not rise', () => {
    const curve = (...pairs: unknown[]) => ({ curve: pairs, Q_m3_s: 0 });
    const rows = [curve([1, 5], [0, 9]), curve([0, 5]), curve([0, 5], [1]), curve([0, 5], [1, 4])];
    const pairs = 'pairs of numbers from 0';
    expect(faultsOf('pump.pumpHead', rows)).toEqual(
      [0, 1, 2].map(
        (k) => `[${k}].curve: must be a list of 2 or more ${pairs}, first numbers rising`,
      ),
    );
    const table = (...points: [number, number][]) => ({ table: points, Q_m3_s: 0.001 });
    const tables = [table(), table([1e-3, 500], [2e-3, 400]), table([1e-3, 500], [2e-3, 600])];
    expect(faultsOf('coil.tableLoss', tables)).toEqual(
      [0, 1].map((k) => `[${k}].table: must be a list of 1 or more ${pairs}, all rising`),
    );
  });

  it('are told where allowed numbers together have no result', () => {
    const lighter = { D_m: 0.05, sine: 0, rho_l_kg_m3: 1, rho_g_kg_m3: 2, sigma_N_m: 0.07 };
    expect(faultsOf('gas.gasSection', [lighter])).toEqual(['[0]: has no finite result']);
  });
});

describe('law on the command line', () => {
  it('gives the rows back with results, and lists laws', () => {
    const rows = written('rows.json', [{ t_C: 4 }, { t_C: 20 }]);
    const { code, json } = told('law', 'water.density', '--in', rows);
    expect(code).toBe(0);
    expect(json).toEqual([
      { t_C: 4, result: water.density(4) },
      { t_C: 20, result: water.density(20) },
    ]);
    const list = asked('law', '--list') as { name: string; source: string }[];
    expect(list.map(({ name }) => name)).toEqual(Object.keys(LAWS));
    expect(list).toEqual(JSON.parse(JSON.stringify(Object.entries(LAWS).map(described))));
    expect(list.find(({ name }) => name === 'pump.pumpHead')).toEqual({
      name: 'pump.pumpHead',
      arguments: [
        {
          name: 'curve',
          unit: 'm3/s, m',
          allowed: 'a list of 2 or more pairs of numbers from 0, first numbers rising',
        },
        { name: 'Q_m3_s', unit: 'm3/s', allowed: 'a number' },
        { name: 'speed', unit: '1', allowed: 'a number from 0', unless_given: 1 },
      ],
      results: [
        { name: 'head_m', unit: 'm' },
        { name: 'slope_s_m2', unit: 'm per m3/s' },
      ],
      source: 'curve by Fritsch and Carlson 1980, affinity laws',
    });
  });

  it('refuses with the file', () => {
    const rows = written('bad.json', [{ t_C: 'warm' }]);
    const message = 'must be a number from -60 to 200';
    const faults = faultsIn(() => lawVerb('water.density', { in: rows }));
    expect(faults).toEqual([{ path: '[0].t_C', message, file: rows }]);
    expect(faultPaths(() => lawVerb('water.colour', { in: rows }))).toEqual(['water.colour']);
    expect(faultPaths(() => lawVerb('water.density', {}))).toEqual(['--in']);
    expect(faultPaths(() => lawVerb(undefined, {}))).toEqual(['law']);
    expect(faultPaths(() => lawVerb('water.density', { list: true }))).toEqual(['--list']);
  });
});
