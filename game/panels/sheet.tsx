// The sheet: what is written down while the job goes on. What stands on it stays, with its time.
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { unitWord, writtenOn, writtenText, type Line } from '../sheet.ts';
import { LineRow } from './line.tsx';
import { Paper } from './paper.tsx';
import { ResidualRow } from './residual.tsx';
import { Slip } from './slip.tsx';

interface Props { readonly play: Play; readonly line: Line }

/** All that stands on a line. */
function OnPaper({ play, line }: Props) {
  const { facts, waiting } = play.session;
  const all = writtenOn(line, facts, waiting, play.seen.value.tick);
  const texts = all.map(({ value_milli, tick }) => {
    return { text: writtenText(line, value_milli), tick };
  });
  return <Paper play={play} all={texts} />;
}

function Row({ play, line }: Props) {
  const from = line.reading === null
    ? t('sheet.from_none')
    : t('sheet.from', { instrument: play.lex.say(`reading.${line.reading}`) });
  return (
    <LineRow
      id={line.id} name={play.lex.part(line.id)} from={from} unit={unitWord(line)}
      signed={line.signed}
      write={(value_milli) => play.act({ kind: 'note', entry: line.id, value_milli })}
    >
      <OnPaper play={play} line={line} />
    </LineRow>
  );
}

/** Nothing where a job has none. */
export function Sheet({ play }: { readonly play: Play }) {
  if (play.lines.length === 0) return null;
  return (
    <Slip id="record" name={t('sheet.name')} folds={false}>
      <p class="hint">{t('sheet.hint')}</p>
      <ul>
        {play.lines.map((line) => <Row key={line.id} play={play} line={line} />)}
        <ResidualRow play={play} />
      </ul>
    </Slip>
  );
}
