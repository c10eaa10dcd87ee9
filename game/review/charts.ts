// The charts as data and as words: lines in the unit they are drawn in, a limit where there is one,
// a sentence for each, and the table of all of them at the moments. Draws nothing.
import type { Scenario } from '../../sim/index.ts';
import { clock, list, number, UNITS, type Unit } from '../i18n/format.ts';
import { t, type Lexicon, type WordKey } from '../i18n/index.ts';
import { inBoth, word } from '../readings.ts';
import { durationText, quantityText } from '../verdict.ts';
import type { Rerun } from './rerun.ts';
import { followedOf, type Followed, type Row } from './rows.ts';

interface ChartLine {
  readonly name: string;
  readonly values: readonly number[];
}

export interface Chart {
  readonly id: string;
  /** "Flow, L/min". */
  readonly name: string;
  readonly lines: readonly ChartLine[];
  readonly limit: { readonly name: string; readonly value: number } | null;
  /** Each line up is ten times as much. */
  readonly tenfold: boolean;
  /** What is drawn at the most; lines go out of the chart there. */
  readonly top: number;
  readonly says: string;
}

export interface Ground {
  readonly rerun: Rerun;
  readonly scenario: Scenario;
  readonly lex: Lexicon;
}

type Of = (row: Row) => number;

/** Least air that a tenfold scale shows, m3; what is less stands there too. */
const AIR_LEAST = 0.01e-3;
/** Pipes named in the sentence on velocities; of more, those with the least time. */
const NAMED_MOST = 4;
/** Velocities are drawn up to this many times the rule: the rush of the first air would hide it. */
const SPEED_TOP = 5;

const speedText = (value: number): string => inBoth(value, UNITS.m_s, UNITS.ft_s);
const levelText = (value: number): string => inBoth(value, UNITS.mm, UNITS.in);

function peak(rows: readonly Row[], of: Of): { readonly value: number; readonly tick: number } {
  let best = { value: -Infinity, tick: 0 };
  for (const row of rows) if (of(row) > best.value) best = { value: of(row), tick: row.tick };
  return best;
}

interface Form {
  readonly key: WordKey;
  readonly unit: Unit;
  readonly says: string;
  readonly limit?: Chart['limit'];
  readonly tenfold?: boolean;
  readonly top?: number;
}

function chartOf(form: Form, lines: ChartLine[]): Chart {
  const { key, unit, says, limit = null, tenfold = false, top = Infinity } = form;
  const { size } = unit;
  return {
    id: key, tenfold, says, top: top / size,
    name: t('charts.unit', { name: t(key), unit: word(unit.key) }),
    lines: lines.map(({ name, values }) => ({ name, values: values.map((one) => one / size) })),
    limit: limit === null ? null : { ...limit, value: limit.value / size },
  };
}

export function chartsOf(ground: Ground): readonly Chart[] {
  const { rerun: { rows }, scenario } = ground;
  const job = scenario.job;
  if (rows.length < 2 || job === undefined) return [];
  const followed = followedOf(scenario);
  return [
    ...flowChart(ground, followed),
    speedChart(ground, followed),
    airChart(ground),
    ...levelChart(ground, followed),
    ...pressureChart(ground, followed),
    lossChart(ground),
  ];
}

const at = (tick: number, { scenario }: Ground): string => clock(tick * scenario.solver.tick_s);

function flowChart(ground: Ground, { pumps }: Followed): readonly Chart[] {
  const { rerun: { rows }, lex } = ground;
  const first = pumps[0];
  if (first === undefined) return [];
  const most = peak(rows, ({ flows }) => flows[0] ?? 0);
  const says = t('charts.flow_says', {
    value: quantityText(most.value, 'flow'), part: lex.part(first), time: at(most.tick, ground),
  });
  const lines = pumps.map((id, k) =>
    ({ name: lex.part(id), values: rows.map(({ flows }) => flows[k] ?? 0) }));
  return [chartOf({ key: 'charts.flow', unit: UNITS.L_min, says }, lines)];
}

function speedChart({ rerun: { rows, fast_s }, scenario, lex }: Ground, { loop }: Followed) {
  const value = scenario.job?.rule_velocity_m_s ?? 0;
  const least = loop
    .map((id, k) => ({ part: lex.part(id), time_s: fast_s[k] ?? 0 }))
    .sort((a, b) => a.time_s - b.time_s)
    .slice(0, NAMED_MOST)
    .map(({ part, time_s }) => (time_s === 0 ? t('charts.speed_never', { part })
      : t('charts.speed_for', { part, time: durationText(time_s) })));
  const top = SPEED_TOP * value;
  const over = rows.some(({ fastest }) => fastest > top);
  const says = [
    t('charts.speed_says', { rule: speedText(value), list: list(least) }),
    over ? t('charts.speed_top', { top: speedText(top) }) : '',
  ].join(' ').trim();
  const limit = { name: t('charts.rule'), value };
  const slow = { name: t('charts.slowest'), values: rows.map(({ slowest }) => slowest) };
  const fast = { name: t('charts.fastest'), values: rows.map(({ fastest }) => fastest) };
  const lines = loop.length > 1 ? [slow, fast] : [{ ...slow, name: lex.part(loop[0] ?? '') }];
  return chartOf({ key: 'charts.speed', unit: UNITS.m_s, says, limit, top }, lines);
}

