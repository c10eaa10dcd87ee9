// What frost leaves of a housing: pumps and filters that can freeze have a slit in them, shut until
// they have cracked. Leaves when that is to ../cracks.ts; valves are judged there, but what
// little they hold and leak is not followed.
import type { Scenario } from '../scenario.ts';
import type { Parts } from './expand.ts';

/** mm. A hole as wide as a slit of 40 by 0.5 mm [invented]. */
const SLIT_MM = 5;
const CRACKS: readonly string[] = ['pump', 'filter'];

export const crackId = (part: string): string => `${part}.crack`;

/** The parts with a slit in each housing, where frost is followed; they come last. */
export function withCracks({ nodes, links }: Parts, scenario: Scenario): Parts {
  if (scenario.heat === undefined) return { nodes, links };
  const housings = scenario.links.filter(({ kind }) => CRACKS.includes(kind));
  const more = housings.flatMap(({ id, from }) => {
    const node = nodes.find((n) => n.id === from);
    if (node?.kind !== 'junction') return [];
    const { elevation_m } = node;
    const air = `${id}.outside`;
    return [
      {
        node: { id: air, kind: 'open', elevation_m, goes_to: 'ground' },
        link: { kind: 'hole', id: crackId(id), from, to: air, bore_mm: SLIT_MM },
      } as const,
    ];
  });
  return {
    nodes: [...nodes, ...more.map(({ node }) => node)],
    links: [...links, ...more.map(({ link }) => link)],
  };
}

/** A slit, by the watch that says whether it is there and the volume whose ice plugs it. */
export interface Crack {
  readonly watch: number;
  readonly link: number;
  readonly node: number;
}
