// What of a world the charts follow: one row of numbers, SI, each time it is looked at. The true
// values, which may be shown when the job is over; not what gauges said of them.
import {
  measure, P_ATM, snapshot, xray, type Scenario, type World, type Xray,
} from '../../sim/index.ts';

/** More lines than this in one chart cannot be told apart. */
const LINES_MAX = 3;

export interface Row {
  readonly tick: number;
  /** m3/s through each pump that is followed. */
  readonly flows: readonly number[];
  /** m/s, either way, in the slowest and the fastest pipe of the loop. */
  readonly slowest: number;
  readonly fastest: number;
  /** m3 at 1 atm in the loop. */
  readonly air: number;
  /** m of the cart's tank; 0 where there is none. */
  readonly level: number;
  /** Pa gauge at each place that is followed. */
  readonly pressures: readonly number[];
  /** m3 so far. */
  readonly spilled: number;
  readonly wasted: number;
}

interface Place {
  /** The instrument it is named after. */
  readonly gauge: string;
  readonly node: string;
}

export interface Followed {
  readonly pumps: readonly string[];
  readonly tank: string | null;
  readonly places: readonly Place[];
  readonly loop: readonly string[];
}

/** The cart's pump first, then the plant's own; places that have a pressure gauge. */
export function followedOf({ links, nodes, instruments, job }: Scenario): Followed {
  const pumps = links.filter((link) => link.kind === 'pump');
  const cart = pumps.find(({ unattended }) => unattended !== true);
  const own = pumps.find(({ unattended }) => unattended === true);
  const gauges = instruments.flatMap((one) =>
    one.kind === 'pressure' ? [{ gauge: one.id, node: one.node }] : []);
  return {
    pumps: [cart, own].flatMap((pump) => (pump === undefined ? [] : [pump.id])),
    tank: nodes.find(({ kind }) => kind === 'tank')?.id ?? null,
    places: gauges.slice(0, LINES_MAX),
    loop: job?.loop_links ?? [],
  };
}

/** m/s, either way, of each of the loop's pipes. */
function speedsOf({ links }: Xray, loop: readonly string[]): readonly number[] {
  const of = new Map(links.map(({ id, velocity }) => [id, Math.abs(velocity)]));
  return loop.map((id) => of.get(id) ?? 0);
}

export interface Seen {
  readonly row: Row;
  /** Of the loop's pipes, in their order. */
  readonly speeds: readonly number[];
}

export function seenOf(world: World, followed: Followed): Seen {
  const inside = xray(world);
  const { tick, scene } = snapshot(world);
  const flows = new Map(inside.links.map(({ id, flow }) => [id, flow]));
  const pressures = new Map(inside.nodes.map(({ id, pressure }) => [id, pressure]));
  const speeds = speedsOf(inside, followed.loop);
  const { loop_air_m3: air, spilled_m3: spilled, wasted_m3: wasted } = measure(world);
  const row = {
    tick,
    flows: followed.pumps.map((id) => flows.get(id) ?? 0),
    slowest: speeds.length === 0 ? 0 : Math.min(...speeds),
    fastest: speeds.length === 0 ? 0 : Math.max(...speeds),
    air,
    level: scene.tanks.find(({ id }) => id === followed.tank)?.level ?? 0,
    pressures: followed.places.map(({ node }) => (pressures.get(node) ?? P_ATM) - P_ATM),
    spilled,
    wasted,
  };
  return { row, speeds };
}
