// The walls, held against the project as it stands.

import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { ESLint } from 'eslint';
import tseslint from 'typescript-eslint';
import { describe, expect, it } from 'vitest';
import { configure } from '../../eslint.config.js';
import { HAZARDS } from '../../sim/fact.ts';
import { EXCEPTIONS } from '../tools/exceptions.mjs';
import { projectFiles } from '../tools/files.mjs';
import { ROOT } from '../tools/install.mjs';
import { citationFaults, creditFaults, staleFaults, wordFaults, wordKeys } from './links.ts';
import {
  lockFaults,
  pinFaults,
  ruleVelocityFaults,
  sizeFaults,
  type TextFile,
  topLevelFaults,
  workplaceFaults,
} from './rules.ts';

const TEXT = /\.(ts|tsx|mjs|cjs|js|json|md|css|html|svg|txt|webmanifest)$|^\.|LICENSE$/;

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const paths: readonly string[] = projectFiles();
const texts: readonly TextFile[] = paths
  .filter((path) => TEXT.test(path))
  .map((path) => ({ path, text: read(path) }));

describe('the house', () => {
  it('is listed at all', () => {
    expect(paths).toContain('package.json');
    expect(paths).toContain('test/walls/project.test.ts');
    expect(paths.some((path) => path.startsWith('node_modules/'))).toBe(false);
  });

  it('has nothing at the top level that does not belong there', () => {
    expect(topLevelFaults(paths)).toEqual([]);
  });

  it('has no file too long, too wide or with too long a header', () => {
    expect(sizeFaults(texts)).toEqual([]);
  });

  it('speaks of itself alone', () => {
    expect(workplaceFaults(texts)).toEqual([]);
  });

  it('has a lock file without hosts and packages pinned to one version', () => {
    expect(lockFaults(read('package-lock.json'))).toEqual([]);
    expect(pinFaults(read('package.json'))).toEqual([]);
  });

  it('has no lint exception that excuses nothing', async () => {
    // Without the rules that ask the compiler, which take their time: none of them is excused.
    const lint = new ESLint({
      cwd: ROOT,
      overrideConfigFile: true,
      overrideConfig: [...configure([]), tseslint.configs.disableTypeChecked],
    });
    const files = [...new Set(EXCEPTIONS.map(({ file }) => file))];
    const there = files.filter((file) => existsSync(join(ROOT, file)));
    const results = there.length === 0 ? [] : await lint.lintFiles(there);
    const broken = results.flatMap(({ filePath, messages }) =>
      messages.map(({ ruleId }) => ({
        file: filePath.slice(ROOT.length + 1).replaceAll('\\', '/'),
        rule: ruleId ?? '',
      })),
    );
    expect(staleFaults(EXCEPTIONS, broken)).toEqual([]);
  });
});

describe('the engine', () => {
  it('does not know the rule velocity', () => {
    expect(ruleVelocityFaults(texts)).toEqual([]);
  });

  it('tells every hazard in the table of its model', () => {
    const after = read('sim/MODEL.md').split('| hazard |')[1]!.split('\n\n')[0]!;
    const table = after.split('\n').filter((line) => line.startsWith('| `'));
    const told = table.flatMap((line) => line.split('|')[1]!.match(/[a-z_]+/g) ?? []);
    expect(told.sort()).toEqual([...HAZARDS].sort());
  });

  it('cites only sources that are listed, and lists only sources it cites', () => {
    expect(citationFaults(texts, read('sim/REFERENCES.md'))).toEqual([]);
  });
});

describe('the pages', () => {
  it('credit every file they show or play', () => {
    const assets = paths
      .filter((path) => path.startsWith('public/') && path !== 'public/CREDITS.json')
      .map((path) => path.slice('public/'.length));
    expect(creditFaults(assets, read('public/CREDITS.json'))).toEqual([]);
  });

  it('ask only for words that are written', () => {
    const files = paths.filter((path) =>
      /^(game\/i18n\/(\w+\.)?en|levels\/.*words\.en)\.json$/.test(path),
    );
    expect(files).toContain('game/i18n/en.json');
    const keys = files.flatMap((path) => wordKeys(JSON.parse(read(path))));
    expect(wordFaults(texts, keys)).toEqual([]);
  });
});
