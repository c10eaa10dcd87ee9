// A sheet of small pictures: twelve sites by chance, drawn by the real scene, in one PNG.
// node test/tools/contact-sheet.mjs OUT.png [--seed N] [--shape wide|tall] [--xray] [--run S]
// [--days] draws whole days by chance instead,
// or one picture: --one N | --level ID, with --width PIXELS.
import { readFileSync } from 'node:fs';
import { writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { chromium } from '@playwright/test';
import { createServer } from 'vite';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const COUNT = 12;
const COLUMNS = { wide: 3, tall: 6 };
const CELL = { wide: 620, tall: 300 };

const { values: how, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seed: { type: 'string', default: '1' },
    shape: { type: 'string', default: 'wide' },
    xray: { type: 'boolean', default: false },
    days: { type: 'boolean', default: false },
    run: { type: 'string', default: '0' },
    one: { type: 'string' },
    level: { type: 'string' },
    width: { type: 'string' },
    circuits: { type: 'string' },
  },
});
const out = positionals[0];
if (out === undefined) throw new Error('a path for the picture is missing');

/** Where the tests' browser was found; else what the system has. */
function browserPath() {
  try {
    const found = JSON.parse(readFileSync(join(ROOT, 'node_modules/.cache/browser.json'), 'utf8'));
    return found.executablePath;
  } catch {
    return undefined;
  }
}

/** @param {Record<string, string | undefined>} query */
const addressOf = (query) => {
  const given = Object.entries(query).flatMap(([k, v]) => (v === undefined ? [] : [[k, v]]));
  return `/test/tools/contact-sheet.html?${new URLSearchParams(given)}`;
};

const server = await createServer({
  root: ROOT,
  configFile: false,
  logLevel: 'error',
  cacheDir: join(tmpdir(), 'loopyard-contact-sheet'),
  publicDir: false,
  server: { host: '127.0.0.1', port: 0, hmr: false },
  optimizeDeps: { entries: ['test/tools/contact-sheet.html'] },
});
await server.listen();
const base = server.resolvedUrls?.local[0]?.replace(/\/$/, '') ?? '';
const executablePath = browserPath();
const browser = await chromium.launch({
  args: ['--no-sandbox', '--disable-dev-shm-usage', '--disable-quic', '--mute-audio'],
  ...(executablePath === undefined ? {} : { executablePath }),
});

/** @param {Record<string, string | undefined>} query */
async function picture(query) {
  const page = await browser.newPage({ viewport: { width: 1600, height: 1000 } });
  page.on('pageerror', (error) => console.error(error.message));
  try {
    await page.goto(base + addressOf(query));
    await page.waitForFunction(() => document.body.hasAttribute('data-drawn'), null, {
      timeout: 120_000,
    });
    const said = await page.locator('body').getAttribute('data-drawn');
    if (said !== 'yes') throw new Error(`${JSON.stringify(query)}: ${said}`);
    return await page.locator('#paper').screenshot();
  } finally {
    await page.close();
  }
}

/** @param {Buffer[]} shots @param {string[]} names */
async function sheetOf(shots, names) {
  const shape = how.shape === 'tall' ? 'tall' : 'wide';
  const cells = shots.map(
    (shot, k) =>
      `<figure><img src="data:image/png;base64,${shot.toString('base64')}"/>` +
      `<figcaption>${names[k]}</figcaption></figure>`,
  );
  const page = await browser.newPage({
    viewport: { width: COLUMNS[shape] * (CELL[shape] + 12) + 12, height: 800 },
  });
  await page.setContent(
    `<style>body{margin:6px;background:#cfc4ab;font:14px sans-serif;display:grid;gap:12px;` +
      `grid-template-columns:repeat(${COLUMNS[shape]},1fr);align-items:start}` +
      `figure{margin:0}img{width:100%;display:block}` +
      `</style>${cells.join('')}`,
  );
  const png = await page.screenshot({ fullPage: true });
  await page.close();
  return png;
}

try {
  const common = {
    shape: how.shape,
    xray: how.xray ? '1' : undefined,
    days: how.days ? '1' : undefined,
    run: how.run,
    circuits: how.circuits,
  };
  if (how.one !== undefined || how.level !== undefined) {
    const shot = await picture({ ...common, seed: how.one, level: how.level, width: how.width });
    await writeFile(out, shot);
  } else {
    const shots = [];
    const names = [];
    for (let k = 0; k < COUNT; k++) {
      const seed = String(Number(how.seed) + k);
      const width = String(CELL[how.shape === 'tall' ? 'tall' : 'wide']);
      shots.push(await picture({ ...common, seed, width }));
      names.push(`seed ${seed}`);
    }
    await writeFile(out, await sheetOf(shots, names));
  }
  console.log(out);
} finally {
  await browser.close();
  await server.close();
}
