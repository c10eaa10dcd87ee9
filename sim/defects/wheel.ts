// How far a pump's wheel is worn now; machines and the solver ask for it.
import type { Plan } from '../network/plan.ts';
import type { State } from '../state.ts';
import { DEFECT_STRIDE, LEVEL } from './types.ts';

/** 0 new, 1 at its worst. */
export function wearOf({ defects }: Plan, state: State, pump: number): number {
  const k = defects.worn[pump]!;
  return k < 0 ? 0 : state.defect[k * DEFECT_STRIDE + LEVEL]!;
}
