// What hands work that carries no fluid: locks and latches, what is worn, acts that must come
// before others. Each has a few positions; a hand needs its time to bring it to another one.
import * as z from 'zod';
import { Id, whole, within } from './scenario-parts.ts';

/** What every device has; `take_s` is how long hands need once they are there. */
const device = { id: Id, take_s: within(0, 3600).optional() };
const twoWay = { ...device, start: whole(0, 1).default(0) };

/** Put on (1) or off (0). */
const Wear = z.strictObject({
  ...twoWay,
  kind: z.literal('wear'),
  what: z.enum(['eyes', 'gloves', 'hearing']),
});

/**
 * A lock that keeps a pump from being switched on: 0 off, 1 on. `service` are the valves and
 * couplings that open its unit: they must stand as at the start unless the lock is on.
 */
const Lock = z.strictObject({
  ...twoWay,
  kind: z.literal('lock'),
  of: Id,
  service: z.array(Id).max(20).default([]),
});

/** The arms of a coupling: 0 open, 1 shut, 2 shut and pinned. Only with open arms it parts. */
const Latch = z.strictObject({
  ...device,
  kind: z.literal('latch'),
  of: Id,
  start: whole(0, 2).default(2),
});

/** Backflow protection in a supply: 0 not fitted, 1 fitted. */
const Guard = z.strictObject({ ...twoWay, kind: z.literal('guard'), of: Id });

/** A fan that changes the air of a room. */
const Fan = z.strictObject({ ...twoWay, kind: z.literal('fan'), air_L_s: within(1, 100000) });

/** Something that can set vapour on fire: 0 out of reach or out, 1 near and alight. */
const Flame = z.strictObject({
  ...twoWay,
  kind: z.literal('flame'),
  /** By mass. Weaker liquid does not count: the strength that a job allows near it. */
  above_fraction: within(0, 1).default(0),
});

/**
 * A place that one must not enter as one likes: 0 outside, 1 inside; `needs` stand at 1 first.
 * Hands reach the valves and couplings that are `inside` only while someone is in there.
 */
const Entry = z.strictObject({
  ...twoWay,
  kind: z.literal('entry'),
  where: z.enum(['vault', 'trench']),
  needs: z.array(Id).max(10).default([]),
  inside: z.array(Id).max(60).default([]),
});

/** Plug of the cart's cord: 0 out, 1 in the outlet with protection (if any), 2 in another. */
const Plug = z.strictObject({ ...device, kind: z.literal('plug'), start: whole(0, 2).default(0) });

/** Breaker before the outlets: 0 off or tripped, 1 on. Trips by itself. */
const Breaker = z.strictObject({
  ...device,
  kind: z.literal('breaker'),
  start: whole(0, 1).default(1),
});

/** Ground-fault protector of an outlet: 0 tripped, 1 set, 2 its test is pressed. */
const GroundFault = z.strictObject({
  ...device,
  kind: z.literal('ground_fault'),
  start: whole(0, 1).default(1),
});

/** An act that changes no fluid, but that others must rest on: 0 not done, 1 done. */
const Act = z.strictObject({ ...twoWay, kind: z.literal('act') });

/** A cup for samples: 0 emptied, k filled at the k-th of its places, tanks or cocks. */
const Cup = z.strictObject({
  ...device,
  kind: z.literal('cup'),
  places: z.array(Id).min(1).max(20),
  litres: within(0.02, 2).default(0.2),
  start: whole(0, 0).default(0),
});

/** A pail carried from one tank to another: its position counts the trips of the last command. */
const Carry = z.strictObject({
  ...device,
  kind: z.literal('carry'),
  from: Id,
  to: Id,
  litres: within(0.1, 100),
  start: whole(0, 0).default(0),
});

/**
 * The housing of a filter or strainer, opened by hands: 0 no element in it, k the k-th of these.
 * What the old one has caught is taken out, whichever goes in.
 */
const Housing = z.strictObject({
  ...device,
  kind: z.literal('housing'),
  of: Id,
  elements: z.array(Id).min(1).max(12),
});

export const DeviceSpec = z.discriminatedUnion('kind', [
  Wear,
  Lock,
  Latch,
  Guard,
  Fan,
  Flame,
  Entry,
  Act,
  Plug,
  Breaker,
  GroundFault,
  Cup,
  Carry,
  Housing,
]);
export type DeviceSpec = z.infer<typeof DeviceSpec>;
export type DeviceKind = DeviceSpec['kind'];

/** s. Times of hands where the scenario says none [common practice, no source]. */
const TAKE: Readonly<Record<DeviceKind, number>> = {
  wear: 8,
  lock: 25,
  latch: 3,
  guard: 30,
  fan: 5,
  flame: 20,
  entry: 20,
  act: 15,
  plug: 6,
  breaker: 10,
  ground_fault: 5,
  cup: 20,
  carry: 30,
  housing: 90,
};

/** How long hands need for one change of it, s. */
export function takeOf(spec: DeviceSpec): number {
  return spec.take_s ?? TAKE[spec.kind];
}

const THREE: readonly DeviceKind[] = ['latch', 'plug', 'ground_fault'];

export const DEVICE_KINDS = Object.keys(TAKE) as readonly DeviceKind[];

/** Trips that one command may ask for. */
const TRIPS_MOST = 100;

/** Its last position; the first is 0. */
export function lastPosition(spec: DeviceSpec): number {
  if (spec.kind === 'cup') return spec.places.length;
  if (spec.kind === 'carry') return TRIPS_MOST;
  if (spec.kind === 'housing') return spec.elements.length;
  return THREE.includes(spec.kind) ? 2 : 1;
}
