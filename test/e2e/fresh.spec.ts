// The start command of the readme, on a machine that has nothing of ours yet.

import { expect, test } from '@playwright/test';
import { startFresh } from './fresh-start.ts';

test('the start command of the readme brings the page up from nothing', async ({ page }) => {
  test.setTimeout(300_000);
  const fresh = await startFresh();
  try {
    const response = await page.goto(`${fresh.url}?aa=0`);
    expect(response?.status()).toBe(200);
    await expect(page).toHaveTitle(/Loopyard/);
    await expect(page.locator('body')).toContainText(/\w/);
  } finally {
    const stopped = await fresh.stop();
    expect(stopped.portFree, 'nothing listens once the start command is stopped').toBe(true);
  }
});
