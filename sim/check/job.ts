// The job: its parts exist and are of the right kind, and its scales go the right way.
import { PI } from '../base/math.ts';
import { HAZARDS } from '../fact.ts';
import { POSITIONS } from '../scenario-job.ts';
import { fault, itemsOf, numberOf, objectOf, textOf } from './raw.ts';
import type { Draft } from './raw.ts';

export function checkJob(draft: Draft): void {
  const job = objectOf(draft.raw.job);
  if (job === null) return;
  checkLoop(draft, job.loop_links);
  checkKnots(draft, job);
  checkHandOver(draft, job.hand_over);
  checkCritical(draft, job.critical);
  mustExceed(draft, job, ['loss_cap_L', 'loss_free_L']);
  mustExceed(draft, job, ['time_zero_s', 'time_full_s']);
}

type Raw = Readonly<Record<string, unknown>>;

function mustExceed(draft: Draft, job: Raw, [more, less]: readonly [string, string]): void {
  const a = numberOf(job[more]);
  const b = numberOf(job[less]);
  if (a !== null && b !== null && a <= b) {
    fault(draft, `job.${more}`, `must be more than ${less}, which is ${b}`);
  }
}

function checkLoop(draft: Draft, value: unknown): void {
  if (!Array.isArray(value)) return;
  value.forEach((entry: unknown, at) => {
    const id = textOf(entry);
    if (id === null) return;
    const path = `job.loop_links[${at}]`;
    const kind = draft.linkById.get(id)?.kind;
    if (kind === undefined) fault(draft, path, `there is no link "${id}"`);
    else if (kind !== null && kind !== 'pipe' && kind !== 'hose') {
      fault(draft, path, `"${id}" is a ${kind}; a pipe or hose is needed here`);
    }
    if (value.indexOf(id) < at) fault(draft, path, `"${id}" is in the list already`);
  });
}

/** Strictly falling, from no air to a loop full of it: so that more air always earns less. */
function checkKnots(draft: Draft, job: Raw): void {
  const knots = itemsOf(job.air_knots, 'job.air_knots');
  let air: number | null = null;
  let share: number | null = null;
  for (const [at, { raw, path }] of knots.entries()) {
    const a = numberOf(raw.air_L);
    const s = numberOf(raw.share);
    if (at === 0 && a !== null && a !== 0) {
      fault(draft, `${path}.air_L`, 'must be 0: the first knot says what no air at all earns');
    }
    if (a !== null && air !== null && a <= air) {
      fault(draft, `${path}.air_L`, `must be more than the ${air} L before it`);
    }
    if (s !== null && share !== null && s >= share) {
      fault(draft, `${path}.share`, `must be less than the ${share} before it`);
    }
    air = a ?? air;
    share = s ?? share;
  }
  const last = knots[knots.length - 1];
  const room = loopVolume(draft, job.loop_links);
  if (last === undefined || air === null || room === null || air >= room) return;
  const text = `must reach the loop's volume, ${room.toFixed(1)} L, so that all air counts`;
  fault(draft, `${last.path}.air_L`, text);
}

/** L. Room of the loop's pipes, or null where it cannot be known. */
function loopVolume(draft: Draft, value: unknown): number | null {
  if (!Array.isArray(value)) return null;
  let litres = 0;
  for (const entry of value) {
    const link = draft.linkById.get(textOf(entry) ?? '');
    const bore = numberOf(link?.raw.bore_mm);
    const length = numberOf(link?.raw.length_m);
    if (bore === null || length === null) return null;
    litres += ((PI / 4) * bore * bore * length) / 1000;
  }
  return litres;
}

function checkHandOver(draft: Draft, value: unknown): void {
  const seen = new Set<string>();
  for (const { raw, path } of itemsOf(value, 'job.hand_over')) {
    const id = textOf(raw.control);
    if (id === null) continue;
    const at = `${path}.control`;
    if (seen.has(id)) fault(draft, at, `"${id}" is in the list already`);
    seen.add(id);
    const device = draft.devices.find((one) => one.id === id);
    const kind = (draft.linkById.get(id) ?? device)?.kind;
    if (kind === undefined) {
      fault(draft, at, `there is no link or device "${id}"`);
      continue;
    }
    const states = kind === null ? undefined : POSITIONS[kind];
    if (states === undefined) {
      if (kind !== null)
        fault(draft, at, `"${id}" is a ${kind}; a valve, pump, coupling or device is needed here`);
      continue;
    }
    const state = textOf(raw.state);
    if (state === null || Object.hasOwn(states, state)) continue;
    const list = Object.keys(states).join(' or ');
    fault(draft, `${path}.state`, `a ${kind ?? ''} is ${list}, not ${state}`);
  }
}

function checkCritical(draft: Draft, value: unknown): void {
  if (!Array.isArray(value)) return;
  const known: readonly string[] = HAZARDS;
  value.forEach((entry: unknown, at) => {
    const id = textOf(entry);
    if (id === null) return;
    const path = `job.critical[${at}]`;
    if (!known.includes(id)) {
      fault(draft, path, `there is no hazard "${id}": ${known.join(', ')}`);
    }
    if (value.indexOf(id) < at) fault(draft, path, `"${id}" is in the list already`);
  });
}
