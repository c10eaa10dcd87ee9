// An assignment as it was taken up on this device: with the label typed for it, and how many
// attempts were begun.
import { LABEL_MAX, readTicket, type Ticket } from './ticket.ts';

export interface Taken {
  readonly ticket: Ticket;
  readonly label: string;
  readonly begun: number;
}

/** Null for anything else; `nth` of an attempt counts as what was begun. */
export function taken(json: unknown): Taken | null {
  if (typeof json !== 'object' || json === null) return null;
  const { ticket, label, begun, nth } = json as Record<string, unknown>;
  const read = readTicket(ticket);
  const count = begun ?? nth;
  if (read === null || typeof label !== 'string' || label.length > LABEL_MAX) return null;
  if (!Number.isInteger(count)) return null;
  return { ticket: read, label, begun: count as number };
}
