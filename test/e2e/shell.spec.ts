// The page as a trainee meets it: it comes up, works by keyboard and by touch, keeps its place,
// and has nothing an automatic check of accessibility would object to.

import { expect, test, type Page } from '@playwright/test';
import { axeFaults, coveredFocus, looksRight } from './look.ts';
import {
  CALM, controlsList, enterYard, FIRST_JOB, FULL, handsFree, openJob, readClock, readings,
  readNumber, readText, setSpeed, setValve, showAllReadings, switchPump, waitReading,
} from './play.ts';

/** What keys, hands and stores do is the same at any size. */
const ONE_SIZE = { tag: '@desktop' };
const TABLET = { width: 820, height: 1180 };
/** A slip farther than this from its valve would not be seen to belong to it, CSS px. */
const BESIDE = 160;

const overDrawing = (page: Page, name: string | RegExp) =>
  page.locator('.stage').getByRole('button', { name });

test('the job slip comes first, with marks and cautions, without a drawing', async ({
  page, isMobile,
}) => {
  const scripts: string[] = [];
  page.on('request', (request) => scripts.push(request.url()));
  await openJob(page);
  await expect(page).toHaveTitle(`${FIRST_JOB}: Loopyard`);
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(FIRST_JOB);
  for (const name of ['What you find', 'Ask yourself', 'What it takes to pass', 'On site']) {
    await expect(page.getByRole('heading', { name })).toBeVisible();
  }
  await expect(page.getByText('Training aid only.')).toHaveCount(1);
  expect(scripts.filter((url) => /phaser/.test(url))).toEqual([]);
  expect(await axeFaults(page)).toEqual([]);
  await looksRight(page, isMobile);
});

test('the yard draws, runs, and shows no word that was never written', async ({
  page, isMobile,
}) => {
  await enterYard(page, 'heron-lane', isMobile ? CALM : FULL);
  await expect(page.locator('.stage canvas')).toBeVisible();
  await expect.poll(() => readClock(page)).toBeGreaterThan(1);
  const text = await page.locator('body').innerText();
  expect(text).not.toMatch(/undefined|NaN|\{\w+\}|\b[a-z]+\.[a-z_]+\.[a-z_]+\b/);
  await showAllReadings(page);
  expect(await readText(page, 'Clear return hose')).toBe('air');
  expect(await readNumber(page, 'Sight tube')).toBeGreaterThan(400);
  await setSpeed(page, 'freeze');
  expect(await axeFaults(page)).toEqual([]);
});

test.describe('on a fine screen', { tag: '@phone' }, () => {
  test.use({ deviceScaleFactor: 2 });

  test('the drawing is as fine as the screen', async ({ page }) => {
    await enterYard(page);
    const canvas = page.locator('.stage canvas');
    await expect(canvas).toBeVisible();
    const share = await canvas.evaluate((one: HTMLCanvasElement) => one.width / one.clientWidth);
    expect(share).toBeCloseTo(2, 2);
    await expect.poll(() => readClock(page)).toBeGreaterThan(1);
  });
});

