// The long hunt: random loops and hands until so many commands have been given.
//   node --import tsx test/campaign/loops.ts [commands, 100000] [seed, from the clock]
import { noFigures, told, work, type Failure } from './hunt.ts';

const wanted = Number(process.argv[2] ?? 100000);
const first = Number(process.argv[3] ?? process.env['LOOPYARD_SEED'] ?? Date.now() % 1000000000);
/** Commands for each loop. */
const EACH = 50;

const figures = noFigures();
const failures: Failure[] = [];
const began = Date.now();
console.log(`seed ${first}: ${wanted} commands`);
for (let seed = first; figures.commands < wanted && failures.length < 50; seed++) {
  const failure = work(seed, EACH, figures);
  if (failure === null) continue;
  failures.push(failure);
  console.log(`FAILED seed ${seed}, command ${failure.command}: ${failure.what} [${failure.file}]`);
}
const seconds = (Date.now() - began) / 1000;
console.log(`seed ${first}: ${told(figures)}; ${seconds.toFixed(0)} s, ${failures.length} failed`);
process.exitCode = failures.length === 0 ? 0 : 1;
