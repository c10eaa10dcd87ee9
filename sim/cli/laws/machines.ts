// Laws of pumps, tanks and filters.
import * as pump from '../../laws/pump.ts';
import * as solids from '../../laws/solids.ts';
import * as tank from '../../laws/tank.ts';
import { filled, law, type LawEntry } from './entry.ts';

const curve = { curve: { pairs_of: ['m3/s', 'm'], least: 2, both_rise: false } } as const;
const head = { head_m: 'm', slope_s_m2: 'm per m3/s' } as const;

/** Flow that only goes one way, and a grain that does not float. */
const through = { unit: 'm3/s', range: { above: 0 } } as const;
const sinking = { unit: 'grain over water density', range: { above: 1 } } as const;

const PUMP: Readonly<Record<string, LawEntry>> = {
  'pump.pumpHead': law(
    { ...curve, Q_m3_s: 'm3/s', speed: { unit: '1', unless_given: 1 } },
    head,
    'curve by Fritsch and Carlson 1980, affinity laws',
    (v) => {
      const made = pump.makePumpCurve(v.curve);
      return filled(head, (out) => pump.pumpHead(made, v.Q_m3_s, v.speed, out));
    },
  ),
  'pump.onePointCurve': law(
    { Hd_m: 'm', Qd_m3_s: 'm3/s', Q_m3_s: 'm3/s' },
    head,
    'EPANET 2.2 manual, one-point curve',
    (v) => {
      const made = pump.onePointCurve(v.Hd_m, v.Qd_m3_s);
      return filled(head, (out) => pump.pumpHead(made, v.Q_m3_s, 1, out));
    },
  ),
  'pump.gasFactor': law(
    { alpha: '1', flow_share: '1' },
    '1',
    'fit through the consensus of Gulich 2014',
    (v) => pump.gasFactor(v.alpha, v.flow_share),
  ),
  'pump.npshFactor': law({ ratio: '1' }, '1', 'HI 9.6.1 at 3 %, else a fit', (v) =>
    pump.npshFactor(v.ratio),
  ),
  'pump.npshAvailable': law(
    { p_Pa: 'Pa abs', p_v_Pa: 'Pa abs', rho_kg_m3: 'kg/m3', z_m: 'm', h_m: 'm' },
    'm',
    'definition',
    (v) => pump.npshAvailable({ p: v.p_Pa, p_v: v.p_v_Pa, rho: v.rho_kg_m3, z: v.z_m, h: v.h_m }),
  ),
  'pump.efficiency': law(
    { Q_m3_s: 'm3/s', Q_bep_m3_s: 'm3/s', eta_max: '1' },
    '1',
    'parabola through the best point, common practice',
    (v) => pump.efficiency(v.Q_m3_s, v.Q_bep_m3_s, v.eta_max),
  ),
  'pump.shaftPower': law(
    { ...curve, Q_m3_s: 'm3/s', rho_kg_m3: 'kg/m3', Q_bep_m3_s: 'm3/s', eta_max: '1' },
    'W',
    'rho g Q H over the efficiency',
    (v) => {
      const at = { rho: v.rho_kg_m3, Q_bep: v.Q_bep_m3_s, eta_max: v.eta_max };
      return pump.shaftPower(pump.makePumpCurve(v.curve), v.Q_m3_s, at);
    },
  ),
  'pump.throughHeating': law(
    { H_m: 'm', eta: '1', cp_J_kg_K: 'J/kg/K' },
    'K',
    'balance of energy',
    (v) => pump.throughHeating(v.H_m, v.eta, v.cp_J_kg_K),
  ),
  'pump.shutOffHeating': law(
    {
      ...{ P_W: 'W', water_kg: 'kg', water_J_kg_K: 'J/kg/K' },
      ...{ metal_kg: 'kg', metal_J_kg_K: 'J/kg/K' },
    } as const,
    'K/s',
    'balance of energy',
    (v) => {
      const store = { m_w: v.water_kg, c_w: v.water_J_kg_K, m_m: v.metal_kg, c_m: v.metal_J_kg_K };
      return pump.shutOffHeating(v.P_W, store);
    },
  ),
  'pump.affinity': law({ speed: '1' }, { flow: '1', head: '1', power: '1' }, 'affinity laws', (v) =>
    pump.affinity(v.speed),
  ),
  'pump.wheelHead': law({ u_m_s: 'm/s' }, 'm', 'Stepanoff 1957, recalled', (v) =>
    pump.wheelHead(v.u_m_s),
  ),
  'pump.primingAirRate': law(
    { q_0_m3_s: 'm3/s', p_s_Pa: 'Pa abs', dp_max_Pa: 'Pa' },
    'm3/s at p_s',
    'fit, no source',
    (v) => pump.primingAirRate(v.q_0_m3_s, v.p_s_Pa, v.dp_max_Pa),
  ),
};

