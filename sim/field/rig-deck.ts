// The deck cart: a low tank on a deck with the pump beside it under the water line, so that
// opening one valve floods the casing; flow meter, two gauges, return under the surface.
import { addFitting, addValve } from './parts.ts';
import type { Draft } from './parts.ts';
import { addLoopSide, addMakeUp, addPump, addRigPipe, addSuctionHose } from './rig-parts.ts';
import { addTankValves, flowMeter, gauge, watched } from './rig-parts.ts';
import { GARDEN_HOSE, SMALL_RIG_RATING } from './rig-parts.ts';
import type { RigSite } from './site.ts';

/** m. Top of the risers. */
const TOP = 1.05;

/** Head (m) by flow (L/s) [invented]. */
const CURVE = [
  [0, 24],
  [0.4, 22.8],
  [0.8, 19.2],
  [1.2, 13.2],
  [1.6, 4.8],
  [1.78, 0],
] as const;

export function addDeck(draft: Draft, rig: RigSite): void {
  addMakeUp(draft, rig, { height_m: TOP, make_up: GARDEN_HOSE });
  draft.nodes.push({
    id: 'tank',
    kind: 'tank',
    floor_m: 0.35,
    area_m2: 0.16,
    height_mm: 600,
    start_level_mm: rig.start_level_mm ?? 420,
    ports: [
      { id: 'outlet', height_mm: 60, bore_mm: 50 },
      { id: 'inlet', height_mm: 585, bore_mm: 20 },
      { id: 'back', height_mm: 130, bore_mm: 38 },
    ],
  });
  addFitting(draft, { id: 'suction', elevation_m: 0.41, gas: 'water', volume_L: 0.6 });
  addFitting(draft, { id: 'casing', elevation_m: 0.42, gas: 'air', volume_L: 2 });
  const rated = { gas: 'air', rating_kPa: SMALL_RIG_RATING } as const;
  addFitting(draft, { id: 'pump_out', elevation_m: 0.6, volume_L: 0.6, ...rated });
  addFitting(draft, { id: 'riser_top', elevation_m: TOP, ...rated });
  addFitting(draft, { id: 'discharge', elevation_m: TOP, ...rated });
  addPumpSide(draft);
  addLoopSide(draft, rig, {
    supply_from: 'discharge',
    return_to: 'return_tee',
    height_m: TOP,
    waste_m: 0.4,
    rating_kPa: SMALL_RIG_RATING,
    hose_bore_mm: 32,
    return_bore_mm: 38,
    drop_m: 0.9,
    drop_air_m: 0.5,
  });
  draft.instruments.push(
    gauge('discharge_gauge', 'discharge', 400),
    gauge('return_gauge', 'return_tee', 400),
    flowMeter('supply_hose', 120),
    ...watched({ level_mm: 2, sights: [['return_sight', 'return_hose']] }),
  );
}

function addPumpSide(draft: Draft): void {
  addTankValves(draft, { fill_bore_mm: 13, suction_bore_mm: 50 });
  addSuctionHose(draft, { from: 'suction', length_m: 0.7, loss_k: 0.3 });
  addPump(draft, {
    bore_mm: 38,
    curve: CURVE,
    best_flow_L_s: 0.9,
    efficiency_max: 0.45,
    npsh_required_m: 2.2,
    spin_up_s: 0.6,
  });
  addRigPipe(draft, {
    id: 'riser',
    from: 'pump_out',
    to: 'riser_top',
    bore_mm: 38,
    length_m: 0.6,
    loss_k: 0.6,
    air_m: 0.6,
  });
  addValve(draft, {
    id: 'discharge_valve',
    from: 'riser_top',
    to: 'discharge',
    bore_mm: 38,
    rate_deg_s: 60,
  });
}
