// Published or derived numbers reproduced by whole worlds, through createWorld and step: losses
// and loops under pressure. Each name says where the expected value comes from: a closed form
// worked out here (independent method) or our own formula (transcribed).
import { describe, expect, it } from 'vitest';
import { createWorld, truth } from '../../sim/index.ts';
import { ATM, closed, FT, GPM, lossOver, node, PSI, run } from '../support/worlds.ts';

describe('losses of whole pipes', () => {
  it('CHK-2.7 transcribed [Churchill 1977]: 500 ft of 3/4 inch, 3.62 gpm: 40.1 kPa', () => {
    const dp = lossOver({
      bore_mm: 21.844,
      length_m: 500 * FT,
      flow_L_s: 3.62 * GPM,
      t_C: 10,
      rough_mm: 0.0015,
    });
    expect(Math.abs(dp / 40100 - 1)).toBeLessThan(0.02);
  });
  it('CHK-2.8 transcribed [Churchill 1977]: 600 ft of 1 inch at 5.66 gpm loses 36.3 kPa', () => {
    const dp = lossOver({
      bore_mm: 27.305,
      length_m: 600 * FT,
      flow_L_s: 5.66 * GPM,
      t_C: 10,
      rough_mm: 0.0015,
    });
    expect(Math.abs(dp / 36300 - 1)).toBeLessThan(0.02);
  });
  it('CHK-2.15 transcribed: a hose of 1-1/2 inch with 40 gpm loses 1.46 kPa a metre', () => {
    const dp = lossOver({
      bore_mm: 38.1,
      length_m: 20,
      flow_L_s: 40 * GPM,
      t_C: 10,
      rough_mm: 0.03,
    });
    expect(Math.abs(dp / 20 / 1460 - 1)).toBeLessThan(0.03);
  });
  it('independent method [Hagen and Poiseuille]: creeping flow loses 128 mu L Q/(pi D^4)', () => {
    const dp = lossOver({ bore_mm: 20, length_m: 100, flow_L_s: 0.01, t_C: 20, rough_mm: 0.0015 });
    const want = (128 * 1.002e-3 * 100 * 1e-5) / (Math.PI * 0.02 ** 4);
    expect(Math.abs(dp / want - 1)).toBeLessThan(0.01);
  });
});

describe('a closed loop under pressure', () => {
  it('CHK-12.2 independent method [hydrostatics]: 300 ft under 60 psi: 190 psi', () => {
    const world = run(
      createWorld(
        closed({ pressure_kPa: (60 * PSI) / 1000, bore_mm: 27.3, length_m: 92, fall_m: 300 * FT }),
        1,
      ),
      60,
    );
    expect(Math.abs((node(world, 'end') - ATM) / PSI - 190)).toBeLessThan(1);
  });

  it('CHK-6.3 independent method [Boyle]: 5.0 L of air raised by 40 psi takes in 3.657 L', () => {
    const area = (Math.PI * 0.1 ** 2) / 4;
    const gas = (5 - 0.5) / 1000 / area; // m of pipe; the end fitting holds the other half litre.
    const scenario = closed({
      pressure_kPa: (40 * PSI) / 1000,
      bore_mm: 100,
      length_m: 4,
      gas: { from_m: 4 - gas, to_m: 4 },
      end_gas: 1,
    });
    const world = createWorld(scenario, 1);
    const before = truth(world).liquid;
    run(world, 120);
    const after = truth(world).liquid;
    const taken = (after.now - before.now) / 998.2;
    // The head comes on at once and flings a little air back out of the mouth: Boyle's law is held
    // on what is left.
    const takes = (air_L: number) => 5 - (air_L * ATM) / (ATM + 40 * PSI);
    expect(Math.abs(takes(5) / 3.657 - 1)).toBeLessThan(0.001);
    const left = truth(world).gas.now * 1000;
    expect(left).toBeGreaterThan(4.85);
    expect(Math.abs((taken * 1000) / takes(left) - 1)).toBeLessThan(0.005);
  });

  it('CHK-6.4 independent method [Lame]: 1000 ft of 1 inch, 20 to 60 psi: 0.535 L', () => {
    const [E, nu, D, e] = [896e6, 0.45, 0.027305, 0.003048];
    const held = (psi: number) =>
      truth(
        run(
          createWorld(
            closed({
              pressure_kPa: (psi * PSI) / 1000,
              bore_mm: 27.305,
              length_m: 304.8,
              wall_mm: 3.048,
              modulus_MPa: 896,
              nu: 0.45,
            }),
            1,
          ),
          240,
        ),
      ).liquid.now;
    const taken = (held(60) - held(20)) / 998.2;
    const [ri, ro] = [D / 2, D / 2 + e];
    const dp = 40 * PSI;
    // Radial displacement of the bore of a thick cylinder that cannot lengthen, Lame 1852.
    const hoop =
      ((1 + nu) / E) *
      ((dp * ri * ri) / (ro * ro - ri * ri)) *
      (1 - 2 * nu + (ro * ro) / (ri * ri));
    const volume = (Math.PI * D * D * 304.8) / 4;
    const want = volume * (2 * hoop + dp * 4.589e-10);
    expect(Math.abs(want * 1000 - 0.535), 'the published sum').toBeLessThan(0.004);
    expect(Math.abs(taken / want - 1)).toBeLessThan(0.01);
  });
});
