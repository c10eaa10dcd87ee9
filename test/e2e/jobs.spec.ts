// The list of jobs, the way from one to the next, and how pages look that no other test opens.

import { expect, test, type Page } from '@playwright/test';
import { axeFaults, cutText, looksRight, sharedNames } from './look.ts';
import { enterYard, FIRST_JOB, openJob, pickJob, readClock, setSpeed } from './play.ts';

const JOBS = [
  'Heron Lane, one trench', 'Sedge Meadow, four trenches', 'Kestrel Yard, six bores',
  'Otter Bank, a whole day', 'Curlew Rise, a whole day in frost',
  'Lapwing School, two banks',
];

const card = (page: Page, job: string) =>
  page.getByRole('listitem').filter({ has: page.getByRole('link', { name: job, exact: true }) });

test('the jobs stand in their order, with time and marks', async ({ page, isMobile }) => {
  const scripts: string[] = [];
  page.on('request', (request) => scripts.push(request.url()));
  await page.goto('');
  await expect(page).toHaveTitle('Loopyard');
  await expect(page.getByRole('list', { name: 'Jobs' }).getByRole('link')).toHaveText(JOBS);
  for (const job of JOBS) {
    await expect(card(page, job)).toContainText(/full marks within\s*\d+ (min|h)/);
    await expect(card(page, job)).toContainText('not tried yet');
  }
  await expect(page.getByText('Training aid only.')).toHaveCount(1);
  expect(scripts.filter((url) => /phaser/.test(url))).toEqual([]);
  expect(await axeFaults(page)).toEqual([]);
  await looksRight(page, isMobile);
});

test.describe('at any size', { tag: '@desktop' }, () => {
  test('a job that does not exist is said so, above those that do', async ({ page }) => {
    await openJob(page, 'owl-corner');
    await expect(page.getByText('There is no job called "owl-corner".')).toBeVisible();
    await pickJob(page);
  });

  test('a job left half-way waits; its list entry leads back to the moment', async ({ page }) => {
    await page.goto('');
    await pickJob(page);
    await page.getByRole('button', { name: 'Go to the yard' }).click();
    await expect.poll(() => readClock(page), { timeout: 20_000 }).toBeGreaterThan(2);
    await setSpeed(page, 'freeze');
    await page.waitForTimeout(400);
    const left = await page.getByRole('status', { name: 'Time on the job' }).innerText();
    await page.getByRole('link', { name: 'All jobs' }).click();
    await expect(card(page, FIRST_JOB)).toContainText(left);
    await page.getByRole('link', { name: FIRST_JOB, exact: true }).click();
    await expect(page.getByText(`You are back at ${left}.`)).toBeVisible();
  });
});

for (const [slip, job] of [
  ['a slip of many circuits', 'sedge-meadow'],
  ['the brief of a drill', 'otter-bank-leak-test'],
] as const) {
  test(`${slip}: no text is cut, no name is shared`, { tag: '@desktop' },
    async ({ page, isMobile }) => {
      await openJob(page, job);
      await looksRight(page, isMobile);
    });
}

// The yard is larger under fingers than at the same width with a mouse; other pages are not.
test('the yard of six bores: no text is cut, no name is shared', async ({ page, isMobile }) => {
  await enterYard(page, 'kestrel-yard');
  await setSpeed(page, 'freeze');
  await looksRight(page, isMobile);
});

test('the checks of looks find what is cut and shared', { tag: '@desktop' }, async ({ page }) => {
  await page.goto('');
  await expect(page.getByRole('list', { name: 'Jobs' })).toBeVisible(); // The page writes itself.
  await page.evaluate(() => {
    document.querySelector('.jobs')?.insertAdjacentHTML('beforeend', `
      <div style="overflow:hidden;width:40px"><p style="white-space:nowrap">planted: cut</p></div>
      <p style="position:absolute;left:-20px;top:0">planted: over the side</p>
      <button>planted</button><button aria-label="planted"></button><button></button>`);
  });
  expect(await cutText(page)).toEqual([
    '"planted: cut" is cut', '"planted: over the side" hangs over the side',
  ]);
  expect(await sharedNames(page)).toEqual(['.jobs: planted', '.jobs: a control without a name']);
});
