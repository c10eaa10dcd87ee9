// The class sheet on the page and on paper: a line for each file, then what costs the class points.
import { levelOf } from '../assign/levels.ts';
import { formName } from '../forms.ts';
import { clock, figure, list, moment } from '../i18n/format.ts';
import { lexicon, t, upper } from '../i18n/index.ts';
import {
  CheckSign, CrossSign, FileSign, PrintSign, StopSign, WarnSign,
} from '../icons/icons.tsx';
import { titleById } from '../jobs.ts';
import { downloadText } from '../records/attempt.ts';
import {
  criticalText, deductionText, durationText, lostText, pointsText, shortReasons,
} from '../verdict.ts';
import { reportText } from '../verify/text.ts';
import type { Report } from '../verify/report.ts';
import { csvText } from './csv.ts';
import type { ClassSheet, Common, Flag, SheetRow } from './sheet.ts';
import { tableOf } from './table.ts';

function flagText({ kind, file }: Flag): string {
  switch (kind) {
    case 'same': return t('instructor.flag_same', { file });
    case 'inputs': return t('instructor.flag_inputs', { file });
    case 'plain': return t('instructor.flag_plain');
  }
}

/** What an instructor may want to ask about; no marks. */
function remarksOf({ claims }: Report): readonly string[] {
  if (claims === null) return [];
  const lines = claims.ticket === null ? [] : [claims.ticket.name];
  if (claims.mode !== null) lines.push(t(`mode.${claims.mode}`));
  if (levelOf(claims.job)?.scenario.ranges !== undefined) lines.push(formName(claims.seed));
  if (claims.nth !== null) lines.push(t('instructor.nth', { n: claims.nth }));
  if (claims.looks > 0) lines.push(t('instructor.looks', { n: claims.looks }));
  if (claims.absences > 0) {
    const time = durationText(claims.away_s);
    lines.push(t('instructor.away', { n: claims.absences, time }));
  }
  return lines;
}

/** Critical errors first, then what else it did not pass for. */
function WhyNot({ report: { rerun, claims } }: { readonly report: Report }) {
  const level = levelOf(claims?.job ?? '');
  if (rerun === null || level === null || rerun.score.passed) return <>–</>;
  const { score } = rerun;
  const ground = { lex: lexicon(level.words), score, scenario: level.scenario };
  return (
    <>
      {score.critical.map((one) => (
        <span key={one.tick} class="why-critical"><StopSign /> {criticalText(one, ground)} </span>
      ))}
      {shortReasons(score, ground.lex).join(' ')}
    </>
  );
}

function Row({ row: { report, flags } }: { readonly row: SheetRow }) {
  const { claims, rerun, file, verdict } = report;
  const good = verdict === 'replays';
  const total = rerun === null ? '–' : pointsText(rerun.score.total);
  const who = claims?.who?.trim() ?? '';
  return (
    <tr data-verdict={verdict}>
      <th scope="row">
        {who === '' ? <span class="hint">{t('instructor.no_label')}</span> : who}
        <span class="hint block">{file}</span>
      </th>
      <td data-label={t('instructor.col_job')}>
        {claims === null ? '–' : titleById(claims.job)}
        <span class="hint block">{remarksOf(report).join(' · ')}</span>
      </td>
      <td data-label={t('instructor.col_verdict')}>
        <span class="verdict-line" data-good={good}>
          {good ? <CheckSign /> : <CrossSign />} {upper(reportText(report))}
        </span>
        {flags.map((flag) => (
          <span key={flag.kind} class="flag" data-kind={flag.kind}>
            {flag.kind !== 'plain' && <WarnSign />} {upper(flagText(flag))}
          </span>
        ))}
      </td>
      <td data-label={t('instructor.col_total')} class="number">{total}</td>
      <td data-label={t('instructor.col_passed')}>{passedText(report)}</td>
      <td data-label={t('instructor.col_why')}><WhyNot report={report} /></td>
      <td data-label={t('instructor.col_time')} class="number">
        {rerun === null ? '–' : clock(rerun.time_s)}
      </td>
    </tr>
  );
}

