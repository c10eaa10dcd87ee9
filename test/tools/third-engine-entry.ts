// What another engine of scripts is given: it replays records and says where they go apart. Bundled
// by third-engine.mjs, so that the engine needs neither modules nor types.
import { parseRecord, parseScenario, replay } from '../../sim/index.ts';

interface Job {
  readonly name: string;
  readonly scenario: unknown;
  readonly record: unknown;
}

/** One line of JSON a job: how many hashes were held against the record's, and the first apart. */
function answers(jobs: readonly Job[]): string {
  return JSON.stringify(
    jobs.map(({ name, scenario, record }) => {
      const parsed = parseScenario(scenario);
      const kept = parseRecord(record, parsed);
      const { divergedAt, world } = replay(parsed, kept);
      return { name, divergedAt, hashes: kept.checks.length, ticks: world.state.counter[0] };
    }),
  );
}

Object.assign(globalThis, { answers });
