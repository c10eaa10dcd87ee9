// The brief of a drill: what of the day has been done before it, what it asks for with its
// numbers, how things are to be left, and what is counted. The day's own prose is folded away.
import {
  askedTexts, criticalTexts, essentialText, leaveTexts, marksRows, outcomeTexts, passTexts,
  phasesUpTo, runningAtStart,
} from '../drill.ts';
import { figuresOf } from '../figures.ts';
import { list } from '../i18n/format.ts';
import { t, type Lexicon } from '../i18n/index.ts';
import { CheckSign } from '../icons/icons.tsx';
import type { Level } from '../../levels/index.ts';
import { OnSite, Rows, type Heading } from './brief.tsx';

interface Props { readonly level: Level; readonly lex: Lexicon; readonly H: Heading }

function Start({ level, lex, H }: Props) {
  const phases = phasesUpTo(level);
  const running = runningAtStart(level.scenario, lex);
  return (
    <div class="job-brief">
      <H class="part-name">{t('drill.start')}</H>
      <p>{t(phases.length > 1 ? 'drill.before' : 'drill.first')}</p>
      <ul class="day">
        {phases.map((phase) => (
          <li key={phase} data-now={phase === level.phase}>
            {phase !== level.phase && <CheckSign />}
            {lex.say(`phase.${phase}`)}
          </li>
        ))}
      </ul>
      {running.length > 0 && <p>{t('drill.running', { list: list(running) })}</p>}
      <details class="drill-site">
        <summary>{t('drill.site')}</summary>
        {lex.list('brief.').map((key) => <p key={key}>{lex.say(key)}</p>)}
      </details>
    </div>
  );
}

function Figures({ level, lex, H }: Props) {
  return (
    <div class="job-figures">
      <H class="part-name">{t('job.figures')}</H>
      <Rows rows={figuresOf(level.scenario, lex)} />
    </div>
  );
}

function Asked({ level, lex, H }: Props) {
  const asked = askedTexts(level, lex);
  const outcomes = outcomeTexts(level, lex);
  const leave = leaveTexts(level.scenario, lex);
  return (
    <div class="job-questions">
      {asked.length > 0 && <H class="part-name">{t('drill.asked')}</H>}
      {asked.length > 0 && (
        <ul class="asked">
          {asked.map(({ id, name, detail, points }) => (
            <li key={id}>
              <strong>{name}</strong> <span class="asked-points">{points}</span>
              <span class="hint block">{detail}</span>
            </li>
          ))}
        </ul>
      )}
      {outcomes.length > 0 && <H class="part-name">{t('drill.outcomes')}</H>}
      {outcomes.length > 0 && <ul>{outcomes.map((one) => <li key={one}>{one}</li>)}</ul>}
      {leave.length > 0 && <H class="part-name">{t('drill.leave')}</H>}
      {leave.length > 0 && (
        <dl class="leave">
          {leave.map(([word, parts]) => <div key={word}><dt>{word}</dt><dd>{parts}</dd></div>)}
        </dl>
      )}
    </div>
  );
}

/** A line of the list of what it takes. */
export function Essential({ level, lex }: Pick<Props, 'level' | 'lex'>) {
  const text = essentialText(level.scenario, lex);
  return text === null ? null : <li class="essential">{text}</li>;
}

function Pass({ level, lex, H }: Props) {
  const critical = criticalTexts(level.scenario, lex);
  return (
    <div class="job-pass">
      <H class="part-name">{t('job.pass')}</H>
      <ul>
        {passTexts(level).map((one) => <li key={one}>{one}</li>)}
        <Essential level={level} lex={lex} />
      </ul>
      <Rows rows={marksRows(level, lex)} />
      {critical.length > 0 && (
        <div class="critical-line">
          <p>{t('drill.critical')}</p>
          <ul>{critical.map((one) => <li key={one}>{one}</li>)}</ul>
        </div>
      )}
    </div>
  );
}

export function DrillText(props: Props) {
  return (
    <div class="job-text drill-text">
      <div class="drill-side">
        <Start {...props} />
        <Figures {...props} />
        <OnSite lex={props.lex} H={props.H} />
      </div>
      <div class="drill-side">
        <Asked {...props} />
        <Pass {...props} />
      </div>
    </div>
  );
}
