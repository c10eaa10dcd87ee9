// The clock and its speeds. Freezing is one of the speeds; the speed reached is said when the
// device cannot hold the one that was asked for.
import { clock as clockText, figure } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { FreezeSign } from '../icons/icons.tsx';
import { SPEEDS, type Speed } from '../loop.ts';
import type { Play } from '../play.ts';

function face(speed: Speed) {
  if (speed === 0) return { text: <FreezeSign />, label: t('clock.freeze_label') };
  if (speed < 1) return { text: t('clock.slow'), label: t('clock.slow_label') };
  return { text: t('clock.speed', { n: speed }), label: t('clock.speed_label', { n: speed }) };
}

/** What the clock has to say beyond the time. */
function line(play: Play): string {
  const reached = play.reached.value;
  if (play.braked.value === 'freeze') return t('clock.stopped');
  if (play.braked.value === 'slow') return t('clock.slowed');
  if (play.speed.value === 0) return t('clock.frozen');
  return reached === null ? '' : t('clock.reached', { n: figure(reached, reached < 10 ? 1 : 0) });
}

export function Clock({ play }: { readonly play: Play }) {
  const said = line(play);
  return (
    <div class="clock" role="group" aria-label={t('clock.name')}>
      <output class="time" aria-label={t('clock.time')} aria-live="off">
        {clockText(play.seen.value.time_s)}
      </output>
      <div class="speeds">
        {SPEEDS.map((speed) => {
          const { text, label } = face(speed);
          return (
            <button
              key={speed} type="button" class="speed" data-speed={speed} aria-label={label}
              aria-pressed={play.speed.value === speed} onClick={() => play.setSpeed(speed)}
            >
              {text}
            </button>
          );
        })}
      </div>
      <span class="clock-line" data-braked={play.braked.value ?? ''}>{said}</span>
    </div>
  );
}
