// What has just been seen or heard, as captions for the eye and as announcements for a screen
// reader: politely for most, at once for what is critical. The log keeps them with their time.
import { useEffect, useRef } from 'preact/hooks';
import { useSignal } from '@preact/signals';
import type { Caption, Tone } from '../captions.ts';
import { clock } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { CheckSign, EarSign, EyeSign, StopSign, WarnSign } from '../icons/icons.tsx';
import type { Play } from '../play.ts';
import { Slip } from './slip.tsx';

/** How long a caption stays, wall time; what is critical or a caution stays until dismissed. */
const SHOWN_MS: Readonly<Record<Tone, number>> = {
  ...{ sound: 6000, event: 7000, warning: 9000 },
  ...{ critical: Infinity, caution: Infinity, report: Infinity },
};
const SHOWN_MAX = { small: 2, large: 3 };
const SMALL = '(max-width: 699px)';
/** Polite words are gathered this long, so that a burst is said once. */
const GATHER_MS = 700;
const SAID_MAX = 2;

function Sign({ tone }: { readonly tone: Tone }) {
  if (tone === 'sound') return <EarSign />;
  if (tone === 'event' || tone === 'report') return <EyeSign />;
  return tone === 'critical' ? <StopSign /> : <WarnSign />;
}

/** More lines than these may have to be scrolled, by keys as well. */
const LOG_EASY = 4;

interface Shown { readonly caption: Caption; readonly until: number }

/** Those that would stay by themselves go last. */
function trimmed(all: readonly Shown[]): readonly Shown[] {
  const max = window.matchMedia(SMALL).matches ? SHOWN_MAX.small : SHOWN_MAX.large;
  const list = [...all];
  while (list.length > max) {
    const passing = list.findIndex(({ until }) => until < Infinity);
    list.splice(Math.max(0, passing), 1);
  }
  return list;
}

/** The captions that are on show: the newest of each kind, until their time is over. */
function useShown(play: Play) {
  const shown = useSignal<readonly Shown[]>([]);
  const last = useRef<Caption | null>(play.captions.value.at(-1) ?? null);
  const captions = play.captions.value;
  useEffect(() => {
    const fresh = captions.slice(last.current === null ? 0 : captions.indexOf(last.current) + 1);
    last.current = captions.at(-1) ?? null;
    if (captions.length === 0) shown.value = [];
    if (fresh.length === 0) return;
    const now = performance.now();
    const added = fresh.map((caption) => ({ caption, until: now + SHOWN_MS[caption.tone] }));
    const kept = shown.value.filter(({ caption }) => fresh.every(({ key }) => key !== caption.key));
    shown.value = trimmed([...kept, ...added]);
  }, [captions, shown]);
  useEffect(() => {
    const timer = setInterval(() => {
      const now = performance.now();
      const left = shown.value.filter(({ until }) => until > now);
      if (left.length !== shown.value.length) shown.value = left;
    }, 500);
    return () => clearInterval(timer);
  }, [shown]);
  return shown;
}

function Words({ caption }: { readonly caption: Caption }) {
  const { text, rows = [] } = caption;
  return (
    <div class="caption-words">
      <p>{text}</p>
      {rows.length > 0 && <ul>{rows.map((row) => <li key={row}>{row}</li>)}</ul>}
    </div>
  );
}

/** The same in one breath. */
const aloud = ({ text, rows = [] }: Caption): string => [text, ...rows].join(' ');

export function Captions({ play }: { readonly play: Play }) {
  const shown = useShown(play);
  const dismiss = (gone: Caption) => {
    shown.value = shown.value.filter(({ caption }) => caption !== gone);
  };
  return (
    <div class="captions" aria-label={t('said.name')} role="group">
      {shown.value.map(({ caption, until }) => (
        <div key={`${caption.tick} ${caption.key}`} class="caption" data-tone={caption.tone}>
          <Sign tone={caption.tone} />
          <Words caption={caption} />
          {until === Infinity && (
            <button type="button" onClick={() => dismiss(caption)}>
              <CheckSign />
              <span>{t('said.dismiss')}</span>
            </button>
          )}
        </div>
      ))}
    </div>
  );
}

/** Two live regions. The newest of a kind is said; what is critical is said alone and at once. */
export function Announcer({ play }: { readonly play: Play }) {
  const polite = useSignal('');
  const alert = useSignal('');
  const last = useRef<Caption | null>(play.captions.value.at(-1) ?? null);
  const queue = useRef(new Map<string, string>());
  const captions = play.captions.value;
  useEffect(() => {
    const from = last.current === null ? 0 : captions.indexOf(last.current) + 1;
    last.current = captions.at(-1) ?? null;
    for (const caption of captions.slice(from)) {
      if (caption.tone === 'critical') alert.value = aloud(caption);
      else queue.current.set(caption.key, aloud(caption));
    }
    if (queue.current.size === 0) return undefined;
    const timer = setTimeout(() => {
      polite.value = [...queue.current.values()].slice(-SAID_MAX).join(' ');
      queue.current.clear();
    }, GATHER_MS);
    return () => clearTimeout(timer);
  }, [captions, polite, alert]);
  return (
    <>
      <div class="unseen" role="status" aria-live="polite">{polite.value}</div>
      <div class="unseen" role="alert">{alert.value}</div>
    </>
  );
}

export function Log({ play }: { readonly play: Play }) {
  const rows = [...play.captions.value].reverse();
  const tick_s = play.session.tick_s;
  return (
    <Slip id="log" name={t('log.name')}>
      {rows.length === 0 && <p class="hint">{t('log.empty')}</p>}
      <ol tabIndex={rows.length > LOG_EASY ? 0 : undefined} aria-label={t('log.name')}>
        {rows.map((row, at) => (
          <li key={rows.length - at} data-tone={row.tone}>
            <time>{clock(row.tick * tick_s)}</time>
            <Sign tone={row.tone} />
            <Words caption={row} />
          </li>
        ))}
      </ol>
    </Slip>
  );
}
