// Seeded networks for the steady solver: series, parallel with direct and reverse return, grids,
// banks of which some are shut; fed by heads, a tank or a pumped main; one pump or two.
// Leaves out gas, tees' losses, coils and three-way valves: the rival program has none of them.
import { parseScenario, type Scenario } from '../../sim/index.ts';
import { frictionFactor } from '../../sim/laws/friction.ts';
import { density, viscosity } from '../../sim/laws/water.ts';
import { steadyState, type Steady } from '../../sim/steady.ts';
import { chance } from './chance.ts';
import { between, field, joint, logBetween, pipe, places, SHAPES } from './networks-parts.ts';
import type { Draft, Ends, Shape } from './networks-parts.ts';

export const PLANTS = ['heads', 'tank', 'main'] as const;
export const PUMPS = ['one', 'series', 'parallel'] as const;
type Plant = (typeof PLANTS)[number];

/** H = H0 (1 - (Q/Q_max)^c): m, L/s. */
export interface PumpLaw {
  readonly H0: number;
  readonly Q_max: number;
  readonly c: number;
}

export interface Network {
  readonly name: string;
  readonly pipes: number;
  readonly scenario: Scenario;
  readonly pumps: ReadonlyMap<string, PumpLaw>;
  /** Link that all flow goes through. */
  readonly trunk: string;
  /** Drives that were tried before one kept every Re and every pump within bounds. */
  readonly tries: number;
}

/** What drives the flow; scaled until Re and pumps lie within bounds. */
interface Drive {
  readonly drop_kPa: number;
  readonly pumps: readonly PumpLaw[];
}

const CURVE_POINTS = 40;

function pumpLink(id: string, ends: Ends, law: PumpLaw): object {
  const curve = Array.from({ length: CURVE_POINTS }, (_, k) => {
    const x = k / (CURVE_POINTS - 1);
    return { flow_L_s: x * law.Q_max, head_m: law.H0 * (1 - Math.pow(x, law.c)) };
  });
  const best_flow_L_s = Math.max(0.05, 0.6 * law.Q_max);
  return { id, kind: 'pump', ...ends, bore_mm: 50, start_on: true, curve, best_flow_L_s };
}

interface Plan {
  readonly shape: Shape;
  readonly plant: Plant;
  readonly pumps: (typeof PUMPS)[number];
}

/** Pumps from node `from` on; gives the node behind them. */
function pumpRow(d: Draft, from: string, { pumps }: Plan, drive: Drive): string {
  const out = joint(d);
  const laws = drive.pumps;
  if (pumps === 'one') d.links.push(pumpLink('pump', { from, to: out }, laws[0]!));
  if (pumps === 'series') {
    const mid = joint(d);
    d.links.push(pumpLink('pump', { from, to: mid }, laws[0]!));
    d.links.push(pumpLink('pump_b', { from: mid, to: out }, laws[1]!));
  }
  if (pumps === 'parallel') {
    const behind = joint(d);
    const check = { kind: 'check_valve', bore_mm: 50 };
    d.links.push(pumpLink('pump', { from, to: behind }, laws[0]!));
    d.links.push({ id: 'check', ...check, from: behind, to: out });
    d.links.push(pumpLink('pump_b', { from, to: out }, laws[1]!));
  }
  return out;
}

const TRUNK = 'trunk';

function draft(seed: number, plan: Plan, drive: Drive): Draft {
  const d: Draft = { c: chance(seed), nodes: [], links: [], pipes: 0 };
  const ends = field(d, plan.shape);
  const trunk = { id: TRUNK, kind: 'valve', bore_mm: 60, start_deg: 90 };
  const reservoir = { kind: 'reservoir', elevation_m: -1 };
  if (plan.plant === 'heads') {
    d.nodes.push({ id: 'high', ...reservoir, pressure_kPa: 150 + drive.drop_kPa });
    d.nodes.push({ id: 'low', ...reservoir, pressure_kPa: 150 });
    d.links.push({ ...trunk, from: 'high', to: ends.from });
    pipe(d, ends.to, 'low');
    return d;
  }
  const casing = joint(d);
  if (plan.plant === 'tank') {
    const ports = ['outlet', 'back'].map((id) => ({ id, height_mm: 200, bore_mm: 100 }));
    const size = { floor_m: -1.2, area_m2: 2, height_mm: 2000, start_level_mm: 1600 };
    d.nodes.push({ id: 'tank', kind: 'tank', ...size, ports });
    d.links.push({ ...trunk, from: 'tank.outlet', to: casing });
    pipe(d, ends.to, 'tank.back');
  } else {
    d.nodes.push({ id: 'low', ...reservoir, pressure_kPa: 150 });
    d.nodes.push({ id: 'high', ...reservoir, pressure_kPa: 150 + places(between(d.c, 0, 10), 1) });
    d.links.push({ ...trunk, from: 'low', to: casing });
    pipe(d, ends.to, 'high');
  }
  pipe(d, pumpRow(d, casing, plan, drive), ends.from);
  return d;
}

