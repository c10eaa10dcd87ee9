// What the rig does while the loop is purged, by the steady solver: flows, the head that a flow
// takes, pressures, the tap's flow. The plant as designed, full of water, nothing worn or blocked.
import { assert } from '../base/assert.ts';
import { abs, max, PI } from '../base/math.ts';
import { G } from '../base/units.ts';
import { makePumpCurve, pumpHead } from '../laws/pump.ts';
import { density } from '../laws/water.ts';
import type { ConduitSpec, LinkSpec, PumpSpec, Scenario } from '../scenario.ts';
import type { SheetSpec } from '../scenario-sheet.ts';
import { steadyState, type Steady } from '../steady.ts';
import { NoSteadyFlow } from '../steady-net.ts';
import { leastFlow, type Section } from './least-flow.ts';

export type Settings = Readonly<Record<string, number>>;

export interface Rig {
  readonly scenario: Scenario;
  readonly sheet: SheetSpec;
  readonly pump: PumpSpec;
  /** kg/m3 of the water. */
  readonly rho: number;
  /** The loop's pipes and hoses. */
  readonly loop: readonly ConduitSpec[];
  /** While the whole loop is purged at once. */
  readonly purge: Steady;
  /** What has been worked out before: it is always the same. */
  readonly known: {
    readonly steady: Map<string, Steady>;
    readonly heads: Map<string, number | null>;
  };
}

/** m3/s below which a section stands still. */
const STILL = 1e-7;

/** Sections that flow. */
export const flowing = ({ links }: Steady): Steady['links'] =>
  links.filter(({ flow }) => abs(flow) > STILL);

export const isConduit = (link: LinkSpec): link is ConduitSpec =>
  link.kind === 'pipe' || link.kind === 'hose';

export function areaOf({ bore_mm }: { readonly bore_mm: number }): number {
  const D = bore_mm / 1000;
  return (PI / 4) * D * D;
}

/** m3. */
export const roomOf = (link: ConduitSpec): number => areaOf(link) * link.length_m;

/** Without what a steady flow does not ask for, so that it is found sooner. */
function bare(scenario: Scenario): Scenario {
  const { power, debris, room, dissolved_air, heat, job, defects, ...rest } = scenario;
  void [power, debris, room, dissolved_air, heat, job, defects];
  return { ...rest, devices: [], instruments: [], record: [] };
}

export function makeRig(scenario: Scenario): Rig {
  const sheet = scenario.job?.sheet;
  assert(sheet !== undefined, 'a job without a sheet');
  const plain = bare(scenario);
  const pump = plain.links.find(
    (link): link is PumpSpec => link.kind === 'pump' && sheet.purge[link.id] === 1,
  );
  assert(pump !== undefined, 'no pump is on while the loop is purged');
  const inLoop = new Set(scenario.job?.loop_links);
  return {
    scenario: plain,
    sheet,
    pump,
    rho: density(scenario.temperature_C),
    loop: plain.links.filter(isConduit).filter(({ id }) => inLoop.has(id)),
    purge: solved(plain, sheet.purge),
    known: { steady: new Map(), heads: new Map() },
  };
}

/**
 * Flows and pressures with the controls so, besides their start. Where what stands still behind
 * tees keeps them from settling, without their losses.
 */
function solved(scenario: Scenario, settings: Settings): Steady {
  const overrides = new Map(Object.entries(settings));
  try {
    return steadyState(scenario, overrides);
  } catch (error) {
    if (!(error instanceof NoSteadyFlow)) throw error;
    const nodes = scenario.nodes.map((node) => {
      if (node.kind !== 'junction') return node;
      const { tee: _its_losses, ...plain } = node;
      return plain;
    });
    return steadyState({ ...scenario, nodes }, overrides);
  }
}

export function steadyWith({ scenario, known }: Rig, settings: Settings): Steady {
  const key = JSON.stringify(settings);
  const steady = known.steady.get(key) ?? solved(scenario, settings);
  known.steady.set(key, steady);
  return steady;
}

