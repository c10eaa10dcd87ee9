// What the pipes did, as small charts under one another on the same time, each with its sentence,
// and all of them as a table. The lines are drawn by a piece of the page that comes when asked for.
import { useEffect, useMemo, useRef } from 'preact/hooks';
import type { Score } from '../../sim/index.ts';
import { clock, figure } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { chartsOf, tableOf, type Chart } from '../review/charts.ts';
import type { Drawn, Frame } from '../review/plot.ts';
import { reviewOf, type Review } from '../review/review.ts';
import type { Rerun } from '../review/rerun.ts';

interface OneProps { readonly chart: Chart; readonly frame: Frame }

function Plot({ chart, frame }: OneProps) {
  const paper = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const parent = paper.current;
    if (parent === null) return undefined;
    let drawn: Drawn | null = null;
    let gone = false;
    void Promise.all([import('../review/plot.ts'), document.fonts.ready]).then(([{ draw }]) => {
      if (!gone) drawn = draw(parent, chart, frame);
    }, () => {}); // The sentence and the table say the same.
    const print = () => drawn?.print();
    const resize = () => (window.matchMedia('print').matches ? print() : drawn?.resize());
    const watch = new ResizeObserver(resize);
    watch.observe(parent);
    window.addEventListener('beforeprint', print);
    window.addEventListener('afterprint', resize);
    return () => {
      gone = true;
      window.removeEventListener('beforeprint', print);
      window.removeEventListener('afterprint', resize);
      watch.disconnect();
      drawn?.destroy();
    };
  }, [chart, frame]);
  return <div ref={paper} class="plot" aria-hidden="true" />;
}

function Figure(props: OneProps) {
  const { lines, name, says, limit } = props.chart;
  return (
    <figure class="chart">
      <figcaption>
        <h3>{name}</h3>
        <ul class="chart-key" aria-hidden="true">
          {lines.map((line, k) => <li key={line.name} data-nth={k}>{line.name}</li>)}
          {limit !== null && <li data-nth="limit">{limit.name}</li>}
        </ul>
      </figcaption>
      <Plot {...props} />
      <p class="hint">{says}</p>
    </figure>
  );
}

interface Props { readonly play: Play; readonly score: Score }

function frameOf(review: Review, { rows }: Rerun): Frame {
  const { axis } = review;
  return {
    x: rows.map(({ tick }) => axis.at(tick)),
    face: (work_s) => clock(axis.clock(work_s)),
    moments: review.moments.value.map(({ tick }) => axis.at(tick)),
    nights: axis.nights.map(({ from }) => axis.at(from)),
  };
}

function Table({ play, score }: Props) {
  const review = reviewOf(play.session, score);
  const rerun = review.rerun.value;
  if (rerun === null) return null;
  const ground = { rerun, scenario: play.level.scenario, lex: play.lex };
  const moments = review.moments.value.flatMap(({ tick }, k) => {
    const row = review.captured.value.get(tick)?.row;
    return row === undefined ? [] : [[t('moments.nth', { n: k + 1 }), { ...row, tick }] as const];
  });
  const { columns, rows } = tableOf(ground, moments);
  return (
    <details class="chart-table">
      <summary>{t('charts.table')}</summary>
      <div class="scroll" tabIndex={0} role="region" aria-label={t('charts.table_name')}>
        <table>
          <caption class="unseen">{t('charts.table_name')}</caption>
          <thead>
            <tr>
              <td />
              {columns.map((name) => <th key={name} scope="col">{name}</th>)}
            </tr>
          </thead>
          <tbody>
            {rows.map(([name, ...cells]) => (
              <tr key={name}>
                <th scope="row">{name}</th>
                {cells.map((cell, k) => <td key={k}>{cell}</td>)}
              </tr>
            ))}
          </tbody>
        </table>
      </div>
    </details>
  );
}

export function Charts({ play, score }: Props) {
  const review = reviewOf(play.session, score);
  const rerun = review.rerun.value;
  const { level: { scenario }, lex } = play;
  const drawn = useMemo(() => (rerun === null ? null
    : { charts: chartsOf({ rerun, scenario, lex }), frame: frameOf(review, rerun) }),
  [rerun, review, scenario, lex]);
  if (rerun === null || drawn === null || drawn.charts.length === 0) return null;
  const { charts, frame } = drawn;
  const every_s = review.axis.end_s / rerun.rows.length;
  return (
    <section class="charts" aria-labelledby="charts-name">
      <h2 id="charts-name">{t('charts.name')}</h2>
      <p class="hint">{t('charts.hint', { s: figure(Math.max(1, every_s), 0) })}</p>
      <div class="chart-rows">
        {charts.map((chart) => <Figure key={chart.id} chart={chart} frame={frame} />)}
      </div>
      <Table play={play} score={score} />
    </section>
  );
}
