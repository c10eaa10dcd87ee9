// Reads what the layout needs out of a scenario: heights of ends, heights along pipes.
import type { Scenario } from '../../sim/index.ts';
import type { Drawing, Role } from './types.ts';

type Link = Scenario['links'][number];
export type ConduitLink = Extract<Link, { kind: 'pipe' | 'hose' }>;
type Node = Scenario['nodes'][number];

export interface Profile {
  readonly s: readonly number[];
  readonly z: readonly number[];
}

export interface Site {
  readonly scenario: Scenario;
  readonly drawing: Drawing;
  /** Elevation of a node or of a tank's port, m. */
  heightOf(endpoint: string): number;
  link(id: string): Link | undefined;
  conduit(id: string): ConduitLink;
  node(id: string): Node | undefined;
  /** The id that plays a role, if the scenario has it. */
  role(role: Role): string | null;
}

export function heightOfNode(node: Node, port: string | undefined): number {
  if (node.kind !== 'tank') return node.elevation_m;
  const found = node.ports.find((p) => p.id === port);
  return node.floor_m + (found?.height_mm ?? 0) / 1000;
}

/** @throws Error where the drawing names a thing that the scenario does not have. */
export function readSite(scenario: Scenario, drawing: Drawing): Site {
  const nodes = new Map(scenario.nodes.map((n) => [n.id, n]));
  const links = new Map(scenario.links.map((l) => [l.id, l]));
  const known = new Set([
    ...nodes.keys(),
    ...links.keys(),
    ...scenario.instruments.map((i) => i.id),
  ]);
  for (const [role, id] of Object.entries(drawing.roles)) {
    if (!known.has(id)) throw new Error(`drawing: no "${id}" for the role ${role}`);
  }
  return {
    scenario,
    drawing,
    node: (id) => nodes.get(id),
    link: (id) => links.get(id),
    role: (role) => drawing.roles[role] ?? null,
    heightOf(endpoint) {
      const [id = '', port] = endpoint.split('.');
      const node = nodes.get(id);
      if (node === undefined) throw new Error(`no node "${id}"`);
      return heightOfNode(node, port);
    },
    conduit(id) {
      const link = links.get(id);
      if (link === undefined || (link.kind !== 'pipe' && link.kind !== 'hose')) {
        throw new Error(`no pipe or hose "${id}"`);
      }
      return link;
    },
  };
}

/** Heights along a pipe: its ends and the points of its profile. */
export function profileOf(site: Site, link: ConduitLink): Profile {
  const inner = link.profile.filter((p) => p.at_m > 0 && p.at_m < link.length_m);
  return {
    s: [0, ...inner.map((p) => p.at_m), link.length_m],
    z: [site.heightOf(link.from), ...inner.map((p) => p.elevation_m), site.heightOf(link.to)],
  };
}

/** True steepness |dz/ds| of the straight stretch that holds s. */
export function slopeOf(profile: Profile): (s: number) => number {
  return (s) => {
    let i = 0;
    while (i < profile.s.length - 2 && s > profile.s[i + 1]!) i++;
    return Math.abs((profile.z[i + 1]! - profile.z[i]!) / (profile.s[i + 1]! - profile.s[i]!));
  };
}

/** Height on the straight lines between the profile's points, m. */
export function heightAt(profile: Profile, s: number): number {
  let i = 0;
  while (i < profile.s.length - 2 && s > profile.s[i + 1]!) i++;
  const t = (s - profile.s[i]!) / (profile.s[i + 1]! - profile.s[i]!);
  return profile.z[i]! + (profile.z[i + 1]! - profile.z[i]!) * Math.min(1, Math.max(0, t));
}
