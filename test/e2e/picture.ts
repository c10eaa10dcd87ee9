// Takes the picture of the readme from the built page: the first job in the middle of its purge,
// x-ray on, played by names as the tests do. Not a test; run it by hand when the yard looks new:
//   npm test -- --only build && node --import tsx test/e2e/picture.ts public/yard.png
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { DIST } from '../tools/build.mjs';
import { ensureBrowser, FLAGS } from '../tools/ensure-browser.mjs';
import { serve } from '../tools/serve.mjs';
import {
  handsFree, readClock, setSpeed, setValve, switchPump, waitReading, walkIn,
} from './play.ts';

const FREE_PORT = 0;
const SIZE = { width: 1280, height: 800 };
/** On the job's clock: water drives the air before it, and pockets stay behind the crests. */
const MOMENT_s = 105;

async function take(file: string): Promise<void> {
  const found = await ensureBrowser(console.log);
  if (found === null) throw new Error('No browser was found.');
  const server = await serve(process.env['LOOPYARD_DIST'] ?? DIST, FREE_PORT);
  const browser = await chromium.launch({ executablePath: found.executablePath, args: [...FLAGS] });
  try {
    const page = await browser.newPage({ viewport: SIZE, locale: 'en-GB', baseURL: server.url });
    await page.goto('?job=heron-lane');
    await walkIn(page);
    for (const valve of ['Suction', 'Return', 'Loop return', 'Loop supply', 'Discharge']) {
      await setValve(page, `${valve} valve`, 'open');
    }
    await setSpeed(page, 5);
    await handsFree(page);
    await waitReading(page, 'Sight tube', () => true, { for_s: 8 }); // The casing fills.
    await switchPump(page, true);
    await waitReading(page, 'Sight tube', (text) => Number.parseFloat(text) < 330);
    await setValve(page, 'Fill valve', 'open');
    while (await readClock(page) < MOMENT_s) {
      await setSpeed(page, 5);
      await page.waitForTimeout(150);
    }
    await setSpeed(page, 1);
    await page.getByRole('button', { name: 'X-ray' }).click();
    const cautions = page.getByRole('button', { name: 'Understood' });
    while (await cautions.count() > 0) await cautions.first().click();
    await page.evaluate(() => window.scrollTo(0, 0));
    await page.mouse.move(0, 0);
    await page.waitForTimeout(9000); // Until the last caption has gone.
    await page.screenshot({ path: file });
  } finally {
    await browser.close();
    await server.stop();
  }
}

await take(process.argv[2] ?? join('public', 'yard.png'));
