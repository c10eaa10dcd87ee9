// The job sheet in the debrief: each line as it was written, as it should be by one's own numbers
// before it, and how that follows.
import type { Score, SheetMark } from '../../sim/index.ts';
import { t, upper } from '../i18n/index.ts';
import { CheckSign, CrossSign, WarnSign } from '../icons/icons.tsx';
import { answerText, lineName, rangeText } from '../jobsheet.ts';
import type { Play } from '../play.ts';
import { lostText, quantityText } from '../verdict.ts';
import { useToldOnPaper } from './on-paper.ts';

interface Props { readonly play: Play; readonly score: Score }

function StateSign({ state }: Pick<SheetMark, 'state'>) {
  if (state === 'right') return <CheckSign />;
  return state === 'near' || state === 'cancelled' ? <WarnSign /> : <CrossSign />;
}

function whyText({ kind, value, given }: SheetMark, { lex }: Play): string {
  const values = given.map(({ name, value: one, quantity }) => {
    return [name, quantity === 'flow' ? answerText('flow', one) : quantityText(one, quantity)];
  });
  const once = kind === 'banks' && value === 1;
  const key = once ? 'sheet_why.banks_once' : `sheet_why.${kind}`;
  return lex.say(key, Object.fromEntries(values) as Record<string, string>);
}

interface LineProps {
  readonly play: Play;
  readonly mark: SheetMark;
  /** True where one that is right says no more than that until it is asked. */
  readonly folds?: boolean;
}

function Line({ play, mark, folds = false }: LineProps) {
  const { state, kind, answer, tick, points } = mark;
  const folded = folds && state === 'right';
  const lost = t('debrief.minus', { points: lostText(points) });
  const yours = tick === null ? t('jobsheet.empty') : answerText(kind, answer);
  const head = (
    <span class="deduction-head" data-folds={folded}>
      <StateSign state={state} />
      <strong>{upper(lineName(mark, play.lex))}</strong>
      <span class="when">{t(`jobsheet_state.${state}`)}</span>
      {points > 0 && <span class="minus">{lost}</span>}
      {folded && <span class="own">{yours}</span>}
    </span>
  );
  const told = (
    <dl>
      <div><dt>{t('jobsheet.yours')}</dt><dd>{yours}</dd></div>
      <div><dt>{t('jobsheet.should')}</dt><dd>{rangeText(mark)}</dd></div>
      {mark.follows && (
        <div><dt>{t('jobsheet.plant')}</dt><dd>{answerText(kind, mark.truth)}</dd></div>
      )}
      <div><dt>{t('jobsheet.why')}</dt><dd>{whyText(mark, play)}</dd></div>
      {state !== 'right' && (
        <div class="rule">
          <dt>{t('debrief.rule')}</dt>
          <dd>{play.level.rules.sources[mark.source] ?? mark.source}</dd>
        </div>
      )}
    </dl>
  );
  return (
    <li class="slip" data-state={state}>
      {folded
        ? <details><summary>{head}</summary>{told}</details>
        : <>{head}{told}</>}
    </li>
  );
}

/** The line that is worked out from readings; nothing where nobody read the proof. */
export function ResidualMark({ play, score }: Props) {
  if (score.residual === null) return null;
  return (
    <section class="jobsheet-marks lost" aria-labelledby="residual-name">
      <h2 id="residual-name">{t('residual.debrief')}</h2>
      <ol><Line play={play} mark={score.residual} /></ol>
    </section>
  );
}

/** Nothing of a job without a sheet. */
export function SheetMarks({ play, score }: Props) {
  const all = useToldOnPaper();
  if (score.sheet.length === 0) return null;
  return (
    <section ref={all} class="jobsheet-marks lost" aria-labelledby="jobsheet-marks-name">
      <h2 id="jobsheet-marks-name">{t('jobsheet.name')}</h2>
      <p class="hint">{t('jobsheet.marks_hint')}</p>
      <ol>{score.sheet.map((mark) => <Line key={mark.id} play={play} mark={mark} folds />)}</ol>
    </section>
  );
}
