// Refractive index of antifreeze in water, sodium D, by MASS fraction: what a refractometer sees.
import { clamp } from '../base/math.ts';
import type { degC } from '../base/units.ts';

export const REFRACTED = ['propylene_glycol', 'ethanol', 'methanol', 'ethylene_glycol'] as const;
export type Refracted = (typeof REFRACTED)[number];

/** At 0, 10, 20 ... % by mass and 20 C [CRC2014]; glycols beyond 60 % straight to the pure. */
const INDEX: Readonly<Record<Refracted, readonly number[]>> = {
  propylene_glycol: [
    1.333, 1.3438, 1.3547, 1.366, 1.3769, 1.3875, 1.3972, 1.406, 1.4148, 1.4236, 1.4324,
  ],
  ethanol: [1.333, 1.3395, 1.3469, 1.3535, 1.3583, 1.3616, 1.3638, 1.3652, 1.3658, 1.365, 1.3614],
  methanol: [1.333, 1.3354, 1.3381, 1.3407, 1.3425, 1.3431, 1.3426, 1.3411, 1.3385, 1.3348, 1.329],
  ethylene_glycol: [
    1.333, 1.3425, 1.3524, 1.3624, 1.3728, 1.3831, 1.3934, 1.403, 1.4126, 1.4222, 1.4318,
  ],
};
const STEPS = 10;

/** 1/K. How the index falls with warmth: of water, and what a pure antifreeze adds; from memory. */
const PER_K_WATER = 1e-4;
const PER_K_ADDED = 2.5e-4;

/** At t_C and mass fraction x; 10 to 30 C, 0 <= x <= 1; water alone for `none`. */
export function refractiveIndex(kind: Refracted | 'none', t_C: degC, x: number): number {
  const at = clamp(x, 0, 1) * STEPS;
  const k = at < STEPS ? at | 0 : STEPS - 1;
  const list = INDEX[kind === 'none' ? 'ethanol' : kind];
  const share = kind === 'none' ? 0 : clamp(x, 0, 1);
  const n20 = kind === 'none' ? list[0]! : list[k]! + (at - k) * (list[k + 1]! - list[k]!);
  return n20 - (PER_K_WATER + PER_K_ADDED * share) * (t_C - 20);
}

/**
 * Mass fraction that a scale made for one antifreeze has at this index, 20 C; null where the scale
 * ends: below water, and where the index no longer rises.
 */
export function fractionByIndex(kind: Refracted, n: number): number | null {
  const list = INDEX[kind];
  if (n < list[0]! - 1e-9) return null;
  for (let k = 0; k < STEPS; k++) {
    const a = list[k]!;
    const b = list[k + 1]!;
    if (b <= a) return null;
    if (n <= b) return (k + clamp((n - a) / (b - a), 0, 1)) / STEPS;
  }
  return null;
}
