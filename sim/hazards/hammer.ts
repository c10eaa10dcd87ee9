// Water hammer: how high the pressure jumps beside a valve that slams (surge.ts says how), held
// against what is rated there.
import { surgePeak } from '../surge.ts';
import type { Hazard } from './kind.ts';

/** Shares of the rating; warned from four fifths on [common practice, no source]. */
const SHARES = { warn: 0.8, trip: 1 } as const;

export const hammer: Hazard = {
  kind: 'hammer',
  limits: SHARES,
  places: ({ surges }) =>
    surges.map(({ at, rating }, index) => {
      const { warn, trip } = SHARES;
      return { at, index, limits: { warn: warn * rating, trip: trip * rating } };
    }),
  measure: (world, { index }) => surgePeak(world, world.plan.surges[index]!),
};
