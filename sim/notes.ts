// The sheet of readings: what is written down, held against what the instrument showed in the last
// minute. Leaves out the marks for it.
import { abs, floor, max, min } from './base/math.ts';
import type { Command } from './command.ts';
import type { Fact } from './fact.ts';
import { shownBy } from './instrument.ts';
import { loopAirAt } from './loop-air.ts';
import type { Plan } from './network/plan.ts';
import type { InstrumentSpec } from './scenario.ts';
import { NOTE_BUCKETS, NOTE_STRIDE, type State } from './state.ts';

const OFF = 0;
const TOLD = 1;
const FIRST = 2;
/** s of a bucket; all of them reach back a minute at least. */
const BUCKET_S = 10;
/** s that a note is told for, so that both stages of its hazard are. */
const TOLD_FOR = 2;
/** What a note counts as off where nothing shows such a value. */
const UNSEEN = 1000;
/** A note one division off is the last that is right; so the limit lies a hair beyond it. */
const HAIR = 1.001;

/** SI in a thousandth of the unit that a reading of this kind is written in; 0: no number. */
export function milliOf(kind: InstrumentSpec['kind']): number {
  switch (kind) {
    case 'pressure':
    case 'difference':
      return 1;
    case 'flow':
      return 1e-6 / 60;
    case 'level':
    case 'meter':
      return 1e-6;
    case 'temperature':
    case 'current':
    case 'voltage':
      return 1e-3;
    default:
      return 0;
  }
}

/** One division of an instrument's scale, SI. */
function divisionOf(spec: InstrumentSpec): number {
  switch (spec.kind) {
    case 'pressure':
    case 'difference':
      return spec.resolution_kPa * 1000;
    case 'flow':
      return spec.resolution_L_min / 60000;
    case 'level':
      return spec.resolution_mm / 1000;
    case 'meter':
      return spec.resolution_L / 1000;
    case 'temperature':
      return spec.resolution_C;
    case 'current':
      return spec.resolution_A;
    case 'voltage':
      return spec.resolution_V;
    default:
      return 0;
  }
}

/** At the start: what is shown has been shown for a minute. */
export function startNotes(plan: Plan, state: State): void {
  plan.scenario.record.forEach((_, entry) => {
    const shown = shownBy(plan, state, plan.recorded[entry]!);
    state.note.fill(shown, entry * NOTE_STRIDE + FIRST, (entry + 1) * NOTE_STRIDE);
  });
}

/** Every tick, after the instruments: least and most that each line's instrument shows. */
export function followNotes(plan: Plan, state: State, dt: number): void {
  const { record } = plan.scenario;
  const { tick_s } = plan.scenario.solver;
  const tick = state.counter[0]!;
  const count = floor((tick * tick_s) / BUCKET_S);
  const fresh = count !== floor(((tick - plan.per) * tick_s) / BUCKET_S);
  const bucket = count % NOTE_BUCKETS;
  for (let entry = 0; entry < record.length; entry++) {
    const { note } = state;
    const at = entry * NOTE_STRIDE;
    note[at + TOLD] = max(0, note[at + TOLD]! - dt);
    const shown = shownBy(plan, state, plan.recorded[entry]!);
    const low = at + FIRST + 2 * bucket;
    note[low] = fresh ? shown : min(note[low]!, shown);
    note[low + 1] = fresh ? shown : max(note[low + 1]!, shown);
  }
}

/** Writes a value down: how far off it is, in what it may be off. False where no line is. */
export function writeDown(
  { plan, state }: { readonly plan: Plan; readonly state: State },
  command: Extract<Command, { kind: 'note' }>,
  facts: Fact[],
): boolean {
  const entry = plan.scenario.record.findIndex(({ id }) => id === command.entry);
  if (entry < 0) return false;
  const tick = state.counter[0]!;
  const ix = plan.recorded[entry]!;
  const spec = plan.scenario.instruments[ix];
  const milli = spec === undefined ? 0 : milliOf(spec.kind);
  const value = command.value_milli * (milli === 0 ? 0.001 : milli);
  facts.push({ tick, kind: 'command', command });
  const shown = milli === 0 ? null : shownBy(plan, state, ix);
  facts.push({ tick, kind: 'noted', entry: command.entry, value, shown });
  const air = loopAirAt({ plan, state }, command.entry);
  if (air !== null) facts.push({ tick, kind: 'loop_air', ...air });
  const at = entry * NOTE_STRIDE;
  state.note[at + TOLD] = TOLD_FOR;
  state.note[at + OFF] = UNSEEN;
  if (spec === undefined || milli === 0) return true;
  const { tolerance_milli } = plan.scenario.record[entry]!;
  const slack = (divisionOf(spec) + tolerance_milli * milli) * HAIR;
  let off = UNSEEN * slack;
  for (let k = 0; k < NOTE_BUCKETS; k++) {
    const low = state.note[at + FIRST + 2 * k]!;
    const high = state.note[at + FIRST + 2 * k + 1]!;
    off = min(off, max(0, max(low - value, value - high)));
  }
  state.note[at + OFF] = abs(off / slack);
  return true;
}

/** How far off the last note of a line was, over what it may be; 0 once that has been told. */
export function lastOff({ note }: State, entry: number): number {
  const at = entry * NOTE_STRIDE;
  return note[at + TOLD]! > 0 ? note[at + OFF]! : 0;
}
