// Words by key: t() for the pages' own words, whose keys the compiler checks, and a Lexicon for
// those of a level, whose keys a test checks. A value in braces is put in as it is written.
import { number } from './format.ts';
import attempts from './attempts.en.json';
import en from './en.json';
import review from './review.en.json';

const WORDS = { ...en, ...attempts, ...review };
export type WordKey = keyof typeof WORDS;
export type Values = Readonly<Record<string, string | number>>;

const NONE: Values = {};

/** A missing value stays visible as its name in braces, so that a test or a reader finds it. */
export function fill(text: string, values: Values): string {
  return text.replace(/\{(\w+)\}/g, (whole, name: string) => {
    const value = values[name];
    if (value === undefined) return whole;
    return typeof value === 'number' ? number(value) : value;
  });
}

export function t(key: WordKey, values: Values = NONE): string {
  return fill(WORDS[key], values);
}

/** True where `key` is one of the pages' own words; for keys put together from an id. */
export function isWord(key: string): key is WordKey {
  return Object.hasOwn(WORDS, key);
}

/** The words of a level. A key it does not have is shown as it is: better than nothing. */
export interface Lexicon {
  readonly has: (key: string) => boolean;
  readonly say: (key: string, values?: Values) => string;
  /** Name of a part or an instrument: "suction valve". */
  readonly part: (id: string) => string;
  /** Keys that begin so, in the order in which they are written. */
  readonly list: (prefix: string) => readonly string[];
}

export function lexicon(words: Readonly<Record<string, string>>): Lexicon {
  const say = (key: string, values: Values = NONE): string => fill(words[key] ?? key, values);
  return {
    has: (key) => Object.hasOwn(words, key),
    say,
    part: (id) => words[`part.${id}`] ?? words[`reading.${id}`] ?? id,
    list: (prefix) => Object.keys(words).filter((key) => key.startsWith(prefix)),
  };
}

/** The first letter large, as at the start of a label. */
export function upper(text: string): string {
  return text.charAt(0).toLocaleUpperCase() + text.slice(1);
}
