// The job sheet as a trainee meets it: filled in on the brief, kept through its faults, closed when
// work begins, and explained at the end.

import { expect, test } from '@playwright/test';
import { axeFaults } from './look.ts';
import { fillSheet, handOver, killTab, openJob, setValve, walkIn } from './play.ts';

test('what is typed outlives a killed tab and a reload', { tag: '@phone' }, async ({ context }) => {
  const page = await context.newPage();
  await openJob(page);
  await page.getByRole('button', { name: 'Another form' }).click();
  const form = await page.getByRole('region', { name: 'Form of the job' }).getByRole('status')
    .innerText();
  await page.getByRole('radio', { name: /^Practice/ }).check();
  await page.getByLabel('Volume of the loop').fill('about 109');
  await page.getByLabel('In how many banks').fill('1');
  await killTab(page);
  const next = await context.newPage();
  await openJob(next);
  await expect(next.getByLabel('Volume of the loop')).toHaveValue('about 109');
  await expect(next.getByText(form, { exact: true })).toBeVisible();
  await expect(next.getByRole('radio', { name: /^Practice/ })).toBeChecked();
  await next.getByLabel('Volume of the loop').fill('109');
  await walkIn(next); // And in the yard, until a hand is at work.
  const sheet = next.getByRole('region', { name: 'Job sheet: numbers before work' });
  await sheet.getByRole('heading').click();
  await sheet.getByLabel('In how many banks').fill('2');
  await next.reload();
  await sheet.getByRole('heading').click();
  await expect(sheet.getByLabel('In how many banks')).toHaveValue('2');
  await expect(sheet.getByLabel('Volume of the loop')).toHaveValue('109');
});

test('is filled in before work and explained after it', { tag: '@phone' }, async ({ page }) => {
  await openJob(page);
  const sheet = page.getByRole('region', { name: 'Job sheet: numbers before work' });
  await fillSheet(page, { 'Volume of the loop': 'much', 'In how many banks': '1' });
  await expect(sheet.getByRole('alert')).toContainText('Volume of the loop');
  await expect(sheet.getByLabel('Volume of the loop')).toBeFocused();
  await expect(sheet.getByLabel('Volume of the loop')).toHaveValue('much');
  expect(await axeFaults(page)).toEqual([]);
  // The way to work writes down what was typed, and leads nowhere while any of it cannot be read.
  await page.getByRole('button', { name: 'Go to the yard' }).click();
  await expect(sheet.getByLabel('Volume of the loop')).toBeFocused();
  await sheet.getByLabel('Volume of the loop').fill('109 L');
  await walkIn(page);
  await setValve(page, 'Suction valve', 'open');
  await sheet.getByRole('heading').click();
  await expect(sheet).toContainText('109 L');
  await expect(sheet).toContainText('the sheet stands as it is');
  await handOver(page);
  const marks = page.getByRole('region', { name: 'Job sheet: numbers before work' });
  await expect(marks.getByRole('listitem')).toHaveCount(4);
  await expect(marks.getByRole('listitem').nth(1)).toContainText('right');
  await expect(marks.getByRole('listitem').nth(3)).toContainText('empty');
  expect(await axeFaults(page)).toEqual([]);
});
