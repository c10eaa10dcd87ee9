// Forms of every job, by the solution's hands: each is passed, by what is seen alone, and none is
// worth much more than another.
import { isDay } from '../tools/days.ts';
import { formRun, formText } from '../tools/form-runs.ts';
import { folders } from '../tools/golden.ts';

type Say = (line: string) => void;

/** Marks that each form must be worth, and how far any two may be apart. */
const LEAST = 90;
const APART = 2;
/** A day takes minutes of a slow machine, a short job seconds. */
const DAYS_IN = 4;

function formsAt(folder: string, first: number, count: number): { line: string; failed: number } {
  const runs = Array.from({ length: count }, (_, k) => formRun(folder, first + k));
  const bad = runs.filter(({ marks }) => !marks.passed || marks.total < LEAST);
  const totals = runs.map(({ marks }) => marks.total);
  const [low, high] = [Math.min(...totals), Math.max(...totals)];
  const apart = high - low > APART;
  const wrong = [
    ...bad.map((run) => `FAILED ${formText(run)}`),
    ...(apart ? ['TOO FAR APART'] : []),
  ];
  const line = `- ${folder}: ${count} forms, ${low.toFixed(2)} to ${high.toFixed(2)} of 100`;
  return { line: [line, ...wrong].join('; '), failed: bad.length + (apart ? 1 : 0) };
}

/** `count` forms of each job from seed `first` on, a quarter as many of a whole day. */
export function forms(first: number, count: number, say: Say): { text: string; failed: number } {
  let failed = 0;
  const lines = folders.map((folder) => {
    const part = formsAt(folder, first, isDay(folder) ? Math.ceil(count / DAYS_IN) : count);
    say(part.line);
    failed += part.failed;
    return part.line;
  });
  return { text: [`Seeds from ${first} on.`, '', ...lines].join('\n'), failed };
}