function airChart(ground: Ground): Chart {
  const { rerun: { rows, purged }, scenario } = ground;
  const allowed = (scenario.job?.air_allowed_L ?? 0) / 1000;
  const text = (value: number): string => quantityText(value, 'volume');
  const says = [
    t('charts.air_says', {
      first: text(rows[0]!.air), last: text(rows.at(-1)!.air), limit: text(allowed),
    }),
    purged === null ? '' : t('charts.air_from', { time: at(purged.tick, ground) }),
    rows.at(-1)!.air > allowed ? t('charts.air_never') : '',
    t('charts.air_scale'),
  ].filter((one) => one !== '').join(' ');
  const values = rows.map(({ air }) => Math.max(AIR_LEAST, air));
  const limit = { name: t('charts.allowed'), value: allowed };
  const form = { key: 'charts.air', unit: UNITS.L, says, limit, tenfold: true } as const;
  return chartOf(form, [{ name: t('charts.loop'), values }]);
}

function levelChart({ rerun: { rows }, lex }: Ground, { tank }: Followed): readonly Chart[] {
  if (tank === null) return [];
  const levels = rows.map(({ level }) => level);
  const says = t('charts.level_says', {
    least: levelText(Math.min(...levels)), most: levelText(Math.max(...levels)),
    last: levelText(levels.at(-1)!),
  });
  const line = { name: lex.part(tank), values: levels };
  return [chartOf({ key: 'charts.level', unit: UNITS.mm, says }, [line])];
}

function pressureChart(ground: Ground, { places }: Followed): readonly Chart[] {
  const { rerun: { rows }, lex } = ground;
  const highest = places
    .map(({ gauge }, k) => ({ gauge, ...peak(rows, ({ pressures }) => pressures[k] ?? 0) }))
    .sort((a, b) => b.value - a.value)[0];
  if (highest === undefined) return [];
  const says = t('charts.pressure_says', {
    part: lex.part(highest.gauge), value: quantityText(highest.value, 'pressure'),
    time: at(highest.tick, ground),
  });
  const lines = places.map(({ gauge }, k) =>
    ({ name: lex.part(gauge), values: rows.map(({ pressures }) => pressures[k] ?? 0) }));
  return [chartOf({ key: 'charts.pressure', unit: UNITS.kPa, says }, lines)];
}

function lossChart({ rerun: { rows }, scenario }: Ground): Chart {
  const free = (scenario.job?.loss_free_L ?? 0) / 1000;
  const last = rows.at(-1)!;
  const text = (value: number): string => quantityText(value, 'volume');
  const says = t('charts.loss_says', {
    spilled: text(last.spilled), wasted: text(last.wasted), free: text(free),
  });
  const limit = { name: t('charts.free'), value: free };
  return chartOf({ key: 'charts.loss', unit: UNITS.L, says, limit }, [
    { name: t('charts.spilled'), values: rows.map(({ spilled }) => spilled) },
    { name: t('charts.wasted'), values: rows.map(({ wasted }) => wasted) },
  ]);
}

export interface Table {
  readonly columns: readonly string[];
  readonly rows: readonly (readonly [name: string, ...cells: string[]])[];
}

/** The same numbers at the moments, for whoever does not see the lines. */
export function tableOf(ground: Ground, moments: readonly (readonly [string, Row])[]): Table {
  const { rerun: { rows }, scenario, lex } = ground;
  const { pumps, places, tank } = followedOf(scenario);
  const named = (key: WordKey, name: string, unit: Unit): string =>
    t('charts.unit', { name: `${t(key)}: ${name}`, unit: word(unit.key) });
  const cell = (value: number, { size }: Unit, decimals: number): string =>
    number(value / size, decimals);
  const columns: [string, (row: Row) => string][] = [
    [t('charts.time'), ({ tick }) => at(tick, ground)],
    ...pumps.map((id, k): [string, (row: Row) => string] =>
      [named('charts.flow', lex.part(id), UNITS.L_min),
        ({ flows }) => cell(flows[k] ?? 0, UNITS.L_min, 1)]),
    [named('charts.speed', t('charts.slowest'), UNITS.m_s),
      ({ slowest }) => cell(slowest, UNITS.m_s, 2)],
    [named('charts.speed', t('charts.fastest'), UNITS.m_s),
      ({ fastest }) => cell(fastest, UNITS.m_s, 2)],
    [named('charts.air', t('charts.loop'), UNITS.L), ({ air }) => cell(air, UNITS.L, 2)],
    ...(tank === null ? [] : [[named('charts.level', lex.part(tank), UNITS.mm),
      ({ level }: Row) => cell(level, UNITS.mm, 0)] as [string, (row: Row) => string]]),
    ...places.map(({ gauge }, k): [string, (row: Row) => string] =>
      [named('charts.pressure', lex.part(gauge), UNITS.kPa),
        ({ pressures }) => cell(pressures[k] ?? 0, UNITS.kPa, 0)]),
    [named('charts.loss', t('charts.spilled'), UNITS.L),
      ({ spilled }) => cell(spilled, UNITS.L, 1)],
    [named('charts.loss', t('charts.wasted'), UNITS.L), ({ wasted }) => cell(wasted, UNITS.L, 1)],
  ];
  const all: (readonly [string, Row])[] = [
    [t('charts.start'), rows[0]!], ...moments, [t('charts.end'), rows.at(-1)!],
  ];
  return {
    columns: columns.map(([name]) => name),
    rows: all.map(([name, row]) => [name, ...columns.map(([, of]) => of(row))]),
  };
}
