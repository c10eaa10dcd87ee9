// What a run looked like over time, as columns of numbers: one list for each thing, all as long
// as `times_s`. Built by looking at the world every so often; leaves the world alone.
import { max, round } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { RESERVOIR } from '../network/plan.ts';
import { snapshot, timeOf, xray } from '../see.ts';
import { truth } from '../see-truth.ts';
import type { World } from '../world.ts';
import { digits } from './answer.ts';

type Column = number[];
type ById = Record<string, Column>;

export interface Series {
  /** Between two rows; a run that ends between them has one more at its end. */
  readonly every_s: number;
  readonly times_s: Column;
  /** L, in the whole rig, in the job's loop (0 where there is none) and in each link. */
  readonly air_L_at_1atm: {
    readonly total: Column;
    readonly loop: Column;
    readonly links: ById;
  };
  /** By link, along from -> to. */
  readonly flow_L_s: ById;
  readonly velocity_m_s: ById;
  /** By node, gauge. */
  readonly pressure_kPa: ById;
  /** By tank. */
  readonly level_mm: ById;
  readonly antifreeze_fraction: ById;
  /** kg of liquid that came from (below 0) or went to each place. */
  readonly ledgers_kg: ById;
}

/** Ticks between two rows of a series. */
export function ticksOf({ every_s }: { readonly every_s: number }, { dt }: World): number {
  return max(1, round(every_s / dt));
}

/** A series without rows; `every_s` is kept as the whole ticks it comes to. */
export function emptySeries(world: World, every_s: number): Series {
  const { plan, dt } = world;
  const columns = (parts: readonly { readonly id: string }[]): ById =>
    Object.fromEntries(parts.map(({ id }) => [id, []]));
  return {
    every_s: digits(ticksOf({ every_s }, world) * dt),
    times_s: [],
    air_L_at_1atm: { total: [], loop: [], links: columns(plan.links) },
    flow_L_s: columns(plan.links),
    velocity_m_s: columns(plan.links),
    pressure_kPa: columns(plan.nodes),
    level_mm: columns(plan.tanks),
    antifreeze_fraction: columns(plan.tanks),
    ledgers_kg: columns(plan.ledgers.map((id) => ({ id }))),
  };
}

/** Adds a row at the world's present time. */
export function addRow(series: Series, world: World): void {
  const books = truth(world);
  const inside = xray(world);
  const { air_L_at_1atm: air } = series;
  series.times_s.push(digits(timeOf(world)));
  air.total.push(digits(1000 * books.gas.now));
  air.loop.push(digits(1000 * books.loop_air_m3));
  for (const { id, flow, velocity } of inside.links) {
    air.links[id]!.push(digits(1000 * books.gas_by_link[id]!));
    series.flow_L_s[id]!.push(digits(1000 * flow));
    series.velocity_m_s[id]!.push(digits(velocity));
  }
  inside.nodes.forEach(({ id, pressure, antifreeze }, n) => {
    // A world takes up the pressure of its reservoirs in the first tick; it is given before.
    const { kind, pressure: given } = world.plan.nodes[n]!;
    const now = kind === RESERVOIR ? given : pressure;
    series.pressure_kPa[id]!.push(digits((now - P_ATM) / 1000));
    series.antifreeze_fraction[id]?.push(digits(antifreeze));
  });
  for (const { id, level } of snapshot(world).scene.tanks) {
    series.level_mm[id]!.push(digits(1000 * level));
  }
  for (const [id, kg] of Object.entries(books.ledgers)) series.ledgers_kg[id]!.push(digits(kg));
}
