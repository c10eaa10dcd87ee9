// Serves dist/ for the length of a browser test run. The address is handed on in LOOPYARD_URL;
// when that is set already (a server of your own), it is used as it is.

import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { DIST } from '../tools/build.mjs';
import { serve } from '../tools/serve.mjs';

const FREE_PORT = 0; // The system picks one, so that a running start command is not in the way.

export default async function setUp(): Promise<() => Promise<void>> {
  if (process.env['LOOPYARD_URL'] !== undefined) return async () => {};
  if (!existsSync(join(DIST, 'index.html'))) {
    throw new Error('There is no build to test: run `npm test -- --only build,browser`.');
  }
  const server = await serve(DIST, FREE_PORT);
  process.env['LOOPYARD_URL'] = server.url;
  return server.stop;
}
