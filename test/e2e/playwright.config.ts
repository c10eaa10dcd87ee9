// Settings of the browser tests: one browser, found beforehand by test/tools/ensure-browser.mjs,
// two workers, two screens. The pages come from dist/ by the same server the start command uses,
// with multisampling off and one picture a second (`CALM`): without a graphics card pictures cost
// more than all else. So would the fine screen of a phone: one test has it, the others a plain one.

import { join } from 'node:path';
import { defineConfig, type ReporterDescription } from '@playwright/test';
import { FLAGS, knownBrowser } from '../tools/ensure-browser.mjs';
import { ROOT } from '../tools/install.mjs';
import { CALM } from './play.ts';

const browser = knownBrowser();
const report = process.env['PLAYWRIGHT_JSON_OUTPUT_FILE'];
const json: ReporterDescription[] =
  report === undefined ? [] : [['json', { outputFile: report }]];
const FRESH = /fresh[\w-]*\.spec\.ts/;

export default defineConfig({
  testDir: '.',
  outputDir: join(ROOT, 'test-results'),
  globalSetup: './server.ts',
  timeout: 60_000,
  expect: { timeout: 10_000 },
  workers: 2, // While one waits for packages or for the job's clock, the other draws.
  retries: 0,
  forbidOnly: true,
  reporter: [['list'], ...json],
  use: {
    // Set by the global setup; `page.goto('')` opens the page as the tests want it.
    ...(process.env['LOOPYARD_URL'] === undefined
      ? {}
      : { baseURL: `${process.env['LOOPYARD_URL']}${CALM}` }),
    locale: 'en-GB',
    launchOptions: {
      args: [...FLAGS],
      ...(browser === null ? {} : { executablePath: browser.executablePath }),
    },
    screenshot: 'only-on-failure',
    trace: 'off',
  },
  projects: [
    {
      name: 'fresh',
      testMatch: FRESH,
      use: { browserName: 'chromium', viewport: { width: 1280, height: 800 } },
    },
    {
      name: 'desktop',
      testIgnore: FRESH,
      grepInvert: /@phone/,
      use: { browserName: 'chromium', viewport: { width: 1280, height: 800 } },
    },
    {
      name: 'phone',
      testIgnore: FRESH,
      grepInvert: /@desktop/,
      use: {
        browserName: 'chromium',
        viewport: { width: 390, height: 844 },
        hasTouch: true,
        isMobile: true,
      },
    },
  ],
});
