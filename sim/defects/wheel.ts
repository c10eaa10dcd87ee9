// How far a wheel is worn now, and what head that leaves; machines and the solver ask for it.
import { wornLeak, wornWheel } from '../laws/defect.ts';
import { pumpHead } from '../laws/pump.ts';
import type { Net } from '../network/net.ts';
import type { Plan } from '../network/plan.ts';
import { PUMP_STRIDE, type State } from '../state.ts';
import { DEFECT_STRIDE, LEVEL } from './types.ts';

/** 0 new, 1 at its worst. */
export function wearOf({ defects }: Plan, state: State, pump: number): number {
  const k = defects.worn[pump]!;
  return k < 0 ? 0 : state.defect[k * DEFECT_STRIDE + LEVEL]!;
}

/** Head and slope of a pump as worn as it is, at its speed, into scratch.out. */
export function headOf({ plan, state, scratch }: Net, pump: number, Q: number): void {
  const { curve, spec } = plan.pumps[pump]!;
  const speed = state.pump[pump * PUMP_STRIDE]!;
  const wear = wearOf(plan, state, pump);
  if (wear === 0) return pumpHead(curve, Q, speed, scratch.out);
  const back = (wornLeak(wear) * speed * spec.best_flow_L_s) / 1000;
  pumpHead(curve, Q + back, speed * wornWheel(wear), scratch.out);
}
