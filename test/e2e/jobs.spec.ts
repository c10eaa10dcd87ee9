// The list of jobs, the way from one to the next, and how all pages look at the sizes of a phone, a
// tablet and a laptop, and enlarged to twice their size.

import { expect, test, type Page } from '@playwright/test';
import { axeFaults, cutText, sharedNames } from './look.ts';
import {
  enterYard, FIRST_JOB, handOver, openJob, pickJob, readClock, setSpeed, setValve, showAllReadings,
} from './play.ts';

const JOBS = [
  'Heron Lane, one trench', 'Sedge Meadow, four trenches', 'Kestrel Yard, six bores',
  'Otter Bank, a whole day', 'Curlew Rise, a whole day in frost',
  'Lapwing School, two banks',
];

/** What a page shows of itself, in the order in which a trainee meets it. */
const VIEWS: readonly (readonly [name: string, open: (page: Page) => Promise<void>])[] = [
  ['the list of jobs', async (page) => {
    await page.goto('');
    await expect(page.getByRole('list', { name: 'Jobs' })).toBeVisible(); // It writes itself.
  }],
  ['a job slip', (page) => openJob(page)],
  ['a job slip of many circuits', (page) => openJob(page, 'sedge-meadow')],
  ['the brief of a drill', (page) => openJob(page, 'otter-bank-leak-test')],
  ['the yard', async (page) => {
    await enterYard(page);
    await setValve(page, 'Fill valve', 'half'); // With a caution over the drawing.
    await expect(page.getByRole('button', { name: 'Understood' })).toBeVisible();
    await showAllReadings(page);
    await setSpeed(page, 'freeze');
  }],
  ['the yard of six bores', async (page) => {
    await enterYard(page, 'kestrel-yard');
    await setSpeed(page, 'freeze');
  }],
  ['the debrief', async (page) => {
    await enterYard(page);
    await handOver(page);
  }],
];

/** 1280 x 800 at 200 %, the least width of a page that reflows, a tablet, a phone. */
const SIZES = [
  { width: 640, height: 400 }, { width: 320, height: 568 }, { width: 820, height: 1180 },
  { width: 390, height: 844 },
] as const;

const card = (page: Page, job: string) =>
  page.getByRole('listitem').filter({ has: page.getByRole('link', { name: job, exact: true }) });

test('the jobs stand in their order, with time and marks', async ({ page }) => {
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

for (const [name, open] of VIEWS) {
  // The yard is larger under fingers than at the same width with a mouse; other pages are not.
  const tag = name.startsWith('the yard') ? [] : ['@desktop'];
  test(`${name}: no text is cut, no name is shared`, { tag }, async ({ page, isMobile }) => {
    await open(page);
    expect(await sharedNames(page)).toEqual([]);
    expect(await cutText(page)).toEqual([]);
    if (isMobile) return;
    for (const size of SIZES) {
      await page.setViewportSize(size);
      await page.waitForTimeout(300); // The page writes itself anew for another shape.
      const at = { message: `${size.width} x ${size.height}`, timeout: 3000 };
      await expect.poll(() => cutText(page), at).toEqual([]);
    }
  });
}

test('the checks above find what is cut and shared', { tag: '@desktop' }, async ({ page }) => {
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
