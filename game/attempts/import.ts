// Reads attempts from files: each is run again, and what the run gives is kept, not what the file
// says of it.
import { levelOf } from '../assign/levels.ts';
import { taken } from '../assign/taken.ts';
import { t } from '../i18n/index.ts';
import { formOf, score, type Score } from '../../sim/index.ts';
import type { Answer, Pool } from '../verify/pool.ts';
import type { Report } from '../verify/report.ts';
import { reportText } from '../verify/text.ts';
import { drawId } from '../assign/ticket.ts';
import type { About, Kept } from './entry.ts';
import type { Library } from './library.ts';

export interface TextFile {
  readonly file: string;
  readonly text: string;
}

/** A file of many attempts comes apart into one text for each; any other stays as it is. */
export function textsOf({ file, text }: TextFile): readonly TextFile[] {
  let json: unknown;
  try {
    json = JSON.parse(text) as unknown;
  } catch {
    return [{ file, text }];
  }
  const many = manyOf(json);
  if (many === null) return [{ file, text }];
  return many.map((one, k) => ({ file: `${file} (${k + 1})`, text: JSON.stringify(one) }));
}

export function bundle(attempts: readonly unknown[]): unknown {
  return { format: 1, kind: 'attempts', attempts };
}

function manyOf(json: unknown): readonly unknown[] | null {
  if (typeof json !== 'object' || json === null) return null;
  const { kind, attempts } = json as Record<string, unknown>;
  return kind === 'attempts' && Array.isArray(attempts) ? attempts : null;
}

function aboutOf(report: Report, id: string, marks: Score | null): About {
  const { claims, verdict } = report;
  const { ticket, who, nth } = claims ?? { ticket: null, who: null, nth: null };
  const asked = verdict === 'ticket_differs' ? null : { ticket, label: who ?? '', nth: nth ?? 1 };
  const of = taken(asked);
  const assigned = of === null ? null : { ticket: of.ticket, label: of.label, nth: of.begun };
  return { id, assigned, imported: true, marks };
}

/** As the id of an attempt is written; any other text in its place gets a new one. */
const ATTEMPT_ID = /^[0-9a-f]{16}$/;

function marksOf({ saved }: Kept): Score | null {
  const level = levelOf(saved.record.scenario);
  const over = saved.facts.some(({ kind }) => kind === 'done');
  if (level === null || !over) return null;
  return score(formOf(level.scenario, saved.record.seed), level.rules, saved.facts);
}

/** Null where it is kept now; else why not, in words. */
async function keepOne(library: Library, { report, kept }: Answer): Promise<string | null> {
  if (report.rerun === null) return reportText(report);
  if (kept === null) return t('attempts.read_going');
  const said = report.claims?.id ?? null;
  const id = said !== null && ATTEMPT_ID.test(said) ? said : drawId();
  if ((await library.entry(id)) !== null) return t('attempts.read_again');
  const saved = await library.keep(kept, aboutOf(report, id, marksOf(kept)));
  await library.release(id);
  if (saved !== 'kept') return t('attempts.store_full', { file: report.file });
  return report.verdict === 'replays' ? null : reportText(report);
}

export interface Read {
  readonly count: number;
  readonly kept: number;
  /** A line for each file that was refused, or is not what it says. */
  readonly remarks: readonly string[];
}

export async function readFiles(
  files: readonly TextFile[],
  library: Library,
  pool: Pool,
  progress: (done: number, count: number) => void,
): Promise<Read> {
  const texts = files.flatMap(textsOf);
  const remarks: string[] = [];
  let [done, kept] = [0, 0];
  progress(0, texts.length);
  await Promise.all(texts.map(async ({ file, text }) => {
    const answer = await pool.check(file, text, 'kept');
    const why = await keepOne(library, answer);
    const stands = answer.kept !== null && answer.report.rerun !== null;
    if (why === null || (stands && why === reportText(answer.report))) kept += 1;
    if (why !== null) remarks.push(t('attempts.read_refused', { file, why }));
    done += 1;
    progress(done, texts.length);
  }));
  return { count: texts.length, kept, remarks: remarks.sort() };
}
