// REPORT.md as sections, so that a part of the campaign can be run and written by itself, also
// while another process runs another.
import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { ENGINE } from '../../sim/version.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const REPORT = fileURLToPath(new URL('REPORT.md', import.meta.url));
const HEAD = `# Campaign

Written by \`npm run campaign\`, part by part; each says what it was run with.
`;

const git = (...args: string[]): string =>
  execFileSync('git', args, { cwd: ROOT, encoding: 'utf8' }).trim();

/** What a part was run with, in one line. */
export function provenance(began: number, ...more: string[]): string {
  const changed = git('status', '--porcelain', '--', 'sim', 'levels') === '' ? '' : ', changed';
  const machine = `Node ${process.versions.node}, ${cpus()[0]?.model ?? 'unknown processor'}`;
  const seconds = `${((Date.now() - began) / 1000).toFixed(0)} s`;
  const commit = `commit ${git('rev-parse', '--short', 'HEAD')}${changed}`;
  const date = new Date().toISOString().slice(0, 10);
  return `(${[`engine ${ENGINE}`, commit, date, machine, seconds, ...more].join('; ')})`;
}

/** `report` with the section of that title replaced, or added at its end. */
export function withSection(report: string, title: string, body: string): string {
  const [, ...sections] = report.split(/^## /m);
  const others = sections.map((text) => `## ${text.trim()}`);
  const own = `## ${title}\n\n${body.trim()}`;
  const at = others.findIndex((text) => text.split('\n')[0] === `## ${title}`);
  if (at >= 0) others[at] = own;
  else others.push(own);
  return `${HEAD}\n${others.join('\n\n')}\n`;
}

/** Writes one section into REPORT.md; the others stay as they are. */
export function writeSection(title: string, body: string): void {
  alone(() => {
    const before = existsSync(REPORT) ? readFileSync(REPORT, 'utf8') : '';
    writeFileSync(REPORT, withSection(before, title, body));
  });
}

/** ms between two tries, and how many before a lock counts as left behind. */
const WAIT_ms = 50;
const TRIES = 200;

/** With no other process at the report: parts may run side by side. */
function alone(act: () => void): void {
  const lock = `${REPORT}.lock`;
  const asleep = new Int32Array(new SharedArrayBuffer(4));
  for (let tries = 0; tries < TRIES; tries++) {
    try {
      writeFileSync(lock, '', { flag: 'wx' });
      break;
    } catch {
      Atomics.wait(asleep, 0, 0, WAIT_ms);
    }
  }
  try {
    act();
  } finally {
    rmSync(lock, { force: true });
  }
}
