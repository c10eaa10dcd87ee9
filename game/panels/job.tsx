// The job slip: what is found, what to ask oneself, what it takes to pass and what fails the job.
// It asks; it lists no steps. The figures come from the scenario, as from a drawing and a plate.
import { circuitsOf, span } from '../circuits.ts';
import { formNumber } from '../forms.ts';
import { figure, number, UNITS, type Unit } from '../i18n/format.ts';
import { isWord, t, type Lexicon } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import type { Scenario } from '../../sim/index.ts';
import { phasesAmong } from '../verdict.ts';
import { Slip } from './slip.tsx';

const both = (first: string, second: string) => t('unit.both', { first, second });

/** Figures of the job, as from the drawing and the plates: name and value in both units. */
export function figuresOf(scenario: Scenario): readonly (readonly [string, string])[] {
  const rows: (readonly [string, string])[] = [];
  const job = scenario.job;
  const pair = (name: string, value: number, units: readonly [Unit, Unit]) => {
    rows.push([name, both(roughly(value, units[0]), roughly(value, units[1]))]);
  };
  const circuits = circuitsOf(scenario);
  if (circuits.length > 1) rows.push([t('job.circuits'), number(circuits.length)]);
  const many = (name: string, values: readonly number[], units: readonly [Unit, Unit]) => {
    const range = span(values);
    if (range !== null) rows.push([name, between(range, units)]);
  };
  many(t('job.loop_length'), circuits.map(({ length_m }) => length_m), [UNITS.m, UNITS.ft]);
  many(t('job.loop_bore'), circuits.map(({ bore_m }) => bore_m), [FINE_MM, FINE_INCH]);
  if (job !== undefined) pair(t('job.velocity'), job.rule_velocity_m_s, [UNITS.m_s, UNITS.ft_s]);
  for (const node of scenario.nodes) {
    if (node.kind === 'tank') pair(t('job.tank_area'), node.area_m2 / 10, [UNITS.L, UNITS.gal]);
  }
  for (const link of scenario.links) {
    if (link.kind !== 'pump') continue;
    const head = Math.max(...link.curve.map((point) => point.head_m));
    pair(t('job.shut_off'), head, [UNITS.m, UNITS.ft]);
  }
  return rows;
}

const FINE_MM: Unit = { ...UNITS.mm, decimals: 1 };
const FINE_INCH: Unit = { ...UNITS.in, decimals: 2 };

function roughly(value: number, unit: Unit): string {
  const text = figure(value / unit.size, unit.decimals);
  return t('unit.pair', { value: text, unit: isWord(unit.key) ? t(unit.key) : unit.key });
}

/** One value, or "90 to 104 m (295 to 341 ft)". */
function between([lo, hi]: readonly [number, number], units: readonly [Unit, Unit]): string {
  const written = units.map((unit) => {
    const [a, b] = [roughly(lo, unit), roughly(hi, unit)];
    const least = figure(lo / unit.size, unit.decimals);
    return a === b ? a : t('unit.range', { from: least, to: b });
  });
  return both(written[0] ?? '', written[1] ?? '');
}

function Lines({ lex, prefix, skip = [] }: {
  readonly lex: Lexicon;
  readonly prefix: string;
  readonly skip?: readonly string[];
}) {
  const keys = lex.list(prefix).filter((key) => !skip.includes(key));
  return <ul>{keys.map((key) => <li key={key}>{lex.say(key)}</li>)}</ul>;
}

/** `under`: the heading above it, so that headings stay in order. */
export function JobText({ play, under }: { readonly play: Play; readonly under: 'h1' | 'h2' }) {
  const { lex, level } = play;
  const H = under === 'h1' ? 'h2' : 'h3';
  const phases = phasesAmong(level.scenario.job?.milestones ?? []);
  return (
    <div class="job-text">
      <div class="job-brief">
        <H class="part-name">{t('job.brief')}</H>
        {lex.list('brief.').map((key) => <p key={key}>{lex.say(key)}</p>)}
        {phases.length > 0 && (
          <>
            <H class="part-name">{t('job.day')}</H>
            <ul class="day">
              {phases.map((phase) => <li key={phase}>{lex.say(`phase.${phase}`)}</li>)}
            </ul>
          </>
        )}
        <H class="part-name">{t('job.figures')}</H>
        <dl class="figures">
          {figuresOf(level.scenario).map(([name, value]) => (
            <div key={name}><dt>{name}</dt><dd>{value}</dd></div>
          ))}
          {play.session.hasForms && (
            <div><dt>{t('form.row')}</dt><dd>{formNumber(play.session.seed)}</dd></div>
          )}
        </dl>
      </div>
      <div class="job-questions">
        <H class="part-name">{t('job.questions')}</H>
        <ol>{lex.list('question.').map((key) => <li key={key}>{lex.say(key)}</li>)}</ol>
      </div>
      <div class="job-pass">
        <H class="part-name">{t('job.pass')}</H>
        <Lines lex={lex} prefix="pass." skip={['pass.critical']} />
        {lex.has('pass.critical') && <p class="critical-line">{lex.say('pass.critical')}</p>}
      </div>
      <div class="job-cautions">
        <H class="part-name">{t('job.cautions')}</H>
        <Lines lex={lex} prefix="caution." skip={['caution.aid']} />
      </div>
    </div>
  );
}

/** The slip beside or below the drawing. */
export function JobSlip({ play }: { readonly play: Play }) {
  return (
    <Slip id="job" name={t('job.sheet')}>
      <p class="summary">{play.lex.say('summary')}</p>
      <JobText play={play} under="h2" />
    </Slip>
  );
}
