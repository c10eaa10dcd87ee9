// The same bits on an engine of scripts that is neither Node's nor Chromium's: kept records come
// to the same hash at every checkpoint there. Where no such engine can be had, it says so.
import { describe, expect, it } from 'vitest';
import { bundle, ensureEngine, jobOf, replayIn } from '../tools/third-engine.mjs';

interface Kept {
  readonly checks: readonly (readonly [tick: number, hash: string])[];
  readonly end_tick: number;
}

/** A whole purge, and two jobs at the other sites that were done badly. */
const RECORDS = [
  ['01-heron-lane', 'solution'],
  ['02-sedge-meadow', 'too-early'],
  ['03-kestrel-yard', 'one-way'],
] as const;

const engine = await ensureEngine(console.log);
const where = engine?.engine ?? 'not installed, left out';
if (engine === null) console.log(`A third engine of scripts: ${where}`);

describe.skipIf(engine === null)(`in a third engine of scripts (${where})`, async () => {
  const code = engine === null ? '' : await bundle();

  it('kept records come to the same hashes', async () => {
    const jobs = RECORDS.map(([folder, name]) => jobOf(folder, name));
    const got = await replayIn(engine!, code, jobs);
    const kept = jobs.map(({ name, record }) => ({ name, ...(record as Kept) }));
    expect(got).toEqual(
      kept.map(({ name, checks, end_tick }) => ({
        name,
        divergedAt: null,
        hashes: checks.length,
        ticks: end_tick,
      })),
    );
    expect(Math.min(...got.map(({ hashes }) => hashes))).toBeGreaterThan(5);
  });

  it('a record with one wrong digit is found out', async () => {
    const job = jobOf('01-heron-lane', 'too-early');
    const kept = job.record as Kept;
    const checks = kept.checks.map(([tick, hash], k) =>
      k === 3 ? [tick, hash.replace(/.$/, (c) => (c === '0' ? '1' : '0'))] : [tick, hash],
    );
    const [got] = await replayIn(engine!, code, [{ ...job, record: { ...kept, checks } }]);
    expect(got!.divergedAt).toBe(kept.checks[3]![0]);
  });
});
