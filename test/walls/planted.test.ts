// Every wall is tried on a planted fault: a wall that cannot fail is no wall.

import { describe, expect, it } from 'vitest';
import { citationFaults, creditFaults, staleFaults, wordFaults, wordKeys } from './links.ts';
import {
  lockFaults,
  pinFaults,
  ruleVelocityFaults,
  sizeFaults,
  topLevelFaults,
  workplaceFaults,
} from './rules.ts';

const file = (path: string, text: string): { path: string; text: string } => ({ path, text });

describe('the wall of the top level', () => {
  it('sees a folder that does not belong', () => {
    expect(topLevelFaults(['sim/a.ts', 'scripts/a.mjs', 'notes.txt'])).toEqual([
      'scripts',
      'notes.txt',
    ]);
  });
});

describe('the wall of sizes', () => {
  it('sees a long or wide style sheet and a long header', () => {
    expect(sizeFaults([file('game/a.css', 'x\n'.repeat(301))])).toEqual(['game/a.css: 301 lines']);
    expect(sizeFaults([file('game/a.css', 'x'.repeat(101))])).toHaveLength(1);
    expect(sizeFaults([file('sim/a.ts', '// x\n'.repeat(7))])).toHaveLength(1);
    expect(sizeFaults([file('sim/a.ts', `/*\n${'x\n'.repeat(6)}*/\n`)])).toHaveLength(1);
  });

  it('lets through what is just short enough', () => {
    expect(sizeFaults([file('game/a.css', 'x\n'.repeat(300))])).toEqual([]);
    expect(sizeFaults([file('game/a.css', 'x'.repeat(100))])).toEqual([]);
    expect(sizeFaults([file('sim/a.ts', `${'// x\n'.repeat(6)}\ncode();`)])).toEqual([]);
  });
});

describe('the wall against the rule velocity', () => {
  const seen = (line: string, path = 'sim/laws/gas.ts'): boolean =>
    ruleVelocityFaults([file(path, line)]).length === 1;

  it('sees the number and its names', () => {
    for (const line of [
      'const v = 0.61;',
      'const v = .61;',
      'v > -0.610',
      'const v = 0.6096;',
      'const v = 0.60960;',
      '// clears at 2 ft/s',
      '// clears at 2.0 feet per second',
      'export const RULE_2_ft_per_s = 1;',
      'const limit_ft_s = 1;',
    ]) {
      expect(seen(line), line).toBe(true);
    }
  });

  it('lets through other numbers, and the pipe law where it is cited', () => {
    for (const line of ['0.611657', '10.61', '1.61', '0.6105', '0.60965', 'left_side', '12 ft']) {
      expect(seen(line), line).toBe(false);
    }
    expect(seen('  if (n <= 2) return 0.61; // [Escarameia2007]')).toBe(false);
  });

  it('lets the pipe law through in its own file only, and never the exact conversion', () => {
    expect(seen('return 0.61; // [Escarameia2007]', 'sim/hazard.ts')).toBe(true);
    expect(seen('return 0.6096; // [Escarameia2007]')).toBe(true);
  });
});

describe('the wall against words of the workplace', () => {
  it('sees paths, hosts and papers', () => {
    for (const words of [
      ['see /wo', 'rk/main/sim'],
      ['see /tm', 'p/brief/a'],
      ['https://registry.', 'npmjs.org/x'],
      ['the Trans', 'cript says'],
      ['a transcrip', 'tion of it'],
      ['a seed', ' document'],
      ['see physics', '.md'],
    ]) {
      expect(workplaceFaults([file('game/a.ts', words.join(''))]), words.join('')).toHaveLength(1);
    }
  });

  it('lets a law that is transcribed through', () => {
    expect(workplaceFaults([file('test/a.json', '"kind": "transcribed"')])).toEqual([]);
  });
});

describe('the walls of the packages', () => {
  it('see a resolved address and a range of versions', () => {
    const lock = { packages: { a: { resolved: 'https://host/a.tgz' }, b: {} } };
    expect(lockFaults(JSON.stringify(lock))).toEqual(['a: resolved', 'https://host/a.tgz']);
    const manifest = { dependencies: { a: '^1.0.0' }, devDependencies: { b: '1.0.0' } };
    expect(pinFaults(JSON.stringify(manifest))).toEqual(['a: ^1.0.0']);
  });
});

describe('the wall of citations', () => {
  const references = '- [Good1977] A paper.\n- [Idle1980] Another.\n';

  it('sees a key without an entry, an entry nobody cites, and two entries of one key', () => {
    const code = [file('sim/laws/a.ts', '// [Good1977, eq. 3] and [Lost1999].\nconst x = a[B2];')];
    expect(citationFaults(code, references)).toEqual([
      'Lost1999: cited in sim/laws/a.ts, no entry',
      'Idle1980: entry nobody cites',
    ]);
    const twice = citationFaults(code, `${references}[Good1977] again`);
    expect(twice).toContain('Good1977: two entries');
  });

  it('is content when each names the other', () => {
    const code = [file('sim/a.ts', '/** [Good1977] [Idle1980] */')];
    expect(citationFaults(code, references)).toEqual([]);
  });
});

describe('the wall of credits', () => {
  it('sees a file without credit, a credit without file, and one that says too little', () => {
    const credits = { files: [{ file: 'b.png', origin: 'drawn here', licence: '' }] };
    expect(creditFaults(['a.png'], JSON.stringify(credits))).toEqual([
      'a.png: no credit',
      'b.png: no such file',
      'b.png: origin or licence missing',
    ]);
    expect(creditFaults([], '{}')).toHaveLength(1);
  });
});

describe('the wall of words', () => {
  const keys = wordKeys({ clock: { freeze: 'Freeze' }, 'valve.open': 'Open' });

  it('sees a key that is not written, whole or begun', () => {
    const code = "t('clock.freeze'); t(`valve.${at}`); t('clock.gone'); t(`pump.${at}`); rest('x')";
    expect(wordFaults([file('game/a.tsx', code)], keys)).toEqual([
      'game/a.tsx: clock.gone',
      'game/a.tsx: pump.',
    ]);
  });
});

describe('the wall of exceptions', () => {
  const listed = { file: 'sim/a.ts', rule: 'max-len', reason: 'A table that reads best wide.' };

  it('sees an exception that excuses nothing, and one without a reason', () => {
    expect(staleFaults([listed], [])).toEqual(['sim/a.ts: no longer breaks max-len']);
    expect(staleFaults([{ ...listed, reason: ' ' }], [listed])).toHaveLength(1);
    expect(staleFaults([listed], [listed])).toEqual([]);
  });
});
