// Walls about the sources of published checks: what a row names as its source stands in a list of
// sources, and what is listed for the checks alone is named by one of them.
import { comments, type Listed } from './links.ts';
import type { TextFile } from './rules.ts';

/** A row of the table of published checks, as far as its source goes. */
export interface Sourced {
  readonly id: string;
  readonly source: string;
}

/** Words with a capital that name no work and nobody. */
const PLAIN = new Set(
  [
    'The Poisson Measured Froude Reynolds Computed Flow Fluid Mechanics Handbook Engineers',
    'Chemical Chemistry Fundamentals Pipe Data Int Mech Chem Eng Sci Res Phys Ref Sediment Hydraul',
    'Multiphase Atmos Symp Re Pa Cv Hd Qd Fr TP MJ MPa GPa PE PE4xxx PE4710',
  ].flatMap((line) => line.split(' ')),
);
/** What a source without a name says of itself. */
const OF_ITSELF = new RegExp(
  [
    'by hand|apart|exact|definition|balance|conservation|our own|affinity|fit|stirred|textbook',
    'the power law|handbooks|buoyancy|volume over flow',
  ].join('|'),
);
/** What standards and releases are called: D3035, TP-410, SR6-08. */
const DESIGNATION = /(?<![\w-])(?!PE)(?:[A-Z]{1,2}\d{2,}(?:-\d+)?|[A-Z]{1,3}\d?-\d{1,3})(?![\w-])/g;

const capitals = (text: string): string[] =>
  (text.match(/\p{Lu}[\p{L}\d]+/gu) ?? []).filter(
    (word) => !PLAIN.has(word) && !/^\p{Lu}\d/u.test(word),
  );

/** Names and numbers of works in a source: words with a capital, and years. */
function named(source: string): { names: string[]; years: readonly (readonly [string, string])[] } {
  const years = [...source.matchAll(/([^;:]*?)[ (](1[5-9]\d\d|20[0-2]\d)(?![\d%])/g)].map(
    ([, before, year]) => [before!, year!] as const,
  );
  return { names: [...capitals(source), ...(source.match(DESIGNATION) ?? [])], years };
}

/** Sources of rows that no list holds, and years that stand beside another name in the list. */
export function sourceFaults(rows: readonly Sourced[], listed: readonly Listed[]): string[] {
  const known = listed.map(({ line }) => line);
  const faults: string[] = [];
  for (const { id, source } of rows) {
    const { names, years } = named(source);
    if (names.length === 0 && !OF_ITSELF.test(source)) faults.push(`${id}: "${source}" names none`);
    for (const name of names) {
      const word = new RegExp(`(?<!\\p{L})${name}(?!\\p{Ll})`, 'u');
      if (!known.some((line) => word.test(line))) faults.push(`${id}: ${name} is not listed`);
    }
    for (const [before, year] of years) {
      const near = capitals(before);
      const found = known.some((line) => line.includes(year) && near.some((w) => line.includes(w)));
      if (near.length > 0 && !found) faults.push(`${id}: ${near.at(-1)} ${year} is not listed`);
    }
  }
  return [...new Set(faults)];
}

/** Entries of the checks' own list that no row, table or calculation names. */
export function idleFaults(own: readonly Listed[], texts: readonly string[]): string[] {
  return own
    .filter(({ key, line }) => {
      const work = line.slice(line.indexOf(']') + 1);
      const name = work.match(DESIGNATION)?.[0] ?? capitals(work)[0] ?? key;
      return !texts.some((text) => text.includes(name));
    })
    .map(({ key }) => `${key}: entry that no check names`);
}

/** Keys that tests cite in their comments without an entry in either list. */
export function testCitationFaults(
  files: readonly TextFile[],
  keys: ReadonlySet<string>,
): string[] {
  return files
    .filter(({ path }) => /^test\/(truth|property|unit|campaign)\/.*\.ts$/.test(path))
    .flatMap(({ path, text }) =>
      [...comments(text).matchAll(/\[([A-Z][A-Za-z&-]*\d{4}|EPANET2\.2)[\],]/g)]
        .map((match) => match[1]!)
        .filter((key) => !keys.has(key))
        .map((key) => `${path}: ${key} has no entry`),
    );
}
