// The job sheet: what its lines look at is there, and the job says what they rest on.
import { fault, itemsOf, namedPart, numberOf, objectOf, textOf } from './raw.ts';
import type { Draft, Item, Wanted } from './raw.ts';
import { RESIDUAL } from '../scenario-sheet.ts';

const VALVES: Wanted = { list: 'link', kinds: ['valve'] };
const ANY_LINK: Wanted = { list: 'link', kinds: null };
const TANKS: Wanted = { list: 'node', kinds: ['tank'] };
const SET: Wanted = { list: 'link', kinds: ['valve', 'three_way', 'pump', 'coupling'] };
/** Farthest that a control goes, by the kind of its link. */
const LAST: Readonly<Record<string, number>> = { valve: 90, three_way: 270, pump: 1, coupling: 1 };

type Raw = Readonly<Record<string, unknown>>;

export function checkSheet(draft: Draft): void {
  const job = objectOf(draft.raw.job);
  const sheet = objectOf(job?.sheet);
  if (job === null || sheet === null) return;
  checkSettings(draft, sheet.purge, 'job.sheet.purge');
  checkSettings(draft, sheet.make_up, 'job.sheet.make_up');
  const purge = objectOf(sheet.purge) ?? {};
  const on = Object.keys(purge).filter((id) => draft.linkById.get(id)?.kind === 'pump');
  const running = on.filter((id) => purge[id] === 1);
  if (running.length !== 1) {
    fault(draft, 'job.sheet.purge', 'must have one pump on, the one that purges');
  }
  checkBanks(draft, sheet, purge);
  const lines = itemsOf(sheet.lines, 'job.sheet.lines');
  lines.forEach((line, at) => {
    checkOnce(draft, line, lines.slice(0, at));
    checkLine(draft, line, { job, sheet });
  });
}

function checkSettings(draft: Draft, value: unknown, path: string): void {
  for (const [id, at] of Object.entries(objectOf(value) ?? {})) {
    const found = namedPart(draft, id, `${path}.${id}`, SET);
    const last = found?.kind === null || found === null ? undefined : LAST[found.kind];
    const to = numberOf(at);
    if (last === undefined || to === null || to <= last) continue;
    fault(draft, `${path}.${id}`, `"${id}" goes to ${last}, no further`);
  }
}

function checkBanks(draft: Draft, sheet: Raw, purge: Raw): void {
  if (!Array.isArray(sheet.banks)) return;
  sheet.banks.forEach((bank: unknown, k) => {
    if (!Array.isArray(bank)) return;
    bank.forEach((id: unknown, at) => {
      const path = `job.sheet.banks[${k}][${at}]`;
      const found = namedPart(draft, id, path, VALVES);
      if (found?.id === undefined || found.id === null) return;
      const opens = purge[found.id] ?? found.raw.start_deg;
      if (opens === 0) fault(draft, path, `"${found.id}" is shut while the whole loop is purged`);
    });
  });
}

function checkOnce(draft: Draft, line: Item, before: readonly Item[]): void {
  if (line.id === RESIDUAL) {
    fault(draft, `${line.path}.id`, `"${RESIDUAL}" is the line of the air that is left`);
  }
  if (before.some(({ id }) => id !== null && id === line.id)) {
    fault(draft, `${line.path}.id`, `"${line.id}" is in the list already`);
  }
  const same = before.filter(({ kind }) => kind !== null && kind === line.kind);
  if (line.kind === 'flow') {
    const bore = boreOf(draft, line);
    if (bore === null || !same.some((one) => boreOf(draft, one) === bore)) return;
    fault(draft, `${line.path}.link`, `a line asks for pipes of ${bore} mm already`);
  } else if (same.length > 0) {
    fault(draft, `${line.path}.kind`, `there is a line "${line.kind}" already`);
  }
}

function boreOf(draft: Draft, line: Item): number | null {
  return numberOf(draft.linkById.get(textOf(line.raw.link) ?? '')?.raw.bore_mm);
}

function ofLoop(draft: Draft, job: Raw, value: unknown, path: string): void {
  const id = textOf(value);
  if (id === null || !Array.isArray(job.loop_links) || job.loop_links.includes(id)) return;
  fault(draft, path, `"${id}" is none of the job's loop_links`);
}

interface Around {
  readonly job: Raw;
  readonly sheet: Raw;
}

function checkLine(draft: Draft, { raw, path, kind }: Item, { job, sheet }: Around): void {
  const outcomes = itemsOf(job.outcomes, 'job.outcomes').map((one) => one.kind);
  const needs = (there: boolean, message: string): void => {
    if (!there) fault(draft, `${path}.kind`, message);
  };
  switch (kind) {
    case 'flow':
      ofLoop(draft, job, raw.link, `${path}.link`);
      return;
    case 'total':
      if (!Array.isArray(raw.sections)) return;
      raw.sections.forEach((id: unknown, at) => {
        ofLoop(draft, job, id, `${path}.sections[${at}]`);
      });
      return;
    case 'make_up':
      namedPart(draft, raw.link, `${path}.link`, ANY_LINK);
      needs(objectOf(sheet.make_up) !== null, 'needs "make_up" of the sheet');
      return;
    case 'antifreeze':
      namedPart(draft, raw.from, `${path}.from`, TANKS);
      needs(outcomes.includes('freeze'), 'needs an outcome "freeze"');
      needs((draft.raw.antifreeze ?? 'none') !== 'none', 'needs an antifreeze');
      return;
    case 'drop':
      namedPart(draft, raw.tank, `${path}.tank`, TANKS);
      namedPart(draft, raw.valve, `${path}.valve`, VALVES);
      return;
    case 'test': {
      const milestones = itemsOf(job.milestones, 'job.milestones');
      const held = milestones.some((one) => one.kind === 'held' && one.raw.phase === 'leak_test');
      needs(held, 'needs a milestone "held" of the phase "leak_test"');
      return;
    }
    case 'leave':
      needs(outcomes.includes('pressure'), 'needs an outcome "pressure"');
      if (!Array.isArray(raw.links)) return;
      raw.links.forEach((id: unknown, at) => {
        namedPart(draft, id, `${path}.links[${at}]`, { list: 'link', kinds: ['pipe', 'hose'] });
      });
      return;
    default:
  }
}
