// Attempts: a tab that is killed, two tabs at one attempt, the list of them, and files out and in.

import { expect, test, type Page } from '@playwright/test';
import { axeFaults, cutText } from './look.ts';
import {
  enterYard, FIRST_JOB, handOver, killTab, openJob, readClock, setSpeed, setValve, take,
} from './play.ts';

const ONE_SIZE = { tag: '@desktop' };
/** Wall time that may be lost, s, and half a second for the test's own look at the clock. */
const LOST_S = 1.5;

const backAt = (page: Page) => page.getByText(/You are back at 00:\d\d:\d\d\. The clock is frozen/);

test('a tab that is killed loses no more than the last second', ONE_SIZE, async ({ context }) => {
  const page = await context.newPage();
  await enterYard(page);
  await setValve(page, 'Suction valve', 'open');
  await setSpeed(page, 5);
  await expect.poll(() => readClock(page), { timeout: 30_000 }).toBeGreaterThan(20);
  const before = await readClock(page);
  await killTab(page);
  const next = await context.newPage();
  await openJob(next);
  await expect(backAt(next)).toBeVisible();
  expect(await readClock(next)).toBeGreaterThanOrEqual(before - 5 * LOST_S);
  await expect(next.locator('.stage').getByRole('button', { name: 'Suction valve, open' }))
    .toBeVisible();
});

test('of two tabs only one works on an attempt; it may be taken over', ONE_SIZE,
  async ({ context }) => {
    const [first, second] = [await context.newPage(), await context.newPage()];
    await enterYard(first);
    await expect.poll(() => readClock(first), { timeout: 20_000 }).toBeGreaterThan(1);
    await openJob(second);
    await expect(second.getByRole('heading', { level: 1 })).toHaveText('Open in another tab');
    expect(await axeFaults(second)).toEqual([]);
    await second.getByRole('button', { name: 'Take it over here' }).click();
    await expect(backAt(second)).toBeVisible();
    await expect(first.getByText('was taken over in another tab')).toBeVisible();
    const stood = await readClock(first);
    await second.getByRole('button', { name: /^Go on at / }).click();
    await expect.poll(() => readClock(second), { timeout: 20_000 }).toBeGreaterThan(stood + 1);
    expect(await readClock(first)).toBe(stood);
  });

test('attempts are listed, saved, deleted and read again', async ({ page, isMobile }, info) => {
  await enterYard(page);
  await handOver(page);
  const marks = /^[\d.]+/.exec(await page.locator('.total strong').innerText())?.[0] ?? '?';
  await page.goto('?page=attempts');
  const list = page.getByRole('list', { name: 'Attempts, newest first' }).getByRole('listitem');
  await expect(list).toHaveCount(1);
  await expect(list).toContainText(FIRST_JOB);
  await expect(list).toContainText(`${marks} of 100`);
  expect(await axeFaults(page)).toEqual([]);
  expect(await cutText(page)).toEqual([]);
  if (isMobile) return;
  const { path } = await take(page, 'Save all to one file', info);
  await list.getByRole('button', { name: /^Delete: / }).click();
  await list.getByRole('button', { name: 'Delete it' }).click();
  await expect(page.getByText('There is no attempt yet.')).toBeVisible();
  await page.locator('input[type=file]').setInputFiles(path);
  await expect(page.getByText('1 of 1 read.')).toBeVisible({ timeout: 30_000 });
  await expect(list).toContainText('read from a file');
  await list.getByRole('link', { name: /^Debrief: / }).click();
  await expect(page.locator('.total strong')).toContainText(marks);
});
