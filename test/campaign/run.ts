// What takes too long for the test command: random loops by the hundred thousand commands, and
// hands that know nothing at every job for as long as it may last. Writes REPORT.md beside it.
//   node --import tsx test/campaign/run.ts [--commands 100000] [--hands 200] [--seed N]
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { parseRules } from '../../sim/rules.ts';
import { score } from '../../sim/score.ts';
import { ENGINE } from '../../sim/version.ts';
import { chance } from '../tools/chance.ts';
import { folders, LEVELS, readJson, scenarioOf } from '../tools/golden.ts';
import { randomHands, worked } from '../tools/job-hands.ts';
import { noFigures, told, work } from './hunt.ts';

const REPORT = fileURLToPath(new URL('REPORT.md', import.meta.url));
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
  const rules = parseRules(readJson(LEVELS, 'rules.json'));
  let passed = 0;
  let best = 0;
  let minutes = 0;
  for (let n = 0; n < count; n++) {
    const random = chance(first + n);
    const time = JOB_MIN * random.unit();
    minutes += time;
    const { facts } = worked(scenario, first + n, time, randomHands(scenario, random));
    const marks = score(scenario, rules, facts);
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

const { values } = parseArgs({
  options: {
    commands: { type: 'string', default: '100000' },
    hands: { type: 'string', default: '200' },
    seed: { type: 'string', default: String(Date.now() % 1_000_000_000) },
  },
});
const [commands, hands, seed] = [values.commands, values.hands, values.seed].map(Number);
if (![commands, hands, seed].every(Number.isSafeInteger)) {
  console.error('--commands, --hands and --seed are whole numbers');
  process.exit(2);
}
const began = Date.now();
console.log(`seed ${seed}`);
const parts = [hunt(commands!, seed!)];
console.log(parts[0]!.line);
for (const folder of folders) {
  const part = handsAt(folder, hands!, seed!);
  parts.push(part);
  console.log(part.line);
}
const git = (...args: string[]): string =>
  execFileSync('git', args, { cwd: LEVELS, encoding: 'utf8' }).trim();
const changed = git('status', '--porcelain', '--', '../sim', '../levels') === '' ? '' : ', changed';
const seconds = ((Date.now() - began) / 1000).toFixed(0);
const machine = `Node ${process.versions.node}, ${cpus()[0]?.model ?? 'unknown processor'}`;
writeFileSync(
  REPORT,
  `# Campaign

Written by \`npm run campaign\`; the same figures come again with the seed and the commit.

- Commit ${git('rev-parse', '--short', 'HEAD')}${changed}, engine ${ENGINE}, seed ${seed}
- ${new Date().toISOString().slice(0, 10)}, ${machine}, ${seconds} s

${parts.map(({ line }) => `- ${line}`).join('\n')}
`,
);
process.exitCode = parts.every(({ failed }) => failed === 0) ? 0 : 1;
