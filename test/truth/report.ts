// Writes REPORT.md: every row of the table of published checks, what the project answers, and how
// much of what is allowed that takes up. npm run truth
import { writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { ENGINE } from '../../sim/version.ts';
import { allowed, answerTo, CASES, faults, isWorld, KINDS, type Case } from './cases.ts';

const REPORT = fileURLToPath(new URL('REPORT.md', import.meta.url));

const digits = (x: number): string => String(Number(x.toPrecision(5)));
const list = (numbers: readonly number[]): string => numbers.map(digits).join(', ');
const cell = (text: string): string => text.replaceAll('|', '\\|');

function originOf({ origin }: Case): string {
  if (origin === undefined) return '';
  if ('calc' in origin) return `origin/ ${origin.calc}`;
  if ('table' in origin) return `tables.json ${origin.table}: ${origin.at.join('; ')}`;
  return 'bounds' in origin ? `bounds: ${origin.why}` : `exact: ${origin.why}`;
}

function tolerance({ tolerance: { rel, abs } }: Case): string {
  return rel === undefined ? `${digits(abs!)}` : `${digits(100 * rel)} %`;
}

const COLUMNS = [
  'id',
  'what',
  'kind',
  'expected',
  'got',
  'tolerance',
  'of it used',
  'why',
  'source',
  'origin',
];
const HEAD = `| ${COLUMNS.join(' | ')} |`;
const RULE = `|${'---|'.repeat(COLUMNS.length)}`;

interface Line {
  readonly row: Case;
  readonly got: readonly number[];
  readonly faults: readonly string[];
  /** Largest difference over what is allowed. */
  readonly used: number;
}

function ask(row: Case): Line {
  const got = answerTo(row);
  const want = [row.expected].flat();
  const most = allowed(row);
  const used = Math.max(...want.map((w, k) => Math.abs((got[k] ?? NaN) - w) / most[k]!));
  return { row, got, faults: faults(row, got), used };
}

function table(lines: readonly Line[]): string {
  const rows = lines.map(({ row, got, used, faults: wrong }) =>
    [
      row.id,
      cell(row.name),
      row.kind,
      list([row.expected].flat()),
      list(got),
      tolerance(row),
      wrong.length === 0 ? `${(100 * used).toFixed(0)} %` : '**does not hold**',
      cell(row.reason),
      cell(row.source),
      cell(originOf(row)),
    ].join(' | '),
  );
  return [HEAD, RULE, ...rows.map((row) => `| ${row} |`)].join('\n');
}

const lines = CASES.map(ask);
const worlds = lines.filter(({ row }) => isWorld(row));
const laws = lines.filter(({ row }) => !isWorld(row));
const broken = lines.filter((line) => line.faults.length > 0);
const holding = broken.length === 0 ? 'all hold' : `${broken.length} do not hold`;
const counts = KINDS.map((kind) => {
  const [inLaws, inWorlds] = [laws, worlds].map(
    (some) => some.filter(({ row }) => row.kind === kind).length,
  );
  return `| ${kind} | ${inLaws} | ${inWorlds} |`;
}).join('\n');

writeFileSync(
  REPORT,
  `# Published checks

Written by \`npm run truth\` with engine ${ENGINE} from \`cases.json\`:
${lines.length} rows, ${holding}.
Transcribed: our own formula stands on both sides, so that the row proves no more than that it was
typed in well. Independent: another method came to the expected value. Measurement: somebody
measured it. A source from memory says so. Origin: where an independent value is worked out again
without the engine (\`origin/\`), or what is printed (\`origin/tables.json\`), and held against the
row. Worlds are built by \`createWorld\` and run by \`step\`; laws are called alone.

| kind | laws | worlds |
|---|---|---|
${counts}

## Whole worlds

${table(worlds)}

## Laws

${table(laws)}
`,
);
console.log(`laws and worlds by kind:\n${counts}`);
console.log(`${lines.length} rows, ${broken.length} do not hold`);
for (const { row, faults: wrong } of broken) console.log(`  ${row.id}: ${wrong.join('; ')}`);
process.exitCode = broken.length === 0 ? 0 : 1;
