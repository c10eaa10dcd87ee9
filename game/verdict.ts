// The marks as text: every deduction with its moment, what could be seen, how to earn it, the rule
// and its source. Reads what the engine found; finds nothing itself.
import {
  isOfHandOver, PHASES, type CriticalError, type Deduction, type Fact, type Measures,
  type MilestoneMark, type Phase, type Quantity, type Scenario, type Score,
} from '../sim/index.ts';
import { clock, fahrenheit, figure, list, LONG_s, UNITS } from './i18n/format.ts';
import { t, upper, type Lexicon, type WordKey } from './i18n/index.ts';
import { lengthText } from './jobs.ts';
import { answerText, lineName } from './jobsheet.ts';
import { asGiven, inBoth, withUnit } from './readings.ts';

/** Points as shown: one decimal at most, and never rounded up to a full mark that is not there. */
export function pointsText(points: number): string {
  return figure(Math.floor(points * 10 + 1e-6) / 10, 1);
}

/** Points lost as shown: rounded up, so that nothing lost shows as 0 but nothing. */
export function lostText(points: number): string {
  return figure(Math.ceil(points * 10 - 1e-6) / 10, 1);
}

export function durationText(time_s: number): string {
  if (time_s < 60) return t('unit.seconds', { n: figure(time_s, 1) });
  const whole = Math.floor(time_s + 1e-6); // As the clock shows it.
  const rest = whole % 60;
  if (whole >= LONG_s || rest === 0) return lengthText(whole - rest);
  const [first, second] = [lengthText(whole - rest), t('unit.seconds', { n: rest })];
  return t('unit.two', { first, second });
}

const both = (first: string, second: string) => t('unit.both', { first, second });

/** Least that is written in millilitres, m3: a drop and a half. */
const DROP = 1e-7;

function smallText(value: number): string {
  const text = (of: number) => t('unit.pair', { value: figure(of * 1e6, 1), unit: t('unit.mL') });
  return value < DROP ? t('unit.under', { value: text(DROP) }) : text(value);
}

/** A small volume keeps a digit that says something. */
function volumeText(value: number): string {
  const litres = value * 1000;
  if (litres > 0 && litres < 0.1) return smallText(value);
  const digits = litres < 1 ? 2 : 1;
  const first = t('unit.pair', { value: figure(litres, digits), unit: t('unit.L') });
  if (litres < 1) return first;
  const decimals = litres < 400 ? 1 : 0; // As many figures as the litres have.
  return both(first, withUnit(value, { ...UNITS.gal, decimals }));
}

/** Grains are told in grams, as they are asked for. */
function massText(value: number): string {
  if (value >= 1) return inBoth(value, UNITS.kg, UNITS.lb);
  return both(asGiven(value, UNITS.g), asGiven(value, UNITS.oz));
}

export function quantityText(value: number, quantity: Quantity): string {
  switch (quantity) {
    case 'volume': return volumeText(value);
    case 'time': return durationText(value);
    case 'pressure': return inBoth(value, UNITS.kPa, UNITS.psi);
    case 'angle': return t('unit.degrees', { n: Math.round(value) });
    case 'ratio': return t('unit.percent', { n: Math.round(value * 100) });
    case 'length': return inBoth(value, UNITS.m, UNITS.ft);
    case 'temperature': return t('unit.pair', { value: figure(value, 1), unit: t('unit.K') });
    case 'celsius': return both(
      t('unit.pair', { value: figure(value, 1), unit: t('unit.C') }),
      t('unit.pair', { value: figure(fahrenheit(value), 1), unit: t('unit.F') }),
    );
    case 'mass': return massText(value);
    case 'flow': return inBoth(value, UNITS.fine_L_min, UNITS.gpm);
    case 'velocity': return inBoth(value, UNITS.m_s, UNITS.ft_s);
    case 'bore': return inBoth(value, UNITS.fine_mm, UNITS.fine_in);
    case 'level': return both(asGiven(value, UNITS.fine_mm), asGiven(value, UNITS.fine_in));
    case 'count': return figure(value, 0);
    case 'energy': return withUnit(value, UNITS.J);
    case 'state': return t(value === 0 ? 'controls.standing' : 'controls.running');
    case 'none': return figure(value, 2);
  }
}

export interface DeductionText {
  readonly points: string;
  readonly when: string;
  readonly message: string;
  readonly seen: string;
  readonly how: string;
  readonly source: string;
  readonly includes: string;
}

