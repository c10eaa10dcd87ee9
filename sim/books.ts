// The books: what is in a world, and whether what came, stays and went comes to the same.
import type { Balance } from './lens.ts';
import { JUNCTION, TANK } from './network/plan.ts';
import { HEAT_LEDGERS, LEDGER_STRIDE, type State } from './state.ts';
import type { World } from './world-parts.ts';

/**
 * What is in the world now: kg liquid, kg antifreeze (with what waits), J gas (with what is in
 * solution), J heat, kg debris (with what elements have caught).
 */
export function contents(world: World): [number, number, number, number, number] {
  const { state } = world;
  const sum = (a: Float64Array) => a.reduce((s, x) => s + x, 0);
  const foam = world.plan.tanks.reduce((s, _, k) => s + state.tankGas[2 * k + 1]!, 0);
  const gas = sum(state.gas) + foam + dissolved(state);
  const heat = sum(state.heat) + sum(state.heatPending);
  const debris = sum(state.grains) + sum(state.caught);
  return [sum(state.mass), sum(state.solute) + sum(state.pending), gas, heat, debris];
}

/** J of air in solution, with what waits; nothing where it is not followed. */
export function dissolved({ air, airPending }: State): number {
  return air.reduce((s, x) => s + x, 0) + airPending.reduce((s, x) => s + x, 0);
}

/** kg of antifreeze in every node that holds liquid and every pipe, with what waits at its ends. */
export function antifreezeByPart({ plan, state }: World): Record<string, number> {
  const { solute, pending } = state;
  const parts: Record<string, number> = {};
  plan.nodes.forEach(({ id, kind }, n) => {
    if (kind === JUNCTION || kind === TANK) parts[id] = solute[n]!;
  });
  for (const { id, cells, firstCell, firstFace } of plan.links) {
    if (cells === 0) continue;
    let sum = 0;
    for (let v = firstCell; v < firstCell + cells; v++) sum += solute[v]!;
    for (let slot = 2 * firstFace; slot < 2 * (firstFace + cells + 1); slot++)
      sum += pending[slot]!;
    parts[id] = sum;
  }
  return parts;
}

/** Book k of liquid (0), antifreeze (1) or gas (2), in units of `unit`. */
export function balance(world: World, k: number, unit: number): Balance {
  const { ledger } = world.state;
  const book = ledger.filter((_, l) => l % LEDGER_STRIDE === k);
  return balanceOf(world.start[k]!, contents(world)[k]!, book, unit);
}

function balanceOf(start: number, now: number, book: Float64Array, unit = 1): Balance {
  let came = 0;
  let went = 0;
  for (const sum of book) {
    if (sum < 0) came -= sum;
    else went += sum;
  }
  const scale = start + came > 0 ? start + came : 1;
  return {
    start: start / unit,
    now: now / unit,
    came: came / unit,
    went: went / unit,
    error: (start + came - now - went) / scale,
  };
}

/** Heat has a book of its own: liquid's ledgers first, then soil, air, sun, shaft, surface. */
export function heatBalance(world: World): Balance {
  return balanceOf(world.start[3]!, contents(world)[3], world.state.heatBook);
}

/** Debris has one too, all classes of it: the ledgers of liquid, then what hands took out. */
export function debrisBalance(world: World): Balance {
  return balanceOf(world.start[4]!, contents(world)[4], world.state.grainBook);
}

/** J by place; empty where heat is not followed. */
export function heatLedgers({ plan, state }: World): Record<string, number> {
  const names = plan.thermal === null ? [] : [...plan.ledgers, ...HEAT_LEDGERS];
  return Object.fromEntries(names.map((id, l) => [id, state.heatBook[l]!]));
}
