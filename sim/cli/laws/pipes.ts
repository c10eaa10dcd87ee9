// Laws of pipes and fittings: friction, local losses, sizes, stretch.
import { PI } from '../../base/math.ts';
import * as coil from '../../laws/coil.ts';
import * as elastic from '../../laws/elastic.ts';
import * as fitting from '../../laws/fitting.ts';
import * as friction from '../../laws/friction.ts';
import * as pipe from '../../laws/pipe.ts';
import { filled, law, type LawEntry } from './entry.ts';

const WYLIE = 'Wylie and Streeter 1993, ch. 3';
const CRANE = 'Crane TP 410, ch. 2';
const wall = { D_m: 'm', e_m: 'm', nu: '1' } as const;
const tee = { r: 'branch over combined flow', b2: 'square of branch over run bore' } as const;
const angle = { angle_deg: { unit: 'degrees', unless_given: 90 } } as const;
const loss = { loss_Pa: 'Pa', slope_Pa_s_m3: 'Pa s/m3' } as const;

const FRICTION: Readonly<Record<string, LawEntry>> = {
  'friction.frictionFactor': law({ Re: '1', e_D: '1' }, '1', 'Churchill 1977, eq. 18', (v) =>
    friction.frictionFactor(v.Re, v.e_D),
  ),
  'friction.frictionFactorSlope': law(
    { Re: '1', e_D: '1' },
    'd ln f/d ln Re',
    'Churchill 1977, derivative',
    (v) => friction.frictionFactorSlope(v.Re, v.e_D),
  ),
  'friction.pipeLoss': law(
    {
      ...{ Q_m3_s: 'm3/s', D_m: 'm', L_m: 'm', e_m: { unit: 'm', range: { from: 0 } } },
      ...{ rho_kg_m3: 'kg/m3', mu_Pa_s: 'Pa s' },
    } as const,
    loss,
    'Darcy and Weisbach, Churchill 1977',
    (v) => {
      const A = (PI * v.D_m * v.D_m) / 4;
      const run = { D: v.D_m, A, L: v.L_m, e: v.e_m, rho: v.rho_kg_m3, mu: v.mu_Pa_s };
      return filled(loss, (out) => friction.pipeLoss(v.Q_m3_s, run, out));
    },
  ),
  'coil.tableLoss': law(
    { Q_m3_s: 'm3/s', table: { pairs_of: ['m3/s', 'Pa'], least: 1, both_rise: true } },
    loss,
    'straight in Q|Q| between points, common practice',
    (v) => {
      const table = { flow: v.table.map(([q]) => q), loss: v.table.map(([, p]) => p) };
      return filled(loss, (out) => coil.tableLoss(v.Q_m3_s, table, out));
    },
  ),
};

const FITTING: Readonly<Record<string, LawEntry>> = {
  'fitting.ballValveK': law({ open_deg: 'degrees', K0: '1' }, '1', 'Weisbach 1855', (v) =>
    fitting.ballValveK(v.open_deg, v.K0),
  ),
  'fitting.valveOpenArea': law({ open_deg: 'degrees' }, '1', 'Borda and Weisbach', (v) =>
    fitting.valveOpenArea(v.open_deg),
  ),
  'fitting.teeDivergingBranch': law({ ...tee, ...angle }, '1', CRANE, (v) =>
    fitting.teeDivergingBranch(v.r, v.b2, v.angle_deg),
  ),
  'fitting.teeDivergingRun': law(tee, '1', CRANE, (v) => fitting.teeDivergingRun(v.r, v.b2)),
  'fitting.teeConvergingBranch': law(tee, '1', CRANE, (v) =>
    fitting.teeConvergingBranch(v.r, v.b2),
  ),
  'fitting.teeConvergingRun': law({ r: tee.r }, '1', CRANE, (v) => fitting.teeConvergingRun(v.r)),
  'fitting.contractionK': law({ b: 'small over large bore' }, '1', 'Crane TP 410', (v) =>
    fitting.contractionK(v.b),
  ),
  'fitting.expansionK': law({ b: 'small over large bore' }, '1', 'Borda 1766', (v) =>
    fitting.expansionK(v.b),
  ),
  'fitting.kFromCv': law({ Cv: 'US gpm at 1 psi', D_m: 'm' }, '1', 'Crane TP 410', (v) =>
    fitting.kFromCv(v.Cv, v.D_m),
  ),
  'pipe.outsideDiameter': law({ size: { one_of: pipe.PIPE_SIZES } }, 'm', 'ASTM D3035', (v) =>
    pipe.outsideDiameter(v.size),
  ),
  'pipe.wallMin': law({ od_m: 'm', dr: '1' }, 'm', 'ASTM D3035', (v) => pipe.wallMin(v.od_m, v.dr)),
  'pipe.idNominal': law({ od_m: 'm', dr: '1' }, 'm', 'ASTM D3035', (v) =>
    pipe.idNominal(v.od_m, v.dr),
  ),
};

