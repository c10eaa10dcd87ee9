// What eyes and ears get of a world, part by part, and what gauges show. Each part is made when it
// is first asked for: whoever looks at one hand does not pay for the whole yard. Good until the
// world goes on.
import { abs, min } from './base/math.ts';
import { P_ATM } from './base/units.ts';
import { controlId, firstDevice, inHand, type InHand } from './hands.ts';
import { readInstruments } from './instrument.ts';
import type { HandsSeen, OutletSeen, Panel, Scene } from './lens.ts';
import { BUBBLE_COARSE, BUBBLE_FINE } from './constants.ts';
import { freshen } from './liquids.ts';
import { SPEED } from './machines.ts';
import { tankLevel } from './network/columns.ts';
import { shareNow } from './network/weigh-now.ts';
import { backIn } from './night.ts';
import { OPEN, TANK, type EndPlan, type LinkPlan, type Plan } from './network/plan.ts';
import { lastPosition } from './scenario-devices.ts';
import { airDrawn } from './transport/tank.ts';
import { LEDGER_STRIDE, PUMP_STRIDE } from './state.ts';
import type { World } from './world-parts.ts';

/** m3/s at the middle of a link. */
export function middleFlow(world: World, linkIx: number): number {
  const link = world.plan.links[linkIx]!;
  return world.state.flow[link.firstColumn + (link.columns >> 1)]!;
}

/** True for valves that a hand turns: of a three-way valve's legs, the one with its id. */
export function isHandle(plan: Plan, ix: number): boolean {
  const { spec, control } = plan.links[ix]!;
  return spec.kind === 'valve' || (spec.kind === 'leg' && control === ix);
}

function handsSeen(plan: Plan, { busy, all }: InHand): HandsSeen {
  const waiting = all.slice(busy < 0 ? 0 : 1).map(([ix]) => controlId(plan, ix));
  return { busy: busy < 0 ? null : controlId(plan, busy), waiting };
}

/** A link at an open end: which way it runs there, and what it draws from. */
interface Stream {
  readonly link: number;
  readonly sign: 1 | -1;
  readonly node: number;
  /** The end of its column there, where that is a tank's. */
  readonly end: EndPlan | undefined;
}

/** What of a plant is seen, found once: by index of its links, and by node what runs out there. */
interface Sights {
  readonly handles: readonly number[];
  readonly couplings: readonly number[];
  readonly clear: readonly number[];
  readonly open: ReadonlyMap<number, readonly Stream[]>;
  /** Volumes whose gas is seen or heard, and the share that it has of every volume. */
  readonly gassy: Int32Array;
  readonly alpha: Float64Array;
}

const known = new WeakMap<Plan, Sights>();

function sightsOf(plan: Plan): Sights {
  const sights = known.get(plan) ?? findSights(plan);
  known.set(plan, sights);
  return sights;
}

function findSights(plan: Plan): Sights {
  const { links, nodes, scenario } = plan;
  const where = (is: (link: LinkPlan, ix: number) => boolean): number[] =>
    links.flatMap((link, ix) => (is(link, ix) ? [ix] : []));
  const open = nodes.flatMap(({ kind }, n) => {
    return kind === OPEN && !plan.defects.unseen.has(n) ? [[n, streamsAt(plan, n)] as const] : [];
  });
  const clear = where(({ spec }) => (spec.kind === 'pipe' || spec.kind === 'hose') && spec.clear);
  const looked = scenario.instruments.flatMap((one) => {
    return one.kind === 'sight' ? [plan.linkIx.get(one.link)!] : [];
  });
  const cells = [...clear, ...looked].flatMap((ix) => {
    const { firstCell, cells: count } = links[ix]!;
    return Array.from({ length: count }, (_, k) => firstCell + k);
  });
  const fittings = [
    ...plan.pumps.map(({ link }) => links[link]!.from),
    ...open.flatMap(([, streams]) => streams.map(({ node }) => node)),
  ];
  return {
    handles: where((_, ix) => isHandle(plan, ix)),
    couplings: where(({ spec }) => spec.kind === 'coupling'),
    clear,
    open: new Map(open),
    gassy: Int32Array.from(new Set([...cells, ...fittings])),
    alpha: new Float64Array(plan.volumes),
  };
}

