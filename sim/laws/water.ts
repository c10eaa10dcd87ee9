// Pure water at atmospheric pressure, 0 to 60 degrees Celsius; held at the ends outside.
import { clamp, exp, log, pow, sqrt } from '../base/math.ts';
import { ZERO_C } from '../base/units.ts';

const held = (t: number): number => clamp(t, -5, 100);

/** kg/m3, [Kell1975] eq. 16; within 0.005 kg/m3. */
export function density(t_C: number): number {
  const t = held(t_C);
  const top = 999.83952 + t * (16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6
    + t * (105.56302e-9 - t * 280.54253e-12))));
  return top / (1 + 16.879850e-3 * t);
}

/** 1/Pa, isothermal, [Kell1975]; within 0.01 %. */
export function compressibility(t_C: number): number {
  const t = held(t_C);
  const top = 50.88496 + t * (0.6163813 + t * (1.459187e-3 + t * (20.08438e-6
    + t * (-58.47727e-9 + t * 410.4110e-12))));
  return (1e-11 * top) / (1 + 19.67348e-3 * t);
}

/** Pa s, [Kestin1978]; within 0.25 % to 60 C. */
export function viscosity(t_C: number): number {
  const t = held(t_C);
  const d = 20 - t;
  const e = (d / (t + 96)) * (1.2364 - 1.37e-3 * d + 5.7e-6 * d * d);
  return 1.002e-3 * pow(10, e);
}

const T_CRITICAL = 647.096;
const P_CRITICAL = 22.064e6;

/** Pa, [WagnerPruss1993]; within 0.01 %. */
export function vapourPressure(t_C: number): number {
  const T = held(t_C) + ZERO_C;
  const h = 1 - T / T_CRITICAL;
  const half = sqrt(h);
  const h3 = h * h * h;
  const sum = -7.85951783 * h + 1.84408259 * h * half - 11.7866497 * h3
    + 22.6807411 * h3 * half - 15.9618719 * h3 * h + 1.80122502 * h3 * h3 * h * half;
  return P_CRITICAL * exp((T_CRITICAL / T) * sum);
}

/** N/m, [IAPWS1994]: 0.2358 tau^1.256 (1 - 0.625 tau). */
export function surfaceTension(t_C: number): number {
  const tau = 1 - (held(t_C) + ZERO_C) / T_CRITICAL;
  return 0.2358 * exp(1.256 * log(tau)) * (1 - 0.625 * tau);
}
