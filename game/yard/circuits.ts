// Circuits and the trees of their headers: what each chain of a field is, and in which order the
// circuits hang on the supply header. Circuits keep that order in the drawing.
import { isConduit, reversed, type ConduitLink, type Profile, type Site } from './graph.ts';
import { turned, type Chain, type FieldPart, type Walked } from './headers.ts';

export interface Circuit {
  /** Id of its longest pipe. */
  readonly id: string;
  readonly kind: 'trench' | 'bore';
  /** Its pipes one after the other, walked from the supply side. */
  readonly pipes: readonly Walked[];
  readonly profile: Profile;
  readonly length_m: number;
  readonly bore_mm: number;
  readonly lie: Lie;
  /** Parts without length and pipes between the header and the circuit. */
  readonly supplyLead: Lead;
  readonly returnLead: Lead;
}

/** From a joint of the header to the circuit; `links` walked away from the header. */
export interface Lead {
  readonly node: string;
  readonly links: readonly Walked[];
}

/** The part that lies in the trench or hangs in the bore: from `a` to `b` metres. */
export interface Lie {
  readonly a: number;
  readonly b: number;
  readonly fold: number;
}

export interface TreeNode {
  readonly id: string;
  /** Circuits that start here and branches to other joints, in their order along the header. */
  readonly things: readonly Thing[];
}
export interface Branch {
  readonly links: readonly Walked[];
  readonly to: TreeNode;
}
export type Thing =
  | { readonly circuit: Circuit; readonly branch: null }
  | { readonly circuit: null; readonly branch: Branch };

export interface Field {
  readonly part: FieldPart;
  readonly supply: TreeNode;
  readonly back: TreeNode | null;
  /** In the order in which they hang on the supply header. */
  readonly circuits: readonly Circuit[];
}

/** Slope above which a pipe counts as standing and not as lying. */
const STEEP = 0.5;
/** A circuit that goes this much deeper than its ends, mostly standing, hangs in a bore. */
const BORE_m = 6;

const steepAt = ({ s, z }: Profile, i: number): boolean =>
  Math.abs((z[i + 1]! - z[i]!) / (s[i + 1]! - s[i]!)) > STEEP;

/** Cuts the standing pipes at both ends off. */
function trenchLie(profile: Profile): Lie {
  const { s } = profile;
  let i = 0;
  while (i < s.length - 2 && steepAt(profile, i)) i++;
  let j = s.length - 1;
  while (j > i + 1 && steepAt(profile, j - 1)) j--;
  return { a: s[i]!, b: s[j]!, fold: (s[i]! + s[j]!) / 2 };
}

/** From where the pipe turns down to where it has come up again; folded where it is deepest. */
function boreLie(profile: Profile): Lie {
  const { s, z } = profile;
  const low = Math.min(...z);
  const deep = z.flatMap((h, i) => (h < low + 0.5 ? [s[i]!] : []));
  let i = 0;
  while (i < s.length - 2 && !steepAt(profile, i)) i++;
  let j = s.length - 1;
  while (j > i + 1 && !steepAt(profile, j - 1)) j--;
  return { a: s[i]!, b: s[j]!, fold: (deep[0]! + deep.at(-1)!) / 2 };
}

function isBore(profile: Profile): boolean {
  const ends = Math.min(profile.z[0]!, profile.z.at(-1)!, -1);
  if (ends - Math.min(...profile.z) < BORE_m) return false;
  let standing = 0;
  for (let i = 0; i < profile.s.length - 1; i++) {
    if (steepAt(profile, i)) standing += profile.s[i + 1]! - profile.s[i]!;
  }
  return standing > profile.s.at(-1)! * 0.5;
}

export const lengthOf = (walked: Walked): number =>
  isConduit(walked.link) ? walked.link.length_m : 0;

function joined(site: Site, pipes: readonly Walked[]): Profile {
  const s: number[] = [];
  const z: number[] = [];
  let base = 0;
  for (const { link, forward } of pipes) {
    if (!isConduit(link)) continue;
    const own = forward ? site.profile(link) : reversed(site.profile(link));
    own.s.forEach((at, k) => {
      if (k === 0 && s.length > 0) return;
      s.push(base + at);
      z.push(own.z[k]!);
    });
    base += link.length_m;
  }
  return { s, z };
}

