// The linter and the import checker are tried on planted faults as well: a rule with a slip in
// its pattern would pass everything and look like a clean house.

import { execFile } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { promisify } from 'node:util';
import { ESLint } from 'eslint';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { configure } from '../../eslint.config.js';
import { ROOT } from '../tools/install.mjs';

const lint = new ESLint({
  cwd: ROOT,
  overrideConfigFile: true,
  // Types by a service, which takes a text that is not that of the file.
  overrideConfig: configure([], { projectService: true }),
});

/** Lints a text as if it stood in a file that exists; gives the messages. */
async function faults(path: string, text: string): Promise<string[]> {
  const [result] = await lint.lintText(text, { filePath: join(ROOT, path) });
  return (result?.messages ?? []).map(({ ruleId, message }) => `${ruleId}: ${message}`);
}

const ENGINE = 'sim/constants.ts';

describe('the linter, in the engine', () => {
  it.each([
    ['Math', 'export const a = Math.sqrt(2);'],
    ['a name taken out of Math', 'const { pow } = Math; export const a = pow(2, 3);'],
    ['the power operator', 'export const a = (x: number): number => x ** 3;'],
    ['the assigning power operator', 'export let a = 2; a **= 3;'],
    ['the date', 'export const a = Date.now();'],
    ['the locale', 'export const a = new Intl.NumberFormat();'],
    ['a locale method', "export const a = 'b'.localeCompare('c');"],
    ['a clock', 'export const a = performance.now();'],
    ['a timer', 'setTimeout(() => {}, 1);'],
    ['chance', 'export const a = crypto.getRandomValues(new Uint8Array(1));'],
    ['chance by name', "export { random } from './base/rng.ts';"],
    ['the console', "console.log('a');"],
    ['the process', 'export const a = process.argv;'],
    ['a way around', "export const a = globalThis['Math'];"],
    ['waiting', 'export const a = async (b: Promise<number>): Promise<number> => await b;'],
    ['a late import', "export const a = import('./fact.ts');"],
  ])('sees %s', async (_name, text) => {
    const seen = await faults(ENGINE, text);
    expect(seen.some((fault) => fault.startsWith('no-restricted-syntax'))).toBe(true);
  });

  it('lets ordinary code through', async () => {
    const text = "import { sqrt } from './base/math.ts';\nexport const a = sqrt(2) * 3;\n";
    expect(await faults(ENGINE, text)).toEqual([]);
  });

  it('lets exactly rounded functions alone into the one file that may use Math', async () => {
    const at = 'sim/base/math.ts';
    expect(await faults(at, 'export const sqrt = Math.sqrt;\n')).toEqual([]);
    expect(await faults(at, 'export const a = Math.pow(2, 0.5);\n')).toHaveLength(1);
    expect(await faults(at, "export const a = Math['exp'](2);\n")).not.toEqual([]);
    expect(await faults(at, 'export const { sin } = Math;\n')).not.toEqual([]);
    expect(await faults(at, 'export const a = 2 ** 3;\n')).toHaveLength(1);
  });
});

describe('the linter, everywhere', () => {
  const at = 'game/start.mjs';

  it.each([
    ['an enum', 'no-restricted-syntax', 'export enum A { B }'],
    ['a namespace', 'no-restricted-syntax', 'export namespace A { export const b = 1; }'],
    [
      'a parameter property',
      'no-restricted-syntax',
      'export class A { constructor(readonly b: number) {} }',
    ],
    ['an import without extension', 'no-restricted-syntax', "export { a } from './fact';"],
    ['a long file', 'max-lines', '\n'.repeat(301)],
    ['a long function', 'max-lines-per-function', `export function a() {${'\n'.repeat(70)}}`],
    ['a wide line', 'max-len', `export const a = '${'x'.repeat(90)}';`],
    [
      'five parameters',
      'max-params',
      'export const a = (b: 1, c: 1, d: 1, e: 1, f: 1) => [b, c, d, e, f];',
    ],
    ['a promise left alone', '@typescript-eslint/no-floating-promises', 'Promise.resolve(1);'],
    [
      'a case left out',
      '@typescript-eslint/switch-exhaustiveness-check',
      "export const a = (b: 'c' | 'd') => { switch (b) { case 'c': return 1; } return 2; };",
    ],
  ])('sees %s', async (_name, rule, text) => {
    expect((await faults(ENGINE, text)).some((fault) => fault.startsWith(rule))).toBe(true);
  });

  it('measures scripts too', async () => {
    const long = await faults(at, `export function a() {${'\n'.repeat(70)}}`);
    expect(long.some((fault) => fault.startsWith('max-lines-per-function'))).toBe(true);
  });
});

