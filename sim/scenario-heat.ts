// What is around the pipes of a scenario, for those that follow heat: air, sun and ground, and
// where each pipe or hose lies. Each key with its unit; resistances are worked out by the engine.
import * as z from 'zod';
import { Id, within } from './scenario-parts.ts';

/** Where a pipe or hose lies, and what is around it; unnamed, pipes lie in soil, hoses in air. */
const Place = z.strictObject({
  link: Id,
  in: z.enum(['soil', 'air']),
  insulation_mm: within(0, 200).default(0),
  insulation_W_mK: within(0.01, 1).default(0.035),
  /** Unsaid: a pipe's own wall, and 5 mm of a hose. */
  wall_mm: within(0.3, 60).optional(),
  /** Unsaid: 0.45 of plastic, 50 of metal, 0.2 of a hose. */
  wall_W_mK: within(0.01, 500).optional(),
});

export const Heat = z.strictObject({
  air_C: within(-40, 50),
  /** Film between whatever stands in the air and the air: 10 when still, 30 in wind. */
  air_film_W_m2K: within(1, 200).default(15),
  /** Sun on a level surface and on the breadth of pipes in the air. */
  sun_W_m2: within(0, 1200).default(0),
  /** Of the undisturbed ground at the pipes' depth. */
  soil_C: within(-20, 40),
  soil_W_mK: within(0.1, 10).default(1.6),
  soil_diffusivity_mm2_s: within(0.05, 5).default(0.7),
  /** How long the ground has been giving or taking already when the run starts. */
  soil_age_s: within(0, 1e9).default(0),
  places: z.array(Place).max(4000).default([]),
});
