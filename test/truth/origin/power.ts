// Breakers, motors and cords, for the expected values of cases.json, as one does them by hand.
// Nothing here is of sim/.
import { printed } from './printed.ts';
import { density } from './water.ts';

const G = 9.80665;
const HP = 745.7; // W

interface Cord {
  readonly feet: number;
  readonly mm2: number;
  readonly A: number;
}

/** V lost out and back, by ohms a thousand feet. */
const cord = ({ feet, mm2, A }: Cord): number =>
  (A * printed('Copper wire', `${mm2} mm2`)[0]! * 2 * feet) / 1000;

interface Plate {
  readonly hp: number;
  readonly head_m: number;
}

/**
 * A pump of head H0 (1 - (Q/4)^2), Q in L/s, half of whose power goes into water at its best, on a
 * valve of 50 mm that costs 400 velocity heads: power over the plate's, and the amperes printed
 * for a motor of that size.
 */
function atPlate({ hp, head_m }: Plate): [number, number] {
  const V1 = 0.001 / ((Math.PI * 0.05 * 0.05) / 4); // m/s for 1 L/s.
  const valve = (400 * V1 * V1) / (2 * G);
  const Q = Math.sqrt(head_m / (head_m / 16 + valve));
  const W = (density(20) * G * (Q / 1000) * valve * Q * Q) / 0.5;
  return [W / (hp * HP), printed('NEC 430.248', `${hp} hp at 115 V`)[0]!];
}

export const POWER = {
  /** UL 943: (20/mA)^1.43 s. */
  'power.groundFault_s': ({ mA }: { mA: number }) => (20 / mA) ** 1.43,
  'power.cord_V': cord,
  'power.atPlate': atPlate,
};
