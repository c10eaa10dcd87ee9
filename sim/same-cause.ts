// What has one cause though it is told more than once: an omission that goes on, one pressure in
// several fittings, one frost in what hangs together. Looks at a scenario and at facts alone.
import type { Fact, HazardKind } from './fact.ts';
import type { DeviceSpec, Scenario } from './scenario.ts';

/** A hazard from its beginning to its end, as far as it is compared here. */
export interface Spell {
  readonly rule: string;
  readonly family: string;
  readonly at: string;
  readonly from: number;
  readonly to: number;
}

/** A device, and a hazard that there is where it is not as it should be. */
interface Guard {
  readonly device: string;
  readonly hazard: HazardKind;
  /** Where that is told. */
  readonly at: string;
}

/** Every hazard of this scenario that a device is there to prevent. */
export function guardsOf(scenario: Scenario): readonly Guard[] {
  const alcohol: readonly HazardKind[] = ['vapour', 'neat_alcohol'];
  const flames = scenario.devices.filter(({ kind }) => kind === 'flame');
  return scenario.devices.flatMap((spec): Guard[] => {
    const of = (at: string, ...hazards: readonly HazardKind[]): Guard[] =>
      hazards.map((hazard) => ({ device: spec.id, hazard, at }));
    switch (spec.kind) {
      case 'lock':
        return of(spec.id, 'locked_off');
      case 'wear':
        return of(spec.id, spec.what === 'eyes' ? 'no_eyes' : 'no_gloves');
      case 'guard':
        return of(spec.of, 'no_backflow');
      case 'latch':
        return of(spec.of, 'unpinned', 'opened_under_pressure');
      case 'flame':
        return of(spec.id, ...alcohol);
      case 'fan':
        return [...of('room', 'vapour'), ...flames.flatMap(({ id }) => of(id, 'vapour'))];
      case 'act':
        return entriesFor(scenario, spec.id).flatMap(({ id }) => of(id, 'entry'));
      default:
        return [];
    }
  });
}

/** The vaults and trenches that rest on an act. */
function entriesFor({ devices }: Scenario, act: string): readonly DeviceSpec[] {
  return devices.filter((spec) => spec.kind === 'entry' && spec.needs.includes(act));
}

/** True of two spells that came of one act or one omission; `a` began first. */
export type Same = (a: Spell, b: Spell) => boolean;

/** @param gap ticks between two spells at one place that still are of one act */
export function sameCause(scenario: Scenario, facts: readonly Fact[], gap: number): Same {
  const guards = guardsOf(scenario);
  const between = (a: Spell, b: Spell, is: (fact: Fact) => boolean): boolean =>
    facts.some((fact) => fact.tick >= a.from && fact.tick <= b.from && is(fact));
  const goesOn = (a: Spell, b: Spell): boolean => {
    const own = guards.filter(({ hazard, at }) => hazard === a.rule && at === a.at);
    const ids = own.map(({ device }) => device);
    const set = (fact: Fact): boolean => fact.kind === 'moved' && ids.includes(fact.control);
    return ids.length > 0 && !between(a, b, set);
  };
  return (a, b) => {
    const overlap = b.from <= a.to + gap;
    if (a.at === b.at)
      return (a.family === b.family && overlap) || (a.rule === b.rule && goesOn(a, b));
    if (a.rule !== b.rule) return false;
    if (a.rule === 'over_pressure') return overlap && hangTogether(scenario, a.at, b.at, PRESSED);
    if (a.rule !== 'cracked') return false;
    return !between(a, b, ({ kind }) => kind === 'back') && hangTogether(scenario, a.at, b.at);
  };
}

/** What liquid stands in, and what a pressure goes through as well. */
const FULL: readonly string[] = ['pipe', 'hose'];
const PRESSED: readonly string[] = [...FULL, 'valve', 'three_way', 'coupling'];

/** True of two parts with one body of liquid: nothing but fittings and such links between. */
export function hangTogether(
  scenario: Scenario,
  a: string,
  b: string,
  through: readonly string[] = FULL,
): boolean {
  const near = nodesAt(scenario, a, through);
  return nodesAt(scenario, b, through).some((node) => near.includes(node));
}

/** Fittings at a part, and at the other ends of the links that begin there. */
function nodesAt(
  { nodes, links }: Scenario,
  id: string,
  through: readonly string[],
): readonly string[] {
  const own = nodes.some((node) => node.id === id)
    ? [id]
    : links.flatMap((link) => (link.id === id ? [link.from, link.to] : []));
  const on = links.flatMap(({ kind, from, to }) => {
    if (!through.includes(kind)) return [];
    return own.includes(from) || own.includes(to) ? [from, to] : [];
  });
  return [...own, ...on];
}
