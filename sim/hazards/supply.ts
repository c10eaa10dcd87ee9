// A rig joined to a drinking-water supply without backflow protection: what stands in the rig may
// be pressed or drawn back. Leaves out which protection a code asks for.
import { max, min } from '../base/math.ts';
import { G } from '../base/units.ts';
import { SHUT_DEG } from '../laws/fitting.ts';
import { endPressure } from '../network/columns.ts';
import { openingOf } from '../network/passage.ts';
import { RESERVOIR, type Plan } from '../network/plan.ts';
import { KEPT, type Hazard, type Judged, type Place, type Watch } from './kind.ts';

/** s that what presses back must last. */
const LASTS = 2;
/** m3/s that, run back through the joint, count as much as the limit does. */
const RUNS_BACK = 2e-5;
/** What it counts to be joined at all. */
const JOINED = 0.5;
const LIMIT = 1.02;

/** The nearest reservoir from one end of a link without passing it, and the links to it. */
function wayToSupply(plan: Plan, start: number, guarded: number): number[] | null {
  const ways = new Map<number, number[]>([[start, []]]);
  for (const [node, way] of ways) {
    if (plan.nodes[node]!.kind === RESERVOIR) return way;
    plan.links.forEach((link, ix) => {
      if (ix === guarded || (link.from !== node && link.to !== node)) return;
      const next = link.from === node ? link.to : link.from;
      if (!ways.has(next)) ways.set(next, [...way, ix]);
    });
  }
  return null;
}

/** `more`: the link, its supply, 1 where that is at the link's from-end or 0, the links to it. */
function supplies(plan: Plan): Place[] {
  return plan.scenario.devices.flatMap((spec, index) => {
    if (spec.kind !== 'guard') return [];
    const link = plan.linkIx.get(spec.of)!;
    const { from, to } = plan.links[link]!;
    const ahead = wayToSupply(plan, from, link);
    const behind = wayToSupply(plan, to, link);
    const atFrom = behind === null || (ahead !== null && ahead.length <= behind.length);
    const way = atFrom ? ahead : behind;
    if (way === null) return [];
    const end = atFrom ? from : to;
    const supply = way.reduce((node, ix) => {
      const at = plan.links[ix]!;
      return at.from === node ? at.to : at.from;
    }, end);
    return [{ at: spec.of, index, more: [link, supply, atFrom ? 1 : 0, ...way] }];
  });
}

function isJoined({ plan, state }: Judged, { index, more }: Watch): boolean {
  if (state.device[index]! > 0 || openingOf(plan, state, more[0]!) <= SHUT_DEG) return false;
  for (let k = 3; k < more.length; k++) {
    if (openingOf(plan, state, more[k]!) <= SHUT_DEG) return false;
  }
  return true;
}

/** The rig's absolute pressure at the supply's height, over the supply's; flow back adds to it. */
function pressedBack({ plan, state }: Judged, more: readonly number[]): number {
  const link = plan.links[more[0]!]!;
  const supply = plan.nodes[more[1]!]!;
  const fromSupply = more[2] === 1;
  const column = link.firstColumn + (fromSupply ? link.columns - 1 : 0);
  const z = fromSupply ? link.zTo : link.zFrom;
  const rig = endPressure(plan, state, column, !fromSupply);
  const head = rig + plan.water.rho * G * (z - supply.elevation);
  const back = (fromSupply ? -1 : 1) * state.flow[column]!;
  return max(0, head / supply.pressure) + max(0, back / RUNS_BACK) * LIMIT;
}

function mayComeBack(world: Judged, watch: Watch, slot: number): number {
  const { watch: kept } = world.state;
  if (!isJoined(world, watch)) {
    kept[slot + KEPT] = 0;
    return 0;
  }
  const before = kept[slot + KEPT]!;
  const now = min(2, pressedBack(world, watch.more));
  kept[slot + KEPT] = before + (world.dt / (LASTS + world.dt)) * (now - before);
  return max(JOINED, kept[slot + KEPT]!);
}

/**
 * Absolute pressure of the rig over the supply's; joined without protection counts as half. Two
 * hundredths more than the supply's is what a rig at rest on it never shows [common practice, no
 * source: any joint without the protection that the local code asks for is wrong].
 */
export const noBackflow: Hazard = {
  kind: 'no_backflow',
  limits: { warn: JOINED, trip: LIMIT },
  places: supplies,
  measure: mayComeBack,
};
