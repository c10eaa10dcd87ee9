// Debris of a scenario, for those that follow it: kinds of grain, where they lie when the run
// starts, elements that catch them, and the parts that wear one. Each key with its unit.
import * as z from 'zod';
import { Id, within } from './scenario-parts.ts';

/** Grains of one size and weight: sand 2.65, shavings of polyethylene 0.95. */
const GrainClass = z.strictObject({
  id: Id,
  diameter_mm: within(0.01, 10),
  /** Over water of 1000 kg/m3; below 1 it floats. Just that of water it never comes to rest. */
  relative_density: within(0.5, 10),
});

/** So much of one class, evenly along a stretch of pipe or hose, lying when the run starts. */
const Deposit = z.strictObject({
  link: Id,
  class: Id,
  from_m: within(0, 5000),
  to_m: within(0, 5000),
  grams: within(0, 1e6),
});

/** A screen, bag or cartridge. */
const Element = z.strictObject({
  id: Id,
  /** Size of which it keeps one half in a pass. */
  d50_um: within(1, 10000),
  /** What it has caught when its loss has risen by `full_kPa` at `rated_L_s` in water of 20 C. */
  capacity_g: within(0.1, 1e6),
  full_kPa: within(1, 1000).default(100),
  rated_L_s: within(0.01, 100).default(1),
  /** Its own when clean, beyond that of the part that wears it, over that part's bore. */
  loss_k: within(0, 10000).default(0),
  /** Share of what it has caught that a flow against its own washes off. */
  sheds: within(0, 1).default(0.5),
});

/** A filter, coil or check valve that wears an element when the run starts. */
const Catcher = z.strictObject({ link: Id, element: Id });

export const Debris = z.strictObject({
  classes: z.array(GrainClass).min(1).max(6),
  lying: z.array(Deposit).max(400).default([]),
  elements: z.array(Element).max(12).default([]),
  catchers: z.array(Catcher).max(100).default([]),
  /** What may come to a coil before it has to be taken apart and washed. */
  coil_allowed_g: within(0.01, 1e6).default(5),
});
