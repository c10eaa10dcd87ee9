// Plays the page as a person does: by the names of controls and by what can be read. Nothing here
// knows the engine, and nothing reads the state.

import { readFile } from 'node:fs/promises';
import { expect, type Locator, type Page, type TestInfo } from '@playwright/test';

/** How tests open the page: no multisampling, one picture a second; they go by what is written. */
export const CALM = '?aa=0&pictures=1';
/** With pictures as a browser without a graphics card makes them. */
export const FULL = '?aa=0';

export const SPEEDS = {
  freeze: 'Freeze',
  slow: 'a quarter of real time',
  1: '1 times',
  5: '5 times',
  20: '20 times',
  60: '60 times',
} as const;
export type SpeedName = keyof typeof SPEEDS;

const PLACES = {
  shut: 'shut',
  quarter: 'a quarter open',
  half: 'half open',
  open: 'open',
} as const;
export type ValvePlace = keyof typeof PLACES;

const named = (name: string) => ({ name, exact: true }) as const;

export const controlsList = (page: Page): Locator => page.getByRole('region', named('Controls'));
export const readings = (page: Page): Locator => page.getByRole('region', named('Readings'));

export const FIRST_JOB = 'Heron Lane, one trench';

/** Opens a job by its address, as a link from elsewhere would; waits until the page has written. */
export async function openJob(page: Page, job = 'heron-lane', how = CALM): Promise<void> {
  await page.goto(`${how}&job=${job}`);
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
}

/** Opens the page at a fresh job and walks into the yard; waits until the clock runs. */
export async function enterYard(page: Page, job?: string, how?: string): Promise<void> {
  await openJob(page, job, how);
  await walkIn(page);
}

/** From the list of jobs to the slip of one. */
export async function pickJob(page: Page, job = FIRST_JOB): Promise<void> {
  await page.getByRole('link', named(job)).click();
  await expect(page.getByRole('heading', { level: 1 })).toHaveText(job);
}

/** The job sheet, by the names of its lines; in the yard or before it. */
export async function fillSheet(page: Page, answers: Readonly<Record<string, string>>) {
  const sheet = page.getByRole('region', named('Job sheet: numbers before work'));
  for (const [line, value] of Object.entries(answers)) {
    await sheet.getByLabel(line, { exact: true }).fill(value);
  }
  await sheet.getByRole('button', named('Write down')).click();
}

/** From the job slip into the yard, on a page that is open already. */
export async function walkIn(page: Page): Promise<void> {
  await page.getByRole('button', named('Go to the yard')).click();
  await expect(page.getByRole('button', named(SPEEDS[1]))).toHaveAttribute('aria-pressed', 'true');
}

export async function setSpeed(page: Page, speed: SpeedName): Promise<void> {
  const button = page.getByRole('button', named(SPEEDS[speed]));
  if ((await button.getAttribute('aria-pressed')) !== 'true') await button.click();
}

/** A valve's place by the list of controls: one press. */
export async function setValve(page: Page, valve: string, place: ValvePlace): Promise<void> {
  await controlsList(page).getByRole('button', named(`${valve}: ${PLACES[place]}`)).click();
}

export async function switchPump(page: Page, on: boolean, pump = 'Pump'): Promise<void> {
  const lever = controlsList(page).getByRole('switch', named(pump));
  if ((await lever.getAttribute('aria-checked')) !== String(on)) await lever.click();
  await expect(lever).toHaveAttribute('aria-checked', String(on));
}

/** On a small screen only three readings show until asked for all. */
export async function showAllReadings(page: Page): Promise<void> {
  const more = page.getByRole('button', named('All readings'));
  if (await more.isVisible()) await more.click();
}

export async function readText(page: Page, reading: string): Promise<string> {
  const text = await readings(page).getByRole('status', named(reading)).innerText();
  return text.trim();
}

/** The number of a reading, with its true minus read as a minus. */
export async function readNumber(page: Page, reading: string): Promise<number> {
  const text = (await readText(page, reading)).replace('−', '-');
  const found = /-?\d[\d,]*(\.\d+)?/.exec(text)?.[0];
  if (found === undefined) throw new Error(`${reading} shows no number: "${text}"`);
  return Number(found.replaceAll(',', ''));
}

/** Seconds on the job's clock. */
export async function readClock(page: Page): Promise<number> {
  const text = await page.getByRole('status', named('Time on the job')).innerText();
  const [h = 0, m = 0, s = 0] = text.split(':').map(Number);
  return 3600 * h + 60 * m + s;
}

export interface Wanted {
  /** How long, in seconds of the job's clock, the wish must hold without a break. */
  readonly for_s?: number;
  /** Wall time after which waiting is given up. */
  readonly timeout_ms?: number;
  /** Done at every look, for instance to keep the tank filled and the speed up. */
  readonly meanwhile?: () => Promise<void>;
}

/** Looks several times a second until a reading is as wished for, long enough. */
export async function waitReading(
  page: Page,
  reading: string,
  wished: (text: string) => boolean,
  { for_s = 0, timeout_ms = 60_000, meanwhile }: Wanted = {},
): Promise<void> {
  const until = Date.now() + timeout_ms;
  let since: number | null = null;
  for (;;) {
    const [text, now] = [await readText(page, reading), await readClock(page)];
    if (!wished(text)) since = null;
    else since ??= now;
    if (since !== null && now - since >= for_s) return;
    if (Date.now() > until) throw new Error(`${reading} is "${text}" at ${now} s on the job`);
    await meanwhile?.();
    await page.waitForTimeout(120);
  }
}

/** Waits until the hands have done all that was asked: free, and still free a moment later, as a
 * page under load may not yet show the last thing asked for. The clock must run. */
export async function handsFree(page: Page): Promise<void> {
  const hands = page.getByRole('region', named('Your hands'));
  for (;;) {
    await expect(hands).toContainText('free', { timeout: 60_000 });
    const asked = await readClock(page);
    await expect.poll(() => readClock(page), { timeout: 60_000 }).toBeGreaterThan(asked + 1);
    if ((await hands.innerText()).includes('free')) return;
  }
}

/** Ends the page's process, as the system does when memory is short: no farewell of any kind. */
export async function killTab(page: Page): Promise<void> {
  const client = await page.context().newCDPSession(page);
  const gone = page.waitForEvent('crash');
  void client.send('Page.crash').catch(() => {});
  await gone;
}

export async function handOver(page: Page): Promise<void> {
  await page.getByRole('button', named("I'm done")).click();
  await page.getByRole('button', named('Hand it over')).click();
  await page.getByRole('button', named('Skip')).click(); // One's own view of the work.
  const verdict = page.getByRole('heading', { level: 1 });
  await expect(verdict).toHaveText(/Passed|Not yet/);
  await expect(verdict, 'one reads from the top').toBeInViewport();
}

export interface Taken {
  readonly path: string;
  readonly json: unknown;
}

/** Downloads what `button` offers to a file of the test's own, and reads it. */
export async function take(page: Page, button: string, info: TestInfo): Promise<Taken> {
  const coming = page.waitForEvent('download');
  await page.getByRole('button', named(button)).click();
  const download = await coming;
  const path = info.outputPath(download.suggestedFilename());
  await download.saveAs(path);
  return { path, json: JSON.parse(await readFile(path, 'utf8')) as unknown };
}
