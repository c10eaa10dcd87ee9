// The command line in a process of its own, where streams and exit codes are looked at, and in this
// one, for the tests of its verbs.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chdir, cwd } from 'node:process';
import { fileURLToPath } from 'node:url';
import { afterAll } from 'vitest';
import type { Fault } from '../../../sim/fault.ts';
import { InputFaults } from '../../../sim/index.ts';
import { answer } from '../../../sim/cli/verbs.ts';

export const ROOT = fileURLToPath(new URL('../../../', import.meta.url));
export const LEVEL = 'levels/01-heron-lane/scenario.json';

export interface Told {
  readonly code: number | null;
  readonly stderr: string;
  // What is printed differs by verb; each test looks at what it needs.
  readonly json: Record<string, unknown>;
}

export function sim(...args: string[]): Told {
  const command = ['--import', 'tsx', 'sim/cli.ts', ...args];
  const { status, stdout, stderr } = spawnSync(process.execPath, command, {
    cwd: ROOT,
    encoding: 'utf8',
    maxBuffer: 64 * 1024 * 1024,
  });
  return { code: status, stderr, json: JSON.parse(stdout) as Record<string, unknown> };
}

/** The same in this process, for what is no matter of streams: much quicker. JSON as printed. */
export function told(...args: string[]): Omit<Told, 'stderr'> {
  const before = cwd();
  chdir(ROOT); // Where the command line stands in `sim`: levels are looked for from there.
  try {
    const { code, json } = answer(args);
    return { code, json: JSON.parse(JSON.stringify(json)) as Record<string, unknown> };
  } finally {
    chdir(before);
  }
}

export const asked = (...args: string[]): unknown => told(...args).json;

/** The faults of the input that the call throws; none where it throws none. */
export function faultsOf(call: () => unknown): readonly Fault[] {
  try {
    call();
    return [];
  } catch (error) {
    if (!(error instanceof InputFaults)) throw error;
    return error.faults;
  }
}

/** Where in the input each of them lies. */
export const faultPaths = (call: () => unknown): string[] => faultsOf(call).map(({ path }) => path);

/** A folder for the tests of one file; gone when they have run. */
export function folderOfTests(): {
  at: (name: string) => string;
  written: (name: string, content: unknown) => string;
} {
  const folder = mkdtempSync(join(tmpdir(), 'loopyard-cli-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const at = (name: string): string => join(folder, name);
  const written = (name: string, content: unknown): string => {
    writeFileSync(at(name), typeof content === 'string' ? content : JSON.stringify(content));
    return at(name);
  };
  return { at, written };
}
