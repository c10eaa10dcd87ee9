// What every rig has: make-up water, a pump, two hoses to the loop, a way to waste, gauges.
import { addFitting, addValve } from './parts.ts';
import type { Draft, InstrumentText } from './parts.ts';
import type { MakeUp, RigSite } from './site.ts';

/** kPa. Pipework and hoses of a small rig [invented]. */
export const SMALL_RIG_RATING = 400;
/** kPa. Couplings and hoses at the loop's stubs [invented]. */
const STUB_RATING = 600;
/** m. The loop's two stubs stand at this height above the ground. */
export const STUB_M = 0.3;

/** An ordinary tap and garden hose [common practice, no source]. */
export const GARDEN_HOSE: MakeUp = { pressure_kPa: 280, hose_m: 15, bore_mm: 13 };

/** Stiff pipe on a rig, PVC: modulus 3 GPa, Poisson's ratio 0.38 [common practice, no source]. */
const RIG_PIPE = { wall_mm: 4, modulus_MPa: 3000, poisson: 0.38 } as const;

export interface RigPipe {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly bore_mm: number;
  readonly length_m: number;
  readonly loss_k: number;
  /** How much of it, from its start, holds air. */
  readonly air_m: number;
  readonly clear?: boolean;
}

export function addRigPipe(draft: Draft, pipe: RigPipe): void {
  const { air_m, ...rest } = pipe;
  draft.links.push({
    ...rest,
    kind: 'pipe',
    ...RIG_PIPE,
    ...(air_m > 0 ? { gas: [{ from_m: 0, to_m: air_m }] } : {}),
  });
}

/** Tap, hose along the ground, and the fitting in which it ends at this height. */
export function addMakeUp(
  draft: Draft,
  rig: RigSite,
  o: { height_m: number; make_up: MakeUp },
): void {
  const { pressure_kPa, hose_m, bore_mm } = rig.make_up ?? o.make_up;
  draft.nodes.push({ id: 'mains', kind: 'reservoir', elevation_m: 0.6, pressure_kPa });
  addFitting(draft, {
    id: 'fill_in',
    elevation_m: o.height_m,
    gas: 'water',
    rating_kPa: STUB_RATING,
  });
  draft.links.push({
    id: 'make_up_hose',
    kind: 'hose',
    from: 'mains',
    to: 'fill_in',
    bore_mm,
    length_m: hose_m,
    roughness_mm: 0.01,
    loss_k: 2,
    profile: [
      { at_m: 2, elevation_m: 0.05 },
      { at_m: hose_m - 1.5 - (o.height_m > 1.4 ? o.height_m - 1.4 : 0), elevation_m: 0.05 },
    ],
  });
}

/** Clear hoses along the ground between the rig and the loop's stubs, full of air. */
function addHoses(
  draft: Draft,
  rig: RigSite,
  o: { supply_from: string; return_to: string; height_m: number; bore_mm: number },
): void {
  const { hose_m } = rig;
  for (const id of ['stub_supply', 'stub_return']) {
    addFitting(draft, { id, elevation_m: STUB_M, gas: 'air', rating_kPa: STUB_RATING });
  }
  const hose = {
    kind: 'hose',
    bore_mm: o.bore_mm,
    length_m: hose_m,
    roughness_mm: 0.02,
    loss_k: 0.6,
    clear: true,
    gas: [{ from_m: 0, to_m: hose_m }],
  } as const;
  const low = 0.06;
  const near = o.height_m + 0.15;
  draft.links.push({
    ...hose,
    id: 'supply_hose',
    from: o.supply_from,
    to: 'stub_supply',
    profile: [
      { at_m: near, elevation_m: low },
      { at_m: hose_m - 0.8, elevation_m: low },
    ],
    gas: [...hose.gas],
  });
  draft.links.push({
    ...hose,
    id: 'return_hose',
    from: 'stub_return',
    to: o.return_to,
    profile: [
      { at_m: 0.8, elevation_m: low },
      { at_m: hose_m - near, elevation_m: low },
    ],
    gas: [...hose.gas],
  });
}

/** The end of the return: a tee, a way into the tank and a way to waste. */
function addReturnEnd(
  draft: Draft,
  o: { height_m: number; bore_mm: number; rating_kPa: number; waste_m: number },
): void {
  const at = { elevation_m: o.height_m, gas: 'air' } as const;
  addFitting(draft, { id: 'return_tee', ...at, rating_kPa: o.rating_kPa });
  addFitting(draft, { id: 'return_top', ...at });
  draft.nodes.push({ id: 'waste', kind: 'open', elevation_m: o.waste_m, goes_to: 'waste' });
  const turn = { from: 'return_tee', rate_deg_s: 60 } as const;
  addValve(draft, { id: 'return_valve', to: 'return_top', bore_mm: o.bore_mm, ...turn });
  addValve(draft, { id: 'waste_valve', to: 'waste', bore_mm: 25, ...turn });
}

