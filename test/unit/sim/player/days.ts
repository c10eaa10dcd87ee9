// Whole days, from arrival to the second visit: what each wrong player comes to on the day as it is
// written. A day asks for some forty things: what one habit costs there often fails nobody.
import type { Fails } from './jobs.ts';

const costs = (...lost: string[]): Fails => ({ reasons: [], lost, critical: [] });

const DEAD: Fails = {
  reasons: ['minimum_safety', 'total'],
  lost: ['deadhead', 'time_not_counted'],
  critical: [],
};
const INVENTED: Fails = {
  reasons: ['critical', 'minimum_record'],
  lost: ['false_record'],
  critical: ['false_record'],
};
/** That nothing flows is part of what the pump costs that was left off. */
const LEFT: Fails = {
  reasons: ['outcome_missed', 'hand_over', 'minimum_safety', 'total'],
  lost: ['lock_left', 'pump_left_off', 'time_not_counted'],
  critical: [],
};

/** The one thing that none of these days is passed without, though it costs few points. */
const UNTESTED: Fails = { reasons: ['essential_missed'], lost: ['missed_held'], critical: [] };

/** Air left and outcomes missed, so much that outcome, safety and all marks fall too low. */
const AIR_AND_MORE: Fails['reasons'] = [
  'air_left',
  'outcome_missed',
  'minimum_outcome',
  'minimum_safety',
  'total',
];

/** Player by day. Null: the day leaves no room for that mistake, and nothing is lost. */
export const DAY_TABLE: Readonly<Record<string, Readonly<Record<string, Fails | null>>>> = {
  '04-otter-bank': {
    skips_priming: null, // The tap has filled the casing at the flush.
    too_slow: {
      reasons: AIR_AND_MORE,
      lost: [
        'air_left',
        'fluid_lost',
        'fouled',
        'missed_ran',
        'outcome_debris',
        'outcome_freeze',
        'residual_wrong',
        'time_not_counted',
      ],
      critical: [],
    },
    never_reverses: costs('missed_ran'),
    all_at_once: costs('missed_ran'),
    // Air still comes back while the proof is read, and passes for air that is squeezed.
    stops_early: {
      reasons: ['air_left', 'outcome_missed'],
      lost: ['air_left', 'missed_ran', 'residual_wrong'],
      critical: [],
    },
    shuts_return_too_long: DEAD,
    leaves_as_purged: LEFT,
    never_tests: UNTESTED,
    neat_alcohol: null, // It is neat.
    forgets_filter: costs('missed_stood'),
    records_without_reading: INVENTED,
    // What stays in the hoses' ends is shut in behind the caps, and the sun presses it up.
    spills_on_disconnect: {
      reasons: ['critical', 'minimum_safety', 'total'],
      lost: ['over_pressure', 'time_not_counted', 'to_ground'],
      critical: ['over_pressure'],
    },
  },
  '05-curlew-rise': {
    skips_priming: {
      reasons: ['critical', 'minimum_safety', 'total'],
      lost: ['dry_run', 'time_not_counted'],
      critical: ['dry_run'],
    },
    too_slow: {
      reasons: ['critical', ...AIR_AND_MORE],
      lost: [
        'air_left',
        'deadhead',
        'missed_passed',
        'missed_ran',
        'opened_under_pressure',
        'outcome_debris',
        'outcome_flow',
        'outcome_freeze',
        'residual_wrong',
        'time_not_counted',
      ],
      critical: ['dry_run'],
    },
    never_reverses: null, // The unit's way turns the hoses, and the proof runs so.
    all_at_once: null, // The bores have no valves.
    stops_early: costs('air_left', 'dry_run', 'missed_ran', 'out_of_order'),
    shuts_return_too_long: DEAD,
    leaves_as_purged: LEFT,
    never_tests: UNTESTED,
    // Thin mix freezes between shut valves in the garage.
    neat_alcohol: {
      reasons: ['critical', 'outcome_missed', 'minimum_safety', 'total'],
      lost: ['missed_passed', 'outcome_freeze', 'over_pressure', 'time_not_counted'],
      critical: ['over_pressure'],
    },
    forgets_filter: null, // No bag is asked for.
    records_without_reading: INVENTED,
    spills_on_disconnect: null, // Dry couplings.
  },
  '06-lapwing-school': {
    skips_priming: null, // The casing floods by itself.
    // So little flow that the pump stands against it, and what it finds in the tank is soon gone.
    too_slow: {
      reasons: ['critical', ...AIR_AND_MORE],
      lost: [
        'air_left',
        'deadhead',
        'dry_run',
        'missed_noted',
        'missed_ran',
        'out_of_order',
        'outcome_debris',
        'outcome_flow',
        'outcome_freeze',
        'time_not_counted',
      ],
      critical: ['deadhead', 'dry_run'],
    },
    never_reverses: costs('missed_ran'),
    all_at_once: costs('missed_noted', 'missed_ran', 'missed_stood'),
    // The search for the kink has filled bank 2 trench by trench; the rest has air, and thin mix.
    stops_early: {
      reasons: ['outcome_missed'],
      lost: ['air_left', 'missed_ran', 'out_of_order', 'outcome_freeze'],
      critical: [],
    },
    shuts_return_too_long: {
      reasons: ['critical', 'minimum_safety', 'total'],
      lost: DEAD.lost,
      critical: ['deadhead'],
    },
    leaves_as_purged: {
      reasons: ['outcome_missed', 'hand_over', 'minimum_safety'],
      lost: ['pump_left_off', 'time_not_counted'],
      critical: [],
    },
    // The pressure that is left stands in the band of the test: too late, the loop is dosed.
    never_tests: { ...UNTESTED, lost: ['out_of_order'] },
    neat_alcohol: null, // It is neat.
    forgets_filter: { reasons: ['essential_missed'], lost: ['missed_stood'], critical: [] },
    records_without_reading: INVENTED,
    spills_on_disconnect: {
      reasons: ['minimum_safety', 'total'],
      lost: ['time_not_counted', 'to_ground'],
      critical: [],
    },
  },
};
