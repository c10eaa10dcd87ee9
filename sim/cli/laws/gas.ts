// Laws of gas in pipes that carry liquid.
import * as gas from '../../laws/gas.ts';
import * as layer from '../../laws/layer.ts';
import { filled, law, type LawEntry } from './entry.ts';

/** A bore, a slope and the two phases, from which the constants of a section follow. */
const section = {
  D_m: 'm',
  sine: 'sine of the slope, up along +x',
  rho_l_kg_m3: 'kg/m3',
  rho_g_kg_m3: 'kg/m3',
  sigma_N_m: 'N/m',
} as const;

type Section = { readonly [K in keyof typeof section]: number };

const sectionOf = (v: Section): gas.GasSection =>
  gas.gasSection(v.D_m, v.sine, v.rho_l_kg_m3, v.rho_g_kg_m3, v.sigma_N_m);

const state = { alpha: 'gas share', j_m_s: 'm/s', n: 'pocket size 4V/(pi D3)' } as const;
const drift = { C: '1', slip: 'm/s', phi: '1' } as const;
const DRIFT = 'Bendiksen 1984, Viana 2003, Weber 1981, Harmathy 1960, Shi 2005';

export const GAS_LAWS: Readonly<Record<string, LawEntry>> = {
  'gas.verticalFroude': law({ Eo: '1' }, '1', 'Viana 2003', (v) => gas.verticalFroude(v.Eo)),
  'gas.levelFroude': law({ Eo: '1' }, '1', 'Weber 1981, recalled', (v) => gas.levelFroude(v.Eo)),
  'gas.pocketConstant': law({ n: state.n }, '1', 'Escarameia 2005, recalled', (v) =>
    gas.pocketConstant(v.n),
  ),
  'gas.gasSection': law(
    section,
    { r: 'm/s', Up: 'm/s', U_b: 'm/s', onset: 'm/s', cap: 'share of the bore' },
    DRIFT,
    (v) => {
      const { r, Up, U_b, onset, cap } = sectionOf(v);
      return { r, Up, U_b, onset, cap };
    },
  ),
  'gas.clearingVelocity': law(
    { ...section, n: state.n },
    'm/s',
    'Escarameia 2005, Martin 1976',
    (v) => gas.clearingVelocity(sectionOf(v), v.n),
  ),
  'gas.gasDrift': law({ ...section, ...state }, drift, DRIFT, (v) =>
    filled(drift, (out) => gas.gasDrift(sectionOf(v), v.alpha, v.j_m_s, v.n, out)),
  ),
  'gas.gasFlux': law({ ...section, ...state }, 'm/s', DRIFT, (v) =>
    gas.gasFlux(sectionOf(v), v.alpha, v.j_m_s, v.n),
  ),
  'gas.layerThickness': law({ alpha: state.alpha }, 'share of the bore', 'geometry', (v) =>
    gas.layerThickness(v.alpha),
  ),
  'gas.levelling': law(
    { ...section, left: 'gas share', right: 'gas share' },
    'm/s',
    'Benjamin 1968, fitted slope',
    (v) => gas.levelling(sectionOf(v), v.left, v.right),
  ),
  'layer.fullRun': law(
    {
      ...{ D_m: 'm', fall_sine: 'sine of the fall' },
      ...{ j_m_s: { unit: 'm/s', range: { above: 0 } }, nu_m2_s: 'm2/s' },
    },
    'm/s',
    'balance of weight and friction, Blasius 1913, Nusselt 1916',
    (v) => layer.fullRun(v.D_m, v.fall_sine, v.j_m_s, v.nu_m2_s),
  ),
  'layer.runningShare': law(
    { flow_share: 'share of fullRun', fall_sine: 'sine of the fall' },
    'share of the bore',
    'geometry, uniform flow',
    (v) => layer.runningShare(v.flow_share, v.fall_sine),
  ),
  'gas.jumpEntrainment': law({ Fr1: '1' }, 'm3/m3', 'Escarameia 2007, recalled', (v) =>
    gas.jumpEntrainment(v.Fr1),
  ),
  'gas.jumpEntrainmentOld': law({ Fr1: '1' }, 'm3/m3', 'Kalinske and Robertson 1943', (v) =>
    gas.jumpEntrainmentOld(v.Fr1),
  ),
  'gas.streamFroude': law(
    { ...section, alpha: state.alpha, J_m_s: 'm/s' },
    '1',
    'definition',
    (v) => gas.streamFroude(sectionOf(v), v.alpha, v.J_m_s),
  ),
  'gas.entrainment': law(
    { ...section, alpha: state.alpha, next: 'gas share', j_m_s: 'm/s' },
    'm/s',
    'Escarameia 2007, onset Kalinske and Bliss 1943',
    (v) => gas.entrainment(sectionOf(v), v.alpha, v.next, v.j_m_s),
  ),
};
