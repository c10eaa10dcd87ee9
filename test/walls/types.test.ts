// The compiler is tried on planted faults too: each file is asked by the strictest project that has
// it, and a fault is told once.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { faultsIn } from '../tools/types.mjs';

const folder = mkdtempSync(join(tmpdir(), 'loopyard-types-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function project(name: string, lib: string[], files: Readonly<Record<string, string>>): string {
  mkdirSync(join(folder, name));
  const options = { strict: true, noEmit: true, allowImportingTsExtensions: true, types: [] };
  const compilerOptions = { ...options, lib, module: 'ESNext', moduleResolution: 'bundler' };
  const all = { 'tsconfig.json': JSON.stringify({ compilerOptions, include: ['.'] }), ...files };
  for (const [file, text] of Object.entries(all)) writeFileSync(join(folder, name, file), text);
  return join(folder, name, 'tsconfig.json');
}

it('each file is checked once, by the strictest project that has it', () => {
  const strict = project('strict', ['ES2022'], {
    'a.ts': 'export const a = document.title;\n',
    'b.ts': 'export const b = ;\n',
  });
  const wide = project('wide', ['ES2022', 'DOM'], {
    'c.ts': "import { a } from '../strict/a.ts';\nexport const c: number = a;\n",
    'd.ts': 'export const d = document.title;\n',
  });
  const asked = new Set<string>();
  const told = (path: string): string[] =>
    faultsIn(path, asked).map(({ file, code }) => `${file?.fileName.split('/').at(-1)} ${code}`);
  expect(told(strict).sort()).toEqual(['a.ts 2584', 'b.ts 1109']);
  expect(told(wide)).toEqual(['c.ts 2322']);
  expect(asked.size).toBe(4);
});
