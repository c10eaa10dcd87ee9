// From a checked scenario to its plan, in order: nodes, links, columns, tables.
import { max, round } from '../base/math.ts';
import { compressibility, density, surfaceTension, viscosity } from '../laws/water.ts';
import { makePumpCurve } from '../laws/pump.ts';
import { bubbleRise } from '../laws/tank.ts';
import { BUBBLE_COARSE, BUBBLE_FINE, MIX_S, RELAX, SOLUTE_S } from '../constants.ts';
import { planDefects } from '../defects/compile.ts';
import { asDesigned, type Drawn } from '../defects/drawn.ts';
import { asBuilt, withHidden } from '../defects/rebuild.ts';
import type { Scenario } from '../scenario.ts';
import { planColumns, planLink, planNodes, type Counters } from './cut.ts';
import { planCreep } from './creep.ts';
import { planDebris } from './debris-tables.ts';
import { planEnds } from './ends.ts';
import { expand, type Parts } from './expand.ts';
import { turns } from './passage.ts';
import { planPower } from './power.ts';
import { slowedLinks, slowedSections } from './slow.ts';
import { fillTables } from './tables.ts';
import { planTees } from './tees.ts';
import { planSurges } from '../surge.ts';
import { mixtureTable, viscosityTable } from './mixture.ts';
import { planMixing } from './mixing.ts';
import { planThermal } from './surroundings.ts';
import { coolingOf } from './warmth.ts';
import { COMMON_LEDGERS, type LinkPlan, type Plan, type PumpPlan } from './plan.ts';

function planPumps(links: readonly LinkPlan[]): PumpPlan[] {
  return links.flatMap(({ id, spec }, link) => {
    if (spec.kind !== 'pump') return [];
    const points = spec.curve.map((p) => [p.flow_L_s / 1000, p.head_m] as const);
    return [{ id, link, spec, curve: makePumpCurve(points) }];
  });
}

function planTanks(specs: Parts['nodes'], ends: Plan['ends']): Plan['tanks'] {
  return specs.flatMap((spec, node) =>
    spec.kind === 'tank'
      ? [{ id: spec.id, node, spec, ends: ends.filter((end) => end.node === node) }]
      : [],
  );
}

/** What hands have beside links: devices with the links they belong to, lines of the sheet. */
function planHands({ devices, instruments, record }: Scenario, linkIx: Plan['linkIx']) {
  return {
    deviceIx: new Map(devices.map((d, i) => [d.id, i])),
    deviceOf: Int32Array.from(devices, (d) => ('of' in d ? (linkIx.get(d.of) ?? -1) : -1)),
    recorded: Int32Array.from(record, ({ reading }) =>
      instruments.findIndex(({ id }) => id === reading),
    ),
  };
}

/** Steps, and what is done every so many of them. */
const paceOf = (per: number, tick: number) => ({
  tick,
  per,
  soluteEvery: max(1, round(SOLUTE_S / tick)),
  mixEvery: max(1, round(MIX_S / tick)),
  relaxRate: RELAX / tick,
});

const risesAt = (t: number) => ({
  fineRise: bubbleRise(BUBBLE_FINE, t),
  coarseRise: bubbleRise(BUBBLE_COARSE, t),
});

const tablesOf = (scenario: Scenario) => ({
  mixture: mixtureTable(scenario),
  thickness: viscosityTable(scenario),
});

/** What rises, in long steps. */
function slowGas({ links, tables, tick }: SlowGas): Pick<Plan, 'links' | 'section'> {
  const section = slowedSections(tables.section, tables.cellLength, tick);
  return { links: slowedLinks(links, tick), section };
}
interface SlowGas {
  readonly links: readonly LinkPlan[];
  readonly tables: Pick<Plan, 'section' | 'cellLength'>;
  readonly tick: number;
}

/**
 * Compiles a checked scenario, with what was drawn for this run; else as it was designed. A step
 * by it is `per` of the scenario's ticks long.
 */
export function makePlan(
  scenario: Scenario,
  drawn: Drawn = asDesigned(scenario),
  per: number = 1,
): Plan {
  const t = scenario.temperature_C;
  const tick = per * scenario.solver.tick_s;
  const water = {
    rho: density(t),
    mu: viscosity(t),
    sigma: surfaceTension(t),
    compressibility: compressibility(t),
  };
  const ledgers: string[] = [...COMMON_LEDGERS];
  const parts = withHidden(expand(asBuilt(scenario, drawn.defects)), drawn.defects);
  const nodes = planNodes(parts, ledgers);
  const nodeIx = new Map(nodes.map((n, i) => [n.id, i]));
  const at: Counters = { cell: nodes.length, face: 0, point: 0, column: 0, pump: 0 };
  const links = parts.links.map((_, ix) => planLink({ scenario, parts, ix, nodeIx, at, water }));
  const { columns, points } = planColumns(links, nodes.length);
  const tables = fillTables({
    nodes,
    links,
    columns,
    points,
    volumes: at.cell,
    faces: at.face,
    water,
    t_C: t,
  });
  const of = { compliance: tables.compliance, rho: water.rho, dt: scenario.solver.tick_s };
  const ends = planEnds(nodes, links);
  const tanks = planTanks(parts.nodes, ends);
  const pumps = planPumps(links);
  const linkIx = new Map(links.map((l, i) => [l.id, i]));
  return {
    defects: planDefects({ scenario, nodes, links, pumps }, drawn),
    ...tablesOf(scenario),
    thermal: planThermal(scenario, { nodes, links, volumes: at.cell }),
    debris: planDebris(scenario, tick, links, tables),
    ...risesAt(t),
    ...paceOf(per, tick),
    scenario,
    nodes,
    links,
    columns,
    pumps,
    power: planPower(scenario, pumps),
    tanks,
    ends,
    tees: scenario.tee_losses ? planTees(nodes, links, columns) : [],
    turning: links.flatMap((link, ix) => (turns(link.spec) ? [ix] : [])),
    ledgers,
    points,
    volumes: at.cell,
    faces: at.face,
    nodeIx,
    linkIx,
    mix: planMixing({ scenario, nodes, links, ledgers }),
    ...planHands(scenario, linkIx),
    water,
    surges: scenario.surges === true ? planSurges({ nodes, links, columns, ...of }) : [],
    creep: planCreep({ scenario, tick, rho: water.rho }, links, tables),
    heats: scenario.gas_heats,
    layers: scenario.running_layers === true,
    cooling: coolingOf(nodes, links, columns, points),
    ...tables,
    ...(per === 1 ? {} : slowGas({ links, tables, tick })),
  };
}
