// Finds a Chromium the browser tests can drive, or gets one. Every candidate is started and made
// to do a sum before it is believed. The answer is kept in node_modules/.cache/browser.json.
// Order: CHROMIUM_PATH, the system's, Playwright's, apt-get (as root), Playwright's download,
// and last the packed build that comes with the npm packages.

import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from './child.mjs';
import { ROOT } from './install.mjs';

/** Where the answer is kept. */
export const BROWSER_FILE = join(ROOT, 'node_modules', '.cache', 'browser.json');

/** Flags every browser of the tests is started with: no sandbox in containers, no chatter. */
export const FLAGS = Object.freeze([
  '--no-sandbox',
  '--disable-dev-shm-usage',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--mute-audio',
]);

/** Waits, s, for another apt-get: the unit tests may be getting a third engine meanwhile. */
export const APT_WAITS = Object.freeze(['-o', 'DPkg::Lock::Timeout=120']);

const SYSTEM_PATHS = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome-stable',
  '/usr/bin/google-chrome',
  '/snap/bin/chromium',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];
const APT_MS = 240_000;
const DOWNLOAD_MS = 180_000;
const LAUNCH_MS = 30_000;

/**
 * @typedef {{ how: string, executablePath: string, version: string }} Browser
 * @typedef {{ how: string, find: () => Promise<string[]> }} Leg
 * @typedef {(line: string) => void} Say
 */

/**
 * Starts a browser, loads a page and does a sum in it.
 * @param {string} executablePath
 * @returns {Promise<string>} its version; rejects when it does not work
 */
async function testLaunch(executablePath) {
  const { chromium } = await import('@playwright/test');
  const browser = await chromium.launch({ executablePath, args: [...FLAGS], timeout: LAUNCH_MS });
  try {
    const page = await browser.newPage();
    await page.setContent('<title>yard</title>');
    const title = await page.title();
    const sum = await page.evaluate('6 * 7');
    if (title !== 'yard' || sum !== 42) throw new Error('it starts but does not work');
    return browser.version();
  } finally {
    await browser.close();
  }
}

/** @returns {Promise<string[]>} Playwright's own builds that are really there */
async function playwrightPaths() {
  const { chromium } = await import('@playwright/test');
  const path = chromium.executablePath();
  return existsSync(path) ? [path] : [];
}

/** @param {Say} say @returns {Promise<string[]>} */
async function aptInstall(say) {
  const root = process.getuid?.() === 0;
  if (!root || !existsSync('/usr/bin/apt-get')) return [];
  say('No browser found: installing Chromium with apt-get (once) ...');
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const options = { cwd: ROOT, env, timeout_ms: APT_MS };
  const update = await run('apt-get', ['update'], options);
  if (update.code !== 0) say('apt-get update did not succeed; trying to install all the same.');
  const args = [...APT_WAITS, 'install', '-y', '--no-install-recommends', 'chromium'];
  const install = await run('apt-get', args, options);
  if (install.code !== 0) say(`apt-get: ${telling(install.output)}`);
  return SYSTEM_PATHS.filter((path) => existsSync(path));
}

/** @param {Say} say @returns {Promise<string[]>} */
async function playwrightDownload(say) {
  say('No browser found: asking Playwright to download one ...');
  const cli = join(ROOT, 'node_modules', '@playwright', 'test', 'cli.js');
  const args = [cli, 'install', 'chromium'];
  const ended = await run(process.execPath, args, { cwd: ROOT, timeout_ms: DOWNLOAD_MS });
  if (ended.code !== 0) say(`Playwright: ${telling(ended.output)}`);
  return playwrightPaths();
}

/** @returns {Promise<string[]>} the packed build, unpacked into the temporary folder */
async function packedBuild() {
  if (process.platform !== 'linux') return [];
  const { default: packed } = await import('@sparticuz/chromium');
  return [await packed.executablePath()];
}

/** @param {string} text @returns {string} the line that tells most, not the trace below it */
function telling(text) {
  const lines = text.trim().split('\n');
  return lines.findLast((line) => /^\W*(e:|error|failed)/i.test(line)) ?? lines.at(-1) ?? '';
}

/**
 * Says in one line why a candidate was passed over.
 * @param {string} what
 * @param {unknown} error
 * @param {Say} say
 * @returns {string[]} no paths
 */
function tell(what, error, say) {
  say(`${what}: ${String(error instanceof Error ? error.message : error).split('\n')[0]}`);
  return [];
}

/** @param {Say} say @returns {Leg[]} */
function legs(say) {
  const asked = process.env['CHROMIUM_PATH'] ?? '';
  return [
    { how: 'env', find: async () => (asked === '' ? [] : [asked]) },
    { how: 'system', find: async () => SYSTEM_PATHS.filter((path) => existsSync(path)) },
    { how: 'playwright', find: playwrightPaths },
    { how: 'apt', find: () => aptInstall(say) },
    { how: 'download', find: () => playwrightDownload(say) },
    { how: 'packed', find: packedBuild },
  ];
}

/** @returns {Browser | null} the answer found last time */
export function knownBrowser() {
  try {
    return JSON.parse(readFileSync(BROWSER_FILE, 'utf8'));
  } catch {
    return null;
  }
}

/**
 * Finds or gets a browser and writes the answer down.
 * @param {Say} say
 * @param {readonly string[]} [only] names of the legs to try; all when left out
 * @returns {Promise<Browser | null>} null when every leg failed
 */
export async function ensureBrowser(say, only) {
  const known = only === undefined ? knownBrowser() : null;
  const wanted = legs(say).filter((leg) => only === undefined || only.includes(leg.how));
  if (known !== null && (process.env['CHROMIUM_PATH'] ?? '') === '') {
    wanted.unshift({ how: known.how, find: async () => [known.executablePath] });
  }
  for (const leg of wanted) {
    const paths = await leg.find().catch((error) => tell(leg.how, error, say));
    for (const executablePath of paths) {
      const version = await testLaunch(executablePath).catch((error) => {
        tell(`${leg.how} ${executablePath}`, error, say);
        return null;
      });
      if (version === null) continue;
      const browser = { how: leg.how, executablePath, version };
      mkdirSync(dirname(BROWSER_FILE), { recursive: true });
      writeFileSync(BROWSER_FILE, `${JSON.stringify(browser, null, 2)}\n`);
      return browser;
    }
  }
  return null;
}

// Run by hand: node test/tools/ensure-browser.mjs [leg ...] tries all legs, or those named.
if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const named = process.argv.slice(2);
  const began = Date.now();
  const browser = await ensureBrowser(console.log, named.length === 0 ? undefined : named);
  console.log(browser ?? 'No browser could be found or installed.');
  console.log(`${((Date.now() - began) / 1000).toFixed(1)} s`);
  process.exit(browser === null ? 1 : 0);
}
