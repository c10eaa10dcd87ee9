// Does what a newcomer does: takes the start command out of README.md and runs it in an empty
// folder holding nothing but the project's files, with an empty npm cache, on a free port.

import { type ChildProcess, spawn } from 'node:child_process';
import { copyFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { signalGroup } from '../tools/child.mjs';
import { projectFiles } from '../tools/files.mjs';
import { ROOT } from '../tools/install.mjs';

const READY = /Loopyard is ready: (http:\/\/127\.0\.0\.1:\d+\/)/;
const READY_MS = 240_000; // The packages come over the network with nothing cached.
const STOP_MS = 10_000;
const PORT_TRIES = 20; // npm ends a moment before what it called has let go of the port.
const PORT_WAIT_MS = 100;

/** A running copy of the project. `stop` ends it and removes its folder. */
export interface FreshStart {
  readonly url: string;
  readonly folder: string;
  readonly seconds: number;
  readonly stop: () => Promise<Stopped>;
}

/** How the start command ended when asked to: its code, and whether its port was let go. */
export interface Stopped {
  readonly code: number | null;
  readonly portFree: boolean;
}

/**
 * The start command of a readme: the first line of the first fenced block below a heading that
 * speaks of starting, running or playing. Throws when there is none.
 */
export function startCommand(readme: string): string {
  let wanted = false;
  let fence: string | null = null;
  for (const line of readme.split(/\r?\n/)) {
    const mark = /^\s*(```+|~~~+)/.exec(line)?.[1];
    if (fence !== null) {
      if (mark !== undefined && line.trim().startsWith(fence)) fence = null;
      else if (wanted && /^\s*[^#\s]/.test(line)) return line.trim().replace(/^\$\s+/, '');
    } else if (mark !== undefined) {
      fence = mark;
    } else if (/^#{1,6}\s/.test(line)) {
      wanted = /\b(start|run|play)/i.test(line);
    }
  }
  throw new Error('README.md shows no command below a heading about starting.');
}

/** A port nobody listens on at this moment. */
export function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      const port = address === null || typeof address === 'string' ? 0 : address.port;
      server.close(() => resolve(port));
    });
  });
}

/** The environment of somebody who has run nothing of ours yet. */
function cleanEnvironment(cache: string, port: number): NodeJS.ProcessEnv {
  const ours = new RegExp(
    '^(npm_(lifecycle|package|execpath|command|node|config_local_prefix)|LOOPYARD_|CHROMIUM_PATH' +
      '|PW|PLAYWRIGHT|TEST_|VITEST|NODE_ENV|NODE_OPTIONS|FORCE_COLOR|INIT_CWD)',
    'i',
  );
  const env = Object.fromEntries(Object.entries(process.env).filter(([key]) => !ours.test(key)));
  return { ...env, npm_config_cache: cache, PORT: String(port) };
}

/** A plain command takes the place of its shell, so that the signal to stop reaches it alone. */
function withoutShell(command: string): string {
  return process.platform === 'win32' || /[;&|]/.test(command) ? command : `exec ${command}`;
}

function copyProject(folder: string): void {
  for (const path of projectFiles()) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    copyFileSync(join(ROOT, path), join(folder, path));
  }
}

function waitForAddress(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let output = '';
    const fail = (why: string): void => reject(new Error(`${why}\n${output}`));
    const timer = setTimeout(() => fail(`Not ready after ${READY_MS / 1000} s.`), READY_MS);
    const take = (chunk: Buffer): void => {
      output += chunk.toString();
      const url = READY.exec(output)?.[1];
      if (url === undefined) return;
      clearTimeout(timer);
      resolve(url);
    };
    child.stdout?.on('data', take);
    child.stderr?.on('data', take);
    child.once('error', (error) => fail(error.message));
    child.once('exit', (code) => {
      clearTimeout(timer);
      fail(`The start command ended with code ${code}.`);
    });
  });
}

/** Asks the command itself to end, as a process manager would, then makes sure of the rest. */
async function stopAndRemove(child: ChildProcess, port: number, base: string): Promise<Stopped> {
  const ended = new Promise<number | null>((resolve) => {
    if (child.exitCode !== null || child.signalCode !== null) resolve(child.exitCode);
    else child.once('exit', (code) => resolve(code));
  });
  const late = new Promise<null>((resolve) => setTimeout(() => resolve(null), STOP_MS).unref());
  child.kill('SIGTERM');
  const code = await Promise.race([ended, late]);
  let portFree = await portIsFree(port);
  for (let tries = 0; !portFree && tries < PORT_TRIES; tries += 1) {
    await new Promise((resolve) => setTimeout(resolve, PORT_WAIT_MS));
    portFree = await portIsFree(port);
  }
  signalGroup(child, 'SIGKILL');
  rmSync(base, { recursive: true, force: true, maxRetries: 5 });
  return { code, portFree };
}

function portIsFree(port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const server = createServer();
    server.once('error', () => resolve(false));
    server.listen(port, '127.0.0.1', () => server.close(() => resolve(true)));
  });
}

/** Copies the project, runs its start command and waits for the address it prints. */
export async function startFresh(): Promise<FreshStart> {
  const base = mkdtempSync(join(tmpdir(), 'loopyard-fresh-'));
  const folder = join(base, 'loopyard');
  const port = await freePort();
  copyProject(folder);
  const command = startCommand(readFileSync(join(folder, 'README.md'), 'utf8'));
  const began = Date.now();
  const child = spawn(withoutShell(command), {
    cwd: folder,
    env: cleanEnvironment(join(base, 'npm-cache'), port),
    shell: true,
    detached: process.platform !== 'win32',
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const stop = (): Promise<Stopped> => stopAndRemove(child, port, base);
  try {
    const url = await waitForAddress(child);
    return { url, folder, seconds: (Date.now() - began) / 1000, stop };
  } catch (error) {
    await stop();
    throw error;
  }
}