/** Where a deduction's words come from. */
interface Ground { readonly lex: Lexicon; readonly score: Score; readonly scenario: Scenario }

/** True of what a job sheet cost: it was on paper before work, and the yard shows none of it. */
export const isOfSheet = ({ rule }: Pick<Deduction, 'rule'>): boolean => rule.startsWith('sheet_');

function timeOf(tick: number | null, scenario: Scenario): string {
  if (tick === null) return t('debrief.whole');
  return t('debrief.at', { time: clock(tick * scenario.solver.tick_s) });
}

function filled(of: Deduction | CriticalError, lex: Lexicon, key: string): string {
  const sheet = 'line' in of ? of.line : undefined; // Told in the units it asks for.
  const text = (value: number | null) => {
    if (value === null) return '';
    return sheet === undefined ? quantityText(value, of.quantity) : answerText(sheet.kind, value);
  };
  const part = of.at === null ? '' : lex.part(of.at);
  const goal = (id: string) => lex.say(`milestone.${id}`);
  const milestone = 'milestone' in of && of.milestone !== undefined ? goal(of.milestone) : '';
  const first = 'first' in of && of.first !== undefined ? list(of.first.map(goal)) : '';
  const line = sheet === undefined ? '' : lineName(sheet, lex);
  return upper(
    lex.say(key, { part, milestone, first, line, value: text(of.value), limit: text(of.limit) }),
  );
}

export function deductionText(
  found: Deduction,
  { lex, scenario }: Pick<Ground, 'lex' | 'scenario'>,
  sources: Readonly<Record<string, string>>,
): DeductionText {
  const part = found.at === null ? '' : lex.part(found.at);
  const others = found.includes.map((rule) => ruleName(rule, part, lex));
  return {
    points: lostText(found.points),
    when: isOfSheet(found) ? t('debrief.before') : timeOf(found.tick, scenario),
    message: filled(found, lex, found.message),
    seen: filled(found, lex, found.seen),
    how: filled(found, lex, found.how),
    source: sources[found.source] ?? found.source,
    includes: others.length === 0 ? '' : t(includesKey(found), { list: others.join('; ') }),
  };
}

const includesKey = ({ milestone }: Deduction): WordKey =>
  milestone === undefined ? 'debrief.includes' : 'debrief.includes_missed';

/** Where a rule has its line in short, the first that there is. */
const SHORT = ['hazard.RULE.warning', 'order.RULE', 'milestone.RULE', 'short.RULE', 'message.RULE'];

/** A rule in short, for "this includes": of a hazard or an order its line at that part. */
function ruleName(rule: string, part: string, lex: Lexicon): string {
  const keys = SHORT.map((key) => key.replace('RULE', rule));
  const key = keys.find((one) => lex.has(one)) ?? rule;
  return upper(lex.say(key, { part }).replace(/\.$/, ''));
}

export function criticalText(found: CriticalError, ground: Ground): string {
  return `${upper(timeOf(found.tick, ground.scenario))}: ${criticalMessage(found, ground)}`;
}

export function criticalMessage(found: CriticalError, { lex }: Pick<Ground, 'lex'>): string {
  return filled(found, lex, found.message);
}

/** Milestones by name, one after the other. */
export const stepsText = (steps: readonly { readonly id: string }[], lex: Lexicon): string =>
  list(steps.map(({ id }) => lex.say(`milestone.${id}`)));

/** Why it did not pass, a sentence each. */
export function reasonTexts(score: Score, lex: Lexicon): readonly string[] {
  const steps = stepsText(score.milestones.filter(({ fails }) => fails), lex);
  const left = score.deductions.flatMap(({ rule, at }) =>
    isOfHandOver(rule) && at !== null ? [lex.part(at)] : []);
  const parts = left.length === 0 ? '' : `: ${list(left)}`;
  return score.reasons.map((reason) => lex.say(`reason.${reason}`, { steps, parts }));
}

/** The same where there is little room: what has too few points in one sentence. */
export function shortReasons(score: Score, lex: Lexicon): readonly string[] {
  const { reasons, dimensions } = score;
  const short = dimensions.filter(({ met }) => !met)
    .map(({ dimension }) => lex.say(`dimension.${dimension}`));
  const own = reasons.filter((reason) => !/^(minimum_\w+|total|critical)$/.test(reason));
  const said = reasonTexts({ ...score, reasons: own }, lex);
  if (short.length > 0) return [...said, t('instructor.too_few', { list: list(short) })];
  return said.length > 0 || score.critical.length > 0 ? said : reasonTexts(score, lex);
}

