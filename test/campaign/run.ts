// What takes too long for the test command: random loops and hands, frost, finer ticks and cells,
// whole days, every mistake and many orders, players, forms, EPANET's speed. Writes REPORT.md here;
// --hunt, --winter, --convergence, --days, --mistakes, --players, --forms or --bench run that part
// alone, --wrong wrong players without the reference; --jobs A,B mistakes and players at those jobs
// alone, each in a section of its own, so that several processes can run side by side.
//   npm run campaign -- [--commands 100000] [--hands 200] [--seeds 50] [--seed N] [--jobs A,B]
import { parseArgs } from 'node:util';
import { score } from '../../sim/score.ts';
import { chance } from '../tools/chance.ts';
import { folders, RULES, scenarioOf } from '../tools/golden.ts';
import { randomHands, worked } from '../tools/job-hands.ts';
import { benchEpanet } from './bench-epanet.ts';
import { study } from './convergence.ts';
import { days } from './days.ts';
import { forms } from './forms.ts';
import { noFigures, told, work } from './hunt.ts';
import { mistakesAndOrders } from './mistakes.ts';
import { PLAYER_JOBS, referenceOf, wrongOf } from './players.ts';
import { provenance, writeSection } from './report.ts';
import { winters } from './winter.ts';

/** Commands for each loop. */
const EACH = 50;
/** Failures after which the hunt ends. */
const ENOUGH = 50;
/** min of a job. Solutions take 13 to 36. */
const JOB_MIN = 40;

function hunt(commands: number, first: number): { line: string; failed: number } {
  const figures = noFigures();
  let failed = 0;
  for (let seed = first; figures.commands < commands && failed < ENOUGH; seed++) {
    const failure = work(seed, EACH, figures);
    if (failure === null) continue;
    failed += 1;
    console.log(`FAILED seed ${seed}, command ${failure.command}: ${failure.what}`);
    console.log(`  kept in ${failure.file}`);
  }
  return { line: `Random loops: ${told(figures)}; ${failed} failed.`, failed };
}

/** Hands at one job; each works for a time drawn evenly from 0 to JOB_MIN. */
function handsAt(folder: string, count: number, first: number): { line: string; failed: number } {
  const scenario = scenarioOf(folder);
  let passed = 0;
  let best = 0;
  let minutes = 0;
  for (let n = 0; n < count; n++) {
    const random = chance(first + n);
    const time = JOB_MIN * random.unit();
    minutes += time;
    const { facts } = worked(scenario, first + n, time, randomHands(scenario, random));
    const marks = score(scenario, RULES, facts);
    best = Math.max(best, marks.total);
    if (!marks.passed) continue;
    passed += 1;
    console.log(`FAILED ${folder} seed ${first + n}: hands that know nothing passed`);
  }
  const line =
    `Hands that know nothing at ${folder}: ${count} jobs of ${(minutes / count).toFixed(0)} min ` +
    `on average, ${passed} passed; the best came to ${best.toFixed(1)} of 100.`;
  return { line, failed: passed };
}

/** Both hunts; how many failed. */
function huntAll(commands: number, hands: number, seed: number): number {
  const began = Date.now();
  console.log(`seed ${seed}`);
  const parts = [hunt(commands, seed)];
  console.log(parts[0]!.line);
  for (const folder of folders) {
    const part = handsAt(folder, hands, seed);
    parts.push(part);
    console.log(part.line);
  }
  const lines = parts.map(({ line }) => `- ${line}`).join('\n');
  writeSection('Random loops and hands', `${provenance(began, `seed ${seed}`)}\n\n${lines}`);
  return parts.reduce((sum, { failed }) => sum + failed, 0);
}

interface Part {
  readonly text: string;
  readonly failed: number;
}

async function written(title: string, part: () => Part | Promise<Part>): Promise<number> {
  const began = Date.now();
  const { text, failed } = await part();
  writeSection(title, `${provenance(began)}\n\n${text}`);
  return failed;
}

const { values } = parseArgs({
  options: {
    commands: { type: 'string', default: '100000' },
    hands: { type: 'string', default: '200' },
    seed: { type: 'string', default: String(Date.now() % 1_000_000_000) },
    hunt: { type: 'boolean', default: false },
    convergence: { type: 'boolean', default: false },
    bench: { type: 'boolean', default: false },
    winter: { type: 'boolean', default: false },
    days: { type: 'boolean', default: false },
    mistakes: { type: 'boolean', default: false },
    players: { type: 'boolean', default: false },
    wrong: { type: 'boolean', default: false },
    jobs: { type: 'string', default: PLAYER_JOBS.join() },
    forms: { type: 'boolean', default: false },
    seeds: { type: 'string', default: '50' },
  },
});
const numbers = [values.commands, values.hands, values.seed, values.seeds].map(Number);
const [commands, hands, seed, seeds] = numbers;
if (!numbers.every(Number.isSafeInteger)) {
  console.error('--commands, --hands, --seeds and --seed are whole numbers');
  process.exit(2);
}
const jobs = values.jobs.split(',');
const unknown = jobs.filter((job) => !PLAYER_JOBS.includes(job));
if (unknown.length > 0) {
  console.error(`--jobs are some of ${PLAYER_JOBS.join()}, not ${unknown.join()}`);
  process.exit(2);
}
const { hunt: hunted, convergence, bench, winter, days: played } = values;
const own = [values.players, values.wrong, values.forms, values.mistakes];
const all = ![hunted, convergence, bench, winter, played, ...own].includes(true);
const at = { first: seed!, count: seeds! };
let failed = 0;
if (all || values.hunt) failed += huntAll(commands!, hands!, seed!);
if (all || values.convergence) {
  failed += await written('Finer ticks and cells', () => study(console.log));
}
if (all || values.winter) {
  failed += await written('Two hours in the frost', () => winters(seed!, console.log));
}
if (all || played) failed += await written('Whole days', () => days(console.log));
if (all || values.mistakes) {
  const first = 2 + (seed! % 1e6);
  for (const job of jobs) {
    failed += await written(`Mistakes and orders at ${job}`, () =>
      mistakesAndOrders(job, first, console.log),
    );
  }
}
if (all || values.players) {
  for (const job of jobs) {
    failed += await written(`Players at ${job}`, () => referenceOf(job, at, console.log));
  }
}
if (all || values.players || values.wrong) {
  for (const job of jobs) {
    failed += await written(`Wrong players at ${job}`, () => wrongOf(job, at, console.log));
  }
}
if (all || values.forms) {
  failed += await written('Forms of every job', () =>
    forms(2 + (seed! % 1e6), seeds!, console.log),
  );
}
if (all || values.bench) failed += await written('Speed against EPANET', benchEpanet);
process.exitCode = failed === 0 ? 0 : 1;
