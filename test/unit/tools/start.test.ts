// The pieces of the start command: what counts as installed, what is served, what the readme says.

import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startCommand } from '../../e2e/fresh-start.ts';
import { firstMismatch, nodeIsNewEnough } from '../../tools/install.mjs';
import { fileFor, serve } from '../../tools/serve.mjs';

describe('the check of Node', () => {
  it('takes 20.19 and newer, and nothing older', () => {
    for (const version of ['20.19.0', '20.20.2', '22.0.0']) {
      expect(nodeIsNewEnough(version), version).toBe(true);
    }
    for (const version of ['20.18.9', '18.20.0']) {
      expect(nodeIsNewEnough(version), version).toBe(false);
    }
  });
});

describe('the check of what is installed', () => {
  const wanted = {
    packages: { '': {}, 'node_modules/a': { version: '1.0.0' } },
  };
  const yes = (): boolean => true;

  it('is content when every package is there in its version', () => {
    expect(firstMismatch(wanted, wanted, yes)).toBeNull();
  });

  it('sees nothing installed, another version, a missing package and a missing folder', () => {
    const other = { packages: { 'node_modules/a': { version: '1.0.1' } } };
    expect(firstMismatch(wanted, null, yes)).toBe('node_modules');
    expect(firstMismatch(wanted, other, yes)).toBe('node_modules/a');
    expect(firstMismatch(wanted, { packages: {} }, yes)).toBe('node_modules/a');
    expect(firstMismatch(wanted, wanted, () => false)).toBe('node_modules/a');
  });

  it('does not ask for optional packages of other platforms', () => {
    const optional = { packages: { 'node_modules/b': { version: '1.0.0', optional: true } } };
    expect(firstMismatch(optional, { packages: {} }, yes)).toBeNull();
  });
});

describe('the start command in the readme', () => {
  it('is the first line of the first block below the heading about starting', () => {
    const readme = '# A yard\n```\nno\n```\n## Start it\ntext\n```sh\n# why\n$ npm start\n```\n';
    expect(startCommand(readme)).toBe('npm start');
  });

  it('is not a heading inside a block, nor a block below another heading', () => {
    const readme = '## Test\n~~~\n# Start\nnpm test\n~~~\n### How to run\n~~~\nnode a.mjs\n~~~';
    expect(startCommand(readme)).toBe('node a.mjs');
    expect(() => startCommand('# Start\nnpm start\n')).toThrow(/no command/);
  });
});

describe('the server', () => {
  let folder = '';

  beforeAll(() => {
    folder = join(mkdtempSync(join(tmpdir(), 'loopyard-serve-')), 'dist');
    mkdirSync(folder);
    writeFileSync(join(folder, 'index.html'), '<title>yard</title>');
    writeFileSync(join(folder, '..', 'secret.txt'), 'secret');
  });

  afterAll(() => rmSync(join(folder, '..'), { recursive: true, force: true }));

  it('finds the page and nothing outside its folder', () => {
    expect(fileFor(folder, '/?aa=0')?.path).toBe(join(folder, 'index.html'));
    for (const url of ['/../secret.txt', '/%2e%2e/secret.txt', '/..%2fsecret.txt', '/a', '/%']) {
      expect(fileFor(folder, url), url).toBeNull();
    }
  });

  it('serves with a type, takes the next free port, and lets go when stopped', async () => {
    const first = await serve(folder, 0);
    const port = Number(new URL(first.url).port);
    const second = await serve(folder, port);
    expect(Number(new URL(second.url).port)).toBeGreaterThan(port);
    const response = await fetch(first.url);
    expect(response.headers.get('content-type')).toBe('text/html; charset=utf-8');
    expect(await response.text()).toContain('yard');
    expect((await fetch(`${first.url}gone`)).status).toBe(404);
    expect((await fetch(first.url, { method: 'POST' })).status).toBe(405);
    await first.stop();
    await second.stop();
    await expect(fetch(first.url)).rejects.toThrow();
  });
});