function passedText({ rerun }: Report): string {
  if (rerun === null) return '–';
  if (!rerun.finished) return t('instructor.going');
  return t(rerun.score.passed ? 'instructor.yes' : 'instructor.no');
}

function CommonRow({ common }: { readonly common: Common }) {
  const level = levelOf(common.job);
  if (level === null) return null;
  const ground = { lex: lexicon(level.words), scenario: level.scenario };
  const { message } = deductionText(common.example, ground, level.rules.sources);
  return (
    <tr>
      <th scope="row">
        {message} <span class="hint block">{titleById(common.job)}</span>
      </th>
      <td class="number">
        {t('instructor.common_of', {
          n: figure(common.attempts, 0), count: figure(common.of, 0),
        })}
      </td>
      <td class="number">{lostText(common.points)}</td>
    </tr>
  );
}

function CommonTable({ sheet }: { readonly sheet: ClassSheet }) {
  return (
    <section aria-labelledby="common">
      <h3 id="common">{t('instructor.common')}</h3>
      {sheet.common.length > 0 && <p class="hint">{t('instructor.common_hint')}</p>}
      {sheet.common.length === 0 ? <p>{t('instructor.common_none')}</p> : (
        <table class="common">
          <thead>
            <tr>
              <th scope="col">{t('instructor.common_rule')}</th>
              <th scope="col">{t('instructor.common_who')}</th>
              <th scope="col">{t('instructor.common_points')}</th>
            </tr>
          </thead>
          <tbody>
            {sheet.common.map((common) => (
              <CommonRow key={`${common.job} ${common.rule}`} common={common} />
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

/** How many passed, and which files want a look before their marks are believed. */
function Summary({ sheet: { rows, good } }: { readonly sheet: ClassSheet }) {
  const count = rows.length;
  const passed = rows.filter(({ report }) =>
    report.verdict === 'replays' && report.rerun?.score.passed === true).length;
  const odd = rows.filter(({ report, flags }) =>
    report.verdict !== 'replays' || flags.some(({ kind }) => kind !== 'plain'));
  const names = odd.map(({ report: { claims, file } }) => claims?.who?.trim() || file);
  return (
    <>
      <p>
        {t('instructor.sheet_count', { n: count, good, bad: count - good })}
        {' '}{t('instructor.sheet_passed', { n: passed, count: good })}
      </p>
      {odd.length > 0 && (
        <p class="look-first"><WarnSign /> {t('instructor.look_first', { list: list(names) })}</p>
      )}
    </>
  );
}

export function ClassSheetView({ sheet }: { readonly sheet: ClassSheet }) {
  const { rows } = sheet;
  const save = () => downloadText('loopyard-class.csv', csvText(tableOf(sheet)), 'text/csv');
  return (
    <section class="slip plain-slip class-sheet" aria-labelledby="class-sheet">
      <h2 id="class-sheet">{t('instructor.sheet')}</h2>
      <p class="hint">{t('instructor.sheet_of', { when: moment(new Date().toISOString()) })}</p>
      <Summary sheet={sheet} />
      <div class="actions">
        <button type="button" onClick={() => window.print()}>
          <PrintSign /> {t('instructor.sheet_print')}
        </button>
        <button type="button" onClick={save}><FileSign /> {t('instructor.sheet_csv')}</button>
      </div>
      <table class="class">
        <thead>
          <tr>
            <th scope="col">{t('instructor.col_who')}</th>
            <th scope="col">{t('instructor.col_job')}</th>
            <th scope="col">{t('instructor.col_verdict')}</th>
            <th scope="col">{t('instructor.col_total')}</th>
            <th scope="col">{t('instructor.col_passed')}</th>
            <th scope="col">{t('instructor.col_why')}</th>
            <th scope="col">{t('instructor.col_time')}</th>
          </tr>
        </thead>
        <tbody>{rows.map((row) => <Row key={row.report.file} row={row} />)}</tbody>
      </table>
      <CommonTable sheet={sheet} />
    </section>
  );
}
