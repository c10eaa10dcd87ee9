// A small static server for the built pages, bound to this machine only. The start command and
// the browser tests use the same one, so that what is tested is what is played.

import { createReadStream, statSync } from 'node:fs';
import { createServer } from 'node:http';
import { extname, join, normalize, sep } from 'node:path';

const HOST = '127.0.0.1';
const PORTS_TRIED_MAX = 50; // Ports tried in a row before giving up.

/** @type {Readonly<Record<string, string>>} */
const TYPES = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.jpg': 'image/jpeg',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json; charset=utf-8',
  '.map': 'application/json; charset=utf-8',
  '.mp3': 'audio/mpeg',
  '.ogg': 'audio/ogg',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.wasm': 'application/wasm',
  '.wav': 'audio/wav',
  '.webmanifest': 'application/manifest+json',
  '.webp': 'image/webp',
  '.woff2': 'font/woff2',
};

/**
 * Finds the file a request means, never outside the folder.
 * @param {string} folder
 * @param {string} url the request's path and query
 * @returns {{ path: string, size: number } | null}
 */
export function fileFor(folder, url) {
  let path;
  try {
    path = decodeURIComponent(new URL(url, 'http://x').pathname);
  } catch {
    return null;
  }
  if (path.includes('\0')) return null;
  const full = normalize(join(folder, path.endsWith('/') ? `${path}index.html` : path));
  if (!full.startsWith(normalize(folder) + sep)) return null;
  const stat = statSync(full, { throwIfNoEntry: false });
  return stat?.isFile() === true ? { path: full, size: stat.size } : null;
}

/**
 * @param {import('node:http').Server} server
 * @param {number} port
 * @returns {Promise<boolean>} false when the port is taken
 */
function listen(server, port) {
  return new Promise((resolve, reject) => {
    /** @param {NodeJS.ErrnoException} error */
    const failed = (error) => (error.code === 'EADDRINUSE' ? resolve(false) : reject(error));
    server.once('error', failed);
    server.listen(port, HOST, () => {
      server.off('error', failed);
      resolve(true);
    });
  });
}

/**
 * Serves a folder. Port 0 takes any free port; another port that is taken leads to the next.
 * @param {string} folder
 * @param {number} port
 * @returns {Promise<{ url: string, stop: () => Promise<void> }>}
 */
export async function serve(folder, port) {
  const server = createServer((request, response) => {
    const file = fileFor(folder, request.url ?? '/');
    if (file === null || (request.method !== 'GET' && request.method !== 'HEAD')) {
      response.writeHead(file === null ? 404 : 405, { 'Content-Type': 'text/plain' });
      response.end(file === null ? 'Not found.\n' : 'Only GET and HEAD.\n');
      return;
    }
    response.writeHead(200, {
      'Content-Type': TYPES[extname(file.path)] ?? 'application/octet-stream',
      'Content-Length': file.size,
      'Cache-Control': 'no-cache', // A new build must show at the next reload.
    });
    if (request.method === 'HEAD') response.end();
    else createReadStream(file.path).on('error', () => response.destroy()).pipe(response);
  });
  for (let at = port; at < port + PORTS_TRIED_MAX; at += 1) {
    if (!(await listen(server, at))) continue;
    const address = server.address();
    if (address === null || typeof address === 'string') throw new Error('No port was given.');
    const stop = () =>
      new Promise((/** @type {(done: void) => void} */ resolve) => {
        server.close(() => resolve());
        server.closeAllConnections();
      });
    return { url: `http://${HOST}:${address.port}/`, stop };
  }
  throw new Error(`Ports ${port} to ${port + PORTS_TRIED_MAX - 1} are all taken.`);
}
