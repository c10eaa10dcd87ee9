// The readings slip: what a technician can see and hear, and nothing of the inside.
import { useSignal } from '@preact/signals';
import { useMemo } from 'preact/hooks';
import type { Reading } from '../../sim/index.ts';
import { besideReadings } from '../jobsheet-beside.ts';
import { answersOf } from '../jobsheet-draft.ts';
import { t, upper } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { decimalsOf, readingText, type ReadingText } from '../readings.ts';

/** How many stay in sight on a phone, on a tablet, and how many stand in one row elsewhere. */
const KEY_MAX = 3;
const NEAR_MAX = 6;
const ROW_MAX = 8;

/**
 * What matters most first: the cart's level, flow, what is looked through, the last of the way, the
 * return, and the last gauge, the loop's; then the others of these kinds.
 */
function keysOf(all: readonly Reading[]): readonly string[] {
  const of = (kind: Reading['kind']) => all.filter((one) => one.kind === kind);
  const [levels, sights, gauges] = [of('level'), of('sight').reverse(), of('pressure').reverse()];
  const [level, sight, gauge] = [levels, sights, gauges].map((list) => list.slice(0, 1));
  const most = [...(level ?? []), ...of('flow'), ...(sight ?? []), ...(gauge ?? [])];
  const first = [...most, ...levels, ...sights, ...gauges];
  return [...new Set([...first, ...all])].map(({ id }) => id);
}

/** Letters of a value and its unit that find room in a narrow cell at full size. */
const LONG = 9;

interface CellProps {
  readonly text: ReadingText;
  readonly rank: number;
  /** What one's own job sheet says of it. */
  readonly beside: string | undefined;
}

function Cell({ text, rank, beside }: CellProps) {
  return (
    <div
      class="reading" data-key={rank < KEY_MAX} data-near={rank < NEAR_MAX} data-kind={text.kind}
      data-long={text.value.length + text.unit.length > LONG}
    >
      <span class="reading-name" id={`name-${text.id}`}>{upper(text.name)}</span>
      <output class="reading-value" aria-labelledby={`name-${text.id}`} aria-live="off">
        {text.value}
        {text.unit !== '' && <span class="unit"> {text.unit}</span>}
      </output>
      <span class="reading-second">
        {text.second}
        {text.remark !== '' && <span class="remark">{text.remark}</span>}
        {beside !== undefined && <span class="remark">{beside}</span>}
      </span>
    </div>
  );
}

export function Readings({ play }: { readonly play: Play }) {
  // Phones leave some out, and tablets where there are lots; elsewhere all are shown.
  const all = useSignal(false);
  const { readings } = play.seen.value.panel;
  const keys = keysOf(readings);
  const { scenario } = play.level;
  const answers = answersOf(play);
  const beside = useMemo(() => besideReadings(scenario, answers), [scenario, answers]);
  const columns = readings.length <= ROW_MAX ? readings.length : Math.ceil(readings.length / 2);
  return (
    <section
      class="slip readings" data-all={all.value} data-lots={readings.length > ROW_MAX}
      aria-label={t('readings.name')}
      style={{ '--columns': columns }}
    >
      {readings.map((reading) => {
        const decimals = decimalsOf(scenario, reading.id);
        const text = readingText(reading, play.lex, decimals);
        const rank = keys.indexOf(reading.id);
        return <Cell key={reading.id} text={text} rank={rank} beside={beside.get(reading.id)} />;
      })}
      <button
        type="button" class="more" aria-expanded={all.value}
        onClick={() => { all.value = !all.value; }}
      >
        <span>{t(all.value ? 'readings.few' : 'readings.all')}</span>
      </button>
    </section>
  );
}