function streamsAt({ links, nodes, ends }: Plan, n: number): Stream[] {
  return links.flatMap(({ from, to, firstColumn, columns }, link): Stream[] => {
    if (to !== n && from !== n) return [];
    const node = to === n ? from : to;
    const isOurs = ({ column }: EndPlan): boolean =>
      column >= firstColumn && column < firstColumn + columns;
    const end = nodes[node]!.tank < 0 ? undefined : ends.find((e) => e.node === node && isOurs(e));
    return [{ link, sign: to === n ? 1 : -1, node, end }];
  });
}

/** What a coarse bubble's gas dims the view over that of fine ones: by their diameters. */
const COARSE_DIMS = BUBBLE_FINE / BUBBLE_COARSE;

type Kept = { -readonly [K in keyof Scene]?: Scene[K] };

/** A scene whose parts are made when they are asked for, and the panel beside it. */
export class Glance implements Scene {
  private readonly world: World;
  private readonly sights: Sights;
  private readonly kept: Kept = {};
  private gas: Float64Array | null = null;
  private shown: Panel | null = null;
  private inHands: readonly [own: InHand, helped: InHand] | null = null;
  private targets: ReadonlyMap<number, number> | null = null;

  constructor(world: World) {
    this.world = world;
    this.sights = sightsOf(world.plan);
  }

  get panel(): Panel {
    const { plan, state } = this.world;
    return (this.shown ??= { readings: readInstruments(plan, state, this.alpha) });
  }

  get valves(): Scene['valves'] {
    const { plan, state } = this.world;
    return (this.kept.valves ??= this.sights.handles.map((ix) => {
      const { id, spec } = plan.links[ix]!;
      const range_deg = spec.kind === 'leg' ? 270 : 90;
      return { id, deg: state.control[ix]!, target_deg: this.wantedOf(ix), range_deg };
    }));
  }

  get couplings(): Scene['couplings'] {
    const { plan, state } = this.world;
    return (this.kept.couplings ??= this.sights.couplings.map((ix) => {
      const made = state.control[ix]! > 0.5;
      return { id: plan.links[ix]!.id, made, wanted: this.wantedOf(ix) === 1 };
    }));
  }

  get pumps(): Scene['pumps'] {
    const { plan, state } = this.world;
    return (this.kept.pumps ??= plan.pumps.map(({ id, link }, k) => ({
      id,
      on: state.control[link] === 1,
      wanted: this.wantedOf(link) === 1,
      speed: state.pump[k * PUMP_STRIDE + SPEED]!,
    })));
  }

  get tanks(): Scene['tanks'] {
    const { plan, state } = this.world;
    return (this.kept.tanks ??= plan.tanks.map(({ id, node, spec }, k) => {
      const liquid = state.mass[node]! / state.density[node]!;
      const coarse = state.tankGas[2 * k]!;
      const dims = state.gas[node]! - (1 - COARSE_DIMS) * coarse;
      return {
        id,
        level: tankLevel(plan, state, k),
        height: spec.height_mm / 1000,
        bubbles: liquid > 0 ? min(1, (50 * dims) / P_ATM / liquid) : 0,
        overflow: state.tankRate[2 * k]!,
        foam: state.tankGas[2 * k + 1]! / P_ATM / spec.area_m2,
        fizz: state.tankRate[2 * k + 1]!,
        mark: state.mark[k]! < 0 ? null : state.mark[k]!,
      };
    }));
  }

  get clear(): Scene['clear'] {
    const { world, alpha } = this;
    return (this.kept.clear ??= this.sights.clear.map((ix) => {
      const { id, area, firstCell, cells } = world.plan.links[ix]!;
      const gas = Array.from(alpha.subarray(firstCell, firstCell + cells));
      return { id, velocity: middleFlow(world, ix) / area, gas };
    }));
  }

