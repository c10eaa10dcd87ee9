// What is wrong with a plant now, for instructors and debriefs.
import type { DefectSeen } from '../lens.ts';
import type { World } from '../world-parts.ts';
import { BEGAN, DEFECT_STRIDE, ENDED, LEVEL } from './types.ts';

/** Every defect of the scenario; those that are how the plant was built are there all along. */
export function defectsOf({ plan, state, dt }: World): DefectSeen[] {
  const { timed, there } = plan.defects;
  return (plan.scenario.defects ?? []).map(({ id, kind }) => {
    const k = timed.findIndex(({ spec }) => spec.id === id);
    const at = k * DEFECT_STRIDE;
    const seconds = (tick: number) => (tick < 0 ? null : tick * dt);
    if (k < 0) {
      const built = there.has(id);
      const began_s = built ? 0 : null;
      return { id, kind, there: built, began_s, ended_s: null, level: built ? 1 : 0 };
    }
    return {
      id,
      kind,
      there: true,
      began_s: seconds(state.defect[at + BEGAN]!),
      ended_s: seconds(state.defect[at + ENDED]!),
      level: state.defect[at + LEVEL]!,
    };
  });
}
