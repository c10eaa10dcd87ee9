// What the pages say must be there for every id, and the numbers in the words must be the job's.
import { describe, expect, it } from 'vitest';
import { readFileSync } from 'node:fs';
import { LEVELS } from '../../../levels/index.ts';
import { BEYOND, EVENTS, HAZARDS } from '../../../sim/fact.ts';
import { PHASES } from '../../../sim/phases.ts';
import { DIMENSIONS } from '../../../sim/rules.ts';
import { REASONS } from '../../../sim/marks.ts';
import { MILESTONE_KINDS } from '../../../sim/scenario-goals.ts';
import { SHEET_KINDS } from '../../../sim/scenario-sheet.ts';
import { scenarioJsonSchema } from '../../../sim/scenario.ts';
import { endForms } from '../../tools/form-ends.ts';

const STAGES = ['warning', 'tripped', 'ended'] as const;
const HAND_OVER = [
  'pump_left_on',
  'pump_left_off',
  'valve_left_open',
  'valve_left_shut',
  'coupling_left_made',
  'coupling_left_apart',
  'three_way_left',
  'latch_left',
  'lock_left',
  'guard_left',
  'wear_left',
  'fan_left',
  'act_left',
];
const RULES = [
  ...['air_left', 'fluid_lost', 'time_taken', 'time_not_counted', 'suction_before_pump'],
  ...['freeze', 'pressure', 'debris', 'flow'].map((kind) => `outcome_${kind}`),
  ...MILESTONE_KINDS.map((kind) => `missed_${kind}`),
  'missed_noted_during',
  'out_of_order',
  ...['wrong', 'cancelled', 'could_tell', 'unanswered'].map((kind) => `sheet_${kind}`),
  ...['wrong', 'could_tell', 'unanswered'].map((kind) => `residual_${kind}`),
];

/** Keys that every level needs, by the ids of the engine and of its own parts. */
function keysNeeded(level: (typeof LEVELS)[number]): string[] {
  const { nodes, links, devices, instruments, record, job } = level.scenario;
  const rules = [...RULES, ...HAND_OVER, ...HAZARDS, ...level.rules.order.map((o) => o.id)];
  return [
    'title',
    'summary',
    'brief.1',
    'question.1',
    'pass.total',
    'pass.critical',
    'caution.aid',
    ...[...nodes, ...links, ...devices, ...record].map(({ id }) => `part.${id}`),
    ...instruments.map(({ id }) => `reading.${id}`),
    ...rules.flatMap((rule) => [`message.${rule}`, `seen.${rule}`, `how.${rule}`]),
    ...HAZARDS.map((hazard) => `critical.${hazard}`),
    ...HAZARDS.flatMap((hazard) => STAGES.map((stage) => `hazard.${hazard}.${stage}`)),
    ...BEYOND.map((limit) => `beyond.${limit}`),
    ...EVENTS.map((event) => `event.${event}`),
    ...(job?.critical ?? []).map((hazard) => `critical.${hazard}`),
    ...PHASES.map((phase) => `phase.${phase}`),
    ...(job?.milestones ?? []).map(({ id }) => `milestone.${id}`),
    ...[...SHEET_KINDS, 'residual'].flatMap((kind) => [`sheet_line.${kind}`, `sheet_why.${kind}`]),
    'sheet_why.banks_once',
    ...REASONS.map((reason) => `reason.${reason}`),
    ...DIMENSIONS.map((dimension) => `dimension.${dimension}`),
  ];
}

describe.each(LEVELS)('the words of $id', (level) => {
  it('have a text for every part, reading, rule, hazard and event', () => {
    const missing = keysNeeded(level).filter((key) => !Object.hasOwn(level.words, key));
    expect(missing).toEqual([]);
  });

  it('have no empty text', () => {
    expect(Object.entries(level.words).filter(([, text]) => text.trim() === '')).toEqual([]);
  });
});

describe('the pass marks of Heron Lane', () => {
  const { words, scenario, rules } = LEVELS[0]!;
  const job = scenario.job!;
  const says = (key: string, ...numbers: number[]): void => {
    const found = (words[key]!.match(/\d+(\.\d+)?/g) ?? []).map(Number);
    for (const number of numbers) expect(found, `${key}: ${words[key]}`).toContain(number);
  };

  it('are those of the job and of the rules', () => {
    const { outcome, safety } = rules.dimensions;
    says(
      'pass.total',
      rules.pass_total,
      100 * outcome.minimum_share,
      100 * safety.minimum_share,
    );
    says('pass.air', job.air_allowed_L);
    says('pass.loss', job.loss_free_L, job.loss_cap_L);
    says('pass.time', job.time_full_s / 60, job.time_zero_s / 60);
    const lengths = endForms(scenario).flatMap(({ links }) =>
      links.flatMap((l) => (l.id === 'circuit' && l.kind === 'pipe' ? [l.length_m] : [])),
    );
    says('summary', Math.min(...lengths), Math.max(...lengths));
  });

  it('state the rating of the weakest part', () => {
    const ratings = scenario.nodes.flatMap((n) =>
      n.kind === 'junction' ? [n.rating_kPa ?? Infinity] : [],
    );
    says('caution.pressure', Math.min(...ratings));
  });
});

describe('the published schema', () => {
  it('is the one the engine checks with', () => {
    const file = new URL('../../../levels/scenario.schema.json', import.meta.url);
    const kept: unknown = JSON.parse(readFileSync(file, 'utf8'));
    expect(kept).toEqual(JSON.parse(JSON.stringify(scenarioJsonSchema())));
  });
});
