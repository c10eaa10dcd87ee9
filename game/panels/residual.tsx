// The line of the sheet that no instrument shows: the air that is left, worked out from two levels.
// A number, or that it cannot be told; what stands there stays, with its time.
import { RESIDUAL, residualOf, rulesFor } from '../../sim/index.ts';
import { pointsWord } from '../drill.ts';
import { t } from '../i18n/index.ts';
import { answerText, unitWordOf, writtenAnswers } from '../jobsheet.ts';
import type { Play } from '../play.ts';
import { pointsText } from '../verdict.ts';
import { LineRow } from './line.tsx';
import { Paper } from './paper.tsx';

interface Props { readonly play: Play }

function OnPaper({ play }: Props) {
  const { told, waiting } = play.session;
  const all = writtenAnswers(RESIDUAL, told, waiting, play.seen.value.tick);
  const texts = all.map(({ value, tick }) => ({ text: answerText(RESIDUAL, value), tick }));
  return <Paper play={play} all={texts} />;
}

/** Nothing of a job without that line. */
export function ResidualRow({ play }: Props) {
  const line = residualOf(play.level.scenario);
  if (line === null) return null;
  const [open, shut] = [play.lex.part(line.open), play.lex.part(line.shut)];
  const cost = rulesFor(play.level.scenario, play.level.rules).sheet.residual.points;
  const points = pointsWord(pointsText(cost));
  const say = (value_milli: number | null) =>
    play.act({ kind: 'answer', line: RESIDUAL, value_milli });
  return (
    <LineRow
      id={RESIDUAL} name={play.lex.say('sheet_line.residual')} signed={false}
      from={t('residual.from', { open, shut, points })} unit={unitWordOf(RESIDUAL)}
      write={say} untold={() => say(null)}
    >
      <OnPaper play={play} />
    </LineRow>
  );
}
