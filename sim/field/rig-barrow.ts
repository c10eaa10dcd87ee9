// The barrow: the pump rides on a frame above an open barrel and has to lift its water over the
// rim. It cannot prime itself: a foot valve holds what a priming valve lets in from the tap.
// No flow meter; the return hangs over the rim with its end under the surface.
import { addFitting, addValve } from './parts.ts';
import type { Draft } from './parts.ts';
import { addLoopSide, addMakeUp, addPump, addSuctionHose } from './rig-parts.ts';
import { gauge, GARDEN_HOSE, SMALL_RIG_RATING, watched } from './rig-parts.ts';
import type { RigSite } from './site.ts';

/** m. Floor of the barrel, pump casing on the frame, hooks over the rim. */
const FLOOR = 0.02;
const CASING = 1.05;
const TOP = 1.2;
/** mm above the floor: foot valve in its basket, end of the return. */
const FOOT = 90;
const RETURN_END = 260;

/** Head (m) by flow (L/s) [invented]. */
const CURVE = [
  [0, 16],
  [0.5, 15.3],
  [1, 13],
  [1.5, 8.8],
  [1.9, 3.4],
  [2.1, 0],
] as const;

export function addBarrow(draft: Draft, rig: RigSite): void {
  addMakeUp(draft, rig, { height_m: CASING, make_up: GARDEN_HOSE });
  draft.nodes.push({
    id: 'tank',
    kind: 'tank',
    floor_m: FLOOR,
    area_m2: 0.25,
    height_mm: 900,
    start_level_mm: rig.start_level_mm ?? 640,
    ports: [
      { id: 'foot', height_mm: FOOT, bore_mm: 75 },
      { id: 'inlet', height_mm: 880, bore_mm: 20 },
      { id: 'back', height_mm: RETURN_END, bore_mm: 38 },
    ],
  });
  addFitting(draft, { id: 'foot', elevation_m: FLOOR + FOOT / 1000, gas: 'water' });
  addFitting(draft, {
    id: 'casing',
    elevation_m: CASING,
    gas: 'air',
    volume_L: 2.5,
    rating_kPa: SMALL_RIG_RATING,
  });
  const rated = { gas: 'air', rating_kPa: SMALL_RIG_RATING } as const;
  addFitting(draft, { id: 'pump_out', elevation_m: TOP, volume_L: 0.6, ...rated });
  addFitting(draft, { id: 'discharge', elevation_m: TOP, ...rated });
  addSuction(draft);
  addLoopSide(draft, rig, {
    supply_from: 'discharge',
    return_to: 'return_tee',
    height_m: TOP,
    waste_m: 0.3,
    rating_kPa: SMALL_RIG_RATING,
    hose_bore_mm: 32,
    return_bore_mm: 38,
    drop_m: 1.05,
    drop_air_m: 0.6,
  });
  const sights = [
    ['suction_sight', 'suction_hose'],
    ['return_sight', 'return_hose'],
  ] as const;
  draft.instruments.push(
    gauge('discharge_gauge', 'discharge', 400),
    ...watched({ level_mm: 10, sights }),
  );
}

/** From the barrel up to the pump; the tap either into the barrel or into the casing. */
function addSuction(draft: Draft): void {
  const turn = { from: 'fill_in', bore_mm: 13, loss_k_open: 0.3, rate_deg_s: 60 } as const;
  addValve(draft, { id: 'fill_valve', to: 'tank.inlet', ...turn });
  addValve(draft, { id: 'prime_valve', to: 'casing', ...turn });
  draft.links.push({
    id: 'foot_valve',
    kind: 'check_valve',
    from: 'tank.foot',
    to: 'foot',
    bore_mm: 50,
    loss_k: 4,
    opens_at_kPa: 1,
  });
  // Water stands in it as high as in the barrel.
  addSuctionHose(draft, { from: 'foot', length_m: 1.6, loss_k: 0.6, air_from_m: 0.85 });
  addPump(draft, {
    bore_mm: 38,
    curve: CURVE,
    best_flow_L_s: 1.1,
    efficiency_max: 0.45,
    npsh_required_m: 2.5,
    spin_up_s: 0.6,
  });
  addValve(draft, {
    id: 'discharge_valve',
    from: 'pump_out',
    to: 'discharge',
    bore_mm: 38,
    rate_deg_s: 60,
  });
}
