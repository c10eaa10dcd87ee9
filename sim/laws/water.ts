// Pure water at one atmosphere, by temperature in degrees Celsius. Every law is held at the ends
// of its range: outside it returns the value at the end, never an extrapolation. What pressure
// does to density is left to the compressibility.
import { clamp, exp, LN_10, pow, sqrt } from '../base/math.ts';
import { ZERO_C, type degC, type kg_m3, type Pa } from '../base/units.ts';

/** C. Water still runs a little below freezing, and the laws below are sound there. */
const T_MIN = -5;
const T_MAX = 100;
/** K and Pa, the critical point [WagnerPruss1993]. */
const T_CRITICAL = 647.096;
const P_CRITICAL = 22.064e6;

const held = (t_C: degC): degC => clamp(t_C, T_MIN, T_MAX);

/** kg/m3: ratio of polynomials [Kell1975], eq. 16; -5..100 C, within 0.005 kg/m3 to 60 C. */
export function density(t_C: degC): kg_m3 {
  const t = held(t_C);
  const top =
    999.83952 +
    t *
      (16.945176 +
        t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12))));
  return top / (1 + 16.87985e-3 * t);
}

/** Thermal expansion, 1/K: -(d rho/dt)/rho, the derivative of the law of density; 0..60 C. */
export function expansion(t_C: degC): number {
  const t = clamp(t_C, 0, 60);
  const slope =
    16.945176 +
    t *
      (2 * -7.9870401e-3 +
        t * (3 * -46.170461e-6 + t * (4 * 105.56302e-9 - t * 5 * 280.54253e-12)));
  return (16.87985e-3 - slope / density(t)) / (1 + 16.87985e-3 * t);
}

/** Isothermal, 1/Pa: ratio of polynomials [Kell1975]; -5..100 C, within 0.01 % to 60 C. */
export function compressibility(t_C: degC): number {
  const t = held(t_C);
  const top =
    50.88496 +
    t * (0.6163813 + t * (1.459187e-3 + t * (20.08438e-6 + t * (-58.47727e-9 + t * 410.411e-12))));
  return (1e-11 * top) / (1 + 19.67348e-3 * t);
}

/** Dynamic, Pa s: log10(mu/mu20) of [Kestin1978]; -5..100 C, within 0.25 % to 60 C. */
export function viscosity(t_C: degC): number {
  const d = 20 - held(t_C);
  const exponent = (d / (116 - d)) * (1.2364 + d * (-1.37e-3 + d * 5.7e-6));
  return 1.002e-3 * exp(LN_10 * exponent);
}

/**
 * Pa abs over liquid water [WagnerPruss1993], eq. 1; 0..200 C, since a pump's casing can pass
 * boiling; within 0.01 %.
 */
export function vapourPressure(t_C: degC): Pa {
  const T = ZERO_C + clamp(t_C, 0, 200);
  const h = 1 - T / T_CRITICAL;
  const root = sqrt(h);
  const h3 = h * h * h;
  const sum =
    h * (-7.85951783 + 1.84408259 * root) -
    h3 * (11.7866497 + 15.9618719 * h) +
    root * h3 * (22.6807411 + 1.80122502 * h3 * h);
  return P_CRITICAL * exp((T_CRITICAL / T) * sum);
}

/** N/m against its vapour: 0.2358 tau^1.256 (1 - 0.625 tau) [IAPWS1994]; -5..100 C. */
export function surfaceTension(t_C: degC): number {
  const tau = 1 - (ZERO_C + held(t_C)) / T_CRITICAL;
  return 0.2358 * pow(tau, 1.256) * (1 - 0.625 * tau);
}

/** Temperature C, heat capacity J/kg/K, conductivity W/m/K of the liquid [IAPWS95]. */
const HEAT = [
  [0.01, 4219, 0.556],
  [5, 4205, 0.568],
  [10, 4195, 0.579],
  [15, 4189, 0.589],
  [20, 4184, 0.598],
  [30, 4180, 0.614],
  [40, 4179, 0.629],
  [60, 4185, 0.651],
] as const;

/** At constant pressure, J/kg/K: table [IAPWS95], straight between its points; 0..60 C. */
export function heatCapacity(t_C: degC): number {
  return fromTable(t_C, 1);
}

/** Of heat, W/m/K: table [IAPWS95], straight between its points; 0..60 C. */
export function conductivity(t_C: degC): number {
  return fromTable(t_C, 2);
}

function fromTable(t_C: degC, column: 1 | 2): number {
  const last = HEAT.length - 1;
  const t = clamp(t_C, HEAT[0][0], HEAT[last]![0]);
  let k = 1;
  while (k < last && t > HEAT[k]![0]) k++;
  const a = HEAT[k - 1]!;
  const b = HEAT[k]!;
  return a[column] + ((b[column] - a[column]) * (t - a[0])) / (b[0] - a[0]);
}
