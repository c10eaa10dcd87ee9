// What taps and keys do, always in the same place.
import { t } from '../i18n/index.ts';
import { Slip } from './slip.tsx';

export function Keys() {
  const rows = [
    [t('keys.tap'), t('keys.tap_does')],
    [t('keys.twice'), t('keys.twice_does')],
    [t('keys.pump'), t('keys.pump_does')],
    [t('keys.tank'), t('keys.tank_does')],
    [t('keys.tab'), t('keys.tab_does')],
    [t('keys.enter'), t('keys.enter_does')],
    [t('keys.arrows'), t('keys.arrows_does')],
    [t('keys.page'), t('keys.page_does')],
    [t('keys.ends'), t('keys.ends_does')],
    [t('keys.escape'), t('keys.escape_does')],
  ] as const;
  return (
    <Slip id="keys" name={t('keys.name')}>
      <dl>
        {rows.map(([key, does]) => (
          <div key={key}><dt>{key}</dt><dd>{does}</dd></div>
        ))}
      </dl>
    </Slip>
  );
}
