// The scenario as a graph: what meets where, how high everything stands, and pipes' profiles.
// Knows nothing of the drawing.
import type { Scenario } from '../../sim/index.ts';
import type { Drawing } from './types.ts';

export type Link = Scenario['links'][number];
export type Node = Scenario['nodes'][number];
export type ConduitLink = Extract<Link, { kind: 'pipe' | 'hose' }>;

/** A small valve with nothing behind it but its spout: a drain, or a vent that points up. */
export interface Cock {
  readonly end: string;
  readonly up: boolean;
}

export interface Profile {
  readonly s: readonly number[];
  readonly z: readonly number[];
}

export interface Site {
  /** As given, but that every cock has an open end of its own: `PAIL~COCK`. */
  readonly scenario: Scenario;
  /** Valves that let out into a pail or onto the ground, with the open end each has. */
  readonly cocks: ReadonlyMap<string, Cock>;
  readonly hints: Drawing;
  readonly nodes: ReadonlyMap<string, Node>;
  readonly links: ReadonlyMap<string, Link>;
  /** Links that touch a node, in the scenario's order. */
  touching(node: string): readonly Link[];
  /** Elevation of a node or of a tank's port, m. */
  heightOf(endpoint: string): number;
  profile(link: ConduitLink): Profile;
}

/** The node of an endpoint: a tank's ports are the tank. */
export const nodeOf = (endpoint: string): string => endpoint.split('.')[0]!;

export const isConduit = (link: Link): link is ConduitLink =>
  link.kind === 'pipe' || link.kind === 'hose';

/** Endpoints of a link: two, or three of a three-way valve. */
export function endsOf(link: Link): string[] {
  return link.kind === 'three_way' ? [link.from, link.to, link.branch] : [link.from, link.to];
}

/** The node at the other end of a link with two ends. */
export function across(link: Link, node: string): string {
  return nodeOf(link.from) === node ? nodeOf(link.to) : nodeOf(link.from);
}

function heightOfNode(node: Node, port: string | undefined): number {
  if (node.kind !== 'tank') return node.elevation_m;
  const found = node.ports.find((p) => p.id === port);
  return node.floor_m + (found?.height_mm ?? 0) / 1000;
}

/** Gives every cock an open end of its own, so that a pail joins nothing on the drawing. */
function withCocks(given: Scenario): { scenario: Scenario; cocks: Map<string, Cock> } {
  const nodes = new Map(given.nodes.map((n) => [n.id, n]));
  const cocks = new Map<string, Cock>();
  const added: Node[] = [];
  const links = given.links.map((link): Link => {
    if (link.kind !== 'valve') return link;
    const [a, b] = [nodes.get(nodeOf(link.from)), nodes.get(nodeOf(link.to))];
    const [open, other] = b?.kind === 'open' ? [b, a] : [a, b];
    if (open?.kind !== 'open' || other === undefined) return link;
    if (open.goes_to === 'waste' && other.kind !== 'tank') return link;
    const end = `${open.id}~${link.id}`;
    const z = other.kind === 'tank' ? Infinity : heightOfNode(other, undefined);
    cocks.set(link.id, { end, up: open.elevation_m > z });
    added.push({ ...open, id: end });
    return b === open ? { ...link, to: end } : { ...link, from: end };
  });
  const used = new Set(links.flatMap((l) => endsOf(l).map(nodeOf)));
  const kept = given.nodes.filter((n) => n.kind !== 'open' || used.has(n.id));
  return { scenario: { ...given, nodes: [...kept, ...added], links }, cocks };
}

/** Id of the thin hose that leads from a hand pump to the loop; no part of the scenario. */
export const armHose = (pump: string): string => `${pump}~hose`;

export const isMadeUp = (id: string): boolean => id.includes('~');

const ARM_HOSE = {
  ...{ length_m: 3, loss_k: 0, clear: false, roughness_mm: 0, compliance_per_MPa: 0 },
  ...{ start_pressure_kPa: 0, start_antifreeze_fraction: 0 },
} as const;

/** A hand pump stands by the pail that it draws from: a thin hose leads to what it fills. */
function withArmHoses(given: Scenario): Scenario {
  const nodes = new Map(given.nodes.map((n) => [n.id, n]));
  const added: Node[] = [];
  const hoses: Hose[] = [];
  const links = given.links.map((link): Link => {
    if (link.kind !== 'hand_pump') return link;
    const [pail, port] = link.from.split('.');
    const [from, to] = [nodes.get(pail!), nodes.get(nodeOf(link.to))];
    if (from?.kind !== 'tank' || to?.kind !== 'junction') return link;
    const elevation_m = Math.max(heightOfNode(from, port), from.floor_m + from.height_mm / 2000);
    const out = `${link.id}~out`;
    added.push({ ...to, id: out, elevation_m });
    const pipe = { ...ARM_HOSE, bore_mm: link.bore_mm, gas: [], profile: [] };
    hoses.push({ ...pipe, kind: 'hose', id: armHose(link.id), from: out, to: link.to });
    return { ...link, to: out };
  });
  return { ...given, nodes: [...given.nodes, ...added], links: [...links, ...hoses] };
}

type Hose = Extract<Link, { kind: 'hose' }>;

export function readSite(given: Scenario, hints: Drawing | null): Site {
  const { scenario, cocks } = withCocks(withArmHoses(given));
  const nodes = new Map(scenario.nodes.map((n) => [n.id, n]));
  const links = new Map(scenario.links.map((l) => [l.id, l]));
  const touching = new Map<string, Link[]>(scenario.nodes.map((n) => [n.id, []]));
  for (const link of scenario.links) {
    for (const end of new Set(endsOf(link).map(nodeOf))) touching.get(end)?.push(link);
  }
  const heightOf = (endpoint: string): number => {
    const [id = '', port] = endpoint.split('.');
    const node = nodes.get(id);
    if (node === undefined) throw new Error(`no node "${id}"`);
    return heightOfNode(node, port);
  };
  return {
    scenario,
    cocks,
    hints: hints ?? {},
    nodes,
    links,
    touching: (node) => touching.get(node) ?? [],
    heightOf,
    profile(link) {
      const inner = link.profile.filter((p) => p.at_m > 0 && p.at_m < link.length_m);
      return {
        s: [0, ...inner.map((p) => p.at_m), link.length_m],
        z: [heightOf(link.from), ...inner.map((p) => p.elevation_m), heightOf(link.to)],
      };
    },
  };
}

/** The same pipe walked from its other end. */
export function reversed(profile: Profile): Profile {
  const L = profile.s.at(-1)!;
  return { s: [...profile.s].reverse().map((s) => L - s), z: [...profile.z].reverse() };
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
