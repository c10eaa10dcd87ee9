// The test command: the build and the browser tests, which wait for much, and behind them what only
// computes: types, lint and walls, then unit tests. `npm test -- --only unit,types` runs some. The
// last line says how many passed and failed; the exit code is 0 only when something ran and
// nothing failed.

import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { build } from './tools/build.mjs';
import { endAll, endChildrenOnSignal, run } from './tools/child.mjs';
import { ensureInstalled, PlainFault, requireNode, ROOT } from './tools/install.mjs';
import { countPlaywright, countVitest, isGood, summary, total } from './tools/reports.mjs';

/**
 * @typedef {import('./tools/reports.mjs').Count} Count
 * @typedef {{ count: Count, output: string }} Outcome
 */

const TOOL_MS = 600_000; // Longest a checker may take, behind the browser tests on a slow machine.
const VITEST_MS = 1_200_000;
const BROWSER_MS = 700_000;
const OUTPUT_LINES_MAX = 120; // Lines of a failed part that are shown.
process.env['NO_COLOR'] = '1'; // Colours are noise in a log.
delete process.env['FORCE_COLOR'];
const REPORTS = join(ROOT, 'node_modules', '.cache', 'reports');

/** @param {string} path @returns {string} a tool's own file inside node_modules */
const tool = (path) => join(ROOT, 'node_modules', ...path.split('/'));

/** @param {boolean} good @returns {Count} one check that is not a test suite */
const one = (good) => ({ passed: good ? 1 : 0, failed: good ? 0 : 1, skipped: 0 });

/** @param {string[]} args @returns {Promise<Outcome>} */
async function check(...args) {
  const options = { cwd: ROOT, timeout_ms: TOOL_MS, behind: true };
  const ended = await run(process.execPath, args, options);
  return { count: one(ended.code === 0), output: ended.output };
}

/** @param {Outcome[]} outcomes @returns {Outcome} */
function merged(...outcomes) {
  const failed = outcomes.filter(({ count }) => count.failed > 0);
  return {
    count: total(outcomes.map(({ count }) => count)),
    output: failed.map(({ output }) => output.trim()).join('\n\n'),
  };
}

/** @param {string} path */
function readReport(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
}

/** @param {string} name @param {string[]} filters @returns {Promise<Outcome>} */
async function vitest(name, ...filters) {
  const file = join(REPORTS, `${name}.json`);
  rmSync(file, { force: true });
  const args = [tool('vitest/vitest.mjs'), 'run', '--reporter=default', '--reporter=json'];
  const ended = await run(process.execPath, [...args, `--outputFile.json=${file}`, ...filters], {
    cwd: ROOT,
    timeout_ms: VITEST_MS,
    behind: true,
  });
  return { count: countVitest(readReport(file), ended.code), output: ended.output };
}

/** @returns {Promise<Outcome>} */
async function walls() {
  const cruise = tool('dependency-cruiser/bin/dependency-cruise.mjs');
  const args = ['--config', '.dependency-cruiser.cjs', 'sim', 'levels', 'game', 'test'];
  return merged(await check(cruise, ...args), await vitest('walls', 'test/walls/'));
}

/** @returns {Promise<Outcome>} */
async function pages() {
  const ended = await build();
  return { count: one(ended.code === 0), output: ended.output };
}

/** @param {string[]} more @returns {Promise<Outcome>} */
async function playwright(...more) {
  const file = join(REPORTS, 'browser.json');
  rmSync(file, { force: true });
  const config = join('test', 'e2e', 'playwright.config.ts');
  const args = [tool('@playwright/test/cli.js'), 'test', '-c', config, ...more];
  const env = { ...process.env, PLAYWRIGHT_JSON_OUTPUT_FILE: file };
  const options = { cwd: ROOT, env, timeout_ms: BROWSER_MS };
  const ended = await run(process.execPath, args, options);
  return { count: countPlaywright(readReport(file), ended.code), output: ended.output };
}

