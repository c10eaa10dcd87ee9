// Makes sure that node_modules is what package-lock.json asks for, and says in plain words
// what to do when it cannot be. Needs nothing but Node itself, because it runs before all else.

import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { run } from './child.mjs';

/** The project's root folder. */
export const ROOT = join(dirname(fileURLToPath(import.meta.url)), '..', '..');

const NODE_LEAST = /** @type {const} */ ([20, 19]);
const INSTALL_MS = 300_000; // Five minutes: a slow line, about 250 packages.
const NO_NETWORK =
  /ENOTFOUND|EAI_AGAIN|ECONNREFUSED|ECONNRESET|ETIMEDOUT|EIDLETIMEOUT|ENETUNREACH|ENOTCACHED/;

/** A fault the reader can do something about; its message is shown without a stack. */
export class PlainFault extends Error {}

/**
 * @param {string} version such as "20.19.0"
 * @returns {boolean} whether this Node is new enough
 */
export function nodeIsNewEnough(version) {
  const [major = 0, minor = 0] = version.split('.').map(Number);
  return major > NODE_LEAST[0] || (major === NODE_LEAST[0] && minor >= NODE_LEAST[1]);
}

/** Throws a PlainFault when Node is too old for the tools of this project. */
export function requireNode() {
  if (nodeIsNewEnough(process.versions.node)) return;
  throw new PlainFault(
    `Loopyard needs Node ${NODE_LEAST.join('.')} or newer; this is ${process.versions.node}.`,
  );
}

/**
 * @typedef {{ version?: string, optional?: boolean, devOptional?: boolean, peer?: boolean,
 *   link?: boolean }} LockEntry
 * @typedef {{ packages?: Record<string, LockEntry> }} Lock
 */

/**
 * Compares what is asked for with what npm wrote down when it last installed.
 * @param {Lock} wanted package-lock.json
 * @param {Lock | null} installed node_modules/.package-lock.json
 * @param {(path: string) => boolean} exists whether a package's folder is there
 * @returns {string | null} the first package that does not match, or null when all do
 */
export function firstMismatch(wanted, installed, exists) {
  if (installed === null) return 'node_modules';
  for (const [path, entry] of Object.entries(wanted.packages ?? {})) {
    if (path === '') continue;
    const have = installed.packages?.[path];
    // Optional packages are left out on platforms they are not made for.
    if (have === undefined && (entry.optional === true || entry.devOptional === true)) continue;
    if (have === undefined || have.version !== entry.version || !exists(path)) return path;
  }
  return null;
}

/** @param {string} path @returns {Lock | null} */
function readLock(path) {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch {
    return null;
  }
}

/** @returns {[file: string, args: string[]]} how to call npm, also when npm called us */
function npmCommand() {
  const path = process.env['npm_execpath'];
  if (path !== undefined && path.endsWith('npm-cli.js')) return [process.execPath, [path]];
  return [process.platform === 'win32' ? 'npm.cmd' : 'npm', []];
}

/**
 * Installs the packages of the lock file when they are missing or of another version.
 * @param {(line: string) => void} say
 * @returns {Promise<boolean>} whether anything had to be installed
 */
export async function ensureInstalled(say) {
  const wanted = readLock(join(ROOT, 'package-lock.json'));
  if (wanted === null) throw new PlainFault('package-lock.json is missing or unreadable.');
  const installed = readLock(join(ROOT, 'node_modules', '.package-lock.json'));
  if (firstMismatch(wanted, installed, (path) => existsSync(join(ROOT, path))) === null) {
    return false;
  }
  say('Installing the packages Loopyard is built with (once; a minute or less) ...');
  const [file, args] = npmCommand();
  // The tools that build the pages are development packages, whatever NODE_ENV says.
  const ended = await run(file, [...args, 'ci', '--include=dev', '--no-audit', '--no-fund'], {
    cwd: ROOT,
    timeout_ms: INSTALL_MS,
  });
  if (ended.code === 0) return true;
  const reason = NO_NETWORK.test(ended.output)
    ? 'The package registry cannot be reached: check the network, then try again.'
    : 'npm could not install the packages; what it said is above.';
  throw new PlainFault(`${ended.output.trim()}\n\n${reason}`);
}
