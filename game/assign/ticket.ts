// The assignment an instructor sends: which job or phase, in which mode, on which seed, how often.
// As a link its ticket is deflated JSON in base64url behind the "#", which no server is sent; as a
// file it is the same JSON. It is not signed: what it proves is said on the instructor's page.
import { deflateSync, inflateSync, strFromU8, strToU8 } from 'fflate';
import { fnv1a } from '../digest.ts';
import { PHASES, type Phase } from '../../sim/index.ts';

export interface Ticket {
  readonly format: 1;
  readonly kind: 'assignment';
  /** Drawn by chance when it was made: two assignments alike are still two. */
  readonly id: string;
  readonly name: string;
  readonly job: string;
  /** Null for the whole job. */
  readonly phase: Phase | null;
  readonly mode: TicketMode;
  /** One number for all, or null: drawn for each trainee from the label that was typed. */
  readonly seed: number | null;
  /** Where it is drawn: further attempts in the form of the first; else each in another. */
  readonly again?: 'same';
  /** How many attempts are allowed, or null for any number. */
  readonly attempts: number | null;
  /** The job's form and the physics that it was made with. */
  readonly scenario_hash: string;
  readonly engine: string;
}

export const TICKET_MODES = ['practise', 'assess'] as const;
export type TicketMode = (typeof TICKET_MODES)[number];

export const NAME_MAX = 80;
export const LABEL_MAX = 60;
export const ATTEMPTS_MAX = 20;
export const SEED_MAX = 0xffffffff;
const TEXT_MAX = 4000; // No assignment is as long; a link that unpacks to more is something else.

const ID = /^[a-z][a-z0-9_]{0,39}$/;
const HEX16 = /^[0-9a-f]{16}$/;

/** Null for anything that is not a ticket, whole and in range. */
export function readTicket(json: unknown): Ticket | null {
  if (typeof json !== 'object' || json === null) return null;
  const one = json as Record<keyof Ticket, unknown>;
  const text = (value: unknown, most: number): value is string =>
    typeof value === 'string' && value.trim() !== '' && value.length <= most;
  const whole = (value: unknown, least: number, most: number): value is number =>
    Number.isInteger(value) && (value as number) >= least && (value as number) <= most;
  const right = one.format === 1 && one.kind === 'assignment'
    && text(one.id, 16) && HEX16.test(one.id) && text(one.name, NAME_MAX)
    && text(one.job, 40) && ID.test(one.job)
    && (one.phase === null || PHASES.some((phase) => phase === one.phase))
    && TICKET_MODES.some((mode) => mode === one.mode)
    && (one.seed === null || whole(one.seed, 0, SEED_MAX))
    && (one.again === undefined || (one.again === 'same' && one.seed === null))
    && (one.attempts === null || whole(one.attempts, 1, ATTEMPTS_MAX))
    && text(one.scenario_hash, 16) && HEX16.test(one.scenario_hash) && text(one.engine, 40);
  if (!right) return null;
  const { format, kind, id, name, job, phase, mode, seed, attempts, scenario_hash, engine } =
    json as Ticket;
  const again = one.again === undefined ? {} : { again: 'same' } as const;
  const what = { format, kind, id, name, job, phase, mode, seed, ...again };
  return { ...what, attempts, scenario_hash, engine };
}

/** What stands behind "#a=" in a link. The same ticket gives the same text in every browser. */
export function packTicket(ticket: Ticket): string {
  const bytes = deflateSync(strToU8(JSON.stringify(ticket)), { level: 9 });
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return btoa(binary).replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** Null for a text that is none, was cut short, or holds something else. */
export function unpackTicket(text: string): Ticket | null {
  try {
    const binary = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
    const bytes = Uint8Array.from(binary, (letter) => letter.charCodeAt(0));
    // A buffer of fixed size: a few bytes that would swell to gigabytes end here.
    const whole = inflateSync(bytes, { out: new Uint8Array(TEXT_MAX) });
    return readTicket(JSON.parse(strFromU8(whole).replace(/\0+$/, '')) as unknown);
  } catch {
    return null;
  }
}

const MARK = 'a';

export function ticketLink(page: string, ticket: Ticket): string {
  return `${page}#${MARK}=${packTicket(ticket)}`;
}

/** The packed ticket of a link, of what stands behind its "#", or of a text pasted from mail. */
export function packedIn(text: string): string | null {
  return /(?:^|#)a=([\w-]+)/.exec(text.trim())?.[1] ?? null;
}

/** As two people would write the same name: spaces and capitals do not make another trainee. */
export function plainLabel(label: string): string {
  return label.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();
}

/** The seed that the `nth` attempt (from 1) of this trainee has to run on. */
export function seedOf(ticket: Ticket, label: string, nth: number): number {
  if (ticket.seed !== null) return ticket.seed;
  const of = `${ticket.id}|${plainLabel(label)}`;
  return fnv1a(ticket.again === 'same' ? of : `${of}|${nth}`);
}

/** 16 hexadecimal digits by chance: the id of a ticket or of an attempt. */
export function drawId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(8));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
