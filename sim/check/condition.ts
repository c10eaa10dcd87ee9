// A condition of a hand script against the scenario: whether what it looks at is there, and whether
// each key suits its instrument.
import type { Fault } from '../fault.ts';
import type { Scenario } from '../scenario.ts';
import type { Condition } from '../script-conditions.ts';

/** Which kind of instrument each key of a condition belongs to. */
const KEYS = {
  above_mm: ['level'],
  below_mm: ['level'],
  above_kPa: ['pressure', 'difference'],
  below_kPa: ['pressure', 'difference'],
  above_L_min: ['flow'],
  below_L_min: ['flow'],
  above_C: ['temperature', 'refractometer', 'dip_thermometer'],
  below_C: ['temperature', 'refractometer', 'dip_thermometer'],
  above_L: ['meter'],
  below_L: ['meter'],
  above_A: ['current'],
  below_A: ['current'],
  above_V: ['voltage'],
  below_V: ['voltage'],
  above_density: ['hydrometer'],
  below_density: ['hydrometer'],
  above_index: ['refractometer'],
  below_index: ['refractometer'],
  is: ['sight', 'note'],
} as const;

export function conditionFaults(condition: Condition, path: string, scenario: Scenario): Fault[] {
  if ('all' in condition) return listFaults(condition.all, `${path}.all`, scenario);
  if ('any' in condition) return listFaults(condition.any, `${path}.any`, scenario);
  if ('not' in condition) return conditionFaults(condition.not, `${path}.not`, scenario);
  const part = (key: string, id: string, kind: string): Fault[] => {
    const parts = kind === 'tank' ? scenario.nodes : scenario.links;
    if (parts.some((p) => p.id === id && kindIs(p.kind, kind))) return [];
    return [{ path: `${path}.${key}`, message: `there is no ${kind} "${id}"` }];
  };
  if ('valve' in condition) return part('valve', condition.valve, 'valve');
  if ('hand_pump' in condition) return part('hand_pump', condition.hand_pump, 'hand_pump');
  if ('coupling' in condition) return part('coupling', condition.coupling, 'coupling');
  if ('pump' in condition) return part('pump', condition.pump, 'pump');
  if ('tank' in condition) return part('tank', condition.tank, 'tank');
  if ('device' in condition) {
    if (scenario.devices.some(({ id }) => id === condition.device)) return [];
    return [{ path: `${path}.device`, message: `there is no device "${condition.device}"` }];
  }
  if (!('reading' in condition)) return [];
  const instrument = scenario.instruments.find((i) => i.id === condition.reading);
  if (instrument === undefined) {
    return [{ path: `${path}.reading`, message: `there is no reading "${condition.reading}"` }];
  }
  const keys = (Object.keys(KEYS) as (keyof typeof KEYS)[]).filter((k) => k in condition);
  if (keys.length === 0) return [{ path, message: 'says nothing about the reading' }];
  return keys.flatMap((key) => {
    const kinds: readonly string[] = KEYS[key];
    if (kinds.includes(instrument.kind)) return [];
    const message = `does not suit "${instrument.id}", which is a ${instrument.kind}`;
    return [{ path: `${path}.${key}`, message }];
  });
}

/** A three-way valve is a valve to a pair of hands. */
function kindIs(kind: string, wanted: string): boolean {
  return kind === wanted || (kind === 'three_way' && wanted === 'valve');
}

function listFaults(list: readonly Condition[], path: string, scenario: Scenario): Fault[] {
  return list.flatMap((c, at) => conditionFaults(c, `${path}[${at}]`, scenario));
}
