// Conditions of hand scripts: what can be seen and read, and nothing else. Their form, and the
// faults of what they name.
import * as z from 'zod';
import type { Fault } from './fault.ts';
import { NOTES, SIGHTS } from './lens.ts';
import type { Scenario } from './scenario.ts';

const ID = /^[a-z][a-z0-9_]{0,39}$/;
export const Id = z.string().regex(ID, 'must be an id: a-z first, then a-z, 0-9 or _');
export const seconds = z.number().min(0).max(86400);
const Seen = z.enum([...SIGHTS, ...NOTES]);
/** A reading of the panel; every key that is given must hold. */
const ReadingIs = z.strictObject({
  reading: Id,
  is: z.union([Seen, z.array(Seen).min(1)]).optional(),
  above_mm: z.number().optional(),
  below_mm: z.number().optional(),
  above_kPa: z.number().optional(),
  below_kPa: z.number().optional(),
  above_L_min: z.number().optional(),
  below_L_min: z.number().optional(),
  above_C: z.number().optional(),
  below_C: z.number().optional(),
  above_L: z.number().optional(),
  below_L: z.number().optional(),
  above_A: z.number().optional(),
  below_A: z.number().optional(),
  above_V: z.number().optional(),
  below_V: z.number().optional(),
  above_density: z.number().optional(),
  below_density: z.number().optional(),
  above_index: z.number().optional(),
  below_index: z.number().optional(),
});
const HandsFree = z.strictObject({ hands: z.literal('free') });
const HelperFree = z.strictObject({ helper: z.literal('free') });
const ValveAt = z.strictObject({ valve: Id, at_deg: z.int().min(0).max(270) });
const CouplingIs = z.strictObject({ coupling: Id, made: z.boolean() });
/** Strokes of the last command to a hand pump that are done. */
const StrokesDone = z.strictObject({ hand_pump: Id, strokes_at_least: z.int().min(0).max(500) });
const DeviceAt = z.strictObject({ device: Id, at: z.int().min(0).max(1000) });
const PumpIs = z.strictObject({ pump: Id, on: z.boolean() });
/** How thick a tank is with bubbles, 0..1, as eyes judge it. */
const TankHas = z.strictObject({ tank: Id, bubbles_below: z.number().min(0).max(1) });
const After = z.strictObject({ after_s: seconds });

export type Condition =
  | z.infer<typeof ReadingIs>
  | z.infer<typeof HandsFree>
  | z.infer<typeof HelperFree>
  | z.infer<typeof DeviceAt>
  | z.infer<typeof StrokesDone>
  | z.infer<typeof ValveAt>
  | z.infer<typeof PumpIs>
  | z.infer<typeof CouplingIs>
  | z.infer<typeof TankHas>
  | z.infer<typeof After>
  | { all: Condition[] }
  | { any: Condition[] }
  | { not: Condition };

export const ConditionSchema: z.ZodType<Condition> = z.lazy(() =>
  z.union([
    ReadingIs,
    HandsFree,
    HelperFree,
    DeviceAt,
    StrokesDone,
    ValveAt,
    PumpIs,
    CouplingIs,
    TankHas,
    After,
    z.strictObject({ all: z.array(ConditionSchema).min(1).max(20) }),
    z.strictObject({ any: z.array(ConditionSchema).min(1).max(20) }),
    z.strictObject({ not: ConditionSchema }),
  ]),
);

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

/** What a condition names that the scenario does not have, or that shows no such thing. */
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
