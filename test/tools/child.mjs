// Runs other programs so that none outlives us: every child leads its own process group,
// and the whole group is ended when we are told to stop or when its time is up.
// Output is kept, not shown, so that the caller can print only what is useful.

import { spawn } from 'node:child_process';
import { getPriority, setPriority } from 'node:os';

/** @typedef {{ code: number | null, output: string, timedOut: boolean }} Ended */
/** @typedef {import('node:child_process').ChildProcess} Child */

/** @type {Set<Child>} */
const living = new Set();
const windows = process.platform === 'win32';
const PARENT_WATCH_MS = 250;
const AFTER_OTHERS = 10; // Nicer than we are by so much lets what goes by the clock go first.
const NICEST = 19;
const GRACE_MS = 8000; // Time a group gets to tidy up before it is killed outright.

/**
 * Sends a signal to a child and all it started.
 * @param {Child} child
 * @param {NodeJS.Signals} signal
 */
export function signalGroup(child, signal) {
  if (child.pid === undefined) return;
  try {
    if (windows) child.kill(signal);
    else process.kill(-child.pid, signal);
  } catch {
    // The group has ended already, which is what was wanted.
  }
}

/**
 * Starts a program and waits for its end. Never rejects: a program that cannot be started
 * ends with code null and the reason as its output.
 * @param {string} file
 * @param {readonly string[]} args
 * @param {{ cwd: string, env?: NodeJS.ProcessEnv, timeout_ms: number, show?: boolean,
 *   behind?: boolean }} options `behind`: it and all it starts let others have the processor first
 * @returns {Promise<Ended>}
 */
export function run(file, args, options) {
  return new Promise((resolve) => {
    const child = spawn(file, args, {
      cwd: options.cwd,
      env: options.env ?? process.env,
      detached: !windows,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    living.add(child);
    if (options.behind === true) letOthersFirst(child);
    let output = '';
    let timedOut = false;
    /** @param {Buffer} chunk */
    const take = (chunk) => {
      output += chunk.toString();
      if (options.show === true) process.stderr.write(chunk);
    };
    child.stdout.on('data', take);
    child.stderr.on('data', take);
    const timer = setTimeout(() => {
      timedOut = true;
      output += `\nStopped after ${options.timeout_ms / 1000} s.\n`;
      void endGroup(child);
    }, options.timeout_ms);
    /** @param {number | null} code */
    const end = (code) => {
      clearTimeout(timer);
      living.delete(child);
      resolve({ code, output, timedOut });
    };
    child.on('error', (error) => {
      output += `${error.message}\n`;
      end(null);
    });
    // Grandchildren that stayed behind would keep the pipes open, and hold no work of ours.
    child.on('exit', () => signalGroup(child, 'SIGKILL'));
    child.on('close', end);
  });
}

/** @param {Child} child */
function letOthersFirst(child) {
  try {
    const nice = Math.min(NICEST, getPriority() + AFTER_OTHERS);
    if (child.pid !== undefined) setPriority(child.pid, nice);
  } catch {
    // It has ended already, or the system does not allow it: then it is slower for all.
  }
}

/**
 * Asks a group to end, then insists.
 * @param {Child} child
 */
async function endGroup(child) {
  signalGroup(child, 'SIGTERM');
  for (let waited_ms = 0; waited_ms < GRACE_MS && living.has(child); waited_ms += 50) {
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  signalGroup(child, 'SIGKILL');
}

/** Ends every program still running; resolves when all groups are gone. */
export async function endAll() {
  await Promise.all([...living].map(endGroup));
}

/**
 * Ends our children first when we are stopped: by Ctrl-C, by a plain kill, or by the death of the
 * npm that called us. npm hands a signal to a shell, and the shell dies without handing it on.
 * @param {() => void | Promise<void>} [beforeExit] given when being stopped is a good end
 */
export function endChildrenOnSignal(beforeExit) {
  let stopping = false;
  /** @param {number} code */
  const stop = async (code) => {
    if (stopping) return;
    stopping = true;
    await endAll();
    await beforeExit?.();
    process.exit(beforeExit === undefined ? code : 0);
  };
  const numbers = /** @type {const} */ ({ SIGINT: 2, SIGTERM: 15, SIGHUP: 1 });
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM', 'SIGHUP'])) {
    process.on(signal, () => void stop(128 + numbers[signal]));
  }
  if (process.env['npm_lifecycle_event'] === undefined) return;
  const parent = process.ppid;
  const watch = () => {
    if (!isAlive(parent) || process.ppid !== parent) void stop(128 + numbers.SIGTERM);
  };
  setInterval(watch, PARENT_WATCH_MS).unref();
}

/** @param {number} pid @returns {boolean} */
function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // A process we may not signal is alive all the same.
    return /** @type {NodeJS.ErrnoException} */ (error).code === 'EPERM';
  }
}