type Beyond = Extract<Fact, { kind: 'beyond' }>;

function beyondValue({ limit, value }: Beyond): string {
  switch (limit) {
    case 'bore': return inBoth(value, UNITS.mm, UNITS.in);
    case 'gas_speed': return inBoth(value, UNITS.m_s, UNITS.ft_s);
    case 'vapour': return inBoth(value, UNITS.kPa, UNITS.psi);
    case 'roughness':
    case 'fraction': return quantityText(value, 'ratio');
    case 'overshoot': return figure(value, 1);
    case 'temperature': return figure(value, 0);
  }
}

/** Where the run left what the model represents: moment and remark, in the order of the run. */
export function beyondTexts(
  facts: readonly Fact[],
  { lex, scenario }: Pick<Ground, 'lex' | 'scenario'>,
): readonly string[] {
  return facts
    .filter((fact) => fact.kind === 'beyond')
    .map((fact) => {
      const said = lex.say(`beyond.${fact.limit}`, { value: beyondValue(fact) });
      return `${upper(timeOf(fact.tick, scenario))}: ${said}`;
    });
}

/** A milestone as the debrief tells it: what, when, and whether it came too early. */
export interface DoneText {
  readonly id: string;
  readonly name: string;
  /** On the clock, or that it was not done. */
  readonly when: string;
  readonly state: 'done' | 'early' | 'missed';
  /** True where the job is not passed for want of it. */
  readonly fails: boolean;
}

export interface PhaseText { readonly phase: string; readonly rows: readonly DoneText[] }

/** What was done, and when: by phase in the order of the day, those of a phase by their time. */
export function doneTexts(
  milestones: readonly MilestoneMark[],
  { lex, scenario }: Pick<Ground, 'lex' | 'scenario'>,
): readonly PhaseText[] {
  return phasesAmong(milestones).map((phase) => ({
    phase: lex.say(`phase.${phase}`),
    rows: milestones
      .filter((one) => one.phase === phase)
      .sort((a, b) => (a.tick ?? Infinity) - (b.tick ?? Infinity))
      .map((one): DoneText => ({
        id: one.id,
        name: upper(lex.say(`milestone.${one.id}`)),
        when: one.tick === null
          ? t('debrief.not_done')
          : t('debrief.at', { time: clock(one.tick * scenario.solver.tick_s) }),
        state: one.tick === null ? 'missed' : one.in_order ? 'done' : 'early',
        fails: one.fails,
      })),
  }));
}

/** Phases that have a milestone, in the order of a day. */
export function phasesAmong(milestones: readonly { readonly phase: Phase }[]): readonly Phase[] {
  const used = new Set(milestones.map(({ phase }) => phase));
  return PHASES.filter((phase) => used.has(phase));
}

type Row = readonly [name: string, value: string];

/** What the job's outcomes looked at, if it has any. */
function outcomeRows(measures: Measures, lex: Lexicon): readonly Row[] {
  const { freeze, debris_kg, pressures = {}, flows = {} } = measures;
  const rows: Row[] = [];
  if (freeze !== undefined) {
    rows.push([t('debrief.freeze_mean'), quantityText(freeze.mean_C, 'celsius')]);
    rows.push([t('debrief.freeze_weakest'), quantityText(freeze.weakest_C, 'celsius')]);
  }
  for (const [id, value] of Object.entries(pressures)) {
    rows.push([t('debrief.pressure_at', { part: lex.part(id) }), quantityText(value, 'pressure')]);
  }
  for (const [id, value] of Object.entries(flows)) {
    rows.push([t('debrief.flow_in', { part: lex.part(id) }), quantityText(value, 'flow')]);
  }
  if (debris_kg !== undefined) rows.push([t('debrief.debris'), quantityText(debris_kg, 'mass')]);
  return rows;
}

/** What was true at hand-over, name and value. */
export function measuresText(measures: Measures, lex: Lexicon): readonly Row[] {
  return [
    [t('debrief.air'), volumeText(measures.loop_air_m3)],
    ...outcomeRows(measures, lex),
    [t('debrief.spilled'), volumeText(measures.spilled_m3)],
    [t('debrief.wasted'), volumeText(measures.wasted_m3)],
    [t('debrief.time'), clock(measures.time_s)],
  ];
}
