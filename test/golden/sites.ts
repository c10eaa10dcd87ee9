// Levels whose scenario the field builder makes from a site's few numbers: site.json beside it.
// Run this file by hand after a change of either; a test holds that they agree.
//   node --import tsx test/golden/sites.ts
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { siteText } from '../../sim/field/build.ts';
import type { Site } from '../../sim/field/site.ts';
import { parseScenario } from '../../sim/scenario.ts';

const LEVELS = fileURLToPath(new URL('../../levels/', import.meta.url));
const WIDTH = 110;

export const built = readdirSync(LEVELS).filter((name) =>
  existsSync(join(LEVELS, name, 'site.json')),
);

/** What the builder makes of the level's site, as the text of its file. */
export function scenarioText(folder: string): string {
  const site = JSON.parse(readFileSync(join(LEVELS, folder, 'site.json'), 'utf8')) as Site;
  return `${lines({ $schema: '../scenario.schema.json', ...siteText(site) }, 0)}\n`;
}

export function scenarioFile(folder: string): string {
  return join(LEVELS, folder, 'scenario.json');
}

/** JSON with what is short on one line, so that a part reads as a row. */
function lines(value: unknown, depth: number): string {
  const short = oneLine(value);
  const pad = '  '.repeat(depth);
  if (depth > 0 && short.length + pad.length <= WIDTH) return short;
  if (typeof value !== 'object' || value === null) return short;
  const inner = Array.isArray(value)
    ? value.map((item: unknown) => lines(item, depth + 1))
    : Object.entries(value).map(([key, item]) => `"${key}": ${lines(item, depth + 1)}`);
  const [open, close] = Array.isArray(value) ? ['[', ']'] : ['{', '}'];
  return `${open}\n${inner.map((text) => `${pad}  ${text}`).join(',\n')}\n${pad}${close}`;
}

function oneLine(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(oneLine).join(', ')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const entries = Object.entries(value).map(([key, item]) => `"${key}": ${oneLine(item)}`);
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
}

function rewrite(): void {
  for (const folder of built) {
    const text = scenarioText(folder);
    parseScenario(JSON.parse(text));
    writeFileSync(scenarioFile(folder), text);
    console.log(folder, `${text.split('\n').length} lines`);
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) rewrite();
