// Replays records in an engine of scripts that is neither Node's nor Chromium's: JavaScriptCore
// (Safari's, as `jsc`) or SpiderMonkey (Firefox's, as `gjs`, or Firefox itself). Gets jsc by
// apt-get where that is allowed. By hand: node test/tools/third-engine.mjs [jsc|gjs|firefox]
import { spawn } from 'node:child_process';
import { createServer } from 'node:http';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { run, signalGroup } from './child.mjs';
import { APT_WAITS } from './ensure-browser.mjs';
import { ROOT } from './install.mjs';

/**
 * @typedef {{ name: string, scenario: unknown, record: unknown }} Job
 * @typedef {{ name: string, divergedAt: number | null, hashes: number, ticks: number }} Answer
 * @typedef {{ id: 'jsc' | 'gjs' | 'firefox', path: string, engine: string }} Engine
 */

/** One call of apt-get, only once on a machine: asking is cut short, installing is let finish. */
const ASK_MS = 20_000;
const INSTALL_MS = 270_000; // With the wait for another.
const REPLAY_MS = 60_000;
/** Written once apt-get has failed, so that a machine without network asks but once. */
const REFUSED = join(ROOT, 'node_modules', '.cache', 'third-engine-refused');

/** In the order of preference: the cheapest first. Firefox runs as a whole browser. */
const KNOWN = /** @type {const} */ ([
  { id: 'jsc', names: ['jsc'], engine: 'JavaScriptCore, the engine of Safari' },
  { id: 'gjs', names: ['gjs'], engine: 'SpiderMonkey, the engine of Firefox (by gjs)' },
  { id: 'firefox', names: ['firefox-esr', 'firefox'], engine: 'SpiderMonkey, by Firefox' },
]);

/** Debian's names of what brings jsc; the number is that of the library's interface. */
const DEBIAN = ['libjavascriptcoregtk-4.1-bin', 'libjavascriptcoregtk-4.0-bin'];

/** @param {number} timeout_ms @param {string[]} args @returns {Promise<unknown>} */
function apt(timeout_ms, ...args) {
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  return run('apt-get', args, { cwd: ROOT, env, timeout_ms });
}

/** @returns {Engine[]} those that are there, in order */
export function enginesHere() {
  const folders = (process.env['PATH'] ?? '').split(delimiter);
  return KNOWN.flatMap(({ id, names, engine }) => {
    const paths = names.flatMap((name) => folders.map((folder) => join(folder, name)));
    const path = paths.find((one) => existsSync(one));
    return path === undefined ? [] : [{ id, path, engine }];
  });
}

/** @param {(line: string) => void} say @returns {Promise<Engine | null>} */
export async function ensureEngine(say) {
  const here = enginesHere()[0];
  if (here !== undefined) return here;
  const root = process.getuid?.() === 0;
  if (!root || !existsSync('/usr/bin/apt-get') || existsSync(REFUSED)) return null;
  say('No third engine found: installing JavaScriptCore with apt-get (once) ...');
  const bring = async () => {
    for (const name of DEBIAN) {
      await apt(INSTALL_MS, ...APT_WAITS, 'install', '-y', '--no-install-recommends', name);
      if (enginesHere().length > 0) break;
    }
  };
  await bring();
  if (enginesHere().length === 0) {
    await apt(ASK_MS, 'update');
    await bring();
  }
  const got = enginesHere()[0];
  if (got !== undefined) return got;
  mkdirSync(join(REFUSED, '..'), { recursive: true });
  writeFileSync(REFUSED, 'apt-get did not bring a third engine; delete this file to ask again\n');
  return null;
}

/** @returns {Promise<string>} the simulation and the entry as one plain script */
export async function bundle() {
  const built = await build({
    configFile: false,
    logLevel: 'silent',
    root: ROOT,
    publicDir: false,
    build: {
      write: false,
      minify: false,
      target: 'es2022',
      lib: {
        entry: fileURLToPath(new URL('third-engine-entry.ts', import.meta.url)),
        formats: ['iife'],
        name: 'thirdEngine',
      },
    },
  });
  const one = Array.isArray(built) ? built[0] : built;
  if (one === undefined || !('output' in one)) throw new Error('nothing was bundled');
  return one.output[0].code;
}

