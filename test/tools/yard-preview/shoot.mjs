// Takes pictures of the preview: node test/tools/yard-preview/shoot.mjs FOLDER NAME QUERY [NAME QUERY ...]
import { createServer } from 'vite';
import { chromium } from '@playwright/test';
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = dirname(fileURLToPath(import.meta.url));
const root = resolve(here, '../../..');
const [folder = '.', ...shots] = process.argv.slice(2);
const server = await createServer({ configFile: false, root, logLevel: 'error', server: { port: 0, hmr: false, watch: null } });
await server.listen();
const base = server.resolvedUrls.local[0] + 'test/tools/yard-preview/index.html';
const executablePath = process.env.CHROMIUM_PATH ?? '/usr/bin/chromium';
const browser = await chromium.launch({
  ...(existsSync(executablePath) ? { executablePath } : {}),
  args: ['--no-sandbox', '--disable-dev-shm-usage', '--disable-quic', '--mute-audio'],
});
try {
  for (let k = 0; k + 1 < shots.length; k += 2) {
    const query = shots[k + 1];
    const tall = query.includes('shape=tall');
    const page = await browser.newPage({
      viewport: tall ? { width: 390, height: 844 } : { width: 1280, height: 800 },
      deviceScaleFactor: query.includes('d1') ? 1 : 2,
    });
    page.on('pageerror', (e) => console.log('page error:', e.message));
    page.on('console', (m) => { if (m.type() === 'error') console.log('console:', m.text()); });
    await page.goto(`${base}?${query}`);
    await page.waitForSelector('body[data-ready]', { timeout: 25000 });
    await page.waitForTimeout(400);
    if (query.includes('fps')) {
      const rate = await page.evaluate(async () => {
        const at = globalThis.yardPreview;
        const [f, s] = [at.frames(), at.spent()];
        const t = performance.now();
        await new Promise((done) => setTimeout(done, 3000));
        const n = at.frames() - f;
        return { fps: (n * 1000) / (performance.now() - t), draw_ms: (at.spent() - s) / n };
      });
      console.log(shots[k], JSON.stringify(rate));
    }
    await page.screenshot({ path: join(folder, `${shots[k]}.png`), fullPage: true });
    await page.close();
  }
} finally {
  await browser.close();
  await server.close();
}
