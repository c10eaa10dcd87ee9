// Mistakes and orders: every mistake of every job comes to its record and to what its file tells;
// and of each job twenty orders drawn from its partial order come to as much as one another, and
// twenty that break one constraint lose what that rule takes.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { isDeepStrictEqual } from 'node:util';
import { recordText } from '../../sim/record-schema.ts';
import { score } from '../../sim/score.ts';
import { PARTIAL } from '../support/orderings-jobs.ts';
import { drawn } from '../support/orderings.ts';
import { chance } from '../tools/chance.ts';
import { LEVELS, mistakeOf, mistakesOf, play, RULES } from '../tools/golden.ts';
import { costsOf, foundIn, toldBy, toldCosts } from '../tools/mistakes.ts';

type Say = (line: string) => void;
interface Found {
  readonly line: string;
  readonly failed: number;
}

const ORDERS = 20;
/** Marks between any two orders of a job. */
const APART = 2;

function mistakesAt(folder: string): Found {
  const wrong = mistakesOf(folder).filter((name) => {
    const { run, record, outcome } = play(folder, name);
    const found = foundIn(score(run.scenario, RULES, run.facts));
    const kept = readFileSync(join(LEVELS, folder, `${name}.record.json`), 'utf8');
    const told = isDeepStrictEqual(found, toldBy(mistakeOf(folder, name)));
    return outcome.end !== 'finished' || recordText(record) !== kept || !told;
  });
  const count = mistakesOf(folder).length;
  const text = wrong.length === 0 ? 'each costs what its file tells' : `FAILED ${wrong.join(', ')}`;
  return { line: `- ${folder}, ${count} mistakes: ${text}`, failed: wrong.length };
}

function ordersAt(folder: string, seed: number, say: Say): Found {
  const { breaks } = PARTIAL[folder]!;
  const totals: number[] = [];
  let failed = 0;
  for (let n = 0; n < ORDERS; n++) {
    const good = drawn(folder, PARTIAL[folder]!, chance(seed + n));
    totals.push(good.marks.total);
    const broken = breaks[n % breaks.length]!;
    const bad = drawn(folder, PARTIAL[folder]!, chance(seed + n), broken);
    const costs = costsOf(bad.marks).join();
    const wrong = bad.end !== 'finished' || costs !== toldCosts(broken.costs).join();
    if (good.end === 'finished' && !wrong) continue;
    failed += 1;
    const found = good.end === 'finished' ? `${broken.what}: ${bad.end}, ${costs}` : good.end;
    say(`FAILED ${folder} seed ${seed + n}: ${found}`);
  }
  const [least, most] = [Math.min(...totals), Math.max(...totals)];
  if (most - least > APART) failed += 1;
  const line =
    `- ${folder}, ${ORDERS} orders: ${least.toFixed(1)} to ${most.toFixed(1)} of 100; ` +
    `${ORDERS} with one of ${breaks.length} constraints broken: ` +
    (failed === 0 ? 'each loses what its rule takes' : `${failed} FAILED`);
  return { line, failed };
}

/** One job; as lines, and how many failed. */
export function mistakesAndOrders(
  folder: string,
  seed: number,
  say: Say,
): { text: string; failed: number } {
  const found = [() => mistakesAt(folder), () => ordersAt(folder, seed, say)].map((part) => {
    const one = part();
    say(one.line);
    return one;
  });
  const lines = found.map(({ line }) => line).join('\n');
  const failed = found.reduce((sum, one) => sum + one.failed, 0);
  return { text: `Seeds from ${seed} on.\n\n${lines}`, failed };
}
