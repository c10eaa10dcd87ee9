// The only mathematics of the engine. Engines of browsers disagree in the last places of exp,
// log, pow, sin and their kin, so those are built here from exactly rounded operations and bit
// views; + - * / and sqrt are the same everywhere. Error: a few units in the last place.
import { assert } from './assert.ts';

export const sqrt = Math.sqrt;
export const abs = Math.abs;
export const min = Math.min;
export const max = Math.max;
export const floor = Math.floor;
export const ceil = Math.ceil;
export const round = Math.round;
export const trunc = Math.trunc;
export const sign = Math.sign;
export const imul = Math.imul;
export const clz32 = Math.clz32;
export const PI = 3.141592653589793;
export const LN_10 = 2.302585092994046;

const word = new Uint32Array(2);
const real = new Float64Array(word.buffer);
real[0] = 1;
assert(word[1] === 0x3ff00000, 'this machine stores numbers big-endian: not supported');

/** ln 2 in two parts: the first has trailing zeros, so that k * part is exact. */
const LN2_HI = 6.9314718036912381649e-1;
const LN2_LO = 1.90821492927058770002e-10;
const LOG2_E = 1.4426950408889634;

/** 2^k for -1074 <= k <= 1023, exact. */
function powerOfTwo(k: number): number {
  if (k >= -1022) {
    word[0] = 0;
    word[1] = (k + 1023) << 20;
    return real[0]!;
  }
  return powerOfTwo(k + 600) * powerOfTwo(-600);
}

/** y * 2^k, through the denormal range and past the largest number. */
function scale(y: number, k: number): number {
  if (k > 1023) return y * powerOfTwo(1023) * powerOfTwo(k - 1023 > 1023 ? 1023 : k - 1023);
  if (k < -1022) return y * powerOfTwo(-1022) * powerOfTwo(k + 1022 < -1022 ? -1022 : k + 1022);
  return y * powerOfTwo(k);
}

/** e^x; 0 below -745.2, infinity above 709.8. Reduction by ln 2, then a rational remainder. */
export function exp(x: number): number {
  if (x !== x) return x;
  if (x > 709.782712893384) return Infinity;
  if (x < -745.1332191019412) return 0;
  const k = floor(x * LOG2_E + 0.5);
  const hi = x - k * LN2_HI;
  const lo = k * LN2_LO;
  const r = hi - lo;
  const t = r * r;
  // Minimax polynomial of r coth(r/2) about 0, |r| <= 0.347 (the form used by FDLIBM's e_exp.c).
  const c =
    r -
    t *
      (1.66666666666666019037e-1 +
        t *
          (-2.77777777770155933842e-3 +
            t *
              (6.61375632143793436117e-5 +
                t * (-1.6533902205465251539e-6 + t * 4.13813679705723846039e-8))));
  const y = 1 - (lo - (r * c) / (2 - c) - hi);
  return scale(y, k);
}

/** Natural logarithm; -infinity at 0, NaN below. Series of FDLIBM's e_log.c. */
export function log(x: number): number {
  if (x !== x || x < 0) return NaN;
  if (x === 0) return -Infinity;
  if (x === Infinity) return x;
  let k = 0;
  let y = x;
  if (y < 2.2250738585072014e-308) {
    y *= 18014398509481984; // 2^54
    k -= 54;
  }
  real[0] = y;
  const high = word[1]!;
  k += (high >>> 20) - 1023;
  const fraction = high & 0xfffff;
  const shift = (fraction + 0x95f64) & 0x100000;
  word[1] = fraction | (shift ^ 0x3ff00000);
  k += shift >>> 20;
  const f = real[0]! - 1;
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const t1 =
    w * (3.999999999940941908e-1 + w * (2.222219843214978396e-1 + w * 1.531383769920937332e-1));
  const t2 =
    z *
    (6.66666666666673513e-1 +
      w * (2.857142874366239149e-1 + w * (1.818357216161805012e-1 + w * 1.479819860511658591e-1)));
  const half = 0.5 * f * f;
  return k * LN2_HI - (half - (s * (half + t1 + t2) + k * LN2_LO) - f);
}

/** Base-ten logarithm. */
export function log10(x: number): number {
  return log(x) * 0.4342944819032518;
}

/** log2(x) as a sum of two numbers, about 30 extra bits, for pow. */
let logHigh = 0;
let logLow = 0;

/** Splits a number in its upper 26 bits, so that products of such parts are exact. */
function upper(x: number): number {
  real[0] = x;
  word[0] = word[0]! & 0xf8000000;
  return real[0]!;
}

/** ln x = logHigh + logLow: one correction step of Newton on exp, in double-double. */
function logTwo(x: number): void {
  const h = log(x);
  // exp(h) differs from x by the error of h; the quotient gives that error to first order.
  const e = exp(h);
  const eHigh = upper(e);
  logHigh = h;
  logLow = (x - eHigh - (e - eHigh)) / e;
}