/** The longest run of pipes in a chain; what stands before and after it are its leads. */
function circuitOf(site: Site, chain: Chain): Circuit | null {
  let best = { from: 0, to: 0, length: 0 };
  for (let i = 0; i < chain.links.length; i++) {
    let j = i;
    let length = 0;
    while (j < chain.links.length && isConduit(chain.links[j]!.link)) {
      length += lengthOf(chain.links[j]!);
      j++;
    }
    if (length > best.length) best = { from: i, to: j, length };
    i = j;
  }
  const pipes = chain.links.slice(best.from, best.to);
  if (pipes.length === 0) return null;
  const longest = pipes.reduce((a, b) => (lengthOf(b) > lengthOf(a) ? b : a)).link as ConduitLink;
  const profile = joined(site, pipes);
  const kind = isBore(profile) ? 'bore' : 'trench';
  return {
    id: longest.id,
    kind,
    pipes,
    profile,
    length_m: best.length,
    bore_mm: longest.bore_mm,
    lie: kind === 'bore' ? boreLie(profile) : trenchLie(profile),
    supplyLead: { node: chain.a, links: chain.links.slice(0, best.from) },
    returnLead: {
      node: chain.b,
      links: turned(chain).links.slice(0, chain.links.length - best.to),
    },
  };
}

interface Growing {
  readonly site: Site;
  readonly headers: readonly Chain[];
  readonly leaves: ReadonlyMap<string, Circuit[]>;
  readonly which: 'supply' | 'back';
  readonly seen: Set<string>;
}

export function inOrder(node: TreeNode): Circuit[] {
  return node.things.flatMap((t) => (t.circuit === null ? inOrder(t.branch.to) : [t.circuit]));
}

/** First link of a thing, seen from the node it hangs on. */
function firstLink(tree: Growing, thing: Thing): string {
  if (thing.circuit === null) return thing.branch.links[0]!.link.id;
  const { supplyLead, returnLead, pipes } = thing.circuit;
  const lead = tree.which === 'supply' ? supplyLead : returnLead;
  const own = tree.which === 'supply' ? pipes[0]! : pipes.at(-1)!;
  return (lead.links[0] ?? own).link.id;
}

/**
 * Rank along the header: what leaves a tee sideways stands before what goes straight on. Where
 * the scenario names no tee, what feeds more circuits goes on.
 */
function rank(tree: Growing, id: string, from: Walked | null): (thing: Thing) => number {
  const spec = tree.site.nodes.get(id);
  const tee = spec?.kind === 'junction' ? spec.tee : undefined;
  const straight = tee !== undefined && from !== null && tee.run.includes(from.link.id);
  return (thing) => {
    if (straight) return tee.run.includes(firstLink(tree, thing)) ? 1e6 : 0;
    return thing.circuit === null ? 1 + inOrder(thing.branch.to).length : lengthRank(thing.circuit);
  };
}

/** A circuit that begins with a stretch of header hangs behind one that does not. */
const lengthRank = (circuit: Circuit): number => circuit.pipes.length / 1000;

function grow(tree: Growing, id: string, from: Walked | null): TreeNode {
  tree.seen.add(id);
  const things: Thing[] = (tree.leaves.get(id) ?? []).map((circuit) => ({ circuit, branch: null }));
  for (const chain of tree.headers) {
    const out = chain.a === id ? chain : chain.b === id ? turned(chain) : null;
    if (out === null || tree.seen.has(out.b)) continue;
    const to = grow(tree, out.b, out.links.at(-1)!);
    if (inOrder(to).length > 0) things.push({ circuit: null, branch: { links: out.links, to } });
  }
  const ranked = rank(tree, id, from);
  return { id, things: things.sort((a, b) => ranked(a) - ranked(b)) };
}

/** Splits a part of the field into circuits and the header trees of both sides. */
export function readField(site: Site, part: FieldPart): Field {
  const side = (n: string): boolean => part.supply.has(n);
  const bySupply = new Map<string, Circuit[]>();
  const byReturn = new Map<string, Circuit[]>();
  const headers: Chain[] = [];
  for (const chain of part.chains) {
    const circuit =
      side(chain.a) === side(chain.b)
        ? null
        : circuitOf(site, side(chain.a) ? chain : turned(chain));
    if (circuit === null) {
      headers.push(chain);
      continue;
    }
    for (const [map, node] of [
      [bySupply, circuit.supplyLead.node],
      [byReturn, circuit.returnLead.node],
    ] as const) {
      map.set(node, [...(map.get(node) ?? []), circuit]);
    }
  }
  const tree = (root: string, which: Growing['which']): TreeNode => {
    const leaves = which === 'supply' ? bySupply : byReturn;
    return grow({ site, headers, leaves, which, seen: new Set() }, root, null);
  };
  const supply = tree(part.down[0] ?? [...part.nodes][0]!, 'supply');
  const back = part.up[0] === undefined ? null : tree(part.up[0], 'back');
  return { part, supply, back, circuits: inOrder(supply) };
}
