// What the nodes of a scenario are to EPANET [EPANET2.2]: junctions, heads that stand, and what
// imposed flows draw.
import { NodeProperty, NodeType, type Project } from 'epanet-js';
import type { Network } from '../tools/networks.ts';

const G = 9.80665;

export function addNodes(model: Project, { scenario }: Network, rho: number): void {
  for (const node of scenario.nodes) {
    if (node.kind === 'junction') {
      const at = model.addNode(node.id, NodeType.Junction);
      model.setJunctionData(at, node.elevation_m, 0, '');
      continue;
    }
    const head =
      node.kind === 'tank'
        ? node.floor_m + node.start_level_mm / 1000
        : node.kind === 'reservoir'
          ? node.elevation_m + (1000 * node.pressure_kPa) / (rho * G)
          : node.elevation_m;
    const at = model.addNode(node.id, NodeType.Reservoir);
    model.setNodeValue(at, NodeProperty.Elevation, head);
  }
}

/** What imposed flows draw from a junction, or bring to it, L/s. */
export function addDemands(model: Project, { scenario }: Network): void {
  const demands = new Map<string, number>();
  for (const link of scenario.links) {
    if (link.kind !== 'fixed_flow') continue;
    const { from, to, flow_L_s } = link;
    demands.set(from, (demands.get(from) ?? 0) + flow_L_s);
    demands.set(to, (demands.get(to) ?? 0) - flow_L_s);
  }
  for (const { id, kind } of scenario.nodes) {
    const demand = demands.get(id);
    if (kind !== 'junction' || demand === undefined) continue;
    model.setNodeValue(model.getNodeIndex(id), NodeProperty.BaseDemand, demand);
  }
}
