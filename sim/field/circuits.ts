// One circuit between two ends of a header: its length, its true elevations, its local losses.
import { abs, max } from '../base/math.ts';
import type { Bore, Circuit, Trench } from './site.ts';

/** Velocity heads of an elbow [EPANET2.2, short elbow]. */
export const ELBOW_K = 0.9;
/** A circuit has one at each end, at the header. */
const ELBOWS_K = 2 * ELBOW_K;
/** Fused U-bend at the foot of a bore: 1.1 to 2.2 by source; 1.5 [common practice, no source]. */
const BEND_K = 1.5;
/** m. Length of that bend [common practice, no source]. */
const BEND_M = 0.3;
/** A pipe laid from a header down into its trench takes this many times the drop [invented]. */
export const LAID = 1.25;

export interface Course {
  readonly length_m: number;
  readonly profile: readonly { readonly at_m: number; readonly elevation_m: number }[];
  readonly loss_k: number;
}

/** Course of a circuit between header ends at these elevations (m). */
export function courseOf(circuit: Circuit, from_m: number, to_m: number): Course {
  return circuit.kind === 'trench' ? trench(circuit, from_m, to_m) : bore(circuit, from_m, to_m);
}

/**
 * Length of a circuit, m: a trench's is given; a bore's is twice its depth and its runs, and the
 * bend.
 */
export function circuitLength(circuit: Circuit): number {
  if (circuit.kind === 'trench') return circuit.length_m;
  return 2 * circuit.depth_m + 2 * circuit.run_m + BEND_M;
}

function trench(circuit: Trench, from_m: number, to_m: number): Course {
  const { elevation_m: floor, length_m } = circuit;
  const points: { at_m: number; elevation_m: number }[] = [];
  const add = (at_m: number, elevation_m: number): void => {
    points.push({ at_m, elevation_m });
  };
  if (from_m !== floor) add(max(0.5, LAID * abs(from_m - floor)), floor);
  for (const { at_m, rise_m, half_m } of circuit.crests ?? []) {
    add(at_m - half_m, floor);
    add(at_m, floor + rise_m);
    add(at_m + half_m, floor);
  }
  if (to_m !== floor) add(length_m - max(0.5, LAID * abs(to_m - floor)), floor);
  // Humps that touch share the point between them.
  const profile = points.filter((p, i) => i === 0 || p.at_m > points[i - 1]!.at_m + 1e-6);
  return { length_m, profile, loss_k: circuit.loss_k ?? ELBOWS_K };
}

function bore(circuit: Bore, from_m: number, to_m: number): Course {
  const { depth_m, run_m } = circuit;
  // Headers may lie at two heights: the bore's top is at the supply's, its foot below that.
  const foot = from_m - depth_m;
  const down = run_m + depth_m;
  const up = down + BEND_M + abs(to_m - foot);
  return {
    length_m: up + run_m,
    profile: [
      { at_m: run_m, elevation_m: from_m },
      { at_m: down, elevation_m: foot },
      { at_m: down + BEND_M, elevation_m: foot },
      { at_m: up, elevation_m: to_m },
    ],
    loss_k: circuit.loss_k ?? ELBOWS_K + BEND_K,
  };
}
