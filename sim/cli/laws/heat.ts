// Laws of heat between a pipe and what is around it, and of ice in what runs through it.
import * as heat from '../../laws/heat.ts';
import { law, type LawEntry } from './entry.ts';

const k = { k_W_m_K: 'W/m/K' } as const;
const FOURIER = 'Fourier, a round wall';

export const HEAT_LAWS: Readonly<Record<string, LawEntry>> = {
  'heat.wallResistance': law({ D_m: 'm', outside_m: 'm', ...k }, 'K m/W', FOURIER, (v) =>
    heat.wallResistance(v.D_m, v.outside_m, v.k_W_m_K),
  ),
  'heat.filmResistance': law({ h_W_m2_K: 'W/m2/K', D_m: 'm' }, 'K m/W', 'definition', (v) =>
    heat.filmResistance(v.h_W_m2_K, v.D_m),
  ),
  'heat.nusselt': law({ Re: '1', Pr: '1' }, '1', 'Gnielinski 1976, 3.66 when laminar', (v) =>
    heat.nusselt(v.Re, v.Pr),
  ),
  'heat.innerResistance': law({ Nu: '1', ...k }, 'K m/W', 'definition', (v) =>
    heat.innerResistance(v.Nu, v.k_W_m_K),
  ),
  'heat.exponentialIntegral': law({ E1_of: '1' }, '1', 'Abramowitz and Stegun 1964', (v) =>
    heat.exponentialIntegral(v.E1_of),
  ),
  'heat.soilResistance': law(
    { t_s: 's', radius_m: 'm', ...k, diffusivity_m2_s: 'm2/s' },
    'K m/W',
    'Carslaw and Jaeger 1959, line source',
    (v) => heat.soilResistance(v.t_s, v.radius_m, { k: v.k_W_m_K, a: v.diffusivity_m2_s }),
  ),
  'heat.sunHeat': law({ D_m: 'm', sun_W_m2: 'W/m2' }, 'W/m', 'nine tenths taken up', (v) =>
    heat.sunHeat(v.D_m, v.sun_W_m2),
  ),
  'heat.slurryViscosity': law({ ice: 'volume fraction' }, '1', 'Thomas 1965', (v) =>
    heat.slurryViscosity(v.ice),
  ),
  'heat.plugFactor': law({ ice: 'mass fraction' }, '1', 'a fit, no source', (v) =>
    heat.plugFactor(v.ice),
  ),
};
