// Laws of what stands over an alcohol and of what a refractometer sees.
import * as alcohol from '../../laws/alcohol.ts';
import * as refraction from '../../laws/refraction.ts';
import { law, type LawEntry } from './entry.ts';

const kind = { one_of: alcohol.ALCOHOLS } as const;
const over = { kind, t_C: 'C', x: 'mass fraction' } as const;
const ASTBURY = 'Astbury 2004: van Laar and Antoine';

export const SAMPLE_LAWS: Readonly<Record<string, LawEntry>> = {
  'alcohol.alcoholPressure': law(over, 'Pa', ASTBURY, (v) =>
    alcohol.alcoholPressure(v.kind, v.t_C, v.x),
  ),
  'alcohol.flashShare': law(over, '1', ASTBURY, (v) => alcohol.flashShare(v.kind, v.t_C, v.x)),
  'alcohol.flashPoint_C': law({ kind, x: 'mass fraction' }, 'C', ASTBURY, (v) =>
    alcohol.flashPoint_C(v.kind, v.x),
  ),
  'alcohol.lowerLimit': law({ kind, t_C: 'C' }, 'kg/m3', 'NIOSH 1994', (v) =>
    alcohol.lowerLimit(v.kind, v.t_C),
  ),
  'alcohol.surfaceVapour': law(over, 'kg/m3', ASTBURY, (v) =>
    alcohol.surfaceVapour(v.kind, v.t_C, v.x),
  ),
  'alcohol.evaporationSpeed': law(
    { kind, area_m2: 'm2' },
    'm/s',
    'Mackay and Matsugu 1973, in air of a fifth of a metre a second',
    (v) => alcohol.evaporationSpeed(v.kind, v.area_m2),
  ),
  'refraction.refractiveIndex': law(
    { kind: { one_of: ['none', ...refraction.REFRACTED] } as const, t_C: 'C', x: 'mass fraction' },
    '1',
    'CRC Handbook, straight between its points',
    (v) => refraction.refractiveIndex(v.kind, v.t_C, v.x),
  ),
};
