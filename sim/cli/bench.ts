// How fast the engine is, on the work that matters: a purge with much air in many circuits.
// Prints ratios to a yardstick timed in the same process, because machines differ and are shared.
import { cpus } from 'node:os';
import { performance } from 'node:perf_hooks';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { max, min, round, sqrt } from '../base/math.ts';
import type { Scenario } from '../scenario.ts';
import { truth } from '../see-truth.ts';
import { createWorld, hash, step, type World } from '../world.ts';
import { benchField } from './bench-field.ts';

export const BENCH_CIRCUITS = [3, 12, 48, 200] as const;
/** s of simulated purge that are timed; pockets move and leave all the while. */
const PURGE_S = 120;
/** s of simulated time in one timing; the best of all runs of the same stretch counts. */
const STRETCH_S = 5;
/** Sweeps timed after each stretch, so that both yardstick and engine see the same machine. */
const SWEEPS = 20;

interface Sweep {
  readonly flux: Float64Array;
  readonly room: Float64Array;
  readonly moved: Float64Array;
  readonly scalars: readonly Float64Array[];
}

function makeSweep(cells: number): Sweep {
  return {
    flux: new Float64Array(cells + 1).fill(0.3),
    room: new Float64Array(cells).fill(1),
    moved: new Float64Array(cells + 1),
    scalars: [0, 1, 2, 3].map((k) => new Float64Array(cells).fill(k)),
  };
}

/** One upwind sweep of four scalars over as many cells: what any transport must at least do. */
function sweepOnce({ flux, room, moved, scalars }: Sweep): void {
  for (const x of scalars) {
    const cells = x.length;
    for (let i = 1; i < cells; i++) {
      const q = flux[i]!;
      moved[i] = q >= 0 ? q * x[i - 1]! : q * x[i]!;
    }
    for (let i = 0; i < cells; i++) {
      x[i] = x[i]! + (0.05 * (moved[i]! - moved[i + 1]!)) / room[i]!;
    }
  }
}

/** ms of one call, the mean of so many. */
function timed(calls: number, work: () => void): number {
  const from = performance.now();
  for (let k = 0; k < calls; k++) work();
  return (performance.now() - from) / calls;
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
  readonly sweeps_per_tick: number;
  /** Largest imbalance of the books, and whether a run beside it came to the same hash. */
  readonly balance: number;
  readonly same_hash: boolean;
}

interface Timing {
  readonly tick_ms: number;
  readonly sweep_ms: number;
  readonly world: World;
}

/** Times a run, stretch by stretch with sweeps in between; the shortest of all rounds count. */
function timeRun(scenario: Scenario, rounds: number): Timing {
  const stretches = PURGE_S / STRETCH_S;
  const ticks = round(STRETCH_S / scenario.solver.tick_s);
  const shortest = new Float64Array(stretches).fill(Infinity);
  let world = createWorld(scenario, 1);
  const sweep = makeSweep(world.plan.volumes - world.plan.nodes.length);
  let sweep_ms = Infinity;
  for (let r = 0; r < rounds; r++) {
    world = createWorld(scenario, 1);
    for (let s = 0; s < stretches; s++) {
      shortest[s] = min(shortest[s]!, timed(ticks, () => step(world, [])));
      sweep_ms = min(sweep_ms, timed(SWEEPS, () => sweepOnce(sweep)));
    }
  }
  return { tick_ms: shortest.reduce((sum, x) => sum + x, 0) / stretches, sweep_ms, world };
}

function wetShare(world: World): number {
  const cells = world.plan.volumes - world.plan.nodes.length;
  return world.state.gas.subarray(world.plan.nodes.length).filter((gas) => gas > 0).length / cells;
}

/** One row: `circuits` of 150 m, timed over `rounds` runs; with air in them, or full of water. */
export function benchRow(circuits: number, rounds: number, air = true): BenchRow {
  const scenario = benchField(circuits, air);
  const start = createWorld(scenario, 1);
  const gas = truth(start).gas.now;
  const { tick_ms, sweep_ms, world } = timeRun(scenario, rounds);
  const beside = createWorld(scenario, 1);
  while (beside.state.counter[0]! < world.state.counter[0]!) step(beside, []);
  const books = truth(world);
  return {
    circuits,
    cells: start.plan.volumes - start.plan.nodes.length,
    wet_at_start: wetShare(start),
    air_left_share: gas === 0 ? 0 : books.gas.now / gas,
    tick_us: 1000 * tick_ms,
    times_real_time: (1000 * scenario.solver.tick_s) / tick_ms,
    sweep_us: 1000 * sweep_ms,
    sweeps_per_tick: tick_ms / sweep_ms,
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
  const world = createWorld(benchField(1, true), 1);
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

/** What `npm run -s sim -- bench` prints: see the help. Rows of `rounds` interleaved runs. */
export function bench(rounds: number): unknown {
  const rows = BENCH_CIRCUITS.map((circuits) => benchRow(circuits, rounds));
  const big = rows.filter((row) => row.circuits >= 12);
  const slopes = big.slice(1).map((row, k) => {
    const from = big[k]!;
    return (row.tick_us - from.tick_us) / (row.cells - from.cells);
  });
  return {
    machine: { processor: cpus()[0]?.model ?? 'unknown', node: process.version },
    rounds,
    purge: rows,
    fit: fitLine(big),
    slope_us_per_cell: slopes,
    circulation_of_clear_water: benchRow(12, rounds, false),
    heap_bytes_per_100000_quiet_ticks: heapOfQuietTicks(100_000),
  };
}
