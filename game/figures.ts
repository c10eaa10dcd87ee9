// Figures of a job as from the drawing and the plates: what a hand can know before it is begun.
import type { Scenario } from '../sim/index.ts';
import { circuitsOf, span } from './circuits.ts';
import { figure, number, UNITS, type Unit } from './i18n/format.ts';
import { t, type Lexicon } from './i18n/index.ts';
import { asGiven } from './readings.ts';

const both = (first: string, second: string) => t('unit.both', { first, second });

export type Figure = readonly [name: string, value: string];

/** Figures of the job, as from the drawing and the plates: name and value in both units. */
export function figuresOf(scenario: Scenario, lex: Lexicon): readonly Figure[] {
  const rows: Figure[] = [];
  const job = scenario.job;
  const pair = (name: string, value: number, units: readonly [Unit, Unit]) => {
    rows.push([name, both(asGiven(value, units[0]), asGiven(value, units[1]))]);
  };
  const circuits = circuitsOf(scenario);
  if (circuits.length > 1) rows.push([t('job.circuits'), number(circuits.length)]);
  const many = (name: string, values: readonly number[], units: readonly [Unit, Unit]) => {
    const range = span(values);
    if (range !== null) rows.push([name, between(range, units)]);
  };
  many(t('job.loop_length'), circuits.map(({ length_m }) => length_m), [UNITS.m, UNITS.ft]);
  many(t('job.loop_bore'), circuits.map(({ bore_m }) => bore_m), [UNITS.fine_mm, UNITS.fine_in]);
  if (job !== undefined) pair(t('job.velocity'), job.rule_velocity_m_s, [UNITS.m_s, UNITS.ft_s]);
  for (const node of scenario.nodes) {
    if (node.kind !== 'tank') continue;
    const name = t('job.tank_area', { part: lex.part(node.id) });
    pair(name, node.area_m2 / 10, [UNITS.L, UNITS.gal]);
  }
  for (const link of scenario.links) {
    if (link.kind !== 'pump') continue;
    const head = Math.max(...link.curve.map((point) => point.head_m));
    pair(t('job.shut_off', { part: lex.part(link.id) }), head, [UNITS.m, UNITS.ft]);
  }
  return rows;
}

/** One value, or "90 to 104 m (295 to 341 ft)". */
function between([lo, hi]: readonly [number, number], units: readonly [Unit, Unit]): string {
  const written = units.map((unit) => {
    const [a, b] = [asGiven(lo, unit), asGiven(hi, unit)];
    const least = figure(lo / unit.size, unit.decimals);
    return a === b ? a : t('unit.range', { from: least, to: b });
  });
  return both(written[0] ?? '', written[1] ?? '');
}