/** Each of these puts hands to something else, so that they share one page. */
test.describe('hands in one yard', () => {
  let page: Page;
  test.beforeAll(async ({ browser }) => {
    page = await (await browser.newContext()).newPage();
    await enterYard(page);
  });
  test.afterAll(() => page.context().close());

  test('a frozen clock stands; hands do afterwards what was asked', ONE_SIZE, async () => {
    await setSpeed(page, 'freeze');
    await page.waitForTimeout(400); // The clock's face follows the last tick a moment later.
    const before = await readClock(page);
    await setValve(page, 'Suction valve', 'open');
    await page.waitForTimeout(1500);
    expect(await readClock(page)).toBe(before);
    const asked = 'Suction valve, shut, your hands will set it to open';
    await expect(overDrawing(page, asked)).toBeVisible();
    await setSpeed(page, 5);
    await expect(overDrawing(page, 'Suction valve, open')).toBeVisible();
  });

  test('a valve opens with keys alone, and a step at a time', ONE_SIZE, async () => {
    await setSpeed(page, 5);
    const valve = overDrawing(page, /^Return valve, /);
    await valve.focus();
    await page.keyboard.press('Enter');
    await expect(page.getByRole('group', { name: 'Handle of the return valve' })).toBeVisible();
    await page.keyboard.press('Enter');
    await expect(valve).toHaveAccessibleName('Return valve, open');
    for (let k = 0; k < 3; k++) await page.keyboard.press('ArrowDown');
    await expect(valve).toHaveAccessibleName('Return valve, 75° open');
    await page.keyboard.press('Escape');
    await expect(page.getByRole('group', { name: 'Handle of the return valve' })).toHaveCount(0);
    await page.keyboard.press('Home');
    await expect(valve).toHaveAccessibleName('Return valve, shut');
  });

  test('a needle is tapped with keys alone', ONE_SIZE, async () => {
    await setSpeed(page, 'freeze');
    await overDrawing(page, /^Tap the discharge gauge, /).focus();
    await page.keyboard.press('Enter');
    const hands = page.getByRole('region', { name: 'Your hands' });
    await expect(hands).toContainText('waiting for the clock: discharge gauge');
    await setSpeed(page, 1);
    await expect(hands).toContainText('at the discharge gauge');
    await expect(hands).not.toContainText('discharge gauge');
  });

  test('a tap opens the handle, another turns it to the far end', async ({ hasTouch }) => {
    await setSpeed(page, 5);
    const valve = overDrawing(page, /^Loop return valve, /);
    const press = () => (hasTouch ? valve.tap() : valve.click());
    await press();
    const slip = page.getByRole('group', { name: 'Handle of the loop return valve' });
    const [a, b] = [await valve.boundingBox(), await slip.boundingBox()];
    if (a === null || b === null) throw new Error('not on the screen');
    const apart = a.x + a.width <= b.x || b.x + b.width <= a.x
      || a.y + a.height <= b.y || b.y + b.height <= a.y;
    expect(apart, 'the slip must not cover its valve').toBe(true);
    const far = Math.max(a.y - b.y - b.height, b.y - a.y - a.height, a.x - b.x - b.width,
      b.x - a.x - a.width);
    expect(far, 'and lies beside it').toBeLessThan(BESIDE);
    const half = slip.getByRole('button', { name: 'Loop return valve: half open' });
    await (hasTouch ? half.tap() : half.click());
    await expect(valve).toHaveAccessibleName('Loop return valve, 45° open');
    await press();
    await expect(valve).toHaveAccessibleName('Loop return valve, shut');
  });
});

/** Looked at: these share one page, frozen at the start. */
test.describe('in a frozen yard', () => {
  let page: Page;
  test.beforeAll(async ({ browser }) => {
    page = await (await browser.newContext()).newPage();
    await enterYard(page);
    await setSpeed(page, 'freeze');
  });
  test.afterAll(() => page.context().close());

  test('every control of the drawing can be reached with Tab', async () => {
    const buttons = page.locator('.stage button');
    const names = await buttons.evaluateAll((all) => all.map((one) => one.ariaLabel));
    expect(names.length).toBeGreaterThanOrEqual(9);
    const reached = new Set<string | null>();
    const hidden: (string | null)[] = [];
    await buttons.first().focus();
    for (let k = 0; k < names.length; k++) {
      reached.add(await page.locator(':focus').getAttribute('aria-label'));
      hidden.push(...await coveredFocus(page));
      await page.keyboard.press('Tab');
    }
    expect([[...reached].sort(), hidden]).toEqual([[...names].sort(), []]);
  });

  test('nothing to be hit is smaller than 44 px', async () => {
    const small = await page.locator('button:visible, .head a:visible').evaluateAll((all) =>
      all.flatMap((one) => {
        const { width, height } = one.getBoundingClientRect();
        const name = one.getAttribute('aria-label') ?? one.textContent;
        return Math.min(width, height) < 43.9 ? [`${name} ${width} x ${height}`] : [];
      }));
    expect(small).toEqual([]);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    expect(wide, 'nothing hangs over the side').toBeLessThanOrEqual(0);
  });

  const readingsStay = async () => {
    const last = controlsList(page).getByRole('button').last();
    await last.scrollIntoViewIfNeeded();
    await expect(readings(page)).toBeInViewport({ ratio: 1 });
    const [a, b] = [await last.boundingBox(), await readings(page).boundingBox()];
    if (a === null || b === null) throw new Error('not on the screen');
    expect(a.y >= b.y + b.height || a.y + a.height <= b.y, 'nor do they cover it').toBe(true);
  };

  test('readings stay in sight while the controls list is used', () => readingsStay());

  test('readings stay in sight on a tablet too', ONE_SIZE, async () => {
    const before = page.viewportSize();
    await page.setViewportSize(TABLET);
    await expect(page.locator('.yard')).toHaveAttribute('data-shape', 'tall');
    await readingsStay();
    if (before !== null) await page.setViewportSize(before);
  });

  test('with a caution over it no text is cut, no name is shared', async ({ isMobile }) => {
    await setSpeed(page, 1);
    await setValve(page, 'Fill valve', 'half');
    await expect(page.getByRole('button', { name: 'Understood' })).toBeVisible();
    await showAllReadings(page);
    await handsFree(page);
    await setSpeed(page, 'freeze');
    await looksRight(page, isMobile);
  });

  test('handing over says what the hands have not done yet', ONE_SIZE, async () => {
    await setValve(page, 'Suction valve', 'open');
    await setValve(page, 'Return valve', 'open');
    await page.getByRole('button', { name: "I'm done" }).click();
    const ask = page.getByRole('dialog');
    await expect(ask).toContainText('not finished: suction valve, return valve');
  });
});

