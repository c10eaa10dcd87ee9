// The bits of a session's state, by way of what it saves.
import { createHash } from 'node:crypto';
import type { Session } from '../../game/session.ts';

export function hashOf(session: Session): string {
  return createHash('sha256').update(Buffer.from(session.save().state)).digest('hex');
}
