// Debris that has come to a coil, where it stays: a call-back in the making.
import type { Hazard } from './kind.ts';

/** Grams that have arrived over what the job allows; warned from a fifth on [common practice]. */
export const fouled: Hazard = {
  kind: 'fouled',
  limits: { warn: 0.2, trip: 1 },
  places: ({ debris, links }) =>
    Array.from(debris?.coils ?? [], (link, index) => ({ at: links[link]!.id, index })),
  measure: ({ plan, state }, { index }) => state.arrived[index]! / plan.debris!.allowed,
};
