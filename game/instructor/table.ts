// The class sheet as rows of a table for a spreadsheet: plain numbers, keys in the units' names.
import { titleById } from '../jobs.ts';
import { DIMENSIONS } from '../../sim/index.ts';
import { reportText } from '../verify/text.ts';
import type { ClassSheet, SheetRow } from './sheet.ts';

type Cell = string | number | null;

const HEAD = [
  'trainee', 'file', 'assignment', 'job', 'mode', 'attempt', 'seed', 'began', 'ended', 'verdict',
  'what_was_found', 'finished', 'passed', 'why_not', 'total', ...DIMENSIONS, 'critical_errors',
  'time_s',
  'looks_inside', 'absences', 'away_s', 'flags',
] as const;

const tenth = (value: number): number => Math.floor(value * 10 + 1e-6) / 10;

function cells({ report, flags }: SheetRow): readonly Cell[] {
  const { claims, rerun, file, verdict } = report;
  const marks = rerun?.score ?? null;
  const points = DIMENSIONS.map((dimension) => {
    const found = marks?.dimensions.find((one) => one.dimension === dimension);
    return found === undefined ? null : tenth(found.points);
  });
  return [
    claims?.who ?? '', file, claims?.ticket?.name ?? '', titleById(claims?.job ?? ''),
    claims?.mode ?? '', claims?.nth ?? null, claims?.seed ?? null, claims?.began ?? '',
    claims?.ended ?? '', verdict, reportText(report), yesNo(rerun?.finished),
    yesNo(marks?.passed), (marks?.reasons ?? []).join('; '),
    marks === null ? null : tenth(marks.total), ...points,
    (marks?.critical ?? []).map(({ hazard, at }) => `${hazard} ${at}`).join('; '),
    rerun === null ? null : Math.round(rerun.time_s), claims?.looks ?? null,
    claims?.absences ?? null, claims?.away_s ?? null,
    flags.map(({ kind, file: other }) => `${kind} ${other}`.trim()).join('; '),
  ];
}

const yesNo = (value: boolean | undefined): string =>
  value === undefined ? '' : value ? 'yes' : 'no';

export function tableOf(sheet: ClassSheet): readonly (readonly Cell[])[] {
  return [HEAD, ...sheet.rows.map(cells)];
}
