// Lists the files that belong to the project: what git knows or would add, as they stand in the
// working folder. Without git (an unpacked archive) the folders are walked instead.

import { execFileSync } from 'node:child_process';
import { existsSync, lstatSync, readdirSync, realpathSync } from 'node:fs';
import { join } from 'node:path';
import { ROOT } from './install.mjs';

const NOT_OURS = /^(node_modules|dist.*|\.git|test-results|playwright-report|coverage)$/;

/** @param {string[]} args @returns {string} */
const git = (...args) =>
  execFileSync('git', args, { cwd: ROOT, encoding: 'utf8', stdio: ['ignore', 'pipe', 'ignore'] });

/** @param {string} folder relative, '' for the root @returns {string[]} */
function walk(folder) {
  return readdirSync(join(ROOT, folder), { withFileTypes: true }).flatMap((entry) => {
    if (NOT_OURS.test(entry.name)) return [];
    const path = folder === '' ? entry.name : `${folder}/${entry.name}`;
    return entry.isDirectory() ? walk(path) : [path];
  });
}

/** @returns {string[] | null} null when this folder is not a git work tree of its own */
function gitFiles() {
  try {
    const top = git('rev-parse', '--show-toplevel').trim();
    if (realpathSync(top) !== realpathSync(ROOT)) return null;
    return git('ls-files', '-z', '--cached', '--others', '--exclude-standard').split('\0');
  } catch {
    return null;
  }
}

/** @returns {string[]} paths relative to the root, with forward slashes, sorted */
export function projectFiles() {
  const files = gitFiles() ?? walk('');
  return [...new Set(files)]
    .filter((path) => path !== '' && existsSync(join(ROOT, path)))
    .filter((path) => lstatSync(join(ROOT, path)).isFile())
    .sort();
}
