// The file a trainee takes away: the record in its envelope, and how it reaches the disk.
import type { Fact, RunRecord, Score } from '../../sim/index.ts';

export interface AttemptFile {
  readonly format: 1;
  readonly kind: 'attempt';
  readonly record: RunRecord;
  readonly facts: readonly Fact[];
  readonly marks: Score | null;
  readonly who: null;
  /** As this device's clock says, which nobody has checked. */
  readonly wall_clock: { readonly began: string; readonly ended: string };
}

export interface Parts {
  readonly record: RunRecord;
  readonly facts: readonly Fact[];
  readonly marks: Score | null;
  readonly began: string;
}

export function attemptFile({ record, facts, marks, began }: Parts, now: Date): AttemptFile {
  const wall_clock = { began, ended: now.toISOString() };
  return { format: 1, kind: 'attempt', record, facts, marks, who: null, wall_clock };
}

/** "loopyard-heron-lane-2026-11-25-1240.json": sorts by time, says what it is. */
export function fileName(scenario: string, now: Date): string {
  const stamp = now.toISOString().slice(0, 16).replace('T', '-').replace(':', '');
  return `loopyard-${scenario.replaceAll('_', '-')}-${stamp}.json`;
}

export function download(name: string, content: unknown): void {
  const blob = new Blob([`${JSON.stringify(content, null, 1)}\n`], { type: 'application/json' });
  const url = URL.createObjectURL(blob);
  const link = document.createElement('a');
  link.href = url;
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
