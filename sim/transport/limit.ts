// Scales the outflow of a volume to what it holds, each phase by itself. Each face's amount has
// one donor, so pipes and fittings are looked after one by one, and only where they are short.
import { JUNCTION, TANK, type LinkPlan } from '../network/plan.ts';
import type { Flow } from './flow.ts';

/** Share of what is asked that can be given. */
function share(asked: number, held: number): number {
  return asked <= held ? 1 : held / asked;
}

/** The cells of one pipe. */
export function limitPipe({ state, moves }: Flow, link: LinkPlan): void {
  const { firstCell, firstFace, cells } = link;
  limitCells(moves.liquid, moves.liquidOut, state.mass, { firstCell, firstFace, cells });
  limitCells(moves.gas, moves.gasOut, state.gas, { firstCell, firstFace, cells });
}

function limitCells(
  amount: Float64Array,
  out: Float64Array,
  held: Float64Array,
  pipe: { firstCell: number; firstFace: number; cells: number },
): void {
  const { firstCell, firstFace, cells } = pipe;
  for (let k = 0; k < cells; k++) {
    const back = amount[firstFace + k]!;
    const on = amount[firstFace + k + 1]!;
    const asked = (back < 0 ? -back : 0) + (on > 0 ? on : 0);
    out[firstCell + k] = share(asked, held[firstCell + k]!);
  }
  for (let k = 0; k <= cells; k++) {
    const x = amount[firstFace + k]!;
    if (x > 0 && k > 0) amount[firstFace + k] = x * out[firstCell + k - 1]!;
    if (x < 0 && k < cells) amount[firstFace + k] = x * out[firstCell + k]!;
  }
}

/**
 * Fittings and tanks. Boundaries never run out; gas of a tank is its bubbles and then air, which
 * tank.ts settles.
 */
export function limitFittings(flow: Flow): void {
  const { plan, state, moves } = flow;
  const { gasOut, liquidOut, gas, liquid } = moves;
  if (!fittingsShort(flow)) return;
  for (let n = 0; n < plan.nodes.length; n++) {
    const { kind } = plan.nodes[n]!;
    gasOut[n] = kind === JUNCTION ? share(gasOut[n]!, state.gas[n]!) : 1;
    const finite = kind === JUNCTION || kind === TANK;
    liquidOut[n] = finite ? share(liquidOut[n]!, state.mass[n]!) : 1;
  }
  for (let i = 0; i < plan.links.length; i++) {
    const { from, to, firstFace, cells } = plan.links[i]!;
    const end = firstFace + cells;
    if (liquid[firstFace]! > 0) liquid[firstFace] = liquid[firstFace]! * liquidOut[from]!;
    if (gas[firstFace]! > 0) gas[firstFace] = gas[firstFace]! * gasOut[from]!;
    if (liquid[end]! < 0) liquid[end] = liquid[end]! * liquidOut[to]!;
    if (gas[end]! < 0) gas[end] = gas[end]! * gasOut[to]!;
  }
}

/** Sums what is asked from each fitting and tank; true where one has less. */
function fittingsShort(flow: Flow): boolean {
  const { plan, state, moves } = flow;
  const { gasOut, liquidOut, gas, liquid } = moves;
  const nodes = plan.nodes.length;
  gasOut.fill(0, 0, nodes);
  liquidOut.fill(0, 0, nodes);
  for (let i = 0; i < plan.links.length; i++) {
    const { from, to, firstFace, cells } = plan.links[i]!;
    const end = firstFace + cells;
    if (liquid[firstFace]! > 0) liquidOut[from] = liquidOut[from]! + liquid[firstFace]!;
    if (gas[firstFace]! > 0) gasOut[from] = gasOut[from]! + gas[firstFace]!;
    if (liquid[end]! < 0) liquidOut[to] = liquidOut[to]! - liquid[end]!;
    if (gas[end]! < 0) gasOut[to] = gasOut[to]! - gas[end]!;
  }
  for (let n = 0; n < nodes; n++) {
    const { kind } = plan.nodes[n]!;
    if (kind === JUNCTION && gasOut[n]! > state.gas[n]!) return true;
    if ((kind === JUNCTION || kind === TANK) && liquidOut[n]! > state.mass[n]!) return true;
  }
  return false;
}