test('what is heard is written too, and a warning brings the clock to 1x', async ({ page }) => {
  await enterYard(page);
  await setSpeed(page, 5);
  await switchPump(page, true);
  const said = page.getByRole('group', { name: 'What was just seen or heard' });
  await expect(said).toContainText('The pump whines', { timeout: 30_000 });
  const realTime = page.getByRole('button', { name: '1 times', exact: true });
  await expect(realTime).toHaveAttribute('aria-pressed', 'true');
  await expect(said).toContainText('ground-fault protection');
  await said.getByRole('button', { name: 'Understood' }).click();
  await expect(said).not.toContainText('ground-fault protection');
});

test('a reload goes on at the same tick, valves as they were', ONE_SIZE, async ({ page }) => {
  await enterYard(page);
  await setValve(page, 'Suction valve', 'open');
  await setValve(page, 'Return valve', 'half');
  await setSpeed(page, 5);
  await handsFree(page);
  await expect(overDrawing(page, 'Return valve, 45° open')).toBeVisible();
  await setSpeed(page, 'freeze');
  await page.waitForTimeout(400);
  const before = { clock: await readClock(page), level: await readNumber(page, 'Sight tube') };
  await page.reload();
  await expect(page.getByText(/You are back at 00:00:\d\d\. The clock is frozen/)).toBeVisible();
  expect(await readClock(page)).toBe(before.clock);
  expect(await readNumber(page, 'Sight tube')).toBe(before.level);
  await expect(overDrawing(page, 'Suction valve, open')).toBeVisible();
  await expect(overDrawing(page, 'Return valve, 45° open')).toBeVisible();
  await page.waitForTimeout(700);
  expect(await readClock(page)).toBe(before.clock);
  await page.getByRole('button', { name: /^Go on at / }).click();
  await expect.poll(() => readClock(page)).toBeGreaterThan(before.clock);
});

test.describe('at the debrief of a job left at once', () => {
  let page: Page;
  const verdict = () => page.getByRole('heading', { level: 1 });
  test.beforeAll(async ({ browser }) => {
    page = await (await browser.newContext()).newPage();
    await enterYard(page);
    await waitReading(page, 'Sight tube', (text) => /\d/.test(text));
  });
  test.afterAll(() => page.context().close());

  test('one rates oneself first, then it is not passed, and says why', async ({ isMobile }) => {
    await page.getByRole('button', { name: "I'm done" }).click();
    await page.getByRole('button', { name: 'Hand it over' }).click();
    await page.getByRole('button', { name: 'Result: 5 of 5, very well' }).click();
    await page.getByRole('button', { name: 'Yes', exact: true }).click();
    expect(await axeFaults(page)).toEqual([]);
    await page.getByRole('button', { name: 'Show the marks' }).click();
    await expect(page.getByText('You would have signed it over, and it did not')).toBeVisible();
    await expect(page.locator('.plot canvas')).toHaveCount(6); // The record was run again.
    await expect(verdict()).toHaveText('Not yet');
    const why = page.getByText('There is more air in the loop than the job allows.');
    await expect(why).toBeVisible();
    expect(await axeFaults(page)).toEqual([]);
    await looksRight(page, isMobile);
  });

  test('one looks again at a moment, and finds oneself where one was', ONE_SIZE, async () => {
    const look = page.getByRole('button', { name: /^Look again at .*Handed over with faults/ });
    await look.click();
    const bar = page.getByRole('region', { name: 'Looking again' });
    await expect(bar).toContainText('nothing you press counts');
    await expect(controlsList(page)).toHaveCount(0);
    await bar.getByRole('button', { name: 'Back to the debrief' }).click();
    await expect(look).toBeFocused();
  });

  test('marks are kept; a job not passed says so in the list', ONE_SIZE, async () => {
    const total = await page.locator('.total strong').innerText();
    const points = /^[\d.]+/.exec(total)?.[0];
    expect(points).toBeDefined();
    await page.getByRole('link', { name: 'All jobs' }).click();
    const card = page.getByRole('listitem').filter({ hasText: FIRST_JOB });
    await expect(card).toContainText(`${points} of 100`);
    await expect(card).toContainText('not yet passed');
    await page.goBack();
  });

  test('it stays after a reload, and the job can be begun again', ONE_SIZE, async () => {
    await page.reload();
    await expect(verdict()).toHaveText('Not yet');
    await page.getByRole('button', { name: 'Again, from the beginning' }).click();
    await expect(controlsList(page)).toBeVisible();
    expect(await readClock(page)).toBeLessThan(5);
  });
});
