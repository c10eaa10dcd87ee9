// A whole purge of the first job, played by readings alone: what a trainee does who has understood
// it. The record that is taken away is a true attempt that passed.

import { execFile } from 'node:child_process';
import { promisify } from 'node:util';
import { expect, type Page, type TestInfo } from '@playwright/test';
import { ROOT } from '../tools/install.mjs';
import {
  fillSheet, handOver, handsFree, readNumber, setSpeed, setValve, showAllReadings, switchPump, take,
  waitReading,
} from './play.ts';

/** The engine's command line, as the readme calls it; its answer. */
async function commandLine(...args: string[]): Promise<Record<string, unknown>> {
  const all = ['--import', 'tsx', 'sim/cli.ts', ...args];
  const { stdout } = await promisify(execFile)(process.execPath, all, { cwd: ROOT });
  return JSON.parse(stdout) as Record<string, unknown>;
}

/** The garden hose follows the level with some slack, as a hand would. */
function keepFilled(page: Page): () => Promise<void> {
  let filling = false;
  return async () => {
    const level = await readNumber(page, 'Sight tube');
    if (!filling && level < 380) await setValve(page, 'Fill valve', 'open');
    else if (filling && level > 430) await setValve(page, 'Fill valve', 'shut');
    else return;
    filling = !filling;
  };
}

/** From the yard's gate to a verified record. The page must stand in the yard, at the start. */
export async function purgeAndVerify(page: Page, info: TestInfo): Promise<void> {
  await fillSheet(page, {
    'Flow for the rule velocity, bore 27.3 mm': '0.357',
    'Volume of the loop': '108.9',
    'In how many banks': '1',
    'Time to make up that volume': '3.2',
  });
  await showAllReadings(page);
  for (const valve of ['Suction valve', 'Return valve', 'Loop return valve', 'Loop supply valve']) {
    await setValve(page, valve, 'open');
  }
  await setValve(page, 'Discharge valve', 'open');
  await setSpeed(page, 5);
  await handsFree(page);
  await waitReading(page, 'Clear return hose', () => true, { for_s: 10 }); // The casing fills.
  await switchPump(page, true);
  const fill = keepFilled(page);
  // Slowly while the loop drinks the tank, faster once water comes back. A warning brings the
  // clock back to 1x, so the speed is asked for again at every look.
  const working = (speed: 20 | 60) => async () => {
    await fill();
    await setSpeed(page, speed);
  };
  const clear = (text: string) => text === 'clear';
  const lasting = { timeout_ms: 200_000 };
  await waitReading(page, 'Clear return hose', clear, { ...lasting, meanwhile: working(20) });
  await waitReading(page, 'Clear return hose', clear, {
    ...lasting, for_s: 300, meanwhile: working(60),
  });
  expect(await readNumber(page, 'Flow meter')).toBeGreaterThan(20);

  await setSpeed(page, 1);
  await switchPump(page, false);
  await setValve(page, 'Loop return valve', 'shut');
  await setValve(page, 'Loop supply valve', 'shut');
  await setValve(page, 'Fill valve', 'shut');
  await setSpeed(page, 5);
  await handsFree(page);
  await handOver(page);
  const why = await page.getByRole('main').innerText();
  await expect(page.getByRole('heading', { level: 1 }), why).toHaveText('Passed');

  const { path, json } = await take(page, 'Download the record', info);
  expect(json).toMatchObject({
    format: 1, kind: 'attempt', who: null,
    record: { scenario: 'heron_lane', seed: 1 }, marks: { passed: true },
  });
  // Another engine's process runs the file again: same hashes, same marks as the browser showed.
  const verified = await commandLine('score', path);
  expect(verified).toMatchObject({ same: true, diverged_at_tick: null, score: { passed: true } });
  expect(verified['score']).toEqual((json as { marks: unknown }).marks);
}
