// What stands on a sheet, and what is said of something typed that cannot be read.
import { clock } from '../i18n/format.ts';
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import type { TypedFault } from '../sheet.ts';

export function faultText(fault: TypedFault, typed: string, unit: string): string {
  switch (fault) {
    case 'empty': return t('sheet.empty');
    case 'no_number':
      return unit === '' ? t('sheet.no_number') : t('sheet.no_number_in', { unit });
    case 'too_fine': return t('sheet.too_fine');
    case 'too_large': return t('sheet.too_large');
    case 'which': {
      const [large, small] = [typed.replace(',', ''), typed.replace(',', '.')];
      return t('sheet.which', { large, small });
    }
  }
}

interface Props {
  readonly play: Play;
  readonly all: readonly { readonly text: string; readonly tick: number }[];
}

/** What was written before is struck out, as on paper. */
export function Paper({ play, all }: Props) {
  if (all.length === 0) return null;
  return (
    <ol class="written">
      {all.map(({ text, tick }, at) => (
        <li key={at}>
          {at < all.length - 1 ? <s>{text}</s> : <strong>{text}</strong>}
          {' '}
          <time>{t('sheet.at', { time: clock(tick * play.session.tick_s) })}</time>
        </li>
      ))}
    </ol>
  );
}
