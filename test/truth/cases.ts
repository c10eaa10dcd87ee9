// The table of published checks, cases.json, and what the project answers to each of its rows.
// Values and tolerances come from outside the project; a row that does not hold is a fault of the
// law or of the row, and its tolerance is not to be widened.
import { readFileSync } from 'node:fs';
import { BUBBLES } from './ask/bubbles.ts';
import { DISSOLVED } from './ask/dissolved.ts';
import { DEBRIS } from './ask/debris.ts';
import { DEFECTS } from './ask/defects.ts';
import { FLOWS } from './ask/flows.ts';
import { GAS_AND_MACHINES } from './ask/gas-machines.ts';
import { HEAT } from './ask/heat.ts';
import { MIXING } from './ask/mixing.ts';
import { LAYERS } from './ask/layers.ts';
import { PIPES_AND_FLUIDS } from './ask/pipes-fluids.ts';
import { POCKETS } from './ask/pockets.ts';
import { POWER } from './ask/power.ts';
import { PUMPS } from './ask/pumps.ts';
import { SURGES } from './ask/surge.ts';
import { STOPS } from './ask/stops.ts';
import { TANKS } from './ask/tanks.ts';
import { WALLS } from './ask/walls.ts';
import { WORLDS } from './ask/worlds.ts';

/**
 * `transcribed`: our own formula on both sides, so that the row proves that it was typed in well
 * and no more. `independent`: another method came to the value. `measurement`: somebody measured.
 */
export const KINDS = ['transcribed', 'independent', 'measurement'] as const;
export type Kind = (typeof KINDS)[number];
export type Answer = number | readonly number[];

/**
 * `calc`: a function of origin/, put the row's own input. `table`: entries of what is printed.
 * `bounds`: the answer lies between two numbers, and the row says their middle. `exact`: the
 * question is asked so that the answer is a whole number, with no calculation in it.
 */
export type Origin =
  | { readonly calc: string }
  | { readonly table: string; readonly at: readonly string[] }
  | { readonly bounds: readonly [lo: number, hi: number]; readonly why: string }
  | { readonly exact: number; readonly why: string };

export interface Case {
  readonly id: string;
  readonly name: string;
  /** The question, a key of ASK. Those of whole worlds begin with `world.` */
  readonly ask: string;
  readonly input: unknown;
  readonly expected: Answer;
  readonly tolerance: { readonly rel?: number; readonly abs?: number };
  /** Why the tolerance is what it is. */
  readonly reason: string;
  readonly source: string;
  readonly kind: Kind;
  /** Where an independent value or a measurement comes from; held against it in origins.test.ts. */
  readonly origin?: Origin;
}

/** Inputs come from a file, so their shape is the file's promise: hence the one cast. */
export const ASK = {
  ...PIPES_AND_FLUIDS,
  ...GAS_AND_MACHINES,
  ...WORLDS,
  ...FLOWS,
  ...HEAT,
  ...WALLS,
  ...BUBBLES,
  ...DISSOLVED,
  ...LAYERS,
  ...STOPS,
  ...PUMPS,
  ...POWER,
  ...POCKETS,
  ...TANKS,
  ...SURGES,
  ...MIXING,
  ...DEBRIS,
  ...DEFECTS,
} as unknown as Readonly<Record<string, ((input: unknown) => Answer) | undefined>>;

export const CASES = JSON.parse(
  readFileSync(new URL('cases.json', import.meta.url), 'utf8'),
) as readonly Case[];

export const isWorld = ({ ask }: Case): boolean => ask.startsWith('world.');

/** What the project answers, as a list; throws where nothing answers the question. */
export function answerTo({ id, ask, input }: Case): readonly number[] {
  const question = ASK[ask];
  if (question === undefined) throw new Error(`${id} asks ${ask}, which nothing answers`);
  return [question(input)].flat();
}

/** How far each number of a row may be off. */
export function allowed({ expected, tolerance }: Case): readonly number[] {
  return [expected].flat().map((want) => tolerance.abs ?? tolerance.rel! * Math.abs(want));
}

/** What is wrong with an answer, or nothing. */
export function faults(row: Case, got: readonly number[]): string[] {
  const want = [row.expected].flat();
  if (got.length !== want.length) return [`${got.length} answers for ${want.length}`];
  const most = allowed(row);
  return want.flatMap((w, k) =>
    Math.abs(got[k]! - w) <= most[k]! ? [] : [`${got[k]} for ${w}, allowed ${most[k]}`],
  );
}
