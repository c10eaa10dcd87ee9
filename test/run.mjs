// Runs every test there is and closes with one line: how many passed, how many failed.
// Installs what is missing first, so that a fresh clone needs Node and npm only.
import { spawnSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));

if (!existsSync(join(root, 'node_modules/.package-lock.json'))) {
  const install = spawnSync('npm', ['ci', '--no-audit', '--no-fund'], { cwd: root, stdio: 'inherit' });
  if (install.status !== 0) process.exit(1);
}
const out = join(mkdtempSync(join(tmpdir(), 'loopyard-')), 'vitest.json');
const started = Date.now();
spawnSync(process.execPath, [
  join(root, 'node_modules/vitest/vitest.mjs'), 'run', '--reporter=default', '--reporter=json',
  `--outputFile.json=${out}`,
], { cwd: root, stdio: 'inherit' });
if (!existsSync(out)) {
  console.error('The tests did not run.');
  process.exit(1);
}
const report = JSON.parse(readFileSync(out, 'utf8'));
const passed = report.numPassedTests;
const failed = report.numFailedTests + (report.success ? 0 : report.numFailedTests === 0 ? 1 : 0);
console.log(`unit tests: ${((Date.now() - started) / 1000).toFixed(1)} s`);
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
