// Figures to work the job sheet out with, as drawing, plates and tables have them.
import { useMemo } from 'preact/hooks';
import { platesOf, type Plates, type Scenario } from '../../sim/index.ts';
import { figure, number, UNITS, type Unit } from '../i18n/format.ts';
import { t, upper, type Lexicon } from '../i18n/index.ts';
import { withUnit } from '../readings.ts';
import { Rows } from './brief.tsx';

const FINE_L: Unit = { ...UNITS.L, decimals: 2 };
const L_S: Unit = { key: 'unit.L_s', size: 1e-3, decimals: 2 };

type Row = readonly [name: string, value: string];

function pipeRow({ bore, count, shortest, longest, total }: Plates['pipes'][number]): Row {
  const range = shortest === longest
    ? withUnit(longest, UNITS.m)
    : t('unit.range', { from: figure(shortest, 1), to: withUnit(longest, UNITS.m) });
  const value = count === 1
    ? range
    : t('jobsheet.pipes', { n: count, range, total: withUnit(total, UNITS.m) });
  return [t('jobsheet.bore', { bore: withUnit(bore, UNITS.fine_mm) }), value];
}

function rowsOf(plates: Plates, lex: Lexicon): readonly Row[] {
  const { hoses, curve, tap, mixtures, product, stretch, left } = plates;
  const rows: Row[] = plates.pipes.map(pipeRow);
  for (const { id, bore, length } of hoses) {
    const [long, wide] = [withUnit(length, UNITS.m), withUnit(bore, UNITS.fine_mm)];
    rows.push([upper(lex.part(id)), t('jobsheet.hose', { length: long, bore: wide })]);
  }
  if (curve.length > 0) {
    const points = curve.map(({ flow, head }) =>
      t('jobsheet.point', { flow: withUnit(flow, L_S), head: withUnit(head, UNITS.m) }));
    rows.push([t('jobsheet.curve', { pump: lex.part(plates.pump) }), points.join('; ')]);
  }
  if (tap !== null) rows.push([t('jobsheet.tap'), withUnit(tap, UNITS.L_min)]);
  for (const { freeze_C, fraction, density } of mixtures) {
    const values = { share: figure(100 * fraction, 1), density: number(density) };
    const at = t('unit.pair', { value: figure(freeze_C, 0), unit: t('unit.C') });
    rows.push([t('jobsheet.freezes', { at }), t('jobsheet.mixture', values)]);
  }
  if (product !== null) {
    const values = { share: figure(100 * product.fraction, 1), density: number(product.density) };
    rows.push([t('jobsheet.product'), t('jobsheet.mixture', values)]);
  }
  if (stretch !== null) rows.push([t('jobsheet.stretch'), withUnit(stretch, FINE_L)]);
  if (left.length > 0) {
    const shares = left.map(({ after, share }) =>
      t('jobsheet.left_after', { h: after / 3600, share: figure(100 * share, 0) }));
    rows.push([t('jobsheet.left'), shares.join('; ')]);
  }
  return rows;
}

export function Given({ scenario, lex }: { readonly scenario: Scenario; readonly lex: Lexicon }) {
  const rows = useMemo(() => {
    const plates = platesOf(scenario);
    return plates === null ? [] : rowsOf(plates, lex);
  }, [scenario, lex]);
  return (
    <details class="jobsheet-given">
      <summary>{t('jobsheet.given')}</summary>
      <Rows rows={rows} />
    </details>
  );
}
