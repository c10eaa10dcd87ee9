// Vite builds the pages under game/ into dist/; Vitest reads its settings from here too.
// The landing page must stay small: Phaser goes to a chunk of its own, fetched only by a
// dynamic import, so nothing here may name it as an entry or preload it.

import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

const at = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** The pages that exist, so that a page can be added by adding its file. */
const pages = ['index', 'instructor'].filter((name) => existsSync(at(`game/${name}.html`)));

/** Vitest looks for tests from the project's root, Vite for pages in game/. */
const testing = process.env['VITEST'] !== undefined;
/** Read only for tests: the pages are built without the runner. */
const order = testing ? await import('./test/tools/longest-first.ts') : null;

export default defineConfig({
  root: at(testing ? '.' : 'game'),
  publicDir: at('public'),
  base: './', // Relative, so that the build also runs from a folder or inside a course package.
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es' },
  server: { port: 5173 },
  build: {
    outDir: at('dist'),
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: 1500, // kB; Phaser is one 1.4 MB bundle that cannot be shaken.
    rolldownOptions: {
      input: Object.fromEntries(pages.map((name) => [name, at(`game/${name}.html`)])),
      output: {
        codeSplitting: { groups: [{ name: 'phaser', test: /node_modules[\\/]phaser[\\/]/ }] },
      },
    },
  },
  test: {
    include: ['test/**/*.test.ts'],
    exclude: ['test/e2e/**', 'node_modules/**'],
    // ms, to end what hangs; the machine may have two slow cores, busy with the browser tests.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    pool: 'forks',
    ...(order === null ? {} : { sequence: { sequencer: order.LongestFirst } }),
    isolate: false, // No test leaves anything behind; the engine is read once, not sixty times.
    // The engine is loaded as plain modules, not rewritten for mocking: tests of whole jobs run
    // twice as fast, and on the same code as the command line.
    execArgv: ['--import', 'tsx'],
    server: { deps: { external: [/\/sim\/.*\.ts$/] } },
  },
});
