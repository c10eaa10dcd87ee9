// What stands over a liquid with an alcohol in it: partial pressure, flash point, how fast it goes
// into the air of a room. By MASS fraction x and C. Fire and health are others' to judge.
import { exp, LN_10, max, pow } from '../base/math.ts';
import {
  GAS_CONSTANT,
  MOLAR_MASS_WATER,
  P_ATM,
  ZERO_C,
  type degC,
  type Pa,
} from '../base/units.ts';

export const ALCOHOLS = ['ethanol', 'methanol'] as const;
export type Alcohol = (typeof ALCOHOLS)[number];

interface AlcoholData {
  /** kg/mol. */
  readonly M: number;
  /** Antoine, log10 of mmHg, C; from memory of handbooks. */
  readonly antoine: readonly [number, number, number];
  /** van Laar with water, alcohol first [Gmehling1977]. */
  readonly A12: number;
  readonly A21: number;
  /** C, closed cup, undiluted [NIOSH1994]. */
  readonly flash: number;
  /** Share by volume in air that burns at the least [NIOSH1994]. */
  readonly lfl: number;
  /** m2/s in air at 20 C; from memory of handbooks. */
  readonly D: number;
}

const DATA: Readonly<Record<Alcohol, AlcoholData>> = {
  ethanol: {
    M: 0.04607,
    antoine: [8.1122, 1592.864, 226.184],
    A12: 1.6798,
    A21: 0.9227,
    flash: 13,
    lfl: 0.033,
    D: 1.19e-5,
  },
  methanol: {
    M: 0.03204,
    antoine: [8.08097, 1582.271, 239.726],
    A12: 0.8041,
    A21: 0.5619,
    flash: 11,
    lfl: 0.06,
    D: 1.6e-5,
  },
};

/** Pa in a millimetre of mercury; m2/s of air. */
const MMHG = 133.322;
const AIR_VISCOSITY = 1.51e-5;

export function isAlcohol(kind: string): kind is Alcohol {
  return (ALCOHOLS as readonly string[]).includes(kind);
}

/** Pa over the undiluted alcohol, by Antoine; 0 to 60 C. */
function saturation({ antoine: [A, B, C] }: AlcoholData, t_C: degC): Pa {
  return MMHG * exp(LN_10 * (A - B / (C + t_C)));
}

/** Mole fraction times activity by van Laar: what of the pure pressure stands over the mixture. */
function activity({ M, A12, A21 }: AlcoholData, x: number): number {
  if (x <= 0) return 0;
  const n = x / M;
  const x1 = n / (n + max(0, 1 - x) / MOLAR_MASS_WATER);
  const share = (A21 * (1 - x1)) / (A12 * x1 + A21 * (1 - x1));
  return x1 * exp(A12 * share * share);
}

/** Pa of alcohol over a mixture, gamma x1 p_sat [Astbury2004]; 0 to 60 C, 0 <= x <= 1. */
export function alcoholPressure(kind: Alcohol, t_C: degC, x: number): Pa {
  return activity(DATA[kind], x) * saturation(DATA[kind], t_C);
}

/**
 * How near a liquid is to flashing: alcohol over it against what stands over the undiluted liquid
 * at its own flash point; 1 at the flash point [Astbury2004].
 */
export function flashShare(kind: Alcohol, t_C: degC, x: number): number {
  return alcoholPressure(kind, t_C, x) / saturation(DATA[kind], DATA[kind].flash);
}

const BISECTIONS = 50;

/** C at which the vapour over a mixture can be lit, closed cup [Astbury2004]; within 6 K. */
export function flashPoint_C(kind: Alcohol, x: number): degC {
  let lo = -20;
  let hi = 120;
  for (let k = 0; k < BISECTIONS; k++) {
    const t = (lo + hi) / 2;
    if (flashShare(kind, t, x) < 1) lo = t;
    else hi = t;
  }
  return hi;
}

/** kg/m3 of alcohol in air that burns at the least, at t_C and one atmosphere [NIOSH1994]. */
export function lowerLimit(kind: Alcohol, t_C: degC): number {
  const { lfl, M } = DATA[kind];
  return (lfl * P_ATM * M) / (GAS_CONSTANT * (t_C + ZERO_C));
}

/** m/s. Air over an open surface indoors [common practice, no source]. */
const DRAUGHT = 0.2;

/**
 * m/s from a surface of `area` m2 into a room's air: 0.00482 U^0.78 X^-0.11 Sc^-0.67 with U in
 * m/s and X the breadth in m [MackayMatsugu1973, recalled]; made for pools outdoors, and others
 * find less of the wind in it: within a factor of two here.
 */
export function evaporationSpeed(kind: Alcohol, area: number): number {
  const Sc = AIR_VISCOSITY / DATA[kind].D;
  const breadth = 1.128379 * pow(area, 0.5);
  return 0.00482 * pow(DRAUGHT, 0.78) * pow(breadth, -0.11) * pow(Sc, -0.67);
}

/** kg/m3 of vapour at the surface of a liquid at t_C. */
export function surfaceVapour(kind: Alcohol, t_C: degC, x: number): number {
  return (alcoholPressure(kind, t_C, x) * DATA[kind].M) / (GAS_CONSTANT * (t_C + ZERO_C));
}