/**
 * x^y for x >= 0; NaN below. Whole |y| <= 64 by squaring, else exp(y ln x) with the product in
 * two parts. Relative error below 1e-14 for results between 1e-100 and 1e100.
 */
export function pow(x: number, y: number): number {
  if (x < 0 || x !== x || y !== y) return NaN;
  if (y === 0) return 1;
  if (x === 0) return y > 0 ? 0 : Infinity;
  if (x === 1) return 1;
  if (y === trunc(y) && abs(y) <= 64) return wholePower(x, y);
  logTwo(x);
  const h = logHigh;
  const hu = upper(h);
  const yu = upper(y);
  const product = h * y;
  if (product > 709.7827 || product < -745.2) return product > 0 ? Infinity : 0;
  const rest = hu * yu - product + hu * (y - yu) + (h - hu) * yu + (h - hu) * (y - yu) + logLow * y;
  return exp(product) * (1 + rest);
}

function wholePower(x: number, y: number): number {
  let n = abs(y);
  let base = x;
  let result = 1;
  while (n > 0) {
    if (n % 2 === 1) result *= base;
    n = floor(n / 2);
    if (n > 0) base *= base;
  }
  return y > 0 ? result : 1 / result;
}

/** Hyperbolic tangent. */
export function tanh(x: number): number {
  const a = abs(x);
  if (a > 20) return x > 0 ? 1 : -1;
  if (a < 0.2) {
    // The continued fraction of tanh, nine levels: exact to the last place below 0.2.
    const t = x * x;
    let c = 17;
    for (let k = 15; k >= 1; k -= 2) c = k + t / c;
    return x / c;
  }
  const e = exp(2 * a);
  const y = 1 - 2 / (e + 1);
  return x > 0 ? y : -y;
}

const HALF_PI_1 = 1.57079632673412561417;
const HALF_PI_2 = 6.07710050650619224932e-11;

function sinCore(x: number): number {
  const z = x * x;
  return (
    x +
    x *
      z *
      (-1.66666666666666324348e-1 +
        z *
          (8.33333333332248946124e-3 +
            z *
              (-1.98412698298579493134e-4 +
                z *
                  (2.75573137070700676789e-6 +
                    z * (-2.50507602534068634195e-8 + z * 1.58969099521155010221e-10)))))
  );
}

function cosCore(x: number): number {
  const z = x * x;
  const r =
    z *
    (4.16666666666666019037e-2 +
      z *
        (-1.38888888888741095749e-3 +
          z *
            (2.48015872894767294178e-5 +
              z *
                (-2.75573143513906633035e-7 +
                  z * (2.0875723212981748279e-9 - z * 1.13596475577881948265e-11)))));
  return 1 - (0.5 * z - z * r);
}

/** Quarter turns in x and what is left, |rest| <= pi/4; for |x| up to a few thousand. */
function quarters(x: number): number {
  return floor(x / (PI / 2) + 0.5);
}

/** Sine of an angle in radians, |x| <= 1e5. */
export function sin(x: number): number {
  const k = quarters(x);
  const r = x - k * HALF_PI_1 - k * HALF_PI_2;
  switch (((k % 4) + 4) % 4) {
    case 0:
      return sinCore(r);
    case 1:
      return cosCore(r);
    case 2:
      return -sinCore(r);
    default:
      return -cosCore(r);
  }
}

/** Cosine of an angle in radians, |x| <= 1e5. */
export function cos(x: number): number {
  const k = quarters(x);
  const r = x - k * HALF_PI_1 - k * HALF_PI_2;
  switch (((k % 4) + 4) % 4) {
    case 0:
      return cosCore(r);
    case 1:
      return -sinCore(r);
    case 2:
      return -cosCore(r);
    default:
      return sinCore(r);
  }
}

/** Arc tangent of x >= 0 by halving the angle twice, then its series. */
function atanPositive(x: number): number {
  if (x > 1) return PI / 2 - atanPositive(1 / x);
  const once = x / (1 + sqrt(1 + x * x));
  const y = once / (1 + sqrt(1 + once * once));
  const z = y * y;
  let sum = 0;
  for (let k = 31; k >= 1; k -= 2) sum = 1 / k - z * sum;
  return 4 * y * sum;
}

/** Arc cosine, radians, argument clamped to [-1, 1]. */
export function acos(x: number): number {
  if (x >= 1) return 0;
  if (x <= -1) return PI;
  const t = atanPositive(sqrt((1 - x) * (1 + x)) / abs(x));
  return x >= 0 ? t : PI - t;
}

/** Nearest number to x between lo and hi. */
export function clamp(x: number, lo: number, hi: number): number {
  return x < lo ? lo : x > hi ? hi : x;
}

export function lerp(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}

/** 0 below 0, 1 above 1, 3 t^2 - 2 t^3 between. */
export function smoothstep(t: number): number {
  if (t <= 0) return 0;
  if (t >= 1) return 1;
  return t * t * (3 - 2 * t);
}
