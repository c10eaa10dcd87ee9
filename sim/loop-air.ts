// The air that a proof is read for: what is in the part of a loop that a running pump presses on.
import { P_ATM } from './base/units.ts';
import { residualOf } from './derived.ts';
import { SHUT_DEG } from './laws/fitting.ts';
import { openingOf } from './network/passage.ts';
import { JUNCTION, type Plan } from './network/plan.ts';
import type { State } from './state.ts';

/** Gas of a loop. */
export interface LoopAir {
  /** m3 at 1 atm. */
  readonly value: number;
  /** Pa abs that it stands at, by its volume; that of the air outside where there is none. */
  readonly pressure: number;
}

/**
 * Gas in the part of the job's loop that a running pump presses on, if `entry` is the line that the
 * proof is read by: what is shut off from it takes no part.
 */
export function loopAirAt(world: Within, entry: string): LoopAir | null {
  const { plan, state } = world;
  if (residualOf(plan.scenario)?.shut !== entry) return null;
  const loop = new Set(plan.scenario.job?.loop_links ?? []);
  let [sum, room] = [0, 0];
  for (const ix of pressedLinks(world)) {
    const { id, firstCell, cells } = plan.links[ix]!;
    if (!loop.has(id)) continue;
    for (let v = firstCell; v < firstCell + cells; v++) {
      sum += state.gas[v]!;
      room += state.gas[v]! / state.pressure[v]!;
    }
  }
  return { value: sum / P_ATM, pressure: room > 0 ? sum / room : P_ATM };
}

interface Within {
  readonly plan: Plan;
  readonly state: State;
}

/** Links that are open to the outlet of a pump that is on, up to boundaries and through no pump. */
function pressedLinks({ plan, state }: Within): ReadonlySet<number> {
  const on = plan.pumps.filter(({ link }) => state.control[link] === 1);
  const reached = new Set(on.map(({ link }) => plan.links[link]!.to));
  const ways = new Set<number>();
  for (const node of reached) {
    if (plan.nodes[node]!.kind !== JUNCTION) continue;
    plan.links.forEach((way, ix) => {
      if (ways.has(ix) || way.pump >= 0 || (way.from !== node && way.to !== node)) return;
      if (openingOf(plan, state, ix) <= SHUT_DEG) return;
      ways.add(ix);
      reached.add(way.from === node ? way.to : way.from);
    });
  }
  return ways;
}
