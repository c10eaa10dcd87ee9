// What taps and keys do, always in the same place.
import { needlesOf } from '../controls.ts';
import { t } from '../i18n/index.ts';
import type { Play } from '../play.ts';
import { Slip } from './slip.tsx';

type KeyRow = readonly [key: string, does: string];

/** What only some jobs have. */
function ownRows({ level, lines }: Play): KeyRow[] {
  const { links, devices, hands } = level.scenario;
  const rows: KeyRow[] = [];
  if (links.some(({ kind }) => kind === 'hand_pump')) {
    rows.push([t('keys.hand_pump'), t('keys.hand_pump_does')]);
  }
  if (needlesOf(level.scenario).length > 0) rows.push([t('keys.gauge'), t('keys.gauge_does')]);
  if (devices.length > 0) rows.push([t('kit.name'), t('keys.kit_does')]);
  if (lines.length > 0) rows.push([t('sheet.name'), t('keys.sheet_does')]);
  if (hands.helper !== undefined) rows.push([t('hands.tell'), t('keys.helper_does')]);
  return rows;
}

export function Keys({ play }: { readonly play: Play }) {
  const rows: readonly KeyRow[] = [
    [t('keys.tap'), t('keys.tap_does')],
    [t('keys.twice'), t('keys.twice_does')],
    [t('keys.pump'), t('keys.pump_does')],
    [t('keys.tank'), t('keys.tank_does')],
    ...ownRows(play),
    [t('keys.tab'), t('keys.tab_does')],
    [t('keys.enter'), t('keys.enter_does')],
    [t('keys.arrows'), t('keys.arrows_does')],
    [t('keys.page'), t('keys.page_does')],
    [t('keys.ends'), t('keys.ends_does')],
    [t('keys.escape'), t('keys.escape_does')],
  ];
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
