// A cart with a motor, from plug to pump: a pump that goes round through a valve over its own tank.
// Made through the door; the truth of it comes by `truth(world).power`.
import { createWorld, parseScenario, step, type World } from '../../sim/index.ts';

export interface Cart {
  /** Of the supply, the cord, the motor and the world, over what stands below. */
  readonly supply?: object;
  readonly cord?: object;
  readonly motor?: object;
  readonly power?: object;
  readonly world?: object;
  readonly plug?: number;
  readonly breaker?: number;
  readonly start_on?: boolean;
  /** Of the valve behind the pump. */
  readonly open_deg?: number;
  /** Head of the pump at no flow, m; its best flow is 2 L/s at three quarters of that. */
  readonly head_m?: number;
  readonly more?: readonly object[];
}

const wide = { bore_mm: 50 };

/** H0 (1 - (Q/4)^2), L/s: a parabola whose best flow is 2 L/s. */
const curveOf = (head_m: number) =>
  Array.from({ length: 17 }, (_, k) => ({
    flow_L_s: k / 4,
    head_m: head_m * (1 - (k / 16) * (k / 16)),
  }));

export function cart(o: Cart = {}): World {
  const tank = {
    ...{ id: 'tank', kind: 'tank', floor_m: 0, area_m2: 0.5, height_mm: 900 },
    start_level_mm: 700,
    ports: [
      { id: 'out', height_mm: 60, bore_mm: 50 },
      { id: 'back', height_mm: 500, bore_mm: 50 },
    ],
  };
  const joints = ['casing', 'out', 'end'].map((id) => ({ id, kind: 'junction', elevation_m: 0 }));
  const pump = {
    ...{ id: 'pump', kind: 'pump', from: 'casing', to: 'out', ...wide },
    ...{ curve: curveOf(o.head_m ?? 30), best_flow_L_s: 2, efficiency_max: 0.5 },
    start_on: o.start_on ?? false,
    motor: { rated_W: 746, voltage_V: 115, ...o.motor },
  };
  const open = { kind: 'valve', start_deg: 90, ...wide };
  const throttle = { ...open, start_deg: o.open_deg ?? 90, loss_k_open: 400, rate_deg_s: 90 };
  return createWorld(
    parseScenario({
      ...{ format: 1, id: 'cart', temperature_C: 20, ends_after_s: 100000 },
      nodes: [tank, ...joints],
      links: [
        { ...open, id: 'suction', from: 'tank.out', to: 'casing' },
        pump,
        { id: 'hose', kind: 'hose', from: 'out', to: 'end', length_m: 3, ...wide },
        { ...throttle, id: 'throttle', from: 'end', to: 'tank.back' },
      ],
      power: {
        supply: { kind: 'outlet', voltage_V: 120, breaker_A: 20, ...o.supply },
        cord: { length_m: 15, copper_mm2: 3.3, ...o.cord },
        ...o.power,
      },
      devices: [
        { id: 'plug', kind: 'plug', start: o.plug ?? 1, take_s: 2 },
        { id: 'breaker', kind: 'breaker', start: o.breaker ?? 1, take_s: 2 },
        { id: 'protector', kind: 'ground_fault', start: 1, take_s: 2 },
      ],
      instruments: [
        { id: 'clamp', kind: 'current', range_A: 100, resolution_A: 0.01 },
        { id: 'volts', kind: 'voltage', at: 'motor', range_V: 300, resolution_V: 0.01 },
        { id: 'volts_outlet', kind: 'voltage', at: 'outlet', range_V: 300, resolution_V: 0.01 },
        {
          id: 'gauge',
          kind: 'pressure',
          node: 'out',
          range_kPa: 600,
          resolution_kPa: 1,
          lag_s: 0.3,
        },
      ],
      hands: { reach_s: 0.5 },
      ...o.world,
    }),
    1,
  );
}

/** s until an event, from here on; Infinity where it does not come within `most`. */
export function secondsUntil(world: World, event: string, most: number): number {
  for (let t = 1; t <= Math.round(most / world.dt); t++) {
    if (step(world, []).some((f) => f.kind === 'event' && f.event === event)) return t * world.dt;
  }
  return Infinity;
}
