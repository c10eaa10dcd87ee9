// Laws of what goes wrong, on the command line.
import * as defect from '../../laws/defect.ts';
import { law, type LawEntry } from './entry.ts';

const ORIFICE = 'sharp-edged hole, 0.6 [common practice]';
const WORN = 'fit, common practice';
const free = { range: {} };

export const DEFECT_LAWS: Readonly<Record<string, LawEntry>> = {
  'defect.openingK': law({ area: '1, of the nominal' }, '1', ORIFICE, (v) =>
    defect.openingK(v.area),
  ),
  'defect.pinchK': law({ shut: '1, of the area' }, '1', 'Borda 1766', (v) => defect.pinchK(v.shut)),
  'defect.leakArea': law(
    {
      gauge_Pa: { unit: 'Pa', ...free },
      opens_Pa: { unit: 'Pa', ...free },
      grows_per_Pa: '1/Pa',
    },
    '1, of the area at rest',
    'Cassa and van Zyl 2013',
    (v) => defect.leakArea(v.gauge_Pa, v.opens_Pa, v.grows_per_Pa),
  ),
  'defect.vesselPressure': law(
    { emptied: '1', high_Pa: 'Pa', low_Pa: 'Pa' },
    'Pa',
    "Boyle's law",
    (v) => defect.vesselPressure(v.emptied, v.high_Pa, v.low_Pa),
  ),
  'defect.wornWheel': law({ wear: '1' }, '1', WORN, (v) => defect.wornWheel(v.wear)),
  'defect.wornLeak': law({ wear: '1' }, '1', WORN, (v) => defect.wornLeak(v.wear)),
};
