// What may be done in another order in each job, and what not: windows and broken constraints.
import type { Command } from '../../sim/command.ts';
import type { Step } from '../../sim/script-schema.ts';
import type { Break, PartialOrder, Window } from './orderings.ts';

const phase = (name: string) => ({ step: { phase: name } });
const wait = { until: { hands: 'free' as const }, for_s: 0, max_s: 240, else: 'fail' as const };
const set = (device: string, position: number): Command => ({ kind: 'set', device, position });
const turned = (on: boolean): Command => ({ kind: 'switch', pump: 'pump', on });
const LATE = { rule: 'time_not_counted' } as const;

const within = (after: Window['after'], before: Window['before'], ...ids: string[]): Window[] =>
  ids.map((device) => ({ command: { device, position: 1 }, after, before }));

/** A milestone that comes before one that it rests on: half of its points, and nothing else. */
const early = (milestone: string) => [{ rule: 'out_of_order', about: milestone }];

/** Something done once more before its time. */
const before = (milestone: string, put: Step[], at: Window['before']): Break => ({
  ...{ what: `${milestone} before its time`, edit: { put, before: at }, costs: early(milestone) },
});
const noted = (milestone: string, line: string, at: Window['before']): Break =>
  before(milestone, [{ write: line }], at);
const cup = (milestone: string, position: number, at: Window['before']): Break =>
  before(milestone, [{ do: set('cup', position) }, wait, { do: set('cup', 0) }, wait], at);

/** The one note first, though it rests on the other. */
const swapped = (milestone: string, first: string, then: string): Break => ({
  what: `${then} written before ${first}`,
  edit: { move: { step: { write: first } }, after: { step: { write: then } } },
  costs: early(milestone),
});

/** What every job of a cart asks for, whatever else. */
function plain(valve: string, nth: number): Break[] {
  const on = { step: { do: { kind: 'switch', on: true } }, nth: 1 };
  return [
    {
      what: 'the job sheet after the first valve',
      edit: {
        move: { step: { sheet: 'worked_out' } },
        after: { step: { do: { kind: 'valve' } }, nth: 1 },
      },
      costs: [{ rule: 'sheet_unanswered' }],
    },
    {
      what: 'handed over before the pump is off',
      edit: { leave_out: { command: { kind: 'switch', on: false }, nth } },
      costs: [{ rule: 'pump_left_on', about: 'pump' }, LATE],
    },
    {
      what: 'handed over before the return is shut',
      edit: { leave_out: { command: { valve: 'loop_return_valve', target_deg: 0 } } },
      costs: [{ rule: 'valve_left_open', about: 'loop_return_valve' }, LATE],
    },
    ...(valve === ''
      ? []
      : [
          {
            what: 'the pump before its suction',
            edit: { move: { command: { valve } }, after: on },
            costs: [{ rule: 'suction_before_pump', about: 'pump' }],
          },
        ]),
  ];
}

const ARRIVED = phase('arrive');

