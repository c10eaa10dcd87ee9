// Walls about things that must name each other: citations and sources, assets and credits,
// words used and words written, exceptions and the faults they excuse.

import type { TextFile } from './rules.ts';

const CITED = /\[([A-Z][\w&.-]*\d[\w&.-]*)(?:[,;:\s][^\]]*)?\]/g;
const ENTRY = /^[\s>*|#-]*\**\[([A-Z][\w&.-]*)\]/;

/** The comments of a TypeScript text; its strings and indexing are left out. */
export function comments(text: string): string {
  return (text.match(/\/\/[^\n]*|\/\*[\s\S]*?\*\//g) ?? []).join('\n');
}

/** An entry of a list of sources. */
export interface Listed {
  readonly key: string;
  readonly line: string;
}

/** The entries of a list of sources. */
export function entriesOf(references: string): Listed[] {
  return references.split('\n').flatMap((line) => {
    const key = ENTRY.exec(line)?.[1];
    return key === undefined ? [] : [{ key, line }];
  });
}

/** Keys cited in the engine's comments without an entry, and entries nobody cites. */
export function citationFaults(files: readonly TextFile[], references: string): string[] {
  const entries = new Set<string>();
  const faults: string[] = [];
  for (const line of references.split('\n')) {
    const key = ENTRY.exec(line)?.[1];
    if (key === undefined) continue;
    if (entries.has(key)) faults.push(`${key}: two entries`);
    entries.add(key);
  }
  const cited = new Map<string, string>();
  for (const { path, text } of files) {
    if (!/^sim\/.*\.ts$/.test(path)) continue;
    for (const match of comments(text).matchAll(CITED)) cited.set(match[1] ?? '', path);
  }
  const data = files.filter(({ path }) => /^(sim\/.*\.ts|levels\/.*\.json)$/.test(path));
  for (const [key, path] of cited) {
    if (!entries.has(key)) faults.push(`${key}: cited in ${path}, no entry`);
  }
  for (const key of entries) {
    const used = new RegExp(`(?<![\\w-])${key.replace(/[.&-]/g, '\\$&')}(?![\\w-])`);
    if (!data.some(({ text }) => used.test(text))) faults.push(`${key}: entry nobody cites`);
  }
  return faults;
}

/** One asset of public/CREDITS.json. */
interface Credit {
  readonly file?: string;
  readonly origin?: string;
  readonly licence?: string;
}

/** Assets without a credit, credits without an asset, and credits that do not say enough. */
export function creditFaults(assets: readonly string[], credits: string): string[] {
  const { files } = JSON.parse(credits) as { files?: readonly Credit[] };
  if (!Array.isArray(files)) return ['CREDITS.json: no list named "files"'];
  const list: readonly Credit[] = files;
  const named = new Set(list.map(({ file }) => file));
  const faults = assets.filter((path) => !named.has(path)).map((path) => `${path}: no credit`);
  for (const { file, origin, licence } of list) {
    if (file === undefined || !assets.includes(file)) faults.push(`${file}: no such file`);
    if (!origin || !licence) faults.push(`${file}: origin or licence missing`);
  }
  return faults;
}

/** The keys of a words file, nested ones joined by dots. */
export function wordKeys(words: unknown, prefix = ''): string[] {
  if (words === null || typeof words !== 'object') return [prefix];
  return Object.entries(words).flatMap(([key, value]) =>
    wordKeys(value, prefix === '' ? key : `${prefix}.${key}`),
  );
}

const WORD_CALL = /(?<![\w.])t\(\s*(?:'([^']+)'|"([^"]+)"|`([^`$]*)(\$\{)?)/g;

/**
 * Words the pages ask for that are in no words file. A key put together while running counts as
 * found when some key begins as it does.
 */
export function wordFaults(files: readonly TextFile[], keys: readonly string[]): string[] {
  const faults: string[] = [];
  for (const { path, text } of files) {
    if (!/^game\/.*\.tsx?$/.test(path)) continue;
    for (const [, single, double, template, open] of text.matchAll(WORD_CALL)) {
      const key = single ?? double ?? template ?? '';
      const found =
        open === undefined ? keys.includes(key) : keys.some((known) => known.startsWith(key));
      if (!found) faults.push(`${path}: ${key}`);
    }
  }
  return faults;
}

/** A lint exception as listed, and a rule broken as reported. */
export interface Broken {
  readonly file: string;
  readonly rule: string;
}

/** Exceptions that excuse nothing any more, and those that give no reason. */
export function staleFaults(
  listed: readonly (Broken & { readonly reason: string })[],
  broken: readonly Broken[],
): string[] {
  return listed.flatMap(({ file, rule, reason }) => {
    const stale = !broken.some((one) => one.file === file && one.rule === rule);
    const faults = stale ? [`${file}: no longer breaks ${rule}`] : [];
    return reason.trim().length < 20 ? [...faults, `${file}: ${rule} without a reason`] : faults;
  });
}
