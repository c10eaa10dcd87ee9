// The line of the sheet that no instrument shows: a number or "cannot tell", and what the debrief,
// which is what is printed, says of it.

import { expect, test } from '@playwright/test';
import { axeFaults } from './look.ts';
import { enterYard, handOver, setSpeed } from './play.ts';

test('air that is left is a number or "cannot tell"', { tag: '@phone' }, async ({ page }) => {
  test.setTimeout(120_000);
  await enterYard(page, 'curlew-rise');
  await setSpeed(page, 'freeze');
  const sheet = page.getByRole('region', { name: 'Sheet', exact: true });
  const air = sheet.getByLabel('Air left in the loop at the proof', { exact: true });
  const own = page.getByLabel('Air left in the loop at the proof', { exact: true });
  const row = sheet.getByRole('listitem').filter({ has: own });
  const write = row.getByRole('button', { name: 'Write down: air left in the loop at the proof' });
  await air.fill('some');
  await write.click();
  await expect(row.getByRole('alert')).toContainText('not a number');
  await air.fill('1.5 L');
  await write.click();
  await expect(row.getByRole('list')).toContainText('1.5 L');
  await row.getByRole('button', { name: 'Cannot tell' }).click();
  await expect(row.getByRole('list').getByRole('listitem').last()).toContainText('cannot tell');
  expect(await axeFaults(page)).toEqual([]);
  // It is held against what was there when the second level was written down.
  await sheet.getByLabel('Level, return shut', { exact: true }).fill('400');
  await page.keyboard.press('Enter');
  await setSpeed(page, 1);
  await handOver(page);
  const mark = page.getByRole('region', { name: 'Worked out from readings' });
  await expect(mark.getByRole('listitem')).toHaveCount(1);
  await expect(mark).toContainText('Air left in the loop at the proof');
  await expect(mark).toContainText('right');
  // A table wider than the page goes from side to side by itself.
  await page.getByText('The numbers at the moments').click({ timeout: 60_000 });
  const table = page.getByRole('region', { name: /^True values at the moments/ });
  await expect(table).toBeVisible();
  expect(await table.evaluate((one) => one.scrollWidth - one.clientWidth)).toBeGreaterThan(0);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
});