/** From the end of the return down into the tank. */
function addDrop(draft: Draft, o: { bore_mm: number; length_m: number; air_m: number }): void {
  const { bore_mm, length_m, air_m } = o;
  const ends = { from: 'return_top', to: 'tank.back' } as const;
  addRigPipe(draft, { id: 'drop_pipe', ...ends, bore_mm, length_m, loss_k: 1, air_m });
}

export interface LoopSide {
  /** Where the supply hose begins, and where the return hose ends. */
  readonly supply_from: string;
  readonly return_to: string;
  /** Of both hooks above the ground, and of the pipe to waste. */
  readonly height_m: number;
  readonly waste_m: number;
  readonly rating_kPa: number;
  readonly hose_bore_mm: number;
  readonly return_bore_mm: number;
  /** Of the pipe down into the tank; how much of it, from its top, holds air. */
  readonly drop_m: number;
  readonly drop_air_m: number;
}

/** All between the rig and the loop's stubs: the return's end, two hoses, the pipe to the tank. */
export function addLoopSide(draft: Draft, rig: RigSite, side: LoopSide): void {
  const { height_m, rating_kPa, waste_m, return_bore_mm: bore_mm } = side;
  addReturnEnd(draft, { height_m, bore_mm, rating_kPa, waste_m });
  const { supply_from, return_to, hose_bore_mm } = side;
  addHoses(draft, rig, { supply_from, return_to, height_m, bore_mm: hose_bore_mm });
  addDrop(draft, { bore_mm, length_m: side.drop_m, air_m: side.drop_air_m });
}

/** The tap's way into the tank, and the tank's way to the pump. */
export function addTankValves(
  draft: Draft,
  o: { fill_bore_mm: number; suction_bore_mm: number },
): void {
  const [into, out] = [o.fill_bore_mm, o.suction_bore_mm];
  const fill = { from: 'fill_in', to: 'tank.inlet', bore_mm: into, loss_k_open: 0.3 } as const;
  const suction = { from: 'tank.outlet', to: 'suction', bore_mm: out, loss_k_open: 0.6 } as const;
  addValve(draft, { id: 'fill_valve', ...fill, rate_deg_s: 60 });
  addValve(draft, { id: 'suction_valve', ...suction });
}

export interface SuctionHose {
  readonly from: string;
  readonly length_m: number;
  readonly loss_k: number;
  /** From here up to the casing it holds air; else none. */
  readonly air_from_m?: number;
}

/** A clear hose of 50 mm up to the casing of a small rig's pump [invented]. */
export function addSuctionHose(draft: Draft, hose: SuctionHose): void {
  const { from, length_m, loss_k, air_from_m } = hose;
  draft.links.push({
    id: 'suction_hose',
    kind: 'hose',
    from,
    to: 'casing',
    bore_mm: 50,
    length_m,
    roughness_mm: 0.02,
    loss_k,
    clear: true,
    ...(air_from_m === undefined ? {} : { gas: [{ from_m: air_from_m, to_m: length_m }] }),
  });
}

export interface RigPump {
  readonly bore_mm: number;
  /** Head (m) by flow (L/s). */
  readonly curve: readonly (readonly [flow_L_s: number, head_m: number])[];
  readonly best_flow_L_s: number;
  readonly efficiency_max: number;
  readonly npsh_required_m: number;
  readonly spin_up_s: number;
}

export function addPump(draft: Draft, pump: RigPump): void {
  const { bore_mm, curve, ...rest } = pump;
  draft.links.push({
    id: 'pump',
    kind: 'pump',
    from: 'casing',
    to: 'pump_out',
    bore_mm,
    curve: curve.map(([flow_L_s, head_m]) => ({ flow_L_s, head_m })),
    ...rest,
  });
}

export function gauge(id: string, node: string, range_kPa: number): InstrumentText {
  return { id, kind: 'pressure', node, range_kPa, resolution_kPa: 5, lag_s: 0.4 };
}

export function flowMeter(link: string, range_L_min: number): InstrumentText {
  return { id: 'flow_meter', kind: 'flow', link, range_L_min, resolution_L_min: 1, lag_s: 1.5 };
}

export interface Watched {
  /** How finely the tank's level is read. */
  readonly level_mm: number;
  /** Clear pipes that are looked at, in the order in which they are listed. */
  readonly sights: readonly (readonly [id: string, link: string])[];
}

/** What eyes and ears have of a rig: level in the tank, what runs in clear pipes, the pump. */
export function watched({ level_mm, sights }: Watched): InstrumentText[] {
  return [
    { id: 'tank_level', kind: 'level', tank: 'tank', resolution_mm: level_mm },
    ...sights.map(([id, link]) => ({ id, kind: 'sight', link }) as const),
    { id: 'pump_note', kind: 'note', pump: 'pump' },
  ];
}
