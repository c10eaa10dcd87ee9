// The start command of the readme, on a machine that has nothing of ours yet.

import { expect, test } from '@playwright/test';
import { startFresh } from './fresh-start.ts';
import { CALM, pickJob, walkIn } from './play.ts';
import { purgeAndVerify } from './purge.ts';

test('from the readme alone: install, start, purge, pass, and replay', async ({ page }, info) => {
  test.setTimeout(400_000);
  const fresh = await startFresh();
  try {
    const response = await page.goto(`${fresh.url}${CALM}`);
    expect(response?.status()).toBe(200);
    await expect(page).toHaveTitle(/Loopyard/);
    await pickJob(page);
    await walkIn(page);
    await purgeAndVerify(page, info);
  } finally {
    const stopped = await fresh.stop();
    expect(stopped.portFree, 'nothing listens once the start command is stopped').toBe(true);
  }
});
