// The class sheet: what many reports say together. Which files are the same attempt, which hold the
// same timed inputs, and what the class loses its points for. Pure; the page draws it.
import type { Deduction } from '../../sim/index.ts';
import type { Report } from '../verify/report.ts';

export const FLAGS = ['same', 'inputs', 'plain'] as const;
export interface Flag {
  readonly kind: (typeof FLAGS)[number];
  /** The other file; empty where none is meant. */
  readonly file: string;
}

export interface SheetRow {
  readonly report: Report;
  readonly flags: readonly Flag[];
}

export interface Common {
  readonly rule: string;
  readonly job: string;
  /** The heaviest of them, whose words stand for all. */
  readonly example: Deduction;
  /** In how many attempts, of how many at that job, and points lost in all of them. */
  readonly attempts: number;
  readonly of: number;
  readonly points: number;
}

export interface ClassSheet {
  readonly rows: readonly SheetRow[];
  readonly good: number;
  /** Attempts that count below: run again, each once. */
  readonly counted: number;
  readonly common: readonly Common[];
}

const text = (report: Report): string => report.claims?.who ?? '';

/** The other file that is the same attempt, by its own id or by its content. */
function twin(report: Report, all: readonly Report[]): Report | undefined {
  const same = (key: string | null | undefined, other: string | null | undefined): boolean =>
    key !== null && key !== undefined && key === other;
  return all.find((one) => one !== report
    && (same(report.content, one.content) || same(report.claims?.id, one.claims?.id)));
}

function flagsOf(report: Report, all: readonly Report[]): Flag[] {
  const flags: Flag[] = [];
  const same = twin(report, all);
  if (same !== undefined) flags.push({ kind: 'same', file: same.file });
  const inputs = all.find((one) => one !== report && one !== same && report.inputs !== null
    && one.inputs === report.inputs && one.claims?.job === report.claims?.job);
  if (inputs !== undefined) flags.push({ kind: 'inputs', file: inputs.file });
  if (report.claims !== null && report.claims.ticket === null) {
    flags.push({ kind: 'plain', file: '' });
  }
  return flags;
}

/** Of the same attempt in two files only the first counts. */
function counted(reports: readonly Report[]): readonly Report[] {
  return reports.filter((report, at) =>
    report.rerun !== null && twin(report, reports.slice(0, at + 1)) === undefined);
}

function commonOf(reports: readonly Report[]): readonly Common[] {
  const found = new Map<string, Common>();
  for (const { rerun, claims } of reports) {
    const before = new Set<string>();
    for (const one of rerun?.score.deductions ?? []) {
      if (one.points <= 0) continue;
      const key = `${claims?.job ?? ''} ${one.rule}`;
      const old = found.get(key);
      const example = old !== undefined && old.example.points >= one.points ? old.example : one;
      found.set(key, {
        rule: one.rule, job: claims?.job ?? '', example,
        attempts: (old?.attempts ?? 0) + (before.has(key) ? 0 : 1),
        of: reports.filter((other) => other.claims?.job === claims?.job).length,
        points: (old?.points ?? 0) + one.points,
      });
      before.add(key);
    }
  }
  return [...found.values()].sort((a, b) => b.attempts - a.attempts || b.points - a.points);
}

/** By trainee, then by file; those without a name last. */
export function classSheet(reports: readonly Report[]): ClassSheet {
  const sorted = [...reports].sort((a, b) => {
    const [x, y] = [text(a), text(b)];
    if ((x === '') !== (y === '')) return x === '' ? 1 : -1;
    return x.localeCompare(y) || a.file.localeCompare(b.file);
  });
  const own = counted(sorted);
  return {
    rows: sorted.map((report) => ({ report, flags: flagsOf(report, sorted) })),
    good: sorted.filter(({ verdict }) => verdict === 'replays').length,
    counted: own.length,
    common: commonOf(own),
  };
}
