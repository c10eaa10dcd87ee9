// How questions of cases.json about gas that warms when it is squeezed are put to whole worlds:
// periods and peaks of air cushions, fast and slow.
import { createWorld, truth, type Scenario } from '../../../sim/index.ts';
import { area } from '../../support/fields.ts';
import { ATM, closed, PSI, run } from '../../support/worlds.ts';
import { cushion, peak } from './worlds.ts';

const RHO = 998.2; // kg/m3, water at 20 C.

const heated = (scenario: Scenario): Scenario => ({ ...scenario, gas_heats: true });

/** Water that 5 L of air at a dead end lets in, over Boyle's, so many seconds after a head. */
function boyle({ psi, seconds }: { psi: number; seconds: number }) {
  const length_m = 4.5 / 1000 / area(0.1); // The end fitting holds the other half litre.
  const world = createWorld(
    heated(
      closed({
        pressure_kPa: (psi * PSI) / 1000,
        bore_mm: 100,
        length_m: 4,
        gas: { from_m: 4 - length_m, to_m: 4 },
        end_gas: 1,
      }),
    ),
    1,
  );
  const before = truth(world).liquid.now;
  run(world, seconds);
  const left = truth(world).gas.now * 1000;
  const taken = (1000 * (truth(world).liquid.now - before)) / RHO;
  return taken / (5 - (left * ATM) / (ATM + psi * PSI));
}

export const POCKETS = {
  'world.warmCushion_s': (i: Parameters<typeof cushion>[0]) => cushion(i, heated),
  'world.warmPeak_atm': (i: Parameters<typeof peak>[0]) => peak(i, heated),
  'world.warmBoyle': boyle,
};
