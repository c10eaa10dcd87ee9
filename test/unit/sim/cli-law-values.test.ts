// Each law on the command line hands every argument to its own place: against the law's function
// where arguments stand in its order, against a formula worked out here where they do not.
import { describe, expect, it } from 'vitest';
import { lawRows, LAWS, rangeOf } from '../../../sim/cli/law.ts';
import type { ArgSpec } from '../../../sim/cli/laws/entry.ts';
import * as alcohol from '../../../sim/laws/alcohol.ts';
import * as antifreeze from '../../../sim/laws/antifreeze.ts';
import * as defect from '../../../sim/laws/defect.ts';
import * as dissolved from '../../../sim/laws/dissolved.ts';
import * as elastic from '../../../sim/laws/elastic.ts';
import * as fitting from '../../../sim/laws/fitting.ts';
import * as friction from '../../../sim/laws/friction.ts';
import * as gas from '../../../sim/laws/gas.ts';
import * as heat from '../../../sim/laws/heat.ts';
import * as layer from '../../../sim/laws/layer.ts';
import * as motor from '../../../sim/laws/motor.ts';
import * as pipe from '../../../sim/laws/pipe.ts';
import * as pump from '../../../sim/laws/pump.ts';
import * as refraction from '../../../sim/laws/refraction.ts';
import * as solids from '../../../sim/laws/solids.ts';
import * as tank from '../../../sim/laws/tank.ts';
import * as water from '../../../sim/laws/water.ts';

const G = 9.80665;
const MODULES: Readonly<Record<string, object>> = {
  ...{ antifreeze, defect, dissolved, elastic, fitting, friction, gas, heat, pipe, pump },
  ...{ alcohol, layer, motor, refraction, solids, tank, water },
};

type Row = Readonly<Record<string, unknown>>;
const ask = (name: string, row: Row): unknown =>
  (lawRows(LAWS[name]!, [row])[0] as { result: unknown }).result;
const parts = (name: string, row: Row) => ask(name, row) as Readonly<Record<string, number>>;

/** A value inside the range of an argument, another for each place. */
function sample(key: string, spec: ArgSpec, place: number): unknown {
  if (typeof spec === 'object' && 'one_of' in spec) return spec.one_of.at(-1);
  const { from, above, to, below } = rangeOf(key, spec);
  const low = from ?? above ?? -1;
  const high = to ?? below ?? low + 2;
  return low + ((high - low) * (place + 2)) / 7.3;
}

/** Laws whose function takes the arguments one by one in the order that the list tells. */
const plain = Object.entries(LAWS).flatMap(([name, { args, result }]) => {
  const [file, member] = name.split('.') as [string, string];
  const law = (MODULES[file] as Row | undefined)?.[member] as
    ((...x: unknown[]) => unknown) | undefined;
  const optional = Object.values(args).filter(
    (spec) => typeof spec === 'object' && 'unless_given' in spec,
  );
  const count = Object.keys(args).length - optional.length;
  const single = typeof result === 'string' || name === 'pump.affinity';
  return law !== undefined && single && law.length === count ? [{ name, args, law }] : [];
});

describe('arguments one by one', () => {
  it('are those of most laws', () => {
    expect(plain.length).toBeGreaterThan(55);
  });

  it.each(plain)('of $name go where they belong', ({ name, args, law }) => {
    const row = Object.fromEntries(
      Object.entries(args).map(([key, spec], k) => [key, sample(key, spec, k)]),
    );
    const want = law(...Object.values(row));
    if (want === Infinity) expect(() => ask(name, row)).toThrow(/no finite result/);
    else expect(ask(name, row)).toEqual(want);
  });
});

