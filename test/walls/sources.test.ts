// The walls about sources of published checks, held against the table as it stands and tried on
// planted faults.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectFiles } from '../tools/files.mjs';
import { ROOT } from '../tools/install.mjs';
import { entriesOf } from './links.ts';
import { idleFaults, sourceFaults, testCitationFaults, type Sourced } from './sources.ts';

const read = (path: string): string => readFileSync(join(ROOT, path), 'utf8');
const rows = JSON.parse(read('test/truth/cases.json')) as readonly Sourced[];
const engine = entriesOf(read('sim/REFERENCES.md'));
const own = entriesOf(read('test/truth/SOURCES.md'));
const listed = [...engine, ...own];
const keys = new Set(listed.map(({ key }) => key));
const paths = projectFiles().filter((path) => /^test\/.*\.(ts|json)$/.test(path));

describe('sources of published checks', () => {
  it('stand in a list, name by name and year by year', () => {
    expect(rows.length).toBeGreaterThan(500);
    expect(sourceFaults(rows, listed)).toEqual([]);
  });

  it('are listed once, and none that no check names', () => {
    expect(keys.size).toBe(listed.length);
    const texts = paths.filter((path) => path.startsWith('test/truth/')).map(read);
    expect(idleFaults(own, texts)).toEqual([]);
  });

  it('are listed where a test cites a key', () => {
    const files = paths.map((path) => ({ path, text: read(path) }));
    expect(testCitationFaults(files, keys)).toEqual([]);
  });
});

describe('the walls about sources', () => {
  const one = (source: string) => sourceFaults([{ id: 'x', source }], listed);

  it('see a name, a year and a source that says nothing', () => {
    expect(one('Churchill (1977), worked out apart')).toEqual([]);
    expect(one('by hand: 2 + 2')).toEqual([]);
    expect(one('Hazeltine (1977)')).not.toEqual([]);
    expect(one('Churchill (1978)')).toHaveLength(1);
    expect(one('from somewhere')).toHaveLength(1);
    expect(one('ASTM D3036')).not.toEqual([]);
  });

  it('see an entry that nobody names, and a key without an entry', () => {
    const idle = [{ key: 'Hazeltine1977', line: '- [Hazeltine1977] Hazeltine, on flow.' }];
    expect(idleFaults(idle, ['Churchill 1977'])).toHaveLength(1);
    expect(idleFaults(idle, ['after Hazeltine'])).toEqual([]);
    const cites = (text: string) => testCitationFaults([{ path: 'test/truth/x.ts', text }], keys);
    expect(cites('// As [Churchill1977] has it.')).toEqual([]);
    expect(cites('// As [Hazeltine1977] has it.')).toHaveLength(1);
    expect(cites("const text = '[Hazeltine1977]';")).toEqual([]);
  });
});
