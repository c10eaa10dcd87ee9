// The least flow from one node to another with which every section carries at least what it must:
// sections side by side add up, of those in a row the one that needs most counts, in any net.
import { assert } from '../base/assert.ts';
import { max, min } from '../base/math.ts';

/** A section that flows from -> to, and what it must carry at least, m3/s. */
export interface Section {
  readonly id: string;
  readonly from: string;
  readonly to: string;
  readonly least: number;
}

/** m3/s that count as nothing. */
const NOTHING = 1e-12;

/**
 * Smallest flow from `source` to `sink`, m3/s: one that is enough for each section by a way of its
 * own, then less along every way on which all can spare some [FordFulkerson1962, lower bounds].
 * @throws AssertionError where a section that must carry something lies on no way.
 */
export function leastFlow(sections: readonly Section[], source: string, sink: string): number {
  const flow = new Float64Array(sections.length);
  let total = 0;
  sections.forEach(({ least, from, to, id }, own) => {
    if (least <= 0) return;
    const before = wayBetween(sections, source, from);
    const behind = wayBetween(sections, to, sink);
    assert(before !== null && behind !== null, `${id} lies on no way from ${source} to ${sink}`);
    for (const k of [...before, own, ...behind]) flow[k] = flow[k]! + least;
    total += least;
  });
  for (let rounds = 0; rounds < sections.length * sections.length + 1; rounds++) {
    const spared = spare(sections, flow, [source, sink]);
    if (spared === 0) break;
    total -= spared;
  }
  return max(0, total);
}

/** Indices of sections along the flow from one node to another; null where no way leads. */
function wayBetween(sections: readonly Section[], a: string, b: string): readonly number[] | null {
  const steps = search(a, b, (at) =>
    sections.flatMap(({ from, to }, k) => (from === at ? [{ k, to }] : [])),
  );
  return steps?.map(({ k }) => k) ?? null;
}

interface Hop {
  readonly k: number;
  readonly to: string;
}

/** Shortest chain of hops from `a` to `b`; null where there is none. */
function search(a: string, b: string, hops: (at: string) => readonly Hop[]): Hop[] | null {
  const came = new Map<string, { readonly hop: Hop; readonly at: string } | null>([[a, null]]);
  const queue = [a];
  for (let next = 0; next < queue.length && !came.has(b); next++) {
    const at = queue[next]!;
    for (const hop of hops(at)) {
      if (came.has(hop.to)) continue;
      came.set(hop.to, { hop, at });
      queue.push(hop.to);
    }
  }
  if (!came.has(b)) return null;
  const chain: Hop[] = [];
  for (let step = came.get(b); step !== null && step !== undefined; step = came.get(step.at)) {
    chain.unshift(step.hop);
  }
  return chain;
}

/** Takes off what all sections of one way can spare; a section run against its flow takes more. */
function spare(
  sections: readonly Section[],
  flow: Float64Array,
  [source, sink]: readonly [string, string],
): number {
  const over = (k: number): number => flow[k]! - sections[k]!.least;
  const chain = search(source, sink, (at) =>
    sections.flatMap(({ from, to }, k) => {
      if (from === at && over(k) > NOTHING) return [{ k, to }];
      return to === at ? [{ k, to: from }] : [];
    }),
  );
  if (chain === null) return 0;
  const along = chain.filter(({ k, to }) => sections[k]!.to === to);
  assert(along.length > 0, 'a way against every flow: the net runs in a ring');
  const least = along.reduce((x, { k }) => min(x, over(k)), Infinity);
  for (const { k, to } of chain) {
    flow[k] = flow[k]! + (sections[k]!.to === to ? -least : least);
  }
  return least;
}
