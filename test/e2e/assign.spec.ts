// An assignment from the instructor to the trainee and back, and a class of twelve files.

import { execFileSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test, type Page } from '@playwright/test';
import { ROOT } from '../tools/install.mjs';
import { axeFaults, cutText } from './look.ts';
import { CALM, handOver, setSpeed, take, walkIn } from './play.ts';

const ONE_SIZE = { tag: '@desktop' };

const SIZES = [
  { width: 390, height: 844 }, { width: 820, height: 1180 }, { width: 1280, height: 800 },
] as const;

async function fits(page: Page): Promise<void> {
  for (const size of SIZES) {
    await page.setViewportSize(size);
    const at = { message: `${size.width} x ${size.height}`, timeout: 3000 };
    await expect.poll(() => cutText(page), at).toEqual([]);
  }
}

const sheet = (page: Page) => page.getByRole('table').first().locator('tbody tr');

test('an assignment goes out as a link and comes back as a file', ONE_SIZE,
  async ({ page, context }, info) => {
    await page.goto('instructor.html');
    await page.getByRole('button', { name: 'Make it' }).click();
    await expect(page.getByRole('alert')).toHaveText('Give it a name first.');
    await expect(page.getByLabel('Name of the assignment')).toBeFocused();
    await page.getByLabel('Name of the assignment').fill('Week 3');
    await expect(page.getByRole('alert')).toHaveCount(0);
    await page.getByLabel('Attempts allowed').fill('1');
    await page.getByRole('button', { name: 'Make it' }).click();
    await expect(page.getByText('Heron Lane, one trench · the whole job · Assessment'))
      .toBeVisible();
    const link = await page.getByRole('textbox', { name: 'Link' }).inputValue();
    await expect(page.getByRole('img', { name: 'Code of the link' })).toBeVisible();
    expect(await axeFaults(page)).toEqual([]);
    await fits(page);

    const trainee = await context.newPage();
    await trainee.goto(link.replace('#', `${CALM}#`));
    await expect(trainee.getByRole('heading', { level: 1 })).toHaveText('Week 3');
    await expect(trainee.getByText('1 allowed, 0 begun on this device')).toBeVisible();
    expect(await axeFaults(trainee)).toEqual([]);
    await trainee.getByRole('button', { name: 'To the job' }).click();
    await expect(trainee.getByRole('alert')).toHaveText('Type your name or number first.');
    await trainee.getByLabel('Your name or number').fill('=Ann B.');
    await trainee.getByRole('button', { name: 'To the job' }).click();
    await walkIn(trainee);
    for (const name of ['Freeze', '60 times', 'X-ray', 'a quarter of real time']) {
      await expect(trainee.getByRole('button', { name, exact: true }), name).toHaveCount(0);
    }
    await setSpeed(trainee, 20);
    await handOver(trainee);
    await expect(trainee.getByRole('button', { name: 'Again, from the beginning' })).toHaveCount(0);
    const { path } = await take(trainee, 'Save the file to hand in', info);

    await page.locator('input[type=file]').setInputFiles(path);
    await expect(sheet(page)).toHaveCount(1, { timeout: 30_000 });
    await expect(sheet(page)).toContainText('=Ann B.');
    await expect(sheet(page)).toContainText('Replays as it says');
  });

test('of a class of twelve nine replay, the others are named', ONE_SIZE, async ({ page }, info) => {
  const folder = info.outputPath('class');
  execFileSync(process.execPath, ['--import', 'tsx', 'test/tools/class-files.ts', folder], {
    cwd: ROOT, timeout: 50_000,
  });
  const scripts: string[] = [];
  page.on('request', (request) => scripts.push(request.url()));
  await page.goto('instructor.html');
  const files = readdirSync(folder).map((name) => join(folder, name));
  await page.locator('input[type=file]').setInputFiles(files);
  await expect(page.getByText('12 of 12 run again')).toBeVisible({ timeout: 45_000 });
  await expect(page.getByText('12 files: 9 replay as they say, 3 do not.')).toBeVisible();
  const row = (who: string) => sheet(page).filter({ hasText: `${who}.json` });
  await expect(row('Ann')).toContainText('Replays as it says');
  await expect(row('Hal')).toContainText('its marks were changed');
  await expect(row('Ida')).toContainText('Cut short');
  await expect(row('Jo')).toContainText('Made by another build');
  expect(scripts.filter((url) => /phaser/.test(url))).toEqual([]);
  expect(await axeFaults(page)).toEqual([]);
  await fits(page);
});
