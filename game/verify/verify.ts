// Runs an attempt file again and says what it is worth. Pure: text in, report out, so that it works
// in a worker of the page and in a test alike. Believes nothing that the file says about its run.
import {
  attemptFaults, ENGINE, formOf, isAttempt, parseAttempt, replay, scenarioHash, score,
  type Attempt, type Fact, type Replay, type RunRecord,
} from '../../sim/index.ts';
import type { Level } from '../../levels/index.ts';
import { levelOf } from '../assign/levels.ts';
import { readTicket, seedOf, type Ticket } from '../assign/ticket.ts';
import { digest } from '../digest.ts';
import type { Claims, Difference, Report, Rerun, Verdict } from './report.ts';

/** Fewer commands than this, and equal inputs say nothing about copying. */
const INPUTS_MIN = 3;

export interface Checked {
  readonly report: Report;
  /** The attempt and its new run, where there was one. */
  readonly attempt: Attempt | null;
  readonly level: Level | null;
  readonly again: Replay | null;
}

export function verify(file: string, text: string): Checked {
  const bare = { file, claims: null, rerun: null, content: null, inputs: null } as const;
  const refuse = (verdict: Verdict, difference: Difference | null = null): Checked =>
    ({ report: { ...bare, verdict, difference }, attempt: null, level: null, again: null });
  let json: unknown;
  try {
    json = JSON.parse(text) as unknown;
  } catch {
    return refuse('unreadable');
  }
  const fault = isAttempt(json) ? attemptFaults(json)[0] : { path: 'kind', message: '?' };
  if (fault !== undefined) {
    return refuse('not_attempt', { path: fault.path, file: '', found: fault.message });
  }
  return judged(file, parseAttempt(json));
}

function judged(file: string, attempt: Attempt): Checked {
  const { record } = attempt;
  const level = levelOf(record.scenario);
  const base = {
    file, claims: claimsOf(attempt), rerun: null, content: digest(JSON.stringify(attempt)),
    inputs: inputsOf(record),
  };
  const other = record.engine !== ENGINE ? differs('record.engine', record.engine, ENGINE) : null;
  if (other !== null) {
    return { report: { ...base, verdict: 'other_build', difference: other }, attempt, level,
      again: null };
  }
  const here = level === null ? null : scenarioHash(level.scenario);
  if (level === null || here !== record.scenario_hash) {
    const difference = differs('record.scenario_hash', record.scenario_hash, here);
    return { report: { ...base, verdict: 'unknown_job', difference }, attempt, level, again: null };
  }
  const stranger = attemptFaults(attempt, level.scenario)[0];
  if (stranger !== undefined) {
    const difference = { path: stranger.path, file: '', found: stranger.message };
    return { report: { ...base, verdict: 'not_attempt', difference }, attempt, level, again: null };
  }
  const again = replay(level.scenario, record);
  const rerun = rerunOf(level, record, again);
  const [verdict, difference] = compared(attempt, again, rerun);
  return { report: { ...base, verdict, rerun, difference }, attempt, level, again };
}

type Judgement = readonly [Verdict, Difference | null];

function compared(attempt: Attempt, again: Replay, rerun: Rerun | null): Judgement {
  if (rerun === null) {
    const { divergedAt } = again;
    return ['diverged', differs(`tick ${divergedAt}`, '', '')];
  }
  const ticket = ticketFault(attempt);
  if (ticket !== null) return ['ticket_differs', ticket];
  const withheld = attempt.mode === 'assess' && !rerun.finished && attempt.facts.length === 0;
  const facts = withheld ? null : firstDifference(attempt.facts, plain(again.facts), 'facts');
  if (facts !== null) return ['facts_differ', facts];
  const own = attempt.marks === null && !rerun.finished ? null : plain(rerun.score);
  const marks = firstDifference(attempt.marks, own, 'marks');
  return marks === null ? ['replays', null] : ['marks_differ', marks];
}

