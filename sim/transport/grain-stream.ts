// The stream that grains are in: how fast the liquid of a cell has gone over a move, and its shear
// velocity. Worked out only where somebody asks: in most pipes there are no grains.
import { abs, sqrt } from '../base/math.ts';
import { frictionInto, RE_STRAIGHT } from '../laws/friction.ts';
import { COLUMN_LIQUID_STRIDE, FRICTION_STRIDE } from '../state.ts';
import type { GrainFlow } from './grain-room.ts';

/** Liquid share of a volume below which its grains stay where they are: only a film is left. */
export const FILM = 0.01;

/** Of all cells of a column, once for all classes. */
export function measureColumn(flow: GrainFlow, c: number): void {
  const { measured } = flow.grainRoom;
  if (measured[c] === 1) return;
  measured[c] = 1;
  const { cell, cells } = flow.plan.columns[c]!;
  measureCells(flow, c, cell, cell + cells);
}

/** m/s of the liquid in some cells of a column, and its shear velocity by the column's friction. */
export function measureCells(flow: GrainFlow, c: number, from: number, to: number): void {
  const { plan, state, scratch, grainRoom } = flow;
  const { swept, density } = state;
  const { u, shear } = grainRoom;
  const { cell, face, link } = plan.columns[c]!;
  const { area } = plan.links[link]!;
  const { dt } = plan.debris!;
  const rough = sqrt(columnFriction(flow, c, dt) / 8);
  for (let v = from; v < to; v++) {
    const wet = 1 - scratch.alpha[v]!;
    const f = face + v - cell;
    const kg = 0.5 * (swept[f]! + swept[f + 1]!);
    const own = wet < FILM ? 0 : kg / (density[v]! * area * dt * wet);
    u[v] = own;
    shear[v] = abs(own) * rough;
  }
}

/** Share of a Reynolds number within which the friction of a tick is followed along its slope. */
const NEAR = 0.05;

/** Friction factor of a column over the last move: that of its losses, where it is near. */
function columnFriction({ plan, state, scratch }: GrainFlow, c: number, dt: number): number {
  const { cells, face, link, half } = plan.columns[c]!;
  const { area, bore, length, spec, cells: all } = plan.links[link]!;
  const wet = (scratch.wet[c]! * all) / (length * cells);
  const kg = abs(state.swept[face + half]!);
  const mu = state.liquid[c * COLUMN_LIQUID_STRIDE + 1]!;
  const Re = wet < FILM ? 0 : (kg * bore) / (area * dt * wet * mu);
  if (Re < RE_STRAIGHT) return Re > 1 ? 64 / Re : 64;
  const at = c * FRICTION_STRIDE;
  const off = Re / state.friction[at]! - 1;
  if (abs(off) < NEAR) return state.friction[at + 1]! * (1 + state.friction[at + 2]! * off);
  const rough = spec.kind === 'pipe' || spec.kind === 'hose' ? spec.roughness_mm / 1000 : 0;
  frictionInto(Re, rough / bore, scratch.out);
  return scratch.out[0]!;
}
