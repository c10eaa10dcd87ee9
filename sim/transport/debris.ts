// Debris: grains of each class that move with the liquid or lie in pipes and fittings, five times
// a second. What leaves one place arrives at another, in an element (catch.ts), in a tank or in a
// ledger. How fast grains go, and when they lie, is grains.ts's.
import type { DebrisPlan } from '../network/debris-plan.ts';
import { turnOf } from '../network/plan.ts';
import { loadElements, passThrough, shed } from './catch.ts';
import type { GrainFlow } from './grain-room.ts';
import { askNodes, cross, fluxInside, fluxOfEnds, restInNodes } from './grain-flux.ts';
import { findStanding, speedOfFitting, speedsOfPipe } from './grain-speed.ts';
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
  grainRoom.measured.fill(0);
  for (let c = 0; c < debris.classes.length; c++) {
    grainRoom.c = c;
    moveClass(flow, debris);
  }
  loadElements(plan, debris, state);
  swept.fill(0);
  state.overRim.fill(0);
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
      if (grainRoom.flux[firstFace] !== 0 || grainRoom.flux[firstFace + cells] !== 0) {
        grainRoom.mayHold[grainRoom.c * links.length + i] = 1;
      }
    }
  }
  shed(flow, debris);
  settleTankGrains(flow, debris);
}