/** A small house with a fault in every file but the innocent ones. */
const HOUSE: Readonly<Record<string, string>> = {
  'sim/index.ts': "export * from './world.ts';",
  'sim/world.ts': "import '../game/main.ts'; import 'zod';", // sim-is-alone, nobody-..., schema
  'sim/scenario.ts': "import 'zod';",
  'sim/base/units.ts': "import '../laws/water.ts';", // base-imports-nothing
  'sim/laws/water.ts': '',
  'sim/laws/antifreeze-data.ts': "import './gas.ts';", // antifreeze-laws
  'sim/laws/antifreeze.ts': "import './water.ts'; import './antifreeze-data.ts';",
  'sim/laws/pump.ts': "import './water.ts'; import '../world.ts';", // siblings, base only
  'sim/laws/gas.ts': '',
  'sim/player/peeps.ts': "import type {} from '../world.ts'; import '../laws/gas.ts';",
  'sim/cli.ts': "import 'node:fs'; import './index.ts'; import '../levels/index.ts';",
  'sim/run.ts': "import './cli.ts'; import 'node:fs';", // nobody-imports-cli, sim-is-alone
  'sim/ring-a.ts': "import './ring-b.ts';", // no-cycles
  'sim/ring-b.ts': "import './ring-a.ts';",
  'levels/index.ts': "import '../sim/index.ts'; import '../sim/scenario.ts';", // sim-by-its-door
  'levels/other.ts': "import 'zod';", // levels-are-data
  'game/main.ts': "import '../levels/other.ts'; import type {} from '../sim/laws/gas.ts';",
  'game/scenes/yard.ts': "import '../panels/clock.ts'; import './part.ts';",
  'game/scenes/part.ts': "import 'fast-check';", // pages-use-what-is-shipped
  'game/panels/clock.ts': "import '../session.ts';",
  'game/lost.ts': "import type { A } from './nowhere.ts'; export type B = A;", // imports-resolve
  'game/session.ts': "import '../sim/index.ts'; import '../levels/index.ts';",
};

/** What must be found: rule and file. Anything more is a rule that is too strict. */
const FOUND = [
  'antifreeze-laws sim/laws/antifreeze-data.ts',
  'base-imports-nothing sim/base/units.ts',
  'drawing-panels-sound-apart game/scenes/yard.ts',
  'imports-resolve game/lost.ts',
  'laws-are-siblings sim/laws/pump.ts',
  'laws-import-base-only sim/laws/pump.ts',
  'levels-are-data levels/other.ts',
  'levels-by-their-door game/main.ts',
  'no-cycles sim/ring-a.ts',
  'nobody-imports-cli sim/run.ts',
  'nobody-imports-game sim/world.ts',
  'pages-use-what-is-shipped game/scenes/part.ts',
  'players-see-views-only sim/player/peeps.ts',
  'sim-by-its-door game/main.ts',
  'sim-by-its-door levels/index.ts',
  'sim-is-alone sim/run.ts',
  'sim-is-alone sim/world.ts',
  'sim-schema-library sim/world.ts',
];

describe('the import checker', () => {
  let folder = '';

  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'loopyard-walls-'));
    const packages = { dependencies: { zod: '1.0.0' }, devDependencies: { 'fast-check': '1.0.0' } };
    const house = {
      ...HOUSE,
      'package.json': JSON.stringify({ type: 'module', ...packages }),
      'tsconfig.json': '{ "compilerOptions": { "allowImportingTsExtensions": true } }',
      'node_modules/zod/package.json': '{ "name": "zod", "main": "index.js" }',
      'node_modules/zod/index.js': '',
      'node_modules/fast-check/package.json': '{ "name": "fast-check", "main": "index.js" }',
      'node_modules/fast-check/index.js': '',
    };
    for (const [path, text] of Object.entries(house)) {
      mkdirSync(dirname(join(folder, path)), { recursive: true });
      writeFileSync(join(folder, path), `${text}\n`);
    }
  });

  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('finds every planted fault and nothing else', async () => {
    const bin = join(ROOT, 'node_modules/dependency-cruiser/bin/dependency-cruise.mjs');
    const config = join(ROOT, '.dependency-cruiser.cjs');
    const args = [bin, '--config', config, '--output-type', 'json', 'sim', 'levels', 'game'];
    const { stdout } = await promisify(execFile)(process.execPath, args, {
      cwd: folder,
      maxBuffer: 1e8,
    }).catch((error: { stdout: string }) => error);
    const { summary } = JSON.parse(stdout) as {
      summary: { violations: { from: string; to: string; rule: { name: string } }[] };
    };
    const found = summary.violations.map(({ from, rule }) => `${rule.name} ${from}`);
    expect([...new Set(found)].sort()).toEqual([...FOUND].sort());
  });
});