function scenarioOf(id: string, d: Draft): Scenario {
  return parseScenario({
    format: 1,
    id,
    temperature_C: 2 + d.c.below(24),
    ends_after_s: 172800,
    solver: { tick_s: 0.05, cell_m: 5 },
    nodes: d.nodes,
    links: d.links,
  });
}

/** Reynolds number of every open pipe and hose, and the factor there, by link. */
export function reynolds(scenario: Scenario, steady: Steady): Map<string, [Re: number, f: number]> {
  const nu = viscosity(scenario.temperature_C) / density(scenario.temperature_C);
  const found = new Map<string, [number, number]>();
  scenario.links.forEach((spec, k) => {
    if (spec.kind !== 'pipe' && spec.kind !== 'hose') return;
    const Re = (Math.abs(steady.links[k]!.velocity) * spec.bore_mm) / 1000 / nu;
    const f = Re === 0 ? Infinity : frictionFactor(Re, spec.roughness_mm / spec.bore_mm);
    found.set(spec.id, [Re, f]);
  });
  return found;
}

/** Largest Reynolds number and velocity, m/s, that a network may have. */
const RE_MAX = 1e5;
const VELOCITY_MAX = 4;

/** m3/s. A network that passes less as a whole shows nothing. */
const FLOW_MIN = 2e-6;

/** The next drive to try, or whether this one does or no drive will. */
function better(scenario: Scenario, plan: Plan, drive: Drive): Drive | 'right' | 'nowhere' {
  const steady = steadyState(scenario);
  const Re = Math.max(...[...reynolds(scenario, steady).values()].map(([re]) => re));
  const fastest = Math.max(...steady.links.map(({ velocity }) => Math.abs(velocity)));
  const trunk = steady.links.find(({ id }) => id === TRUNK)!.flow;
  if (trunk < FLOW_MIN) return 'nowhere';
  const less = Re > RE_MAX || fastest > VELOCITY_MAX ? 0.6 : 1;
  let right = less === 1;
  const pumps = drive.pumps.map((law, k) => {
    if (plan.plant === 'heads' || (k === 1 && plan.pumps === 'one')) return law;
    const flow = steady.links.find(({ id }) => id === (k === 0 ? 'pump' : 'pump_b'))!.flow;
    const share = (1000 * flow) / law.Q_max;
    const reach = share > 0.95 ? 1.5 : share < 0.05 ? 0.7 : 1;
    if (reach !== 1) right = false;
    return { ...law, H0: law.H0 * less, Q_max: law.Q_max * reach };
  });
  return right ? 'right' : { drop_kPa: drive.drop_kPa * less, pumps };
}

const TRIES_MAX = 60;
/** L/s. A pump that is made smaller than this has nowhere to go: another network is drawn. */
const PUMP_LEAST = 0.1;

/**
 * One network. Bounds: 5 to 90 pipes, bores 15 to 100 mm, lengths 1 to 300 m, roughness 0 to
 * 0.1 mm, Re to 1e5, 4 m/s; every pump runs between 5 and 95 % of the flow its curve ends at,
 * since the rival stops a pump that would be driven back or past its end.
 */
export function network(seed: number, plan: Plan): Network {
  const c = chance(seed ^ 0x5bd1e995);
  const law = (): PumpLaw => {
    const H0 = logBetween(c, 2, 40);
    return { H0, Q_max: logBetween(c, 0.3, 8), c: between(c, 1.6, 2.4) };
  };
  const first = law();
  const second = { ...law(), H0: first.H0 * between(c, 0.95, 1.05) };
  let drive: Drive = { drop_kPa: logBetween(c, 0.1, 300), pumps: [first, second] };
  const name = `${plan.shape}_${plan.plant}${plan.plant === 'heads' ? '' : `_${plan.pumps}`}`;
  for (let tries = 0; tries < TRIES_MAX; tries++) {
    const d = draft(seed, plan, drive);
    if (d.pipes < 5 || d.pipes > 90) return network(seed + 1000003, plan);
    const scenario = scenarioOf(name, d);
    const next = better(scenario, plan, drive);
    if (next === 'right') {
      const used = drive.pumps.map((p, k) => [k === 0 ? 'pump' : 'pump_b', p] as const);
      return { name, pipes: d.pipes, scenario, pumps: new Map(used), trunk: TRUNK, tries };
    }
    if (next === 'nowhere') break;
    drive = next;
    if (drive.pumps.some(({ Q_max }) => Q_max < PUMP_LEAST)) break;
  }
  return network(seed + 1000003, plan);
}

/** `count` networks that go through every shape, plant and row of pumps in turn. */
export function networks(seed: number, count: number): Network[] {
  return Array.from({ length: count }, (_, k) =>
    network(seed + 7919 * k, {
      shape: SHAPES[k % SHAPES.length]!,
      plant: PLANTS[Math.floor(k / SHAPES.length) % PLANTS.length]!,
      pumps: PUMPS[(k + Math.floor(k / 18)) % PUMPS.length]!,
    }),
  );
}
