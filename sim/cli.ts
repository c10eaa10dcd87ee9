// The headless command line: runs scenarios, plays hand scripts, replays and marks records, solves
// for steady flow, asks laws. JSON on stdout; faults also one to a line on stderr. Nothing is
// written on bad input.
import { HELP } from './cli/help.ts';
import { answer } from './cli/verbs.ts';
import { InputFaults } from './fault.ts';

main(process.argv.slice(2));

function main(args: readonly string[]): void {
  if (args.length === 0 || args.includes('--help') || args.includes('-h')) {
    process.stdout.write(HELP);
    process.exitCode = args.length === 0 ? 2 : 0;
    return;
  }
  try {
    const { code, json } = answer(args);
    process.stdout.write(`${JSON.stringify(json, null, 2)}\n`);
    process.exitCode = code;
  } catch (error) {
    if (!(error instanceof InputFaults)) {
      process.stderr.write(`${error instanceof Error ? (error.stack ?? '') : String(error)}\n`);
      process.exitCode = 70;
      return;
    }
    process.stdout.write(`${JSON.stringify({ faults: error.faults }, null, 2)}\n`);
    for (const fault of error.faults) {
      const file = 'file' in fault ? `${String(fault.file)}: ` : '';
      process.stderr.write(`${file}${fault.path}: ${fault.message}\n`);
    }
    process.exitCode = 2;
  }
}
