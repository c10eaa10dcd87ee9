// How one rates one's own work before the marks are shown, and how far that was from them. It is
// kept with the attempt and enters no mark.
import { RatingSchema, type Dimension, type Score } from '../../sim/index.ts';

/** From "badly" to "very well". */
export const STEPS = [1, 2, 3, 4, 5] as const;
export type Step = (typeof STEPS)[number];

export interface Rating {
  /** What was rated; nothing of what was left out. */
  readonly steps: Readonly<Partial<Record<Dimension, Step>>>;
  /** Whether one would sign the work over; null where that was not said. */
  readonly sign: boolean | null;
}

/** How a rating lies to the marks: a step apart is about the same. */
export type Calibration = 'higher' | 'same' | 'lower';

/** A rating as a share of the marks: 1 is none of them, 5 all. */
const shareOf = (step: Step): number => (step - 1) / (STEPS.length - 1);

const STEP_SHARE = 1 / (STEPS.length - 1);

export function calibrationOf(step: Step, points: number, max: number): Calibration {
  const off = shareOf(step) - (max > 0 ? points / max : 0);
  if (Math.abs(off) <= STEP_SHARE + 1e-9) return 'same';
  return off > 0 ? 'higher' : 'lower';
}

/** Those that were rated, by how the rating lies to the marks. */
export function calibrations(
  rating: Rating,
  score: Score,
): Readonly<Record<Calibration, readonly Dimension[]>> {
  const found: Record<Calibration, Dimension[]> = { higher: [], same: [], lower: [] };
  for (const { dimension, points, max } of score.dimensions) {
    const step = rating.steps[dimension];
    if (step !== undefined) found[calibrationOf(step, points, max)].push(dimension);
  }
  return found;
}

export const isRating = (json: unknown): json is Rating => RatingSchema.safeParse(json).success;
