// Water hammer: how high the pressure jumps beside a valve that slams (surge.ts says how), held
// against what is rated there.
import { surgePeak } from '../surge.ts';
import type { Hazard } from './kind.ts';

/** Shares of the rating; warned from four fifths on [common practice, no source]. */
export const hammer: Hazard = {
  kind: 'hammer',
  limits: { warn: 0.8, trip: 1 },
  places: ({ surges }) => surges.map(({ at, rating }, index) => ({ at, index, scale: rating })),
  measure: (world, { index }) => surgePeak(world, world.plan.surges[index]!),
};
