// A level that was built from a site's few numbers still is what the builder makes of them.
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { built, scenarioFile, scenarioText } from './sites.ts';

describe('levels made by the field builder', () => {
  it('are all but the first', () => {
    expect(built).toEqual([
      '02-sedge-meadow',
      '03-kestrel-yard',
      '04-otter-bank',
      '06-lapwing-school',
    ]);
  });

  it.each(built)('%s: its file is what the builder makes of its site', (folder) => {
    expect(readFileSync(scenarioFile(folder), 'utf8')).toBe(scenarioText(folder));
  });
});
