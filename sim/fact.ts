// What happened: ids and numbers, never sentences. Marks are a fold over these.
import type { Command } from './command.ts';

export const HAZARDS = [
  'dry_run', //        the pump turns with little liquid in its casing
  'starved', //        the pump turns while its suction cannot feed it
  'deadhead', //       the pump turns without through-flow: shut valves, or bound by air
  'overflow', //       liquid runs over the tank's rim
  'over_pressure', //  a part stands above its rating
  'cracked', //        a rigid housing froze full
  'fouled', //         debris has come to a coil
  'hammer', //         a valve stopped moving water abruptly
  'overload', //       a breaker or a winding carries more than it can for long
  'ground_fault', //   current can pass through a person unnoticed by any protector
  'restart', //        a pump is about to start, or starts, because power comes back
  'opened_under_pressure', // a coupling came apart with something pressed inside
  'test_air', //       the same with air: the work that was stored in it
  'unpinned', //       a coupling under pressure whose arms are not pinned
  'no_backflow', //    joined to drinking water without protection, or pressed back into it
  'no_eyes', //        at couplings, drains or a test with bare eyes
  'no_gloves', //      on antifreeze with bare hands
  'to_ground', //      antifreeze ran to the ground
  'waste_to_ground', // liquid let out on the ground
  'hot', //            a hand on hot metal
  'entry', //          into a vault or trench before it was made safe
  'locked_off', //     a unit opened while its pump was not locked
  'false_record', //   a note of what no instrument showed
  'vapour', //         alcohol in a room's air, as a share of what burns
  'neat_alcohol', //   liquid that can flash stands open near a flame
] as const;
export type HazardKind = (typeof HAZARDS)[number];

export const EVENTS = [
  'lost_prime',
  'primed',
  'tank_empty',
  'tank_refilled',
  'blew_apart', // a coupling whose arms did not hold it
  'breaker_tripped',
  'ground_fault_tripped',
  'motor_cut_out', // by its own heat
  'restarted', // a pump, by its power and not by its switch
] as const;
export type EventKind = (typeof EVENTS)[number];

/** Limits of the model, each told once a run when it is passed; values in sim/beyond.ts. */
export const BEYOND = [
  'bore', //        m, of a pipe or hose
  'roughness', //   over the bore
  'gas_speed', //   m/s, held back by the scheme
  'overshoot', //   absolute pressure over its lowest a moment before, at a cushion
  'vapour', //      Pa abs
  'temperature', // C
  'fraction', //    antifreeze by mass
] as const;
export type BeyondLimit = (typeof BEYOND)[number];

export const REFUSED = [
  'hands_full',
  'unknown_control',
  'no_such_position',
  'no_helper',
  'in_other_hands',
  'busy', // one cannot leave: something is in hand, or a pump of the cart is on
  'away', // nobody is there
  'over',
  'begun', // the job sheet is closed once a hand has been asked to a control
] as const;
export type RefusedReason = (typeof REFUSED)[number];

/** Why a control did not give way to a hand. */
export const HELD = [
  'locked',
  'latched',
  'stuck',
  'outside', // it is in a vault or trench, and nobody is in there
  'pressed', // a lid with pressure behind it
  'too_hard',
  'empty',
  'nothing_comes',
] as const;
export type HeldBy = (typeof HELD)[number];

/** Freeze point of the loop, C: of its mean by mass, of its weakest and of its strongest cell. */
export interface FreezeMeasure {
  readonly mean_C: number;
  readonly weakest_C: number;
  readonly strongest_C: number;
}

/** What was true at "I'm done", or when the time ran out. */
export interface Measures {
  /** Gas in the job's loop links, m3 at 1 atm; gas elsewhere. */
  readonly loop_air_m3: number;
  readonly other_air_m3: number;
  /** Room of the loop, m3. */
  readonly loop_volume_m3: number;
  /** Liquid lost to the ground (overflow and open ends), and sent to waste, m3. */
  readonly spilled_m3: number;
  readonly wasted_m3: number;
  readonly time_s: number;
  /** What the job's outcomes look at (outcomes.ts); nothing of what it does not ask for. */
  readonly freeze?: FreezeMeasure;
  /** Pa gauge by node; m3/s either way by link. */
  readonly pressures?: Readonly<Record<string, number>>;
  readonly flows?: Readonly<Record<string, number>>;
  /** kg in the loop, whether it moves or lies. */
  readonly debris_kg?: number;
  /** Where every valve stands (degrees), whether a pump runs and a coupling is made (0 or 1). */
  readonly controls: Readonly<Record<string, number>>;
}

export type Fact = { readonly tick: number } & (
  | { readonly kind: 'command'; readonly command: Command }
  | { readonly kind: 'refused'; readonly command: Command; readonly reason: RefusedReason }
  | { readonly kind: 'moved'; readonly control: string; readonly value: number }
  /** A value was written down, SI, and what was shown then; null where nothing shows it. */
  | {
      readonly kind: 'noted';
      readonly entry: string;
      readonly value: number;
      readonly shown: number | null;
    }
  /** Gas in the loop when the level of a proof was written down (loop-air.ts): m3 at 1 atm, Pa. */
  | { readonly kind: 'loop_air'; readonly value: number; readonly pressure: number }
  /** A line of the job sheet, or the derived one, was answered, SI; null: it cannot be told. */
  | { readonly kind: 'answered'; readonly line: string; readonly value: number | null }
  /** A hand reached a control and could not move it. */
  | { readonly kind: 'held'; readonly control: string; readonly why: HeldBy }
  | {
      readonly kind: 'hazard';
      readonly hazard: HazardKind;
      readonly at: string;
      readonly stage: 'warning' | 'tripped' | 'ended';
      /** The measured quantity, SI (of an end, its most), and the threshold it is held against. */
      readonly value: number;
      readonly limit: number;
    }
  /** Hands have left for so long, and are back. */
  | { readonly kind: 'left'; readonly hours: number }
  | { readonly kind: 'back' }
  | { readonly kind: 'event'; readonly event: EventKind; readonly at: string }
  /** A milestone of the job, once; what there was then, SI (milestones.ts). */
  | { readonly kind: 'reached'; readonly milestone: string; readonly value: number }
  | { readonly kind: 'beyond'; readonly limit: BeyondLimit; readonly value: number }
  | { readonly kind: 'done'; readonly asked: boolean; readonly measures: Measures }
);

/** One shared frozen list: a quiet tick allocates nothing. */
export const NO_FACTS: readonly Fact[] = Object.freeze([]);
