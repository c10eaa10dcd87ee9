// Density of the mixture by its mass fraction at a world's temperature, as a table: the law has
// thirty terms, and every cell that mixes asks for it.
import { mixDensity } from '../laws/antifreeze.ts';
import type { Scenario } from '../scenario.ts';

export const FRACTION_MAX = 0.6;
export const LAST_STEP = 1200;
export const STEPS_PER_FRACTION = LAST_STEP / FRACTION_MAX;

/**
 * kg/m3 at 1201 mass fractions from 0 to 0.6 and the scenario's temperature; straight in
 * between, which is within 2e-3 kg/m3 of the law.
 */
export function mixtureTable(scenario: Scenario): Float64Array {
  const { antifreeze, temperature_C } = scenario;
  return Float64Array.from({ length: LAST_STEP + 1 }, (_, i) =>
    mixDensity(antifreeze, temperature_C, i / STEPS_PER_FRACTION),
  );
}
