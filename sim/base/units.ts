// Exact conversion factors, derived from one another, and names for quantities in signatures.

export type Pa = number;
export type m = number;
export type m3 = number;
export type m3_s = number;
export type kg = number;
export type kg_m3 = number;
export type degC = number;
export type s = number;

/** m/s2, standard gravity. */
export const G = 9.80665;
/** Pa, standard atmosphere. */
export const P_ATM = 101325;
/** K at 0 degrees Celsius. */
export const ZERO_C = 273.15;
/** J/mol/K. */
export const GAS_CONSTANT = 8.314462618;

export const INCH = 0.0254;
export const FOOT = 12 * INCH;
/** kg; the avoirdupois pound. */
export const POUND = 0.45359237;
/** Pa in a pound-force per square inch. */
export const PSI = (POUND * G) / (INCH * INCH);
/** m3; 231 cubic inches. */
export const US_GALLON = 231 * INCH * INCH * INCH;
/** m3/s in a US gallon a minute. */
export const GPM = US_GALLON / 60;
export const LITRE = 1e-3;
export const KILOPASCAL = 1e3;
export const BAR = 1e5;

/** kg/mol. */
export const MOLAR_MASS_WATER = 0.0180153;
