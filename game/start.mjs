// The start command: installs what is missing, builds the pages, serves them on this machine and
// prints where. It uses only what Node brings until the packages are there.

import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { build, DIST } from '../test/tools/build.mjs';
import { endAll, endChildrenOnSignal } from '../test/tools/child.mjs';
import { ensureInstalled, PlainFault, requireNode, ROOT } from '../test/tools/install.mjs';
import { serve } from '../test/tools/serve.mjs';

const PORT_DEFAULT = 4173;

/** @returns {number} the port asked for */
function portWanted() {
  const text = process.env['PORT'] ?? '';
  if (text === '') return PORT_DEFAULT;
  const port = Number(text);
  if (Number.isInteger(port) && port >= 0 && port <= 65_535) return port;
  throw new PlainFault(`PORT must be a whole number from 0 to 65535; it is "${text}".`);
}

async function main() {
  requireNode();
  const port = portWanted();
  await ensureInstalled(console.log);
  if (!existsSync(join(ROOT, 'game', 'index.html'))) {
    throw new PlainFault('There is no page to build: game/index.html is missing.');
  }
  console.log('Building the pages ...');
  const built = await build();
  if (built.code !== 0) throw new PlainFault(`${built.output.trim()}\n\nThe build failed.`);
  const server = await serve(DIST, port);
  stopServer = server.stop;
  console.log(`Loopyard is ready: ${server.url}`);
  console.log('Press Ctrl-C to stop.');
}

/** @type {() => Promise<void>} */
let stopServer = async () => {};
endChildrenOnSignal(() => stopServer());

main().catch(async (error) => {
  await endAll();
  console.error(error instanceof PlainFault ? error.message : error);
  process.exit(1);
});
