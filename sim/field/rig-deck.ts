// The deck cart: a low tank on a deck with the pump beside it under the water line, so that
// opening one valve floods the casing; flow meter, two gauges, return under the surface.
import { addFitting, addValve } from './parts.ts';
import type { Draft } from './parts.ts';
import { addHoses, addMakeUp, addReturnEnd, addRigPipe, curveOf } from './rig-parts.ts';
import { gauge, GARDEN_HOSE, SMALL_RIG_RATING } from './rig-parts.ts';
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
  addReturnEnd(draft, { height_m: TOP, bore_mm: 38, rating_kPa: SMALL_RIG_RATING, waste_m: 0.4 });
  addHoses(draft, rig, {
    supply_from: 'discharge',
    return_to: 'return_tee',
    height_m: TOP,
    bore_mm: 32,
  });
  addRigPipe(draft, {
    id: 'drop_pipe',
    from: 'return_top',
    to: 'tank.back',
    bore_mm: 38,
    length_m: 0.9,
    loss_k: 1,
    air_m: 0.5,
  });
  draft.instruments.push(
    gauge('discharge_gauge', 'discharge', 400),
    gauge('return_gauge', 'return_tee', 400),
    {
      id: 'flow_meter',
      kind: 'flow',
      link: 'supply_hose',
      range_L_min: 120,
      resolution_L_min: 1,
      lag_s: 1.5,
    },
    { id: 'tank_level', kind: 'level', tank: 'tank', resolution_mm: 2 },
    { id: 'return_sight', kind: 'sight', link: 'return_hose' },
    { id: 'pump_note', kind: 'note', pump: 'pump' },
  );
}

function addPumpSide(draft: Draft): void {
  addValve(draft, {
    id: 'fill_valve',
    from: 'fill_in',
    to: 'tank.inlet',
    bore_mm: 13,
    loss_k_open: 0.3,
    rate_deg_s: 60,
  });
  addValve(draft, {
    id: 'suction_valve',
    from: 'tank.outlet',
    to: 'suction',
    bore_mm: 50,
    loss_k_open: 0.6,
  });
  draft.links.push(
    {
      id: 'suction_hose',
      kind: 'hose',
      from: 'suction',
      to: 'casing',
      bore_mm: 50,
      length_m: 0.7,
      roughness_mm: 0.02,
      loss_k: 0.3,
      clear: true,
    },
    {
      id: 'pump',
      kind: 'pump',
      from: 'casing',
      to: 'pump_out',
      bore_mm: 38,
      curve: curveOf(CURVE),
      best_flow_L_s: 0.9,
      efficiency_max: 0.45,
      npsh_required_m: 2.2,
      spin_up_s: 0.6,
    },
  );
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