/**
 * A page asks for nothing but itself and sends its answer back; then the browser is ended.
 * @param {Engine} engine @param {string} code @param {string} folder for the browser's profile
 * @returns {Promise<string>}
 */
async function byFirefox({ path }, code, folder) {
  const send = `fetch('/', { method: 'POST', body: answers(JOBS) })`;
  const page = `<!doctype html><script>${code.replaceAll('</', '<\\/')}\n${send}</script>`;
  const server = createServer();
  /** @type {Promise<string>} */
  const answer = new Promise((resolve) => {
    server.on('request', (request, response) => {
      let body = '';
      request.on('data', (/** @type {Buffer} */ chunk) => (body += chunk.toString()));
      request.on('end', () => {
        response.setHeader('content-type', 'text/html; charset=utf-8');
        response.end(request.url === '/' && request.method === 'GET' ? page : '');
        if (request.method === 'POST') resolve(body);
      });
    });
  });
  await new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(null)));
  const address = server.address();
  const port = address !== null && typeof address === 'object' ? address.port : 0;
  const args = ['--headless', '--no-remote', '--profile', folder, `http://127.0.0.1:${port}/`];
  const child = spawn(path, args, { cwd: folder, detached: true, stdio: 'ignore' });
  const none = new Promise((_, reject) => {
    const fail = () => reject(new Error('Firefox gave no answer'));
    child.on('error', fail);
    setTimeout(fail, REPLAY_MS).unref();
  });
  try {
    return /** @type {string} */ (await Promise.race([answer, none]));
  } finally {
    signalGroup(child, 'SIGKILL');
    server.closeAllConnections();
    server.close();
  }
}

/**
 * Lets an engine replay records.
 * @param {Engine} engine @param {string} code from `bundle` @param {readonly Job[]} jobs
 * @returns {Promise<Answer[]>} rejects when the engine gives no answer
 */
export async function replayIn(engine, code, jobs) {
  const folder = mkdtempSync(join(tmpdir(), 'third-engine-'));
  try {
    const all = `const JOBS = ${JSON.stringify(jobs)};\n${code}`;
    if (engine.id === 'firefox') return JSON.parse(await byFirefox(engine, all, folder));
    const file = join(folder, 'replay.js');
    writeFileSync(file, `${all}\nprint(answers(JOBS));\n`);
    const ended = await run(engine.path, [file], { cwd: folder, timeout_ms: REPLAY_MS });
    const line = ended.output.trim().split('\n').at(-1) ?? '';
    if (ended.code !== 0 || !line.startsWith('[')) {
      throw new Error(`${engine.id} gave no answer: ${ended.output.slice(-600)}`);
    }
    return JSON.parse(line);
  } finally {
    rmSync(folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
}

/** @param {string} folder @param {string} name @returns {Job} a kept record of a level */
export function jobOf(folder, name) {
  /** @param {string} file @returns {unknown} */
  const read = (file) => JSON.parse(readFileSync(join(ROOT, 'levels', folder, file), 'utf8'));
  return {
    name: `${folder}/${name}`,
    scenario: read('scenario.json'),
    record: read(`${name}.record.json`),
  };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const asked = process.argv[2];
  const engine =
    asked === undefined
      ? await ensureEngine(console.log)
      : (enginesHere().find(({ id }) => id === asked) ?? null);
  console.log(engine ?? 'No third engine could be found or installed.');
  if (engine !== null) {
    const began = Date.now();
    const jobs = [jobOf('01-heron-lane', 'solution'), jobOf('02-sedge-meadow', 'too-early')];
    console.log(await replayIn(engine, await bundle(), jobs));
    console.log(`${((Date.now() - began) / 1000).toFixed(1)} s`);
  }
}
