// Builds the pages into dist/ with the installed Vite, called by its path: a wrapper such as npx
// would leave its child behind when it is stopped.

import { join } from 'node:path';
import { run } from './child.mjs';
import { ROOT } from './install.mjs';

const BUILD_MS = 120_000;

/** Where the built pages are. */
export const DIST = join(ROOT, 'dist');

/** @returns {Promise<import('./child.mjs').Ended>} */
export function build() {
  const vite = join(ROOT, 'node_modules', 'vite', 'bin', 'vite.js');
  const config = join(ROOT, 'vite.config.ts');
  const env = { ...process.env };
  delete env['VITEST']; // The configuration file reads it to tell a test run from a build.
  return run(process.execPath, [vite, 'build', '--config', config], {
    cwd: ROOT,
    env,
    timeout_ms: BUILD_MS,
  });
}
