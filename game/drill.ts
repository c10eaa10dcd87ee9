// What a drill asks for, as text: its milestones and outcomes with their numbers, how things have
// to be left, and what is counted. All of it from the drill's own scenario, so that nothing is said
// of the day around it that is not asked for here.
import { LEVELS, type Level } from '../levels/index.ts';
import {
  askedAt, outcomesOf, rulesFor, scaleOf, testedBy,
  type JobSpec, type MilestoneSpec, type OutcomeSpec, type Phase, type Scenario,
} from '../sim/index.ts';
import { degreesWord, halvesWord, positionWord } from './controls.ts';
import { devicePosition } from './devices.ts';
import { list, UNITS } from './i18n/format.ts';
import { t, upper, type Lexicon } from './i18n/index.ts';
import { lengthText } from './jobs.ts';
import { asGiven } from './readings.ts';
import { lostText, pointsText, quantityText, stepsText } from './verdict.ts';

type Row = readonly [name: string, value: string];

/** One thing to be done on the way. */
export interface AskedText {
  readonly id: string;
  readonly name: string;
  readonly detail: string;
  readonly points: string;
}

/** Phases of the day up to this one, in its order; this one is the last. */
export function phasesUpTo({ folder, phase }: Pick<Level, 'folder' | 'phase'>): readonly Phase[] {
  const day = LEVELS.find((one) => one.folder === folder)?.drills ?? [];
  const at = day.findIndex((one) => one === phase);
  return day.slice(0, at + 1);
}

/** Pumps that turn already when it begins. */
export function runningAtStart({ links }: Scenario, lex: Lexicon): readonly string[] {
  return links.flatMap((link) =>
    link.kind === 'pump' && link.start_on ? [lex.part(link.id)] : []);
}

/** What has to happen on the way, each with its numbers and its points as they count here. */
export function askedTexts({ scenario, rules }: Level, lex: Lexicon): readonly AskedText[] {
  const k = scaleOf(scenario, rules);
  return (scenario.job?.milestones ?? []).map((spec) => ({
    id: spec.id,
    name: upper(lex.say(`milestone.${spec.id}`)),
    // Where the part would say what is to be found, the level has words of its own.
    detail: lex.has(`asked.${spec.id}`) ? lex.say(`asked.${spec.id}`)
      : upper(detailOf(spec, scenario, lex)),
    points: pointsWord(pointsText(k * spec.points)),
  }));
}

/** "2 points". */
export const pointsWord = (points: string): string =>
  t(points === '1' ? 'drill.point' : 'drill.points', { points });

/** As it is asked for, without a figure more. */
function flowText(L_s: number): string {
  const flow = L_s / 1000;
  const [first, second] = [asGiven(flow, UNITS.fine_L_min), asGiven(flow, UNITS.gpm)];
  return t('unit.both', { first, second });
}

const WAYS = { forth: 'drill.ran_forth', back: 'drill.ran_back', either: 'drill.ran' } as const;

function detailOf(spec: MilestoneSpec, scenario: Scenario, lex: Lexicon): string {
  switch (spec.kind) {
    case 'held': {
      const to = quantityText(1000 * spec.to_kPa, 'pressure');
      const [part, time] = [lex.part(spec.node), lengthText(spec.for_s)];
      if (spec.from_kPa <= 0) return t('drill.held_below', { part, to, time });
      const from = quantityText(1000 * spec.from_kPa, 'pressure');
      return t('drill.held', { part, from, to, time });
    }
    case 'ran': {
      const flow = flowText(spec.above_L_s);
      const [part, time] = [lex.part(spec.link), lengthText(spec.for_s)];
      // Which one it is, nobody is told.
      if (spec.found !== undefined) {
        return t('drill.find', { flow, time, list: list(spec.still.map(lex.part)) });
      }
      const said = t(WAYS[spec.way], { part, flow, time });
      if (spec.still.length === 0) return said;
      return t('drill.alone', { said, list: list(spec.still.map(lex.part)) });
    }
    case 'passed': {
      const litres = quantityText(spec.litres / 1000, 'volume');
      return t('drill.passed', { part: lex.part(spec.link), litres });
    }
    case 'shut_in': {
      const [pump, valve] = [lex.part(spec.pump), lex.part(spec.valve)];
      return t('drill.shut_in', { pump, valve, time: lengthText(spec.for_s) });
    }
    case 'noted':
      return t(spec.during === undefined ? 'drill.noted' : 'drill.noted_during', {
        part: lex.part(spec.entry),
      });
    case 'stood': {
      const state = positionOf(scenario, lex, spec.control, spec.at);
      return t('drill.stood', { part: lex.part(spec.control), state });
    }
    case 'left':
      return t('drill.left', { time: lengthText(3600 * spec.hours) });
  }
}

/** What has to be true at the end. */
export function outcomeTexts(level: Level, lex: Lexicon): readonly string[] {
  const { job } = level.scenario;
  if (job === undefined) return [];
  const later = partsOfLater(level, job).map((id) => lex.part(id));
  return outcomesOf(job).map((one) =>
    one.kind === 'air' && later.length > 0
      ? t('drill.air_but', { most: allowedAir(job), list: list(later) })
      : outcomeText(one, job, lex));
}

