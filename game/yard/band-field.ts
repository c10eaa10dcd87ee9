// What a band is to those who pack it: its room across, its heights, and how close things may be.
import type { Ready } from './patch.ts';
import { cartY, houseY, stubY, type Plan } from './plan.ts';
import type { Bench, Field1 } from './squeeze.ts';
import { dialRise, outletShift, pinReach } from './stations.ts';

export type Band = 'cart' | 'front' | 'house';

export function fieldOf(
  plan: Plan,
  place: Band,
  across: { left: number; right: number },
  list: readonly Ready[],
): Field1 {
  const cart = place === 'cart';
  const house = place === 'house';
  const edges = list.flatMap((r) => r.kit.edges);
  const linked = (a: string, b: string): boolean =>
    edges.some((e) => (e.a === a && e.b === b) || (e.a === b && e.b === a));
  return {
    ...across,
    yOf: (z) => (cart ? cartY(plan, z) : house ? houseY(plan, z) : stubY(plan, z)),
    ground: cart ? plan.line : house ? plan.house : plan.front,
    top: topOfBand(plan, place),
    gap: plan.gap,
    reach: pinReach(plan),
    outlet: outletShift(plan),
    linked,
    row: plan.control + rowGap(plan),
    tight: TIGHT[plan.ease] ?? 1,
    dealt: plan.ease < 3,
    closest: plan.control / (plan.control + plan.gap),
    spread: list.some((r) => r.day),
    bench: cart && (plan.shape === 'tall' || plan.stacked) ? benchOf(plan) : null,
  };
}

/** Where hoses from above come into a band. */
function topOfBand(plan: Plan, place: Band): number {
  if (place === 'cart' || !plan.stacked) return 8;
  const above = place === 'front' && plan.house < plan.front ? plan.house : plan.bench;
  return (above ?? plan.line) + 60;
}

/** A bench below the cart: room for dials and names over it, and for hoses beside it. */
function benchOf(plan: Plan): Bench {
  const stores = plan.shape === 'wide';
  // Dials on a bench stand below the lanes in which hoses leave the cart.
  const lanes = plan.lanes > 1 && !stores ? 48 : 0;
  const head = dialRise(plan) + plan.dialR + (stores ? 52 : 76) + lanes;
  const aside = 26 * plan.pipe + 14 * Math.sqrt(plan.pipe) * (plan.lanes - 1);
  return { head, lanes, perMetre: 150, aside, stores };
}

/** A band this much too wide is drawn closer; the gaps between its parts hold that much. */
const TIGHT = [1.04] as const;

/** Between two rows of one height; wider where a yard is full of pipes that must pass. */
export const rowGap = ({ lanes, shape, ease }: Plan): number =>
  (lanes > 1 && shape === 'tall' ? 40 : 18) + 8 * ease;
