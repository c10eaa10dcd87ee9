// Antifreeze that the liquid carries (load.ts says how), and what follows from it: the fraction
// and, where temperature stands still, the density of every volume.
import { atFraction } from '../network/mixture.ts';
import { JUNCTION, LEDGER_DUST, TANK, type LinkPlan, type Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import { freshAir } from './dissolved.ts';
import { warm } from './heat.ts';
import { carryAlong, forgetCarried } from './along.ts';
import { crossEnds, type Crossing, type Loads } from './load.ts';

/** Every tick: across pipe ends and fittings. */
export function mixNodes(flow: Crossing, loads: Loads): void {
  const { plan, state } = flow;
  crossEnds(flow, loads);
  for (let n = 0; n < plan.nodes.length; n++) {
    const kind = plan.kinds[n]!;
    if (kind === JUNCTION || kind === TANK) refresh(plan, state, n);
  }
}

/** kg. What a dry volume keeps for the next liquid to take up; less goes to the dust. */
const RESIDUE_DUST = 1e-9;
const DUST = LEDGER_DUST * LEDGER_STRIDE;

/** Fraction and density from contents; with heat, temperature and ice as well. */
function refresh(plan: Plan, state: State, v: number): void {
  refreshFraction(plan, state, v);
  if (plan.thermal !== null) warm(plan.thermal, state, v);
  if (state.air.length > 0) freshAir(state, v);
}

function refreshFraction(plan: Plan, state: State, v: number): void {
  const mass = state.mass[v]!;
  const solute = state.solute[v]!;
  if (mass <= 0) {
    if (solute === 0 || solute > RESIDUE_DUST) return;
    state.ledger[DUST + 1]! += solute;
    state.solute[v] = 0;
    return;
  }
  const share = solute / mass;
  const x = share > 1 ? 1 : share > 0 ? share : 0;
  if (x === state.fraction[v]) return;
  state.fraction[v] = x;
  if (plan.thermal === null) state.density[v] = atFraction(plan.mixture, x);
}

/** Five times a second: along each pipe. `flux` is scratch, one number a face. */
export function carryLoads(plan: Plan, state: State, loads: Loads, flux: Float64Array): void {
  const { solute, heat, air } = loads;
  const alone = heat === null && air === null && plan.thermal === null;
  const means = { flux, mixture: alone ? plan.mixture : null };
  for (let i = 0; i < plan.links.length; i++) {
    const link = plan.links[i]!;
    if (link.cells === 0) continue;
    if (solute !== null && carryAlong(state, link, solute, means)) continue;
    if (heat !== null) carryAlong(state, link, heat, means);
    if (air !== null) carryAlong(state, link, air, means);
    forgetCarried(state, link);
    refreshPipe(plan, state, link);
  }
}

/** All cells of a pipe: `refresh`, with the same sums. */
function refreshPipe(plan: Plan, state: State, { firstCell, cells }: LinkPlan): void {
  const { mass, solute, fraction, density } = state;
  const { mixture, thermal } = plan;
  for (let v = firstCell; v < firstCell + cells; v++) {
    const kg = mass[v]!;
    if (kg <= 0 || thermal !== null) {
      refresh(plan, state, v);
      continue;
    }
    const share = solute[v]! / kg;
    const x = share > 1 ? 1 : share > 0 ? share : 0;
    if (x === fraction[v]) continue;
    fraction[v] = x;
    density[v] = atFraction(mixture, x);
  }
}