export const PARTIAL: Readonly<Record<string, PartialOrder>> = {
  '01-heron-lane': {
    windows: ['suction_valve', 'return_valve', 'discharge_valve'].map((valve) => ({
      command: { valve, target_deg: 90 },
      after: { step: { sheet: 'worked_out' } },
      before: { step: { until: { hands: 'free' } }, nth: 1 },
    })),
    breaks: plain('suction_valve', 1),
  },
  '02-sedge-meadow': {
    windows: ['return_valve', 'loop_return_valve', 'loop_supply_valve'].map((valve) => ({
      command: { valve, target_deg: 90 },
      after: { step: { sheet: 'worked_out' } },
      before: { step: { do: { valve: 'prime_valve', target_deg: 90 } } },
    })),
    breaks: [
      ...plain('', 1),
      {
        what: 'the pump a minute before it is primed',
        edit: {
          put: [{ do: turned(true) }, { wait_s: 60 }, { do: turned(false) }],
          before: { step: { do: { valve: 'prime_valve', target_deg: 90 } } },
        },
        costs: [{ rule: 'dry_run', about: 'pump' }, LATE],
      },
      {
        what: 'handed over before trench 4 is open again',
        edit: { leave_out: { command: { valve: 'circuit_4_supply_valve', target_deg: 90 } } },
        costs: [{ rule: 'valve_left_shut', about: 'circuit_4_supply_valve' }, LATE],
      },
    ],
  },
  '03-kestrel-yard': {
    windows: ['suction_valve', 'return_valve', 'back_b_valve', 'feed_a_valve'].map((valve) => ({
      command: { valve, target_deg: 90 },
      after: { step: { sheet: 'worked_out' } },
      before: { step: { until: { hands: 'free' } }, nth: 1 },
    })),
    breaks: plain('suction_valve', 3),
  },
  '04-otter-bank': {
    windows: [
      ...within(ARRIVED, { step: { do: { valve: 'air_cock', target_deg: 45 } } }, 'eyes'),
      ...within(
        ARRIVED,
        { step: { do: { kind: 'coupling', made: true } }, nth: 1 },
        'gloves',
        'lock_unit',
      ),
      ...within(ARRIVED, phase('leak_test'), 'read_print'),
      ...within(phase('pressure'), phase('second_visit'), 'tag', 'sheet_given'),
    ],
    breaks: [
      swapped('leak_end_noted', 'leak_start', 'leak_end'),
      swapped('level_shut_noted', 'level_open', 'level_shut'),
      cup('tank_sampled', 1, phase('dose')),
      cup('return_sampled', 2, phase('dose')),
      noted('pressure_noted', 'charge_pressure', phase('dose')),
      noted('second_noted', 'second_pressure', { step: { do: { kind: 'leave' } } }),
      {
        what: 'the tag before the samples',
        edit: { move: { command: { device: 'tag' } }, before: phase('verify') },
        costs: early('tagged'),
      },
    ],
  },
  '05-curlew-rise': {
    windows: [
      ...within(ARRIVED, { step: { do: { valve: 'air_cock', target_deg: 60 } } }, 'eyes'),
      ...within(
        ARRIVED,
        { step: { do: { kind: 'coupling', made: true } }, nth: 1 },
        'gloves',
        'lock_unit',
      ),
      ...within(ARRIVED, phase('leak_test'), 'read_print', 'fan'),
      ...within(phase('pressure'), { step: { do: { kind: 'leave' } } }, 'tag', 'sheet_given'),
    ],
    breaks: [
      swapped('leak_end_noted', 'leak_start', 'leak_end'),
      noted('proof_noted', 'level_shut', phase('prove')),
      noted('dose_noted', 'drum_used', phase('dose')),
      cup('sampled', 2, phase('dose')),
      noted('charged_noted', 'charge_pressure', phase('dose')),
      noted('coil_noted', 'coil_loss', phase('unit')),
      noted('second_noted', 'second_left', { step: { do: { kind: 'leave' } } }),
    ],
  },
  '06-lapwing-school': {
    windows: [
      ...within(ARRIVED, phase('set_up'), 'eyes', 'gloves'),
      ...within(ARRIVED, phase('leak_test'), 'read_drawing', 'lock_unit'),
      // Not while the loop is pressed up: hands that turn to paper let the plastic give way.
      ...within(phase('run'), { step: { do: { kind: 'leave' } } }, 'tag', 'sheet'),
    ],
    breaks: [
      swapped('air_after_noted', 'air_before', 'air_after'),
      noted('flow_1_noted', 'flow_bank_1', phase('flush')),
      noted('flow_2_noted', 'flow_bank_2', phase('flush')),
      noted('level_shut_noted', 'level_shut', phase('prove')),
      noted('coil_noted', 'coil_loss', phase('unit')),
      noted('pressure_noted', 'left_pressure', phase('pressure')),
      noted('left_noted', 'pressure_left', { step: { do: { kind: 'leave' } } }),
      cup('tank_sampled', 1, phase('dose')),
      {
        what: 'the tag before the dose',
        edit: { move: { command: { device: 'tag' } }, before: phase('dose') },
        costs: early('tagged'),
      },
      {
        what: 'the sheet before the kink is on it',
        edit: { move: { command: { device: 'sheet' } }, before: phase('flow_test') },
        costs: early('sheet_handed'),
      },
    ],
  },
};