const ELASTIC: Readonly<Record<string, LawEntry>> = {
  'elastic.c1Restrained': law(wall, '1', WYLIE, (v) => elastic.c1Restrained(v.D_m, v.e_m, v.nu)),
  'elastic.c1Free': law(wall, '1', WYLIE, (v) => elastic.c1Free(v.D_m, v.e_m, v.nu)),
  'elastic.c1Joints': law(wall, '1', WYLIE, (v) => elastic.c1Joints(v.D_m, v.e_m, v.nu)),
  'elastic.axialStrainFree': law(
    { p_Pa: { unit: 'Pa', range: {} }, ...wall, E_Pa: 'Pa' },
    '1',
    'thick cylinder of Lame',
    (v) => elastic.axialStrainFree(v.p_Pa, { D: v.D_m, e: v.e_m, E: v.E_Pa, nu: v.nu }),
  ),
  'elastic.wallCompliance': law({ D_m: 'm', e_m: 'm', E_Pa: 'Pa', nu: '1' }, '1/Pa', WYLIE, (v) =>
    elastic.wallCompliance(v.D_m, v.e_m, v.E_Pa, v.nu),
  ),
  'elastic.waveSpeed': law(
    { K_Pa: 'Pa', rho_kg_m3: 'kg/m3', compliance_per_Pa: '1/Pa' },
    'm/s',
    WYLIE,
    (v) => elastic.waveSpeed(v.K_Pa, v.rho_kg_m3, v.compliance_per_Pa),
  ),
  'elastic.joukowsky': law(
    { rho_kg_m3: 'kg/m3', a_m_s: 'm/s', dV_m_s: 'm/s' },
    'Pa',
    'Joukowsky 1898',
    (v) => elastic.joukowsky(v.rho_kg_m3, v.a_m_s, v.dV_m_s),
  ),
  'elastic.peModulus': law({ t_s: 's' }, 'Pa', 'fit to PPI 2008, table B.1.1', (v) =>
    elastic.peModulus(v.t_s),
  ),
  'elastic.peModulusFactor': law({ t_C: 'C' }, '1', 'PPI 2008, table B.1.2', (v) =>
    elastic.peModulusFactor(v.t_C),
  ),
  'elastic.creepCompliance': law({ t_s: 's' }, '1/Pa', 'Covas 2004', (v) =>
    elastic.creepCompliance(v.t_s),
  ),
  'elastic.peCreepCompliance': law(
    { t_s: 's', t_C: 'C' },
    '1/Pa',
    'Covas 2004; fit to PPI 2008, table B.1.1',
    (v) => elastic.peCreepCompliance(v.t_s, v.t_C),
  ),
  'elastic.quasiElasticDecay': law(
    { t_s: 's', t0_s: 's', c_l_per_Pa: '1/Pa', c: '1' },
    '1',
    'balance of volume',
    (v) => elastic.quasiElasticDecay(v.t_s, v.t0_s, v.c_l_per_Pa, v.c),
  ),
  'elastic.squeezed': law({ p1_Pa: 'Pa abs', p2_Pa: 'Pa abs', m: '1' }, '1', 'ideal gas', (v) =>
    elastic.squeezed(v.p1_Pa, v.p2_Pa, v.m),
  ),
  'elastic.coolingTime': law(
    { D_m: 'm', p_Pa: 'Pa abs' },
    's',
    'first mode of a cylinder at rest, Carslaw and Jaeger 1959',
    (v) => elastic.coolingTime(v.D_m, v.p_Pa),
  ),
  'elastic.roomExpansionRestrained': law(
    { linear_per_K: '1/K', nu: '1' },
    '1/K',
    'plane strain',
    (v) => elastic.roomExpansionRestrained(v.linear_per_K, v.nu),
  ),
  'elastic.pressurePerKelvin': law(
    {
      ...{ liquid_expansion_per_K: '1/K', liquid_compliance_per_Pa: '1/Pa' },
      ...{ pipe_expansion_per_K: '1/K', pipe_compliance_per_Pa: '1/Pa' },
    } as const,
    'Pa/K',
    'balance of volume',
    (v) =>
      elastic.pressurePerKelvin(
        { expansion: v.liquid_expansion_per_K, compliance: v.liquid_compliance_per_Pa },
        { expansion: v.pipe_expansion_per_K, compliance: v.pipe_compliance_per_Pa },
      ),
  ),
  'elastic.pressureRating': law(
    { HDS_Pa: 'Pa', DR: '1', f_T: { unit: '1', unless_given: 1 } },
    'Pa',
    'ASTM D3035, X1',
    (v) => elastic.pressureRating(v.HDS_Pa, v.DR, v.f_T),
  ),
  'elastic.ratingTemperatureFactor': law(
    { t_C: 'C', base73_Pa: 'Pa', base140_Pa: 'Pa' },
    '1',
    'PPI TR-3',
    (v) => elastic.ratingTemperatureFactor(v.t_C, v.base73_Pa, v.base140_Pa),
  ),
};

export const PIPE_LAWS: Readonly<Record<string, LawEntry>> = {
  ...FRICTION,
  ...FITTING,
  ...ELASTIC,
};
