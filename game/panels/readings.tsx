// The readings slip: what a technician can see and hear, and nothing of the inside.
import { useSignal } from '@preact/signals';
import { t, upper } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { readingText, type ReadingText } from '../readings.ts';

/** Those that stay in sight on a small screen. */
const KEY_KINDS = ['level', 'flow', 'sight'];

function Cell({ text }: { readonly text: ReadingText }) {
  const key = KEY_KINDS.includes(text.kind);
  return (
    <div class="reading" data-key={key} data-kind={text.kind}>
      <span class="reading-name" id={`name-${text.id}`}>{upper(text.name)}</span>
      <output class="reading-value" aria-labelledby={`name-${text.id}`} aria-live="off">
        {text.value}
        {text.unit !== '' && <span class="unit"> {text.unit}</span>}
      </output>
      <span class="reading-second">
        {text.second}
        {text.remark !== '' && <span class="remark">{text.remark}</span>}
      </span>
    </div>
  );
}

export function Readings({ play }: { readonly play: Play }) {
  // Only small screens leave some out; elsewhere the button is not there and all are shown.
  const all = useSignal(false);
  return (
    <section class="slip readings" data-all={all.value} aria-label={t('readings.name')}>
      {play.seen.value.panel.readings.map((reading) => (
        <Cell key={reading.id} text={readingText(reading, play.lex)} />
      ))}
      <button
        type="button" class="more" aria-expanded={all.value}
        onClick={() => { all.value = !all.value; }}
      >
        <span>{t(all.value ? 'readings.few' : 'readings.all')}</span>
      </button>
    </section>
  );
}
