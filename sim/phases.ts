// Phases of a job that is a whole day.

/** In the order of a day; a job may leave some out. */
export const PHASES = [
  'arrive',
  'set_up',
  'leak_test',
  'flush',
  'flow_test',
  'prime',
  'purge',
  'unit',
  'prove',
  'dose',
  'verify',
  'pressure',
  'run',
  'disconnect',
  'winterise',
  'record',
  'second_visit',
] as const;
export type Phase = (typeof PHASES)[number];