/** @returns {Promise<Outcome>} */
async function browser() {
  const { ensureBrowser } = await import('./tools/ensure-browser.mjs');
  if (process.env['LOOPYARD_NO_BROWSER'] === '1') {
    const { count } = await playwright('--list');
    const listed = count.passed + count.failed + count.skipped;
    return { count: { passed: 0, failed: 0, skipped: listed }, output: '' };
  }
  const found = await ensureBrowser(console.log);
  if (found !== null) {
    console.log(`Browser: ${found.executablePath} ${found.version} (${found.how})`);
    return playwright();
  }
  const output =
    'No browser could be found or installed, so the browser tests did not run.\n' +
    'Set CHROMIUM_PATH to a Chromium of yours, or LOOPYARD_NO_BROWSER=1 to skip them.';
  return { count: one(false), output };
}

/** @type {Readonly<Record<string, () => Promise<Outcome>>>} */
const PARTS = {
  types: () => check('test/tools/types.mjs'),
  lint: () => check(tool('eslint/bin/eslint.js'), '--max-warnings=0', '.'),
  walls,
  unit: () => vitest('unit', '--exclude=test/walls/**'),
  build: pages,
  browser,
};

/** One folder of the unit part each; they run by name only, since `unit` holds them all. */
const FOLDERS = ['truth', 'golden', 'property'];

/** @param {readonly string[]} args @returns {string[]} the parts asked for */
function partsWanted(args) {
  if (args.length === 0) return Object.keys(PARTS);
  const text = args[0] === '--only' ? args[1] : args[0]?.replace(/^--only=/, '');
  const names = (text ?? '').split(',').filter((name) => name !== '');
  const known = [...Object.keys(PARTS), ...FOLDERS];
  const unknown = names.filter((name) => !known.includes(name));
  if (names.length > 0 && unknown.length === 0) return names;
  throw new PlainFault(`Say --only followed by some of: ${known.join(',')}`);
}

/** @param {Outcome} outcome */
function showFailure({ output }) {
  const lines = output.trim().split('\n');
  if (lines.length > OUTPUT_LINES_MAX) console.log('... earlier lines left out ...');
  console.log(lines.slice(-OUTPUT_LINES_MAX).join('\n'));
}

/** @param {string} name @returns {Promise<Count>} */
async function runPart(name) {
  const began = Date.now();
  const outcome = await (PARTS[name] ?? (() => vitest(name, `test/${name}/`)))();
  if (outcome.count.failed > 0) showFailure(outcome);
  const seconds = ((Date.now() - began) / 1000).toFixed(1);
  console.log(`${name.padEnd(10)}${seconds.padStart(6)} s   ${summary(outcome.count)}`);
  return outcome.count;
}

/** Parts that go by the clock of the pages and by the network. They are first served. */
const WAITING = ['build', 'browser'];
/** Parts that use one core each, and nothing of each other's, so that they may run together. */
const TOGETHER = ['types', 'lint', 'walls'];

/**
 * Two lanes that run side by side, so that no core idles while pages wait: in each, groups that
 * run one after the other, of parts that run together.
 * @param {readonly string[]} names
 * @returns {string[][][]}
 */
function lanesOf(names) {
  const waiting = names.filter((name) => WAITING.includes(name));
  const together = names.filter((name) => TOGETHER.includes(name));
  const rest = names.filter((name) => !WAITING.includes(name) && !TOGETHER.includes(name));
  /** @param {string[]} list */
  const each = (list) => list.map((name) => [name]);
  const computing = [together, ...each(rest)].filter((group) => group.length > 0);
  return [each(waiting), computing];
}

/** @param {string[][]} groups @returns {Promise<Count[]>} */
async function runLane(groups) {
  const counts = [];
  for (const group of groups) counts.push(...(await Promise.all(group.map(runPart))));
  return counts;
}

async function main() {
  requireNode();
  const names = partsWanted(process.argv.slice(2));
  await ensureInstalled(console.log);
  mkdirSync(REPORTS, { recursive: true });
  const counts = await Promise.all(lanesOf(names).map(runLane));
  const all = total(counts.flat());
  console.log(summary(all));
  process.exitCode = isGood(all) ? 0 : 1;
}

endChildrenOnSignal();
main().catch(async (error) => {
  await endAll();
  console.error(error instanceof PlainFault ? error.message : error);
  console.log('0 passed, 1 failed');
  process.exitCode = 1;
});