function rerunOf(level: Level, { seed }: RunRecord, again: Replay): Rerun | null {
  if (again.divergedAt !== null) return null;
  const scenario = formOf(level.scenario, seed);
  const done = again.facts.find((fact): fact is Extract<Fact, { kind: 'done' }> =>
    fact.kind === 'done');
  const ticks = again.world.state.counter[0] ?? 0;
  return {
    finished: done !== undefined,
    time_s: ticks * scenario.solver.tick_s,
    score: score(scenario, level.rules, again.facts),
  };
}

function claimsOf(attempt: Attempt): Claims {
  const { record, wall_clock, away = [], looks = [] } = attempt;
  return {
    id: attempt.id ?? null, who: attempt.who, job: record.scenario, mode: attempt.mode ?? null,
    seed: record.seed, nth: attempt.nth ?? null, ticket: readTicket(attempt.ticket),
    began: wall_clock?.began ?? null, ended: wall_clock?.ended ?? null, looks: looks.length,
    absences: away.length, away_s: away.reduce((sum, [, wall_s]) => sum + wall_s, 0),
  };
}

/** The first thing in which the run is not what its assignment asks for. */
function ticketFault(attempt: Attempt): Difference | null {
  if (attempt.ticket === null || attempt.ticket === undefined) return null;
  const ticket = readTicket(attempt.ticket);
  if (ticket === null) return differs('ticket', '', '');
  const { record, mode, who, nth } = attempt;
  const asked = levelOf(ticket.job, ticket.phase)?.scenario.id ?? ticket.job;
  const rows = [
    ['record.scenario', record.scenario, asked],
    ['record.scenario_hash', record.scenario_hash, ticket.scenario_hash],
    ['mode', mode, ticket.mode],
    ['record.seed', record.seed, seedFor(ticket, who, nth)],
    ['nth', nth ?? 1, Math.min(nth ?? 1, ticket.attempts ?? Infinity)],
  ] as const;
  const found = rows.find(([, file, wanted]) => file !== wanted);
  return found === undefined ? null : differs(found[0], found[1], found[2]);
}

function seedFor(ticket: Ticket, who: string | null, nth: number | null | undefined): number {
  return seedOf(ticket, who ?? '', nth ?? 1);
}

/** The timed inputs up to the hand-over; null where too few to tell two people apart. */
function inputsOf({ commands }: RunRecord): string | null {
  const worked = commands.filter(([, { kind }]) => kind !== 'done');
  return worked.length < INPUTS_MIN ? null : digest(JSON.stringify(worked));
}

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value)) as unknown;

const DIGITS = 10; // And digits of a number.
const SHOWN = 60; // Letters of a value that a person still reads.

function differs(path: string, file: unknown, found: unknown): Difference {
  const text = (value: unknown): string => {
    const short = typeof value === 'number' ? Number(value.toPrecision(DIGITS)) : value;
    return (typeof short === 'string' ? short : JSON.stringify(short) ?? '').slice(0, SHOWN);
  };
  return { path, file: text(file), found: text(found) };
}

/** Where two JSON values first differ, going through the second one's order; null where nowhere. */
export function firstDifference(file: unknown, found: unknown, path: string): Difference | null {
  if (Object.is(file, found)) return null;
  if (Array.isArray(file) && Array.isArray(found)) {
    const most = Math.max(file.length, found.length);
    for (let k = 0; k < most; k++) {
      const inside = firstDifference(file[k], found[k], `${path}[${k}]`);
      if (inside !== null) return inside;
    }
    return null;
  }
  if (!isRecord(file) || !isRecord(found)) return differs(path, file, found);
  for (const key of new Set([...Object.keys(found), ...Object.keys(file)])) {
    const inside = firstDifference(file[key], found[key], `${path}.${key}`);
    if (inside !== null) return inside;
  }
  return null;
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
