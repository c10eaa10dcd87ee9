// What the job's outcomes look at, measured once, at "I'm done". Held against what the job asks
// for by score-goals.ts.
import { abs, max, min } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import type { FreezeMeasure, Measures } from './fact.ts';
import { freezePoint_C } from './laws/antifreeze.ts';
import { debrisAt } from './see-debris.ts';
import type { World } from './world-parts.ts';

type Asked = Pick<Measures, 'freeze' | 'pressures' | 'flows' | 'debris_kg'>;

/** Share of a cell's room below which its liquid is a film and says nothing of the mixture. */
const FILM = 0.05;

/** Nothing where the job asks for nothing beside air. */
export function measureOutcomes(world: World): Asked {
  const { plan, state } = world;
  const outcomes = plan.scenario.job?.outcomes ?? [];
  const pressures: [string, number][] = [];
  const flows: [string, number][] = [];
  let asked: Asked = {};
  for (const outcome of outcomes) {
    switch (outcome.kind) {
      case 'freeze':
        asked = { ...asked, freeze: freezeOf(world) };
        break;
      case 'debris':
        asked = { ...asked, debris_kg: debrisOf(world) };
        break;
      case 'pressure': {
        const { node } = outcome;
        pressures.push([node, state.point[plan.nodeIx.get(node)!]! - P_ATM]);
        break;
      }
      case 'flow': {
        const { firstColumn, columns } = plan.links[plan.linkIx.get(outcome.link)!]!;
        flows.push([outcome.link, abs(state.flow[firstColumn + (columns >> 1)]!)]);
        break;
      }
      case 'air':
    }
  }
  return {
    ...asked,
    ...(pressures.length === 0 ? {} : { pressures: Object.fromEntries(pressures) }),
    ...(flows.length === 0 ? {} : { flows: Object.fromEntries(flows) }),
  };
}

/** Cells of the loop, one after the other. */
function* cellsOf({ plan }: World): Generator<number> {
  for (const id of plan.scenario.job?.loop_links ?? []) {
    const { firstCell, cells } = plan.links[plan.linkIx.get(id)!]!;
    for (let v = firstCell; v < firstCell + cells; v++) yield v;
  }
}

function freezeOf(world: World): FreezeMeasure {
  const { plan, state } = world;
  let [mass, solute, least, most] = [0, 0, 1, 0];
  for (const v of cellsOf(world)) {
    const kg = state.mass[v]!;
    if (kg < FILM * plan.room[v]! * plan.water.rho) continue;
    const x = state.fraction[v]!;
    mass += kg;
    solute += x * kg;
    least = min(least, x);
    most = max(most, x);
  }
  if (mass === 0) least = 0;
  const point = (x: number): number => freezePoint_C(plan.scenario.antifreeze, x);
  const mean = mass === 0 ? 0 : solute / mass;
  return { mean_C: point(mean), weakest_C: point(least), strongest_C: point(most) };
}

function debrisOf(world: World): number {
  let kg = 0;
  for (const v of cellsOf(world)) kg += debrisAt(world, v, 0) + debrisAt(world, v, 1);
  return kg;
}