/** Sections that flow, each the way it flows, with what it must carry; the pump left out. */
function sectionsOf(rig: Rig, steady: Steady, least: ReadonlyMap<string, number>): Section[] {
  return flowing(steady)
    .filter(({ id }) => id !== rig.pump.id)
    .map(({ id, from, to, flow }) => ({
      id,
      from: flow > 0 ? from : to,
      to: flow > 0 ? to : from,
      least: least.get(id) ?? 0,
    }));
}

export interface Need {
  /** m3/s through the pump: were the flow shared out as it should be, and as it is. */
  readonly value: number;
  readonly most: number;
}

/** Flow through the pump with which each loop link carries what it must, m3/s by id. */
export function needOf(rig: Rig, steady: Steady, least: ReadonlyMap<string, number>): Need {
  const [source, sink] = endsOf(steady, rig.pump.id);
  const value = leastFlow(sectionsOf(rig, steady, least), source, sink);
  const total = abs(steady.links.find(({ id }) => id === rig.pump.id)?.flow ?? 0);
  const found = flowing(steady)
    .filter(({ id }) => least.has(id))
    .map(({ id, flow }) => (least.get(id)! * total) / abs(flow));
  return { value, most: found.reduce((x, y) => max(x, y), value) };
}

/** Nodes at the pump's outlet and inlet. */
function endsOf(steady: Steady, pump: string): readonly [string, string] {
  const found = steady.links.find(({ id }) => id === pump);
  assert(found !== undefined, `no pump ${pump}`);
  return [found.to, found.from];
}

/** m that the pump has to lift for a flow of Q m3/s; null where no such flow is found. */
export function headFor(rig: Rig, settings: Settings, Q: number): number | null {
  const key = `${Q} ${JSON.stringify(settings)}`;
  let head = rig.known.heads.get(key);
  if (head === undefined) {
    head = headAnew(rig, settings, Q);
    rig.known.heads.set(key, head);
  }
  return head;
}

function headAnew(rig: Rig, settings: Settings, Q: number): number | null {
  const { scenario, pump, rho } = rig;
  const { id, from, to, bore_mm } = pump;
  const imposed: LinkSpec = { id, kind: 'fixed_flow', from, to, bore_mm, flow_L_s: 1000 * Q };
  const links = scenario.links.map((link) => (link.id === id ? imposed : link));
  const { [id]: _runs, ...others } = settings;
  try {
    const steady = solved({ ...scenario, links }, others);
    const [outlet, inlet] = endsOf(steady, id);
    const at = (name: string) => steady.nodes.find((node) => node.id === name);
    const [a, b] = [at(inlet), at(outlet)];
    if (a === undefined || b === undefined) return null;
    if (a.pressure === null || b.pressure === null) return null;
    return (b.pressure - a.pressure) / (rho * G) + b.elevation - a.elevation;
  } catch (error) {
    if (error instanceof NoSteadyFlow) return null;
    throw error;
  }
}

/** m that the pump gives at Q m3/s, by its curve. */
export function headGiven({ pump }: Rig, Q: number): number {
  const points = pump.curve.map(({ flow_L_s, head_m }) => [flow_L_s / 1000, head_m] as const);
  const out = new Float64Array(2);
  pumpHead(makePumpCurve(points), Q, 1, out);
  return out[0]!;
}

/** Settings under which one group of banks after the other is purged: all banks in n groups. */
export function groupsOf({ sheet }: Rig, n: number): readonly Settings[] {
  const { purge, banks } = sheet;
  if (n <= 1) return [purge];
  const size = banks.length / n;
  return Array.from({ length: n }, (_, group) => {
    const shut = banks.filter((_bank, k) => k < group * size || k >= (group + 1) * size);
    return { ...purge, ...Object.fromEntries(shut.flat().map((id) => [id, 0])) };
  });
}
