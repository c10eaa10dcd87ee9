// A pipe without gas moves in one pass: pressure of each cell, flux at each face, what crosses it,
// and what is left. The laws are those of flux.ts, weigh.ts, split.ts and carry.ts; without gas
// nothing in them asks for a second look. Leaves gas that comes in at an end to split.ts.
import { LIQUID_DUST, PRESSURE_MIN } from '../constants.ts';
import { HALVES, type Net } from '../network/net.ts';
import type { LinkPlan } from '../network/plan.ts';
import { sweep } from './carry.ts';
import { restPipe } from './drift.ts';
import { carriesLoads, type Flow } from './flow.ts';
import { endFluxes, startOf } from './flux.ts';
import { closeEnd, openEnds } from './split.ts';

/** All of a clear pipe of two cells or more, but what crosses its ends. */
export function moveClear(flow: Flow & Net, link: LinkPlan): void {
  const { firstCell, firstFace, cells, firstColumn, columns } = link;
  const { gas, liquid } = flow.moves;
  const { mass } = flow.state;
  endFluxes(flow, link);
  restPipe(flow, link);
  openEnds(flow, link);
  const { out } = flow.fluxes;
  out[0] = 0;
  out[1] = liquid[firstFace]! < 0 ? -liquid[firstFace]! : 0;
  for (let c = firstColumn; c < firstColumn + columns; c++) moveColumn(flow, c, firstCell);
  const end = firstCell + cells - 1;
  gas[firstFace + cells - 1] = 0;
  closeEnd(flow, link);
  mass[end] = mass[end]! + out[0]!;
}

/**
 * One column of it; `first` is the pipe's first cell. In `out`: kg that its last cell has got
 * through the face before it, less what it lost there; and the latter.
 */
function moveColumn(flow: Flow & Net, c: number, first: number): void {
  const { plan, state, scratch, heads, fluxes, moves, dt } = flow;
  const { mass, density, pressure, carried, point } = state;
  const { pull, excess, halves, weight, teePush } = scratch;
  const { liquid } = moves;
  const { out } = fluxes;
  const { give } = plan;
  const { a, b, cell, cells, half, face } = plan.columns[c]!;
  const loaded = carriesLoads(plan);
  const least = PRESSURE_MIN; // What is imported is looked up anew at each use.
  const drop = LIQUID_DUST;
  const loss = (weight[c]! + teePush[c]! - heads.push[c]!) / cells;
  let p = point[a]! + heads.offsetA[c]! - loss / 2;
  let moved = (point[a]! - heads.before[a]!) / dt;
  let q = startOf(flow, c);
  let kgIn = out[0]!;
  let kgLost = out[1]!;
  let v = cell;
  let rho = v > first ? density[v - 1]! : 0;
  let held = v > first ? mass[v - 1]! : 0;
  for (let side = 0; side < 2; side++) {
    const end = side === 0 ? cell + half : cell + cells;
    for (; v < end; v++) {
      const before = rho;
      const holds = held;
      rho = density[v]!;
      held = mass[v]!;
      if (v > first) {
        const l = q * dt;
        let kg = l * (l >= 0 ? before : rho);
        // No cell gives more than it holds, to both sides together.
        if (kg > holds - kgLost) kg = holds - kgLost;
        else if (kg < -held) kg = -held;
        const f = face + v - cell;
        liquid[f] = kg;
        if (loaded) carried[f] = carried[f]! + kg; // load.ts asks for it later.
        const left = holds + (kgIn - kg);
        mass[v - 1] = left;
        if (left < drop && v - 1 > first) sweep(state, v - 1);
        kgIn = kg;
        kgLost = kg < 0 ? -kg : 0;
      }
      const own = pull[v]!;
      const here = p + own / 2;
      pressure[v] = here;
      if (here < least) pressure[v] = least; // A choice of the two would be made on the heap.
      p += own - loss;
      q -= give[v]! * moved - excess[v]!;
    }
    const weightB = halves[HALVES * (2 * c + 1)]!;
    p = point[b]! + heads.offsetB[c]! - weightB + (cells - half - 0.5) * loss;
    moved = (point[b]! - heads.before[b]!) / dt;
  }
  out[0] = kgIn;
  out[1] = kgLost;
}
