// Water that runs down under a gas pocket which fills the rest of the bore: how much of the bore
// it takes where its weight and the wall's friction balance (uniform flow), as a layer on the floor
// of a sloping pipe, as a film around a steep one. Leaves the pocket's own motion to gas.ts.
import { cos, max, PI, pow, sin, smoothstep, sqrt } from '../base/math.ts';
import { G } from '../base/units.ts';

/** 0 where water runs as a layer on the floor, to 45 degrees; 1 as a film, from 75 [fit]. */
function steepness(sine: number): number {
  return smoothstep((sine - 0.7071) / 0.2588);
}

/**
 * Velocity at which a full bore's friction balances its own weight, m/s: sqrt(2 g sin D/f). f by
 * Re of what runs as a layer, which wets half of the bore, or as a film: 64/Re, of a film 96/Re
 * [Nusselt1916], or 0.316/Re^(1/4) [Blasius1913], whichever is more. j m/s over the whole bore;
 * sine of the fall, j and nu (m2/s) above 0.
 */
export function fullRun(D: number, sine: number, j: number, nu: number): number {
  const steep = steepness(sine);
  const Re = ((2 - steep) * j * D) / nu;
  const f = max((64 + 32 * steep) / Re, 0.316 / sqrt(sqrt(Re)));
  return sqrt((2 * G * sine * D) / f);
}

/** Share of the bore and flow over that of `fullRun` of a layer that wets `beta` of each side. */
function segment(beta: number): { share: number; flow: number } {
  const area = beta - sin(beta) * cos(beta);
  const share = area / PI;
  return { share, flow: share * sqrt(area / beta) };
}

const STEPS = 256;
const table = new Float64Array(STEPS + 1);
/** Half angle beyond that at which it runs as much as a full bore, below that of the most. */
const BRIM = 2.5;
for (let i = 1; i <= STEPS; i++) {
  let lo = 0;
  let hi = BRIM;
  for (let k = 0; k < 50; k++) {
    const mid = (lo + hi) / 2;
    if (segment(mid).flow < i / STEPS) lo = mid;
    else hi = mid;
  }
  table[i] = segment(lo).share;
}

/**
 * Share of the bore that water takes which runs `x` times what `fullRun` says, 0 to 1: uniform flow
 * in part of a circle, or an even film, x^(2/3), where it is steep. Held at x = 1.
 */
export function runningShare(x: number, sine: number): number {
  if (x <= 0) return 0;
  const at = x < 1 ? x * STEPS : STEPS;
  const i = at < STEPS ? at | 0 : STEPS - 1;
  const flat = table[i]! + (at - i) * (table[i + 1]! - table[i]!);
  const steep = steepness(sine);
  return steep === 0 ? flat : (1 - steep) * flat + steep * (x < 1 ? pow(x, 2 / 3) : 1);
}