describe('arguments in groups', () => {
  const others = Object.keys(LAWS).filter((name) => !plain.some((one) => one.name === name));

  it('are those of the laws below and no other', () => {
    const gasLaws =
      'gasSection clearingVelocity gasDrift gasFlux levelling streamFroude entrainment';
    expect(others.sort()).toEqual(
      [
        ...['coil.tableLoss', 'dissolved.bubbleGrowth', 'elastic.axialStrainFree'],
        ...['elastic.pressurePerKelvin', 'friction.pipeLoss', 'solids.filterLoss'],
        ...['heat.soilResistance', 'motor.makeMotor', 'motor.motorAmps', 'motor.typicalMotor'],
        ...['pump.npshAvailable', 'pump.onePointCurve', 'pump.pumpHead', 'pump.shaftPower'],
        ...['pump.shutOffHeating', 'solids.grainMoved', 'solids.pickUp'],
        ...gasLaws.split(' ').map((name) => `gas.${name}`),
      ].sort(),
    );
  });

  it('of pipes and coils', () => {
    // 32 mu L V/D^2 with V = Q/A, Re 12.7; the slope is loss over flow.
    const slow = { Q_m3_s: 1e-7, D_m: 0.01, L_m: 3, e_m: 0, rho_kg_m3: 998, mu_Pa_s: 1e-3 };
    const { loss_Pa, slope_Pa_s_m3 } = parts('friction.pipeLoss', slow);
    const V = 1e-7 / ((Math.PI * 1e-4) / 4);
    expect(loss_Pa).toBeCloseTo((32 * 1e-3 * 3 * V) / 1e-4, 9);
    expect(slope_Pa_s_m3! * 1e-7).toBeCloseTo(loss_Pa!, 9);
    // f L rho V^2/(2 D): roughness and density count once it is turbulent.
    const fast = { Q_m3_s: 2e-3, D_m: 0.04, L_m: 50, e_m: 1e-4, rho_kg_m3: 1040, mu_Pa_s: 3e-3 };
    const W = 2e-3 / ((Math.PI * 0.04 * 0.04) / 4);
    const f = friction.frictionFactor((1040 * W * 0.04) / 3e-3, 1e-4 / 0.04);
    const wanted = (f * 50 * 1040 * W * W) / (2 * 0.04);
    expect(parts('friction.pipeLoss', fast)['loss_Pa']! / wanted).toBeCloseTo(1, 9);
    // On a point of the table, and four times as much at twice the flow beyond it.
    const table = [
      [1e-4, 500],
      [3e-4, 6000],
    ];
    const lost = (Q_m3_s: number) => parts('coil.tableLoss', { Q_m3_s, table })['loss_Pa'];
    expect(lost(3e-4)).toBeCloseTo(6000, 0);
    expect(lost(6e-4)).toBeCloseTo(24000, 0);
  });

  it('of walls', () => {
    // Lame: p (1 - 2 nu)/(E (k^2 - 1)), k = outside over inside.
    const strain = { p_Pa: 5e5, D_m: 0.05, e_m: 0.005, nu: 0.4, E_Pa: 8e8 };
    const stretched = ask('elastic.axialStrainFree', strain) as number;
    expect(stretched / ((5e5 * 0.2) / (8e8 * (1.2 * 1.2 - 1)))).toBeCloseTo(1, 9);
    const warmed = {
      ...{ liquid_expansion_per_K: 2e-4, liquid_compliance_per_Pa: 5e-10 },
      ...{ pipe_expansion_per_K: 5e-4, pipe_compliance_per_Pa: 1e-8 },
    };
    expect(ask('elastic.pressurePerKelvin', warmed)).toBeCloseTo(-3e-4 / 1.05e-8, 6);
  });

  it('of the ground', () => {
    // (ln(4 a t/r2) - 0.5772)/(4 pi k), a day after the start.
    const soil = { t_s: 86400, radius_m: 0.02, k_W_m_K: 2, diffusivity_m2_s: 8e-7 };
    const R = (Math.log((4 * 8e-7 * 86400) / 4e-4) - 0.5772) / (8 * Math.PI);
    expect(ask('heat.soilResistance', soil) as number).toBeCloseTo(R, 3);
  });

  it('of pumps', () => {
    const one = { Hd_m: 9, Qd_m3_s: 2e-3, Q_m3_s: 2e-3 };
    expect(parts('pump.onePointCurve', one)['head_m']).toBeCloseTo(9, 9);
    const curve = [
      [0, 30],
      [1e-3, 25],
      [2e-3, 10],
    ];
    // A knot of the curve; at half speed a quarter of the head at half of the flow.
    const { head_m } = parts('pump.pumpHead', { curve, Q_m3_s: 1e-3 });
    expect(head_m).toBeCloseTo(25, 9);
    const half = parts('pump.pumpHead', { curve, Q_m3_s: 5e-4, speed: 0.5 });
    expect(half['head_m']).toBeCloseTo(6.25, 9);
    const npsh = { p_Pa: 1e5, p_v_Pa: 2339, rho_kg_m3: 998.2, z_m: -3, h_m: 0.5 };
    expect(ask('pump.npshAvailable', npsh)).toBeCloseTo(97661 / 998.2 / G - 3.5, 9);
    // At the best point: rho g Q H/eta.
    const best = { curve, Q_m3_s: 1e-3, rho_kg_m3: 1030, Q_bep_m3_s: 1e-3, eta_max: 0.4 };
    expect(ask('pump.shaftPower', best)).toBeCloseTo((1030 * G * 1e-3 * 25) / 0.4, 9);
    const casing = { water_kg: 2, water_J_kg_K: 4000, metal_kg: 5, metal_J_kg_K: 500 };
    expect(ask('pump.shutOffHeating', { P_W: 2100, ...casing })).toBeCloseTo(0.2, 12);
  });

  it('of motors', () => {
    const plate = { P_W: 746, V_V: 115, efficiency: 0.65, magnetising_share: 0.6, locked_times: 6 };
    const working = 746 / (0.65 * 115);
    const full = working / 0.8; // At a right angle to six tenths of it.
    const made = parts('motor.makeMotor', plate);
    expect(made['working']).toBeCloseTo(working, 9);
    expect(made['full']).toBeCloseTo(full, 9);
    expect(made['magnetising']).toBeCloseTo(0.6 * full, 9);
    expect(made['locked']).toBeCloseTo(6 * full, 9);
    // At rated slip torque goes with the square of the voltage: both currents with the voltage.
    const amps = (v: number) => ask('motor.motorAmps', { ...plate, slip: 0.042, v }) as number;
    expect(amps(1)).toBeCloseTo(full, 9);
    expect(amps(0.9)).toBeCloseTo(0.9 * full, 9);
    // 0.65 (P/746)^0.177 each, held at 0.85.
    const { efficiency, power_factor } = parts('motor.typicalMotor', { P_W: 1492 });
    expect([efficiency, power_factor].map((x) => x! / (0.65 * 2 ** 0.177))).toEqual([
      expect.closeTo(1, 9),
      expect.closeTo(1, 9),
    ]);
    expect(parts('motor.typicalMotor', { P_W: 5968 })['efficiency']).toBe(0.85);
    // A cold breaker at twice its rating: 150 s ln(4/(4 - 1.15^2)).
    const cold = ask('motor.breakerTime', { times_rating: 2 });
    expect(cold).toBeCloseTo(150 * Math.log(4 / (4 - 1.3225)), 9);
  });

  it('of grains, filters and bubbles', () => {
    const grain = { tau_Pa: 3, s: 2.5, rho_kg_m3: 1000, theta: 0.05 };
    expect(ask('solids.grainMoved', grain)).toBeCloseTo(3 / (0.05 * 1.5 * 1000 * G), 12);
    const filter = {
      ...{ Q_m3_s: 1e-3, mu_Pa_s: 2e-3, mass_kg: 0.3 },
      ...{ area_m2: 0.1, medium_per_m: 7e9, cake_m_kg: 5e9 },
    };
    expect(ask('solids.filterLoss', filter)).toBeCloseTo(2e-5 * (7e9 + 5e9 * 3), 3);
    // 0.00033 rho_s sqrt(R) D*^0.3 T^1.5, R = (s - 1) g d, D*^3 = R d^2/nu^2.
    const bed = { d_m: 0.0005, T: 4, s: 2, rho_kg_m3: 1000, nu_m2_s: 1e-6 };
    const R = G * 0.0005;
    const lifted = 0.00033 * 2000 * Math.sqrt(R) * ((R * 0.0005 ** 2) / 1e-12) ** 0.1 * 8;
    expect(ask('solids.pickUp', bed)).toBeCloseTo(lifted, 9);
    // k_L (C_sat - C)/c_g with c_g = p/(R T): as the ratio of pressures to Henry's law.
    const bubble = { k_L_m_s: 1e-4, p_Pa: 2e5, p_sat_Pa: 3e5, t_C: 10, rho_kg_m3: 999.7 };
    const wanted = 1e-4 * dissolved.ostwald(10, 999.7) * (3e5 / 2e5 - 1);
    expect((ask('dissolved.bubbleGrowth', bubble) as number) / wanted).toBeCloseTo(1, 9);
  });

  it('of gas in a section', () => {
    const section = {
      ...{ D_m: 0.04, sine: -0.3 },
      ...{ rho_l_kg_m3: 1010, rho_g_kg_m3: 2.4, sigma_N_m: 0.06 },
    };
    const sec = gas.gasSection(0.04, -0.3, 1010, 2.4, 0.06);
    const { r, Up, U_b, onset, cap } = sec;
    expect(ask('gas.gasSection', section)).toEqual({ r, Up, U_b, onset, cap });
    expect(ask('gas.clearingVelocity', { ...section, n: 0.2 })).toBe(
      gas.clearingVelocity(sec, 0.2),
    );
    const state = { alpha: 0.35, j_m_s: 0.4, n: 0.2 };
    const out = new Float64Array(3);
    gas.gasDrift(sec, 0.35, 0.4, 0.2, out);
    const [C, slip, phi] = out;
    expect(ask('gas.gasDrift', { ...section, ...state })).toEqual({ C, slip, phi });
    expect(ask('gas.gasFlux', { ...section, ...state })).toBe(gas.gasFlux(sec, 0.35, 0.4, 0.2));
    const level = { ...section, sine: -0.02 };
    const flat = gas.gasSection(0.04, -0.02, 1010, 2.4, 0.06);
    const spread = ask('gas.levelling', { ...level, left: 0.6, right: 0.1 }) as number;
    expect(spread).toBeGreaterThan(0);
    expect(spread).toBe(gas.levelling(flat, 0.6, 0.1));
    expect(ask('gas.streamFroude', { ...section, alpha: 0.35, J_m_s: 0.5 })).toBe(
      gas.streamFroude(sec, 0.35, 0.5),
    );
    const torn = ask('gas.entrainment', { ...section, alpha: 0.7, next: 0.01, j_m_s: 0.38 });
    expect(torn).toBeGreaterThan(0);
    expect(torn).toBe(gas.entrainment(sec, 0.7, 0.01, 0.38));
  });
});
