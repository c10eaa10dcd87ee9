// From a checked scenario to its plan, in order: nodes, links, columns, tables.
import { compressibility, density, surfaceTension, viscosity } from '../laws/water.ts';
import { makePumpCurve } from '../laws/pump.ts';
import type { Scenario } from '../scenario.ts';
import { fillTables, planColumns, planLink, planNodes, type Counters } from './cut.ts';
import { COMMON_LEDGERS, type Plan } from './plan.ts';

/** Compiles a checked scenario. */
export function makePlan(scenario: Scenario): Plan {
  const t = scenario.temperature_C;
  const water = {
    rho: density(t),
    mu: viscosity(t),
    sigma: surfaceTension(t),
    compressibility: compressibility(t),
  };
  const ledgers: string[] = [...COMMON_LEDGERS];
  const nodes = planNodes(scenario, ledgers);
  const nodeIx = new Map(nodes.map((n, i) => [n.id, i]));
  const at: Counters = { cell: nodes.length, face: 0, point: 0, column: 0, pump: 0 };
  const links = scenario.links.map((spec) => planLink({ scenario, spec, nodeIx, at, water }));
  const { columns, points } = planColumns(links, nodes.length);
  const tables = fillTables({ nodes, links, columns, volumes: at.cell, faces: at.face, water });
  const pumps = links.flatMap((link, ix) =>
    link.spec.kind !== 'pump'
      ? []
      : [
          {
            id: link.id,
            link: ix,
            spec: link.spec,
            curve: makePumpCurve(
              link.spec.curve.map((p) => [p.flow_L_s / 1000, p.head_m] as const),
            ),
          },
        ],
  );
  const tanks = scenario.nodes.flatMap((spec, node) =>
    spec.kind === 'tank' ? [{ id: spec.id, node, spec }] : [],
  );
  return {
    scenario,
    nodes,
    links,
    columns,
    pumps,
    tanks,
    ledgers,
    points,
    volumes: at.cell,
    faces: at.face,
    nodeIx,
    linkIx: new Map(links.map((l, i) => [l.id, i])),
    water,
    ...tables,
  };
}
