// Debris: grains of each class that move with the liquid or lie in pipes and fittings, five times
// a second. What leaves one place arrives at another, in an element (catch.ts), in a tank or in a
// ledger. How fast grains go, and when they lie, is grains.ts's.
import { abs, sqrt } from '../base/math.ts';
import { frictionInto, RE_STRAIGHT } from '../laws/friction.ts';
import type { DebrisPlan } from '../network/debris-plan.ts';
import { turnOf } from '../network/plan.ts';
import { COLUMN_LIQUID_STRIDE, FRICTION_STRIDE } from '../state.ts';
import { loadElements, passThrough, shed } from './catch.ts';
import type { GrainFlow } from './grain-room.ts';
import { askNodes, cross, fluxInside, fluxOfEnds, restInNodes } from './grain-flux.ts';
import { FILM, findStanding, speedOfFitting, speedsOfPipe } from './grain-speed.ts';
import { settleTankGrains } from './tank-grains.ts';

/** Every tick: counts what crosses faces; a few times a second moves the grains with it. */
export function followDebris(flow: GrainFlow): void {
  const { plan, state, moves, grainRoom } = flow;
  const { debris } = plan;
  if (debris === null) return;
  const { swept } = state;
  const { liquid } = moves;
  for (let f = 0; f < liquid.length; f++) swept[f] = swept[f]! + liquid[f]!;
  for (let k = 0; k < plan.tanks.length; k++) {
    state.overRim[k] = state.overRim[k]! + state.tankRate[2 * k]! * flow.dt;
  }
  if (turnOf(plan, state) % debris.every !== debris.every - 1) return;
  measure(flow, debris);
  for (let c = 0; c < debris.classes.length; c++) {
    grainRoom.c = c;
    moveClass(flow, debris);
  }
  loadElements(plan, debris, state);
  swept.fill(0);
  state.overRim.fill(0);
}

/** m/s of the liquid in each cell, and its shear velocity by the column's own friction. */
function measure(flow: GrainFlow, { dt }: DebrisPlan): void {
  const { plan, state, scratch, grainRoom } = flow;
  const { swept, density } = state;
  const { u, shear } = grainRoom;
  for (let c = 0; c < plan.columns.length; c++) {
    const { cell, cells, face, link } = plan.columns[c]!;
    if (cells === 0) continue;
    const { area } = plan.links[link]!;
    const rough = sqrt(columnFriction(flow, c, dt) / 8);
    for (let k = 0; k < cells; k++) {
      const v = cell + k;
      const wet = 1 - scratch.alpha[v]!;
      const kg = 0.5 * (swept[face + k]! + swept[face + k + 1]!);
      const own = wet < FILM ? 0 : kg / (density[v]! * area * dt * wet);
      u[v] = own;
      shear[v] = abs(own) * rough;
    }
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

/** One class: how fast it goes everywhere, then what crosses every face, then that it does. */
function moveClass(flow: GrainFlow, debris: DebrisPlan): void {
  const { plan, grainRoom } = flow;
  const { links } = plan;
  grainRoom.asked.fill(0);
  findStanding(flow);
  for (let i = 0; i < links.length; i++) {
    if (links[i]!.cells === 0) speedOfFitting(flow, debris, i);
    else speedsOfPipe(flow, debris, i);
    askNodes(flow, debris, i);
  }
  restInNodes(flow);
  for (let i = 0; i < links.length; i++) {
    fluxOfEnds(flow, debris, i);
    if (grainRoom.holds[i] === 1) fluxInside(flow, debris, links[i]!);
  }
  for (let i = 0; i < links.length; i++) {
    const { cells, firstFace } = links[i]!;
    if (cells === 0) passThrough(flow, debris, i);
    else {
      // What holds none of the class has nothing to cross inside.
      const stride = grainRoom.holds[i] === 1 ? 1 : cells;
      for (let f = firstFace; f <= firstFace + cells; f += stride)
        cross(flow, f, grainRoom.flux[f]!);
    }
  }
  shed(flow, debris);
  settleTankGrains(flow, debris);
}
