// The books as a lens, and what was true at "I'm done": for instructors, debriefs and marks.
import { abs } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import {
  antifreezeByPart,
  balance,
  contents,
  dissolved,
  heatBalance,
  heatLedgers,
} from './books.ts';
import { defectsOf } from './defects/seen.ts';
import type { Measures } from './fact.ts';
import type { Truth } from './lens.ts';
import { HEAT, shaftNow } from './machines.ts';
import { measureOutcomes } from './outcomes.ts';
import { powerTruth } from './power.ts';
import { roomAir } from './rooms.ts';
import { isHandle } from './scene.ts';
import { look, timeOf } from './see.ts';
import { debrisTruth } from './see-debris.ts';
import { LEDGER_STRIDE, PUMP_STRIDE } from './state.ts';
import { carriesAir } from './transport/flow.ts';
import type { World } from './world-parts.ts';

/** m3 at 1 atm of gas in these links. */
export function gasIn(world: World, ids: readonly string[]): number {
  let sum = 0;
  for (const id of ids) {
    const link = world.plan.links[world.plan.linkIx.get(id)!]!;
    for (let v = link.firstCell; v < link.firstCell + link.cells; v++) sum += world.state.gas[v]!;
  }
  return sum / P_ATM;
}

/** The books, for instructors and debriefs. */
export function truth(world: World): Truth {
  look(world);
  const { plan, state, scratch } = world;
  return {
    liquid: balance(world, 0, 1),
    antifreeze: balance(world, 1, 1),
    gas: balance(world, 2, P_ATM),
    gas_by_link: Object.fromEntries(plan.links.map((l) => [l.id, gasIn(world, [l.id])])),
    ledgers: Object.fromEntries(
      plan.ledgers.map((id, l) => [id, state.ledger[l * LEDGER_STRIDE]!]),
    ),
    ...debrisTruth(world),
    heat: plan.thermal === null ? null : heatBalance(world),
    heat_ledgers: heatLedgers(world),
    dissolved_m3: carriesAir(plan) ? dissolved(state) / P_ATM : null,
    antifreeze_by_part: antifreezeByPart(world),
    room: roomAir(plan, state),
    loop_air_m3: gasIn(world, plan.scenario.job?.loop_links ?? []),
    casing_C: Object.fromEntries(
      plan.pumps.map((p, k) => [
        p.id,
        plan.scenario.temperature_C + state.pump[k * PUMP_STRIDE + HEAT]!,
      ]),
    ),
    power: powerTruth(plan, state),
    defects: defectsOf(world),
    pumps: plan.pumps.map(({ id }, k) => ({
      id,
      shaft_W: shaftNow(plan, state, scratch.alpha, k),
    })),
  };
}

/** What is true at "I'm done". */
export function measure(world: World): Measures {
  const { plan, state } = world;
  const loop = plan.scenario.job?.loop_links ?? [];
  const loopAir = gasIn(world, loop);
  let spilled = 0;
  let wasted = 0;
  plan.nodes.forEach((node) => {
    const lost = node.ledger < 0 ? 0 : state.ledger[node.ledger * LEDGER_STRIDE]! / plan.water.rho;
    const { spec } = node;
    if (spec.kind === 'tank') spilled += abs(lost);
    if (spec.kind === 'open') {
      if (spec.goes_to === 'ground') spilled += abs(lost);
      else wasted += abs(lost);
    }
  });
  const volume = loop.reduce((sum, id) => {
    const link = plan.links[plan.linkIx.get(id)!]!;
    return sum + link.area * link.length;
  }, 0);
  return {
    loop_air_m3: loopAir,
    other_air_m3: (contents(world)[2] - dissolved(state)) / P_ATM - loopAir,
    loop_volume_m3: volume,
    spilled_m3: spilled,
    wasted_m3: wasted,
    time_s: timeOf(world),
    ...measureOutcomes(world),
    controls: Object.fromEntries([
      ...plan.scenario.devices.map(({ id }, d) => [id, state.device[d]!] as const),
      ...plan.links.flatMap((link, ix) =>
        isHandle(plan, ix) || link.spec.kind === 'pump' || link.spec.kind === 'coupling'
          ? [[link.id, state.control[ix]!] as const]
          : [],
      ),
    ]),
  };
}
