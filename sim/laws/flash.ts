// When alcohol in water catches fire: vapour over the mixture, and the temperature at which it
// flashes. By parts of volume before mixing, as labels and drums have it. Air at one atmosphere.
import { exp, log, pow } from '../base/math.ts';
import { P_ATM, type degC, type Pa } from '../base/units.ts';

export const ALCOHOLS = ['ethanol', 'methanol'] as const;
export type Alcohol = (typeof ALCOHOLS)[number];

interface AlcoholData {
  /** Antoine: log10 of mmHg is A - B/(C + t). */
  readonly antoine: readonly [A: number, B: number, C: number];
  /** Van Laar in water: ln of both activities at endless dilution. */
  readonly laar: readonly [number, number];
  readonly g_mol: number;
  readonly rho_pure: number;
  /** C, closed cup, undiluted. */
  readonly flash: degC;
}

/** Constants from memory of collections of vapour-liquid data [Gmehling1977]. */
const DATA: Readonly<Record<Alcohol, AlcoholData>> = {
  ethanol: {
    antoine: [8.1122, 1592.864, 226.184],
    laar: [1.6798, 0.9227],
    ...{ g_mol: 46.07, rho_pure: 789.3, flash: 13 },
  },
  methanol: {
    antoine: [8.08097, 1582.271, 239.726],
    laar: [0.8041, 0.5619],
    ...{ g_mol: 32.04, rho_pure: 791.3, flash: 11 },
  },
};
const WATER = { g_mol: 18.015, rho: 998.2 };
const MMHG = 133.322;

/** Pa over the undiluted alcohol, Antoine; 0 to 80 C. */
export function alcoholPressure(kind: Alcohol, t_C: degC): Pa {
  const [A, B, C] = DATA[kind].antoine;
  return MMHG * pow(10, A - B / (C + t_C));
}

/** Share of the vapour pressure that a mixture keeps: x g, g by van Laar; phi 0 to 1. */
function kept(kind: Alcohol, phi: number): number {
  const { laar, g_mol, rho_pure } = DATA[kind];
  const [A, B] = laar;
  const alcohol = (phi * rho_pure) / g_mol;
  const x = alcohol / (alcohol + ((1 - phi) * WATER.rho) / WATER.g_mol);
  const share = (B * (1 - x)) / (A * x + B * (1 - x));
  return x * exp(A * share * share);
}

/** Share of alcohol in the still air over phi parts of volume in water, in balance; 0 to 80 C. */
export function headspace(kind: Alcohol, phi: number, t_C: degC): number {
  return (kept(kind, phi) * alcoholPressure(kind, t_C)) / P_ATM;
}

/**
 * Closed-cup flash point of phi parts of volume in water, C: where its vapour is as dense as that
 * of the undiluted alcohol at its own flash point [Astbury2004]. 0.02 to 1; within 3 K of
 * measurements, which stand 6 K apart by method and denaturant.
 */
export function flashPoint_C(kind: Alcohol, phi: number): degC {
  const { antoine, flash } = DATA[kind];
  const [, B, C] = antoine;
  // Antoine solved for t: its pressure must rise as the mixture keeps less of it.
  return B / (B / (C + flash) + log(kept(kind, phi)) / log(10)) - C;
}
