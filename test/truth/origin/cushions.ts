// Water against a cushion of air, for the expected values of cases.json: one rigid column, one
// pocket, stepped or solved by themselves. Nothing here is of sim/.

const [G, RHO, MU, ATM] = [9.80665, 998.2, 1.002e-3, 101325];
/** Share of a pressure's rise that goes into temperature when no heat leaves: 1 - 1/1.4. */
const K = 2 / 7;
/** m3 of air in the fitting at the pipe's end. */
const FITTING = 0.0005;
const areaOf = (bore: number): number => (Math.PI * bore * bore) / 4;
/** Conduction time of a round pocket, s: R^2/(5.783 a), a = 2.1e-5 m2/s at 1 atm and as 1/p. */
const cooling = (bore: number, p: number): number => ((bore / 2) ** 2 * p) / (5.783 * 2.1e-5 * ATM);

/** Length of a column, room of its cushion, at rest under `over` atm more. */
function atRest(i: Cushion): { A: number; L: number; V: number; p: number } {
  const A = areaOf((i.bore_mm ?? 100) / 1000);
  const room = A * i.air_m + FITTING;
  const V = room / (1 + i.over);
  return { A, L: i.water_m + (room - V) / A, V, p: (1 + i.over) * ATM };
}

interface Cushion {
  readonly water_m: number;
  readonly air_m: number;
  readonly over: number;
  readonly bore_mm?: number;
}

/** s, 2 pi sqrt(I/(p/V + rho g/A)): isothermal air and the weight of an upright column. */
function period(i: Cushion): number {
  const { A, L, V, p } = atRest(i);
  return 2 * Math.PI * Math.sqrt((RHO * L) / A / (p / V + (RHO * G) / A));
}

/** s, with laminar friction and air that warms and cools, stepped. */
function warmPeriod(i: Cushion): number {
  const { A, L, V, p } = atRest(i);
  const I = (RHO * L) / A;
  const drag = (8 * Math.PI * MU * L) / (A * A);
  const [dt, weight, tau] = [1e-5, (RHO * G) / A, cooling((i.bore_mm ?? 100) / 1000, p)];
  let [x, q, T, last] = [1e-9, 0, 0, 0];
  const crossings: number[] = [];
  for (let t = 0; crossings.length < 3; t += dt) {
    q -= (dt * (p * (T + x / V) + weight * x + drag * q)) / I;
    x += dt * q;
    T += (dt * ((K * q) / V - T / tau)) / (1 - K);
    if (last > 0 && q <= 0) crossings.push(t);
    last = q;
  }
  return (crossings[2]! - crossings[0]!) / 2;
}

export type Air = 'cool' | 'warms' | 'lagged';

/**
 * Highest pressure of a metre of air above ten of water in 100 mm when `ratio` atm come on at once,
 * over 1 atm. Friction after Swamee and Jain 1976; the water's give by Rayleigh's quotient, a
 * third of 4.6e-10 a pascal. Air keeps its temperature, or loses heat by conduction, or none.
 */
export function peak(ratio: number, air: Air): number {
  const cool = air === 'cool';
  const bore = 0.1;
  const A = areaOf(bore);
  const room = A + FITTING;
  const p_R = ratio * ATM + RHO * G * 10;
  const dt = 1e-5;
  let [d, V, T, most] = [0, 0, 1, 0];
  for (let t = 0; t < 1.5; t += dt) {
    const L = 10 + d / A;
    const gas = room - d;
    const p = (T * ATM * room) / gas;
    const Re = (Math.abs(V) * bore) / 1.004e-6;
    const f = Re < 2000 ? 64 / Math.max(Re, 1) : 0.25 / Math.log10(5.74 / Re ** 0.9) ** 2;
    V += (dt * ((p_R - p) / RHO - G * L - (f * L * V * Math.abs(V)) / (2 * bore))) / L;
    const stiff = ((cool ? 1 : 1.4) * p) / gas;
    const rate = (V * A) / (1 + ((4.6e-10 * A * L) / 3) * stiff);
    d += rate * dt;
    const lost = air === 'lagged' ? 0 : (T - 1) / cooling(bore, p);
    if (!cool) T += (dt * ((K * T * rate) / gas - lost)) / (1 - K);
    most = Math.max(most, p);
  }
  return most / ATM;
}

/** Time stepping of d(p V) = -p q dt with water that follows the suction up, s. */
function priming(i: { lift: number; extra: number; D: number; q: number }): number {
  const A = areaOf(i.D);
  const dt = 1e-3;
  let amount = ATM * A * (i.lift + i.extra);
  let [z, seconds] = [0, 0];
  const pressure = () => ATM - RHO * G * z;
  while (z < i.lift) {
    amount -= pressure() * i.q * dt;
    // (atm - rho g z) A (lift + extra - z) = amount, the lower root for z.
    const [a, b] = [RHO * G, ATM + RHO * G * (i.lift + i.extra)];
    const c = ATM * (i.lift + i.extra) - amount / A;
    z = (b - Math.sqrt(b * b - 4 * a * c)) / (2 * a);
    seconds += dt;
  }
  return seconds;
}

export const CUSHIONS = {
  'cushions.period_s': period,
  'cushions.warmPeriod_s': warmPeriod,
  'cushions.peak': ({ ratio }: { ratio: number }) => peak(ratio, 'cool'),
  'cushions.warmPeak': ({ ratio }: { ratio: number }) => peak(ratio, 'warms'),
  'cushions.priming_s': priming,
};