const TANK: Readonly<Record<string, LawEntry>> = {
  'tank.bubbleRise': law(
    { d_m: 'm', t_C: 'C' },
    'm/s',
    'Schiller and Naumann 1935, Clift 1978',
    (v) => tank.bubbleRise(v.d_m, v.t_C),
  ),
  'tank.plungeDepth': law({ V_m_s: 'm/s', d_m: 'm' }, 'm', 'Bin 1993, recalled', (v) =>
    tank.plungeDepth(v.V_m_s, v.d_m),
  ),
  'tank.plungeEntrainment': law(
    { V_m_s: 'm/s', d_m: 'm', fall_m: 'm' },
    'm3/m3',
    'Bin 1993, recalled',
    (v) => tank.plungeEntrainment(v.V_m_s, v.d_m, v.fall_m),
  ),
  'tank.vortexSubmergence': law({ D_m: 'm', V_m_s: 'm/s' }, 'm', 'HI 9.8', (v) =>
    tank.vortexSubmergence(v.D_m, v.V_m_s),
  ),
  'tank.vortexAirFraction': law(
    { needed_m: 'm', depth_m: 'm' },
    '1',
    'fit, no source beyond the onset',
    (v) => tank.vortexAirFraction(v.needed_m, v.depth_m),
  ),
  'tank.hazenRemoval': law({ uA_m3_s: 'm3/s', Q_m3_s: through }, '1', 'Hazen 1904', (v) =>
    tank.hazenRemoval(v.uA_m3_s, v.Q_m3_s),
  ),
  'tank.stirredApproach': law(
    { Q_m3_s: through, V_m3: 'm3', t_s: 's' },
    '1',
    'balance of a stirred volume',
    (v) => tank.stirredApproach(v.Q_m3_s, v.V_m3, v.t_s),
  ),
};

const SOLIDS: Readonly<Record<string, LawEntry>> = {
  'solids.settlingSpeed': law(
    { d_m: 'm', s: 'grain over water density', nu_m2_s: 'm2/s' },
    'm/s',
    'Ferguson and Church 2004, eq. 4',
    (v) => solids.settlingSpeed(v.d_m, v.s, v.nu_m2_s),
  ),
  'solids.wallShear': law(
    { f: '1', rho_kg_m3: 'kg/m3', V_m_s: 'm/s' },
    'Pa',
    'definition of the Darcy factor',
    (v) => solids.wallShear(v.f, v.rho_kg_m3, v.V_m_s),
  ),
  'solids.grainMoved': law(
    { tau_Pa: 'Pa', s: sinking, rho_kg_m3: 'kg/m3', theta: '1' },
    'm',
    'Shields 1936',
    (v) => solids.grainMoved(v.tau_Pa, { s: v.s, rho: v.rho_kg_m3, theta: v.theta }),
  ),
  'solids.grainHolds': law(
    { d_m: 'm', s: 'grain over water density', rho_kg_m3: 'kg/m3' },
    'Pa',
    'Shields 1936, threshold 0.05',
    (v) => solids.grainHolds(v.d_m, v.s, v.rho_kg_m3),
  ),
  'solids.rollingSpeed': law(
    { u_m_s: 'm/s', uc_m_s: 'm/s' },
    'm/s',
    'Fernandez Luque and van Beek 1976',
    (v) => solids.rollingSpeed(v.u_m_s, v.uc_m_s),
  ),
  'solids.suspendedShare': law(
    { u_m_s: 'm/s', w_m_s: 'm/s' },
    '1',
    'bounds of Rouse 1937, straight between: fit',
    (v) => solids.suspendedShare(v.u_m_s, v.w_m_s),
  ),
  'solids.pickUp': law(
    {
      ...{ d_m: 'm', T: '1', s: 'grain over water density' },
      ...{ rho_kg_m3: 'kg/m3', nu_m2_s: 'm2/s' },
    },
    'kg/m2/s',
    'van Rijn 1984',
    (v) => solids.pickUp(v.d_m, v.T, { s: v.s, rho: v.rho_kg_m3, nu: v.nu_m2_s }),
  ),
  'solids.depositFactor': law({ d_m: 'm' }, '1', 'Durand 1953', (v) => solids.depositFactor(v.d_m)),
  'solids.depositVelocity': law({ F_L: '1', D_m: 'm', s: sinking }, 'm/s', 'Durand 1953', (v) =>
    solids.depositVelocity(v.F_L, v.D_m, v.s),
  ),
  'solids.filterCapture': law({ d_m: 'm', d50_m: 'm' }, '1', 'fit, no source', (v) =>
    solids.filterCapture(v.d_m, v.d50_m),
  ),
  'solids.filterLoss': law(
    {
      ...{ Q_m3_s: 'm3/s', mu_Pa_s: 'Pa s', mass_kg: 'kg' },
      ...{ area_m2: 'm2', medium_per_m: '1/m', cake_m_kg: 'm/kg' },
    } as const,
    'Pa',
    'Coulson and Richardson vol. 2, ch. 7',
    (v) => {
      const medium = { area: v.area_m2, medium: v.medium_per_m, cake: v.cake_m_kg };
      return solids.filterLoss(v.Q_m3_s, v.mu_Pa_s, v.mass_kg, medium);
    },
  ),
};

export const MACHINE_LAWS: Readonly<Record<string, LawEntry>> = { ...PUMP, ...TANK, ...SOLIDS };
