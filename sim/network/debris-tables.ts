// From a scenario to what debris needs of its plan.
import { clamp, floor, max, min, sqrt } from '../base/math.ts';
import { DEBRIS_S, DEBRIS_VELOCITY, FITTING_LENGTH } from '../constants.ts';
import { filterCapture } from '../laws/solids.ts';
import { viscosity } from '../laws/water.ts';
import type { Scenario } from '../scenario.ts';
import type { DebrisPlan, ElementPlan } from './debris-plan.ts';
import { placesIn } from './places.ts';
import type { LinkPlan } from './plan.ts';

/** C. At this the loss of a full element is told. */
const RATED_C = 20;

const WEARERS = ['filter', 'coil', 'check_valve'];

/** Null where the scenario follows no debris. */
export function planDebris(
  scenario: Scenario,
  tick: number,
  links: readonly LinkPlan[],
  tables: { zStart: Float64Array; zEnd: Float64Array; cellLength: Float64Array },
): DebrisPlan | null {
  const { debris } = scenario;
  if (debris === undefined) return null;
  const classes = debris.classes.map((c) => ({
    id: c.id,
    d: c.diameter_mm / 1000,
    density: c.relative_density * 1000,
  }));
  const elements = debris.elements.map((e): ElementPlan => {
    const full = (e.rated_L_s / 1000) * (e.capacity_g / 1000) * viscosity(RATED_C);
    return {
      id: e.id,
      cake: (1000 * e.full_kPa) / full,
      lossK: e.loss_k,
      sheds: e.sheds,
      keeps: Float64Array.from(classes, ({ d }) => filterCapture(d, e.d50_um / 1e6)),
    };
  });
  const catchers = indices(links, (kind) => WEARERS.includes(kind));
  const coils = indices(links, (kind) => kind === 'coil');
  // Shorter cells are looked at oftener, so that grains need not skip one.
  const shortest = links.reduce((s, l) => (l.cells > 0 ? min(s, l.length / l.cells) : s), 1);
  const step = min(DEBRIS_S, shortest / DEBRIS_VELOCITY);
  const every = max(1, floor(step / tick + 1e-6));
  const sine = tables.zStart.map((z, v) => {
    const run = tables.cellLength[v]!;
    return run > 0 ? clamp((tables.zEnd[v]! - z) / run, -1, 1) : 0;
  });
  return {
    every,
    dt: every * tick,
    classes,
    elements,
    catchers,
    starts: catchers.map((link) => {
      const worn = debris.catchers.find((c) => c.link === links[link]!.id);
      return debris.elements.findIndex((e) => e.id === worn?.element);
    }),
    catcherOf: placesIn(catchers, links.length),
    coils,
    coilOf: placesIn(coils, links.length),
    allowed: debris.coil_allowed_g / 1000,
    sine,
    cosine: sine.map((s) => sqrt(1 - s * s)),
    linkSine: Float64Array.from(links, (l) => clamp((l.zTo - l.zFrom) / FITTING_LENGTH, -1, 1)),
  };
}

function indices(links: readonly LinkPlan[], is: (kind: string) => boolean): Int32Array {
  return Int32Array.from(links.flatMap((link, ix) => (is(link.spec.kind) ? [ix] : [])));
}
