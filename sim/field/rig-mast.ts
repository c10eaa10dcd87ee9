// The mast: a tall narrow tank on a trailer over a strong pump, a filter, and four valves by
// which the flow through the loop is reversed without moving a hose. One flow meter, before the
// four valves; one clear pipe on the way back, behind them: both serve both directions.
import { addFitting, addValve } from './parts.ts';
import type { Draft } from './parts.ts';
import { addLoopSide, addMakeUp, addPump, addRigPipe, addTankValves } from './rig-parts.ts';
import { flowMeter, gauge, watched } from './rig-parts.ts';
import type { MakeUp, RigSite } from './site.ts';

/** m. Floor of the tank, pump, the bench on which the valves stand. */
const FLOOR = 0.75;
const PUMP = 0.4;
const BENCH = 1.1;
/** kPa. [invented] */
const RATING = 600;

/** A hydrant on the site's main, metered [common practice, no source]. */
const HYDRANT: MakeUp = { pressure_kPa: 300, hose_m: 20, bore_mm: 25 };

/** Head (m) by flow (L/s) [invented]. */
const CURVE = [
  [0, 33],
  [1, 31.6],
  [2, 27.6],
  [3, 20.6],
  [4, 9.6],
  [4.6, 0],
] as const;

export function addMast(draft: Draft, rig: RigSite): void {
  addMakeUp(draft, rig, { height_m: BENCH, make_up: HYDRANT });
  draft.nodes.push({
    id: 'tank',
    kind: 'tank',
    floor_m: FLOOR,
    area_m2: 0.12,
    height_mm: 1500,
    start_level_mm: rig.start_level_mm ?? 1000,
    ports: [
      { id: 'outlet', height_mm: 70, bore_mm: 63 },
      { id: 'inlet', height_mm: 350, bore_mm: 25 },
      { id: 'back', height_mm: 420, bore_mm: 50 },
    ],
  });
  addFitting(draft, { id: 'suction', elevation_m: PUMP + 0.2, gas: 'water', volume_L: 0.8 });
  addFitting(draft, { id: 'casing', elevation_m: PUMP, gas: 'air', volume_L: 3 });
  const rated = { gas: 'air', rating_kPa: RATING } as const;
  addFitting(draft, { id: 'pump_out', elevation_m: PUMP + 0.2, volume_L: 0.8, ...rated });
  addFitting(draft, { id: 'riser_top', elevation_m: BENCH, ...rated });
  addFitting(draft, { id: 'filter_out', elevation_m: BENCH, volume_L: 6, ...rated });
  for (const id of ['feed', 'port_a', 'port_b', 'collect']) {
    addFitting(draft, { id, elevation_m: BENCH, volume_L: 0.6, ...rated });
  }
  addPumpSide(draft);
  addFourValves(draft);
  addLoopSide(draft, rig, {
    supply_from: 'port_a',
    return_to: 'port_b',
    height_m: BENCH,
    waste_m: 0.4,
    rating_kPa: RATING,
    hose_bore_mm: 40,
    return_bore_mm: 50,
    drop_m: 0.8,
    drop_air_m: 0,
  });
  addReadings(draft);
}

function addReadings(draft: Draft): void {
  draft.instruments.push(
    gauge('pump_gauge', 'riser_top', 600),
    gauge('discharge_gauge', 'feed', 600),
    gauge('return_gauge', 'collect', 600),
    flowMeter('meter_pipe', 300),
    ...watched({ level_mm: 5, sights: [['return_sight', 'back_pipe']] }),
  );
}

function addPumpSide(draft: Draft): void {
  addTankValves(draft, { fill_bore_mm: 25, suction_bore_mm: 63 });
  addRigPipe(draft, {
    id: 'suction_pipe',
    from: 'suction',
    to: 'casing',
    bore_mm: 63,
    length_m: 0.6,
    loss_k: 0.4,
    air_m: 0,
  });
  addPump(draft, {
    bore_mm: 50,
    curve: CURVE,
    best_flow_L_s: 2.4,
    efficiency_max: 0.55,
    npsh_required_m: 2.8,
    spin_up_s: 0.8,
  });
  addFilterLine(draft);
}

/** Up from the pump: filter, flow meter, discharge valve. */
function addFilterLine(draft: Draft): void {
  addRigPipe(draft, {
    id: 'riser',
    from: 'pump_out',
    to: 'riser_top',
    bore_mm: 50,
    length_m: 0.8,
    loss_k: 0.6,
    air_m: 0.8,
  });
  // Clean element: 1.5 kPa at 1 L/s in 50 mm [common practice, no source].
  draft.links.push({
    id: 'filter',
    kind: 'filter',
    from: 'riser_top',
    to: 'filter_out',
    bore_mm: 50,
    loss_k: 12,
  });
  addRigPipe(draft, {
    id: 'meter_pipe',
    from: 'filter_out',
    to: 'meter_out',
    bore_mm: 50,
    length_m: 0.6,
    loss_k: 0.5,
    air_m: 0.6,
  });
  addFitting(draft, { id: 'meter_out', elevation_m: BENCH, gas: 'air', rating_kPa: RATING });
  addValve(draft, {
    id: 'discharge_valve',
    from: 'meter_out',
    to: 'feed',
    bore_mm: 50,
    rate_deg_s: 60,
  });
}

/** Forward: feed_a and back_b open. Backward: feed_b and back_a. */
function addFourValves(draft: Draft): void {
  const turn = { bore_mm: 50, rate_deg_s: 60 } as const;
  addValve(draft, { id: 'feed_a_valve', from: 'feed', to: 'port_a', ...turn });
  addValve(draft, { id: 'feed_b_valve', from: 'feed', to: 'port_b', ...turn });
  addValve(draft, { id: 'back_a_valve', from: 'port_a', to: 'collect', ...turn });
  addValve(draft, { id: 'back_b_valve', from: 'port_b', to: 'collect', ...turn });
  addRigPipe(draft, {
    id: 'back_pipe',
    from: 'collect',
    to: 'return_tee',
    bore_mm: 50,
    length_m: 2,
    loss_k: 0.8,
    air_m: 2,
    clear: true,
  });
}
