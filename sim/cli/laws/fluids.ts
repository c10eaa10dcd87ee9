// Laws of what is in the pipes: water, mixtures, dissolved air.
import * as antifreeze from '../../laws/antifreeze.ts';
import * as dissolved from '../../laws/dissolved.ts';
import * as water from '../../laws/water.ts';
import { law, type LawEntry } from './entry.ts';

const fluid = { one_of: ['none', ...antifreeze.ANTIFREEZES] } as const;
const NBS = 'J. Res. NBS 77A (1973), table 3, held at 0 and 50 C';
const MELINDER = 'Melinder 2010, held at 60 %, the freezing point and the end of the fit';
const BEYOND = 'Melinder 2010, beyond 60 % on to the undiluted liquid by a fit';
const mix = { fluid, t_C: 'C', x: 'mass fraction' } as const;

export const FLUID_LAWS: Readonly<Record<string, LawEntry>> = {
  'water.density': law({ t_C: 'C' }, 'kg/m3', 'Kell 1975, held at -5 and 100 C', (v) =>
    water.density(v.t_C),
  ),
  'water.expansion': law(
    { t_C: 'C' },
    '1/K',
    'Kell 1975, its derivative, held at 0 and 60 C',
    (v) => water.expansion(v.t_C),
  ),
  'water.compressibility': law({ t_C: 'C' }, '1/Pa', 'Kell 1975, held at -5 and 100 C', (v) =>
    water.compressibility(v.t_C),
  ),
  'water.viscosity': law({ t_C: 'C' }, 'Pa s', 'Kestin 1978, held at -5 and 100 C', (v) =>
    water.viscosity(v.t_C),
  ),
  'water.vapourPressure': law({ t_C: 'C' }, 'Pa abs', 'Wagner and Pruss 1993, held at 0 C', (v) =>
    water.vapourPressure(v.t_C),
  ),
  'water.surfaceTension': law({ t_C: 'C' }, 'N/m', 'IAPWS 1994, held at -5 and 100 C', (v) =>
    water.surfaceTension(v.t_C),
  ),
  'water.heatCapacity': law({ t_C: 'C' }, 'J/kg/K', 'IAPWS-95, held at 0 and 60 C', (v) =>
    water.heatCapacity(v.t_C),
  ),
  'water.conductivity': law({ t_C: 'C' }, 'W/m/K', 'IAPWS-95, held at 0 and 60 C', (v) =>
    water.conductivity(v.t_C),
  ),

  'antifreeze.mixDensity': law(mix, 'kg/m3', BEYOND, (v) =>
    antifreeze.mixDensity(v.fluid, v.t_C, v.x),
  ),
  'antifreeze.mixViscosity': law(mix, 'Pa s', BEYOND, (v) =>
    antifreeze.mixViscosity(v.fluid, v.t_C, v.x),
  ),
  'antifreeze.mixHeatCapacity': law(mix, 'J/kg/K', MELINDER, (v) =>
    antifreeze.mixHeatCapacity(v.fluid, v.t_C, v.x),
  ),
  'antifreeze.mixConductivity': law(mix, 'W/m/K', MELINDER, (v) =>
    antifreeze.mixConductivity(v.fluid, v.t_C, v.x),
  ),
  'antifreeze.freezePoint_C': law({ fluid, x: 'mass fraction' }, 'C', MELINDER, (v) =>
    antifreeze.freezePoint_C(v.fluid, v.x),
  ),
  'antifreeze.fractionForFreezePoint': law(
    { fluid, t_C: 'C' },
    'mass fraction',
    'Melinder 2010, inverted',
    (v) => antifreeze.fractionForFreezePoint(v.fluid, v.t_C),
  ),
  'antifreeze.iceFraction': law(mix, 'mass fraction', MELINDER, (v) =>
    antifreeze.iceFraction(v.fluid, v.t_C, v.x),
  ),
  'antifreeze.massFraction': law(
    { fluid, phi: 'volume fraction' },
    'mass fraction',
    'definition, densities at 20 C',
    (v) => antifreeze.massFraction(v.fluid, v.phi),
  ),
  'antifreeze.volumeFraction': law(
    { fluid, x: 'mass fraction' },
    'volume fraction',
    'definition, densities at 20 C',
    (v) => antifreeze.volumeFraction(v.fluid, v.x),
  ),
  'antifreeze.bleedAndFeedVolume': law(
    { V_m3: 'm3', phi0: 'volume fraction', phi1: 'volume fraction' },
    'm3',
    'balance of water',
    (v) => antifreeze.bleedAndFeedVolume(v.V_m3, v.phi0, v.phi1),
  ),

  'dissolved.henryAir': law({ t_C: 'C' }, '1/bar', NBS, (v) => dissolved.henryAir(v.t_C)),
  'dissolved.dissolvedAir': law(
    { p_Pa: 'Pa abs', t_C: 'C', rho_kg_m3: 'kg/m3' },
    'mol/m3',
    NBS,
    (v) => dissolved.dissolvedAir(v.p_Pa, v.t_C, v.rho_kg_m3),
  ),
  'dissolved.dissolvedAirStp': law(
    { p_Pa: 'Pa abs', t_C: 'C', rho_kg_m3: 'kg/m3' },
    'm3/m3 at 0 C, 1 atm',
    NBS,
    (v) => dissolved.dissolvedAirStp(v.p_Pa, v.t_C, v.rho_kg_m3),
  ),
  'dissolved.ostwald': law({ t_C: 'C', rho_kg_m3: 'kg/m3' }, 'm3/m3', NBS, (v) =>
    dissolved.ostwald(v.t_C, v.rho_kg_m3),
  ),
  'dissolved.airDiffusivity': law(
    { t_C: 'C', mu_Pa_s: 'Pa s' },
    'm2/s',
    'Cussler 2009, recalled',
    (v) => dissolved.airDiffusivity(v.t_C, v.mu_Pa_s),
  ),
  'dissolved.bubbleTransfer': law(
    { d_m: 'm', diffusivity_m2_s: 'm2/s', moves: 'share of its rise' },
    'm/s',
    'common practice; at rest 2 D/d',
    (v) => dissolved.bubbleTransfer(v.d_m, v.diffusivity_m2_s, v.moves),
  ),
  'dissolved.streamTransfer': law(
    { j_m_s: 'm/s', H_m: { unit: 'm', range: { above: 0 } }, diffusivity_m2_s: 'm2/s' },
    'm/s',
    "O'Connor and Dobbins 1958, recalled",
    (v) => dissolved.streamTransfer(v.j_m_s, v.H_m, v.diffusivity_m2_s),
  ),
  'dissolved.bubbleGrowth': law(
    {
      k_L_m_s: 'm/s',
      p_Pa: { unit: 'Pa abs', range: { above: 0 } },
      p_sat_Pa: 'Pa abs',
      t_C: 'C',
      rho_kg_m3: 'kg/m3',
    },
    'm/s',
    'balance of amount, ideal gas',
    (v) => {
      const at = { p: v.p_Pa, p_sat: v.p_sat_Pa, t_C: v.t_C, rho: v.rho_kg_m3 };
      return dissolved.bubbleGrowth(v.k_L_m_s, at);
    },
  ),
};
