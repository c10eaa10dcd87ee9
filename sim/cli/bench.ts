// How fast the engine is, on the work that matters: a purge with much air in many circuits.
// Prints ratios to a yardstick timed in the same process, because machines differ and are shared.
import { performance } from 'node:perf_hooks';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { max, min, sqrt } from '../base/math.ts';
import type { Scenario } from '../scenario.ts';
import { truth } from '../see.ts';
import { createWorld, hash, step, type World } from '../world.ts';
import { benchField } from './bench-field.ts';

export const BENCH_CIRCUITS = [3, 12, 48, 200] as const;
/** s of simulated purge that are timed; the pockets leave within that time. */
const PURGE_S = 120;
/** s of simulated time in one timing; the best of all runs of the same stretch counts. */
const STRETCH_S = 5;

/** One upwind sweep of four scalars over as many cells: what any transport must at least do. */
function makeSweep(cells: number): () => void {
  const flux = new Float64Array(cells + 1).fill(0.3);
  const room = new Float64Array(cells).fill(1);
  const moved = new Float64Array(cells + 1);
  const scalars = [0, 1, 2, 3].map((k) => new Float64Array(cells).fill(k));
  return () => {
    for (const x of scalars) {
      for (let i = 1; i < cells; i++) {
        const q = flux[i]!;
        moved[i] = q >= 0 ? q * x[i - 1]! : q * x[i]!;
      }
      for (let i = 0; i < cells; i++) {
        x[i] = x[i]! + (0.05 * (moved[i]! - moved[i + 1]!)) / room[i]!;
      }
    }
  };
}

/** Shortest time of one call, ms, over `rounds` rounds of `calls`. */
function best(rounds: number, calls: number, work: () => void): number {
  let shortest = Infinity;
  for (let r = 0; r < rounds; r++) {
    const from = performance.now();
    for (let k = 0; k < calls; k++) work();
    shortest = min(shortest, (performance.now() - from) / calls);
  }
  return shortest;
}

export interface BenchRow {
  readonly circuits: number;
  readonly cells: number;
  /** Share of the cells that hold air at the start, and air left at the end over that. */
  readonly wet_at_start: number;
  readonly air_left_share: number;
  readonly tick_us: number;
  /** Simulated over real time. */
  readonly times_real_time: number;
  readonly sweep_us: number;
  /** A tick over a bare sweep of the same cells. */
  readonly ticks_per_sweep: number;
  /** Largest imbalance of the books, and whether a run beside it came to the same hash. */
  readonly balance: number;
  readonly same_hash: boolean;
}

/** Times a purge, stretch by stretch; each stretch counts with its shortest time. */
function timePurge(scenario: Scenario, rounds: number): { ms: number; world: World } {
  const tick = scenario.solver.tick_s;
  const stretches = PURGE_S / STRETCH_S;
  const ticks = STRETCH_S / tick;
  const shortest = new Float64Array(stretches).fill(Infinity);
  let world = createWorld(scenario, 1);
  for (let r = 0; r < rounds; r++) {
    world = createWorld(scenario, 1);
    for (let s = 0; s < stretches; s++) {
      const from = performance.now();
      for (let k = 0; k < ticks; k++) step(world, []);
      shortest[s] = min(shortest[s]!, (performance.now() - from) / ticks);
    }
  }
  return { ms: shortest.reduce((sum, x) => sum + x, 0) / stretches, world };
}

function wetShare(world: World): number {
  const cells = world.plan.volumes - world.plan.nodes.length;
  return world.state.gas.subarray(world.plan.nodes.length).filter((gas) => gas > 0).length / cells;
}

/** One row: `circuits` of 150 m, timed over `rounds` runs. */
export function benchRow(circuits: number, rounds: number): BenchRow {
  const scenario = benchField(circuits);
  const start = createWorld(scenario, 1);
  const gas = truth(start).gas.now;
  const cells = start.plan.volumes - start.plan.nodes.length;
  const sweep = makeSweep(cells);
  const before = best(20, 20, sweep);
  const { ms, world } = timePurge(scenario, rounds);
  const sweepMs = min(before, best(20, 20, sweep));
  const beside = createWorld(scenario, 1);
  while (beside.state.counter[0]! < world.state.counter[0]!) step(beside, []);
  const books = truth(world);
  return {
    circuits,
    cells,
    wet_at_start: wetShare(start),
    air_left_share: books.gas.now / gas,
    tick_us: 1000 * ms,
    times_real_time: (1000 * scenario.solver.tick_s) / ms,
    sweep_us: 1000 * sweepMs,
    ticks_per_sweep: ms / sweepMs,
    balance: [books.liquid, books.antifreeze, books.gas].reduce(
      (most, b) => max(most, sqrt(b.error * b.error)),
      0,
    ),
    same_hash: hash(beside) === hash(world),
  };
}

/** Straight line through (cells, us): a + b cells. */
export function fitLine(rows: readonly BenchRow[]): { a_us: number; b_us_per_cell: number } {
  const n = rows.length;
  const x = rows.reduce((sum, r) => sum + r.cells, 0) / n;
  const y = rows.reduce((sum, r) => sum + r.tick_us, 0) / n;
  const xy = rows.reduce((sum, r) => sum + (r.cells - x) * (r.tick_us - y), 0);
  const xx = rows.reduce((sum, r) => sum + (r.cells - x) * (r.cells - x), 0);
  const b = xx === 0 ? 0 : xy / xx;
  return { a_us: y - b * x, b_us_per_cell: b };
}

/** Bytes of heap that a number of quiet ticks leaves behind, after the garbage is collected. */
export function heapOfQuietTicks(ticks: number): number {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  const world = createWorld(benchField(1), 1);
  const run = (count: number): void => {
    for (let k = 0; k < count; k++) step(world, []);
  };
  run(ticks / 5); // The machine code is made here, and the air leaves.
  collect();
  const before = process.memoryUsage().heapUsed;
  run(ticks);
  collect();
  return process.memoryUsage().heapUsed - before;
}

export function bench(rounds: number): unknown {
  const rows = BENCH_CIRCUITS.map((circuits) => benchRow(circuits, circuits > 100 ? 2 : rounds));
  const big = rows.filter((row) => row.circuits >= 12);
  const slopes = big.slice(1).map((row, k) => {
    const from = big[k]!;
    return (row.tick_us - from.tick_us) / (row.cells - from.cells);
  });
  return {
    rows,
    fit: fitLine(big),
    slope_us_per_cell: slopes,
    heap_bytes_per_100000_quiet_ticks: heapOfQuietTicks(100_000),
  };
}
