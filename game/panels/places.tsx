// The places of a drawing that is taller than the window, each a button that brings it into sight:
// at the foot of a phone, beside the hands elsewhere. And whether the drawing is in sight at all.
import { useSignal } from '@preact/signals';
import { useEffect } from 'preact/hooks';
import type { RefObject } from 'preact';
import { t } from '../i18n/index.ts';
import type { PlaceMark, YardLayout } from '../yard/layout.ts';

/** Height by width from which a drawing is gone through by its places. */
const LONG = { tall: 3, wide: 1.2 } as const;
/** A place that is this far below the upper edge is the one looked at, CSS px. */
const REACHED = 90;
/** Below that, CSS px: under the readings hangs the tab for all of them. */
const MARGIN = { head: 8, readings: 36 } as const;

const heightOf = (part: string): number =>
  document.querySelector<HTMLElement>(`.yard ${part}`)?.offsetHeight ?? 0;

/** Lower edge of what stays at the top of the window: on a phone the head does not. */
function edgeOf(): number {
  const head = heightOf('.head');
  if (head > 0) return head + MARGIN.head;
  return heightOf('.clock') + heightOf('.readings') + MARGIN.readings;
}

interface Props {
  readonly layout: YardLayout;
  /** Where the drawing begins on the page; it may be held in sight itself. */
  readonly top: RefObject<HTMLElement | null>;
}

export function Places({ layout, top }: Props) {
  const { places, height, width, shape } = layout;
  const now = useSignal<PlaceMark['name'] | null>(null);
  const long = height / width >= LONG[shape];
  useEffect(() => {
    if (!long) return undefined;
    let asked = 0;
    const look = () => {
      asked = 0;
      const stage = document.querySelector('.stage')?.getBoundingClientRect();
      if (stage === undefined) return;
      const scale = stage.width / width;
      const seen = edgeOf() + REACHED - stage.top;
      now.value = places.filter(({ y }) => y * scale <= seen).at(-1)?.name
        ?? places[0]?.name ?? null;
    };
    const scrolled = () => { asked ||= requestAnimationFrame(look); };
    look();
    window.addEventListener('scroll', scrolled, { passive: true });
    return () => {
      window.removeEventListener('scroll', scrolled);
      cancelAnimationFrame(asked);
    };
  }, [long, places, width, now]);
  if (!long) return null;
  const go = (y: number) => () => {
    const stage = document.querySelector('.stage')?.clientWidth ?? width;
    const from = (top.current?.getBoundingClientRect().top ?? 0) + window.scrollY;
    const still = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    window.scrollTo({
      top: from + (y * stage) / width - edgeOf(), behavior: still ? 'auto' : 'smooth',
    });
  };
  return (
    <nav class="places" aria-label={t('places.name')}>
      {places.map(({ name, y }) => (
        <button
          key={name} type="button" onClick={go(y)}
          aria-current={now.value === name ? 'location' : undefined}
        >
          {t(`place.${name}`)}
        </button>
      ))}
    </nav>
  );
}

/** True while any of the drawing is in sight. */
export function useDrawingSeen() {
  const seen = useSignal(true);
  useEffect(() => {
    const sheet = document.querySelector('.sheet');
    if (sheet === null) return undefined;
    const watch = new IntersectionObserver((all) => {
      seen.value = all.at(-1)?.isIntersecting ?? true;
    }, { rootMargin: '-120px 0px -60px' });
    watch.observe(sheet);
    return () => watch.disconnect();
  }, [seen]);
  return seen;
}
