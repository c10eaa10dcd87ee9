// Another form of a job, from its first page to a file that the command line runs again.

import { execFileSync } from 'node:child_process';
import { expect, test } from '@playwright/test';
import { ROOT } from '../tools/install.mjs';
import { axeFaults, cutText } from './look.ts';
import { handOver, openJob, setValve, take, walkIn } from './play.ts';

test('a job is done in another form, and in one more', { tag: '@desktop' },
  async ({ page }, info) => {
    await openJob(page);
    const choice = page.getByRole('region', { name: 'Form of the job' });
    await expect(choice).toContainText('Form 1, as written');
    const brief = page.locator('.job-brief .figures');
    await expect(brief).toContainText('186 m');
    await choice.getByRole('button', { name: 'Another form' }).click();
    await expect(choice.getByRole('status')).toHaveText(/^Form \d{1,4}$/);
    const form = Number((await choice.getByRole('status').innerText()).slice(5));
    await expect(brief).toContainText(String(form));
    expect(await axeFaults(page)).toEqual([]);
    expect(await cutText(page)).toEqual([]);
    await walkIn(page);
    await setValve(page, 'Suction valve', 'open');
    await handOver(page);
    await expect(page.locator('.verdict')).toContainText(`form ${form}`);
    const { path, json } = await take(page, 'Download the record', info);
    expect(json).toMatchObject({ record: { scenario: 'heron_lane', seed: form } });
    const sim = ['--import', 'tsx', 'sim/cli.ts', 'replay', path];
    const told = execFileSync(process.execPath, sim, { cwd: ROOT, encoding: 'utf8' });
    expect(JSON.parse(told)).toMatchObject({ same: true, seed: form });

    await page.getByRole('button', { name: 'Again, in another form' }).click();
    await expect(page.getByRole('button', { name: '1 times', exact: true }))
      .toHaveAttribute('aria-pressed', 'true');
    await handOver(page);
    await expect(page.locator('.verdict')).not.toContainText(`form ${form}`);
    await expect(page.locator('.verdict')).toContainText(/form \d+/);
  });
