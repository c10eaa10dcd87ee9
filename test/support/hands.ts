// What hands are told on a bench, and the facts that come of it. Shared by rigs with devices.
import {
  snapshot,
  step,
  type Command,
  type Fact,
  type HazardKind,
  type World,
} from '../../sim/index.ts';

export const turn = (valve: string, target_deg: number): Command => ({
  kind: 'valve',
  valve,
  target_deg,
});
export const set = (device: string, position: number, by?: 'helper'): Command => ({
  kind: 'set',
  device,
  position,
  ...(by === undefined ? {} : { by }),
});
export const turnOn = (on: boolean): Command => ({ kind: 'switch', pump: 'pump', on });

/** Steps so many seconds, giving these commands first. */
export function during(world: World, seconds: number, first: readonly Command[] = []): Fact[] {
  const facts: Fact[] = [];
  for (let t = 0; t < Math.round(seconds / world.dt); t++) {
    facts.push(...step(world, t === 0 ? first : []));
  }
  return facts;
}

/** What is told of a hazard, and its stages alone. */
export const of = (facts: readonly Fact[], hazard: HazardKind) =>
  facts.flatMap((f) => (f.kind === 'hazard' && f.hazard === hazard ? [f] : []));
export const stages = (facts: readonly Fact[], hazard: HazardKind) =>
  of(facts, hazard).map((f) => f.stage);

/** What an instrument with a number shows, SI. */
export const reading = (world: World, id: string): number =>
  snapshot(world).panel.readings.find((r) => r.id === id)!.value as number;
