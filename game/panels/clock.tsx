// The clock and its speeds. Freezing is one of the speeds; the speed reached is said when the
// device cannot hold the one that was asked for.
import { clock as clockText, figure } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import { FreezeSign } from '../icons/icons.tsx';
import type { Speed } from '../loop.ts';
import type { Play } from '../play.ts';

function face(speed: Speed) {
  if (speed === 0) return { text: <FreezeSign />, label: t('clock.freeze_label') };
  if (speed < 1) return { text: t('clock.slow'), label: t('clock.slow_label') };
  return { text: t('clock.speed', { n: speed }), label: t('clock.speed_label', { n: speed }) };
}

interface Line { readonly long: string; readonly short: string }

/** What the clock has to say beyond the time; the short form is for small screens. */
function line(play: Play): Line {
  const reached = play.reached.value;
  if (play.braked.value === 'freeze') {
    return { long: t('clock.stopped'), short: t('clock.short_stopped') };
  }
  if (play.braked.value === 'slow') {
    return { long: t('clock.slowed'), short: t('clock.short_slowed') };
  }
  if (play.speed.value === 0) return { long: t('clock.frozen'), short: t('clock.frozen') };
  if (reached === null) return { long: '', short: '' };
  const n = figure(reached, reached < 10 ? 1 : 0);
  return { long: t('clock.reached', { n }), short: t('clock.short_reached', { n }) };
}

export function Clock({ play }: { readonly play: Play }) {
  const said = line(play);
  return (
    <div class="clock" role="group" aria-label={t('clock.name')}>
      <output class="time" aria-label={t('clock.time')} aria-live="off">
        {clockText(play.seen.value.time_s)}
      </output>
      <div class="speeds">
        {play.speeds.map((speed) => {
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
      <span class="clock-line long" data-braked={play.braked.value ?? ''}>{said.long}</span>
      <span class="clock-line short" data-braked={play.braked.value ?? ''}>{said.short}</span>
    </div>
  );
}
