// Flow in pipes, tanks that empty, pumps on pipes, for the expected values of cases.json, each by a
// textbook's method that the engine does not use. Nothing here is of sim/.
import { printed } from './printed.ts';
import { density, viscosity } from './water.ts';

const G = 9.80665;
const PSI = 6894.757;
const FT = 0.3048;
const circle = (D: number): number => (Math.PI * D * D) / 4;

/** 1/sqrt f = -2 log10(e/(3.7 D) + 2.51/(Re sqrt f)), Colebrook 1939, gone round until it stays. */
export function colebrook({ Re, e_D }: { Re: number; e_D: number }): number {
  let s = 8;
  for (let k = 0; k < 100; k++) s = -2 * Math.log10(e_D / 3.7 + (2.51 * s) / Re);
  return 1 / (s * s);
}

/** Swamee and Jain 1976, as the water networks use it above Re 4000. */
const swameeJain = ({ Re, e_D }: { Re: number; e_D: number }): number =>
  0.25 / Math.log10(e_D / 3.7 + 5.74 / Re ** 0.9) ** 2;

/** 1/sqrt f = 2 log10(Re sqrt f) - 0.8, Prandtl 1935 for smooth pipe. */
function prandtl(Re: number): number {
  let s = 8;
  for (let k = 0; k < 100; k++) s = 2 * Math.log10(Re / s) - 0.8;
  return 1 / (s * s);
}

interface Line {
  readonly bore_mm: number;
  readonly length_m: number;
  readonly flow_L_s: number;
  readonly t_C: number;
  readonly rough_mm: number;
}

/** Pa, 128 mu L Q/(pi D^4), Hagen and Poiseuille. */
const laminar = ({ bore_mm, length_m, flow_L_s, t_C }: Line): number =>
  (128 * viscosity(t_C) * length_m * (flow_L_s / 1000)) / (Math.PI * (bore_mm / 1000) ** 4);

/** Pa, Darcy with Colebrook's factor. */
function turbulent({ bore_mm, length_m, flow_L_s, t_C, rough_mm }: Line): number {
  const D = bore_mm / 1000;
  const V = flow_L_s / 1000 / circle(D);
  const rho = density(t_C);
  const f = colebrook({ Re: (rho * V * D) / viscosity(t_C), e_D: rough_mm / bore_mm });
  return (f * length_m * rho * V * V) / (2 * D);
}

export interface Duty {
  /** H = shut_off_m (1 - (Q/most_L_s)^2). */
  readonly shut_off_m: number;
  readonly most_L_s: number;
  readonly bore_mm: number;
  readonly length_m: number;
  readonly lift_m: number;
}

/** L/s at which a parabola of head is what a lift and a plastic pipe take, by halving. */
function duty({ shut_off_m, most_L_s, bore_mm, length_m, lift_m }: Duty): number {
  let [lo, hi] = [1e-3, most_L_s];
  for (let k = 0; k < 60; k++) {
    const Q = (lo + hi) / 2;
    const pipe = { bore_mm, length_m, flow_L_s: Q, t_C: 20, rough_mm: 0.0015 };
    const over =
      shut_off_m * (1 - (Q / most_L_s) ** 2) - lift_m - turbulent(pipe) / density(20) / G;
    if (over > 0) lo = Q;
    else hi = Q;
  }
  return lo;
}

interface Two {
  readonly bore_mm: readonly [number, number];
  readonly length_m: readonly [number, number];
}

/** Laminar flows of two pipes side by side go as D^4/L. */
const split = ({ bore_mm: [a, b], length_m: [la, lb] }: Two): number => (a / b) ** 4 * (lb / la);

interface Outlet {
  readonly area_m2: number;
  readonly bore_mm: number;
  readonly loss_k: number;
  readonly level_mm: readonly [from: number, to: number];
}

/** s in which a tank falls, Torricelli: the integral of dh/sqrt(2 g h/K) in 1e5 steps. */
function emptying({ area_m2, bore_mm, loss_k, level_mm: [from, to] }: Outlet): number {
  const steps = 1e5;
  let seconds = 0;
  for (let k = 0; k < steps; k++) {
    const h = (to + ((k + 0.5) * (from - to)) / steps) / 1000;
    seconds += 1 / Math.sqrt((2 * G * h) / loss_k);
  }
  return (seconds * ((from - to) / 1000 / steps) * area_m2) / circle(bore_mm / 1000);
}

interface Fill {
  readonly head_m: number;
  readonly bore_mm: number;
  readonly from_m: number;
  readonly to_m: number;
}

/** s and m/s: L dV/dt = g H - V^2/2 - f L V^2/(2 D), Liou and Hunt 1996; f Blasius 1913. */
function filling({ head_m, bore_mm, from_m, to_m }: Fill): [number, number] {
  const D = bore_mm / 1000;
  const nu = viscosity(20) / density(20);
  const dt = 1e-4;
  let [L, V, seconds] = [from_m, 0, 0];
  while (L < to_m) {
    const Re = (V * D) / nu;
    const f = Re < 2300 ? 64 / Math.max(Re, 1) : 0.316 / Re ** 0.25;
    V += (dt * (G * head_m - (V * V) / 2 - (f * L * V * V) / (2 * D))) / L;
    L += V * dt;
    seconds += dt;
  }
  return [seconds, V];
}

interface Foot {
  readonly head_psi: number;
  readonly depth_ft: number;
  /** Share of propylene glycol by mass. */
  readonly x?: number;
}

function foot({ head_psi, depth_ft, x }: Foot): number {
  const [mix] =
    x === undefined ? [] : printed('Melinder by CoolProp', `propylene_glycol ${x} at 20 C`);
  return head_psi + ((mix ?? density(20)) * G * depth_ft * FT) / PSI;
}

export interface Cold {
  readonly fluid: string;
  readonly x: number;
  readonly t_C: number;
  readonly bore_mm: number;
  readonly flow_L_s: number;
}

/** Pa over 100 m of smooth pipe: Hagen-Poiseuille below Re 2000, else Prandtl. */
function cold({ fluid, x, t_C, bore_mm, flow_L_s }: Cold): number {
  const [rho, mPa_s] = printed('Melinder by CoolProp', `${fluid} ${x} at ${t_C} C`);
  const mu = mPa_s! / 1000;
  const D = bore_mm / 1000;
  const V = flow_L_s / 1000 / circle(D);
  const Re = (rho! * V * D) / mu;
  const f = Re < 2000 ? 64 / Re : prandtl(Re);
  return (f * 100 * rho! * V * V) / (2 * D);
}

export const PIPES = {
  'pipes.laminarFactor': ({ Re }: { Re: number }) => 64 / Re,
  'pipes.colebrook': colebrook,
  'pipes.swameeJain': swameeJain,
  'pipes.laminar_Pa': laminar,
  'pipes.turbulent_Pa': turbulent,
  'pipes.duty_L_s': duty,
  'pipes.split': split,
  'pipes.emptying_s': emptying,
  'pipes.filling': filling,
  'pipes.foot_psi': foot,
  'pipes.cold_Pa': cold,
  /** Volume over flow, s. */
  'pipes.front_s': (i: { bore_mm: number; length_m: number; flow_L_s: number }) =>
    (circle(i.bore_mm / 1000) * i.length_m) / (i.flow_L_s / 1000),
};
