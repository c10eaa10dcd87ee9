// Listens to the pump for whoever reads the captions: a line each time its note changes.
import type { Note, Snapshot } from '../sim/index.ts';
import { heardOf, noteOf, type Caption } from './captions.ts';

/** ms. A note that changes faster than this is one change. */
const NOTE_MS = 1200;

export class Ear {
  private note: Note | null = null;
  private at = 0;

  /** What sounds already, and needs no line. */
  knows(snapshot: Snapshot): void {
    this.note = noteOf(snapshot);
  }

  /** `now` in ms of the wall. */
  hears(snapshot: Snapshot, now: number): Caption | null {
    const note = noteOf(snapshot);
    if (note === null || note === this.note || now - this.at < NOTE_MS) return null;
    this.note = note;
    this.at = now;
    return heardOf(note, snapshot.tick);
  }
}