  /** Rims and open ends, each with what runs out of it. */
  get outlets(): Scene['outlets'] {
    return (this.kept.outlets ??= this.world.plan.nodes.flatMap((_, n) => this.outletAt(n)));
  }

  get devices(): Scene['devices'] {
    const { plan, state } = this.world;
    const first = firstDevice(plan);
    return (this.kept.devices ??= plan.scenario.devices.map((spec, d) => {
      const position = state.device[d]!;
      const wanted = this.targetOf(first + d) ?? position;
      return { id: spec.id, kind: spec.kind, position, wanted, last: lastPosition(spec) };
    }));
  }

  get hand_pumps(): Scene['hand_pumps'] {
    const { plan, state } = this.world;
    return (this.kept.hand_pumps ??= plan.mix.strokes.map((ix) => {
      return { id: plan.links[ix]!.id, strokes: state.control[ix]!, wanted: this.wantedOf(ix) };
    }));
  }

  get hands(): HandsSeen {
    return (this.kept.hands ??= handsSeen(this.world.plan, this.inHand[0]));
  }

  get helper(): HandsSeen | null {
    const { plan } = this.world;
    if (plan.scenario.hands.helper === undefined) return null;
    return (this.kept.helper ??= handsSeen(plan, this.inHand[1]));
  }

  get back_in_s(): number | null {
    return backIn(this.world.plan, this.world.state);
  }

  get over(): boolean {
    return this.world.state.counter[1] === 1;
  }

  private get inHand(): readonly [own: InHand, helped: InHand] {
    const { state } = this.world;
    return (this.inHands ??= [inHand(state, 0), inHand(state, 1)]);
  }

  /** What hands are to bring a control to. */
  private targetOf(control: number): number | undefined {
    const [own, helped] = this.inHand;
    return (this.targets ??= new Map([...own.all, ...helped.all])).get(control);
  }

  private wantedOf(ix: number): number {
    return this.targetOf(ix) ?? this.world.state.control[ix]!;
  }

  /** Gas shares, of what is seen and heard alone. */
  private get alpha(): Float64Array {
    if (this.gas !== null) return this.gas;
    const { plan, state, scratch, frames } = this.world;
    // At night it is a frame with longer steps that keeps its scratch up to date.
    if (frames.last !== null && frames.last !== this.world) freshen(this.world);
    const { gassy, alpha } = this.sights;
    for (let k = 0; k < gassy.length; k++) {
      alpha[gassy[k]!] = shareNow(plan, state, scratch, gassy[k]!);
    }
    return (this.gas = alpha);
  }

  private outletAt(n: number): OutletSeen[] {
    const { plan, state } = this.world;
    const { id, kind, tank, ledger } = plan.nodes[n]!;
    const streams = this.sights.open.get(n);
    if (kind !== TANK && streams === undefined) return [];
    const total = state.ledger[ledger * LEDGER_STRIDE]! / plan.water.rho;
    if (streams === undefined) return [{ id, rate: state.tankRate[2 * tank]!, total }];
    let rate = 0;
    for (const stream of streams) {
      const q = middleFlow(this.world, stream.link);
      const runs = this.wetShare(stream, q) * q;
      rate = stream.sign > 0 ? rate + runs : rate - runs;
    }
    return [{ id, rate, total }];
  }

  /** Share of liquid in what a node gives to a link. */
  private wetShare({ node, end }: Stream, q: number): number {
    const { plan, state } = this.world;
    return 1 - (end === undefined ? this.alpha[node]! : airDrawn(plan, state, end, abs(q)));
  }
}

/** All of it at once, as plain data. */
export function sceneOf(glance: Glance): Scene {
  return {
    valves: glance.valves,
    couplings: glance.couplings,
    pumps: glance.pumps,
    tanks: glance.tanks,
    clear: glance.clear,
    outlets: glance.outlets,
    devices: glance.devices,
    hand_pumps: glance.hand_pumps,
    hands: glance.hands,
    helper: glance.helper,
    back_in_s: glance.back_in_s,
    over: glance.over,
  };
}