/** Parts of the day's loop whose air is not counted here yet. */
function partsOfLater({ folder }: Level, { loop_links }: JobSpec): readonly string[] {
  const day = LEVELS.find((one) => one.folder === folder)?.scenario.job?.loop_links ?? [];
  return day.filter((id) => !loop_links.includes(id));
}

const allowedAir = (job: JobSpec): string => quantityText(job.air_allowed_L / 1000, 'volume');

function outcomeText(outcome: OutcomeSpec, job: JobSpec, lex: Lexicon): string {
  switch (outcome.kind) {
    case 'air':
      return t('drill.air', { most: allowedAir(job) });
    case 'freeze': {
      const within = quantityText(outcome.within_C, 'temperature');
      return t('drill.freeze', { aim: quantityText(outcome.aim_C, 'celsius'), within });
    }
    case 'pressure': {
      const { node, aim_kPa, within_kPa } = outcome;
      const [from, to] = [aim_kPa - within_kPa, aim_kPa + within_kPa].map((kPa) =>
        quantityText(1000 * kPa, 'pressure'));
      return t('drill.pressure', { part: lex.part(node), from: from ?? '', to: to ?? '' });
    }
    case 'debris':
      return t('drill.debris', { most: quantityText(outcome.most_g / 1000, 'mass') });
    case 'flow': {
      const least = flowText(outcome.least_L_s);
      return t('drill.flow', { part: lex.part(outcome.link), least });
    }
  }
}

/** How things have to stand: "Shut" and what is to be shut, a row for each state. */
export function leaveTexts(scenario: Scenario, lex: Lexicon): readonly Row[] {
  const rows = new Map<string, string[]>();
  const order = [...scenario.links, ...scenario.devices].map(({ id }) => id);
  const left = [...(scenario.job?.hand_over ?? [])].sort((a, b) =>
    order.indexOf(a.control) - order.indexOf(b.control));
  for (const asked of left) {
    const { control } = asked;
    const word = upper(positionOf(scenario, lex, control, askedAt(scenario, asked).position));
    rows.set(word, [...(rows.get(word) ?? []), lex.part(control)]);
  }
  return [...rows].map(([word, parts]) => [word, list(parts)]);
}

/** The word for a control at this place, as its handle or its buttons say it. */
function positionOf(scenario: Scenario, lex: Lexicon, id: string, at: number): string {
  const link = scenario.links.find((one) => one.id === id);
  switch (link?.kind) {
    case 'valve': return degreesWord(at);
    case 'pump': return t(at === 1 ? 'controls.running' : 'controls.standing');
    case 'coupling': return halvesWord(at === 1);
    case 'three_way': {
      const { from, branch, to } = link;
      const node = (end: string) => end.split('.')[0] ?? end;
      return positionWord({ id, from: node(from), branch: node(branch), to: node(to) }, at, lex);
    }
    default: break;
  }
  const spec = scenario.devices.find((one) => one.id === id);
  if (spec === undefined) return String(at);
  const places = spec.kind === 'cup' ? spec.places : [];
  return devicePosition({ id, device: spec.kind, places }, at, lex);
}

/** The points of each dimension that is tested, and the least that is needed of it. */
export function marksRows({ scenario, rules }: Level, lex: Lexicon): readonly Row[] {
  const { dimensions } = rulesFor(scenario, rules);
  return testedBy(scenario).map((name): Row => {
    const { max, minimum_share } = dimensions[name];
    const points = pointsText(max);
    const least = lostText(max * minimum_share);
    const value = minimum_share === 0
      ? pointsWord(points)
      : t('drill.points_least', { points, least });
    return [lex.say(`dimension.${name}`), value];
  });
}

/** What it is not passed without; null where nothing is so. */
export function essentialText({ job }: Scenario, lex: Lexicon): string | null {
  const steps = (job?.milestones ?? []).filter(({ essential }) => essential === true);
  return steps.length === 0 ? null : t('job.essential', { steps: stepsText(steps, lex) });
}

/** What it takes beside that, sentence by sentence. */
export function passTexts({ scenario, rules }: Level): readonly string[] {
  const { job, ends_after_s } = scenario;
  if (job === undefined) return [];
  const spilt = rulesFor(scenario, rules).hazards.overflow.tripped_points;
  const litres = (value: number) => quantityText(value / 1000, 'volume');
  const share = quantityText(rules.milestones.minimum_share, 'ratio');
  return [
    t('drill.total', { points: pointsText(rules.pass_total) }),
    ...((job.milestones ?? []).length > 0 ? [t('drill.asked_least', { share })] : []),
    t('drill.loss', {
      free: litres(job.loss_free_L), cap: litres(job.loss_cap_L), points: pointsText(spilt),
    }),
    t('drill.time', {
      full: lengthText(job.time_full_s), zero: lengthText(job.time_zero_s),
      end: lengthText(ends_after_s),
    }),
  ];
}

/** What fails it whatever the points, as far as it can happen here. */
export function criticalTexts({ job, record }: Scenario, lex: Lexicon): readonly string[] {
  return (job?.critical ?? [])
    .filter((hazard) => hazard !== 'false_record' || record.length > 0)
    .map((hazard) => lex.say(`critical.${hazard}`));
}
