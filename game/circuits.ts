// What a job's loop is made of, read off its scenario as from a site's drawing: the circuits with
// their lengths, bores and courses. For the front pages; the yard's own layout looks deeper.
import type { Scenario } from '../sim/index.ts';

export interface Circuit {
  readonly id: string;
  readonly length_m: number;
  readonly bore_m: number;
  /** Length along and elevation, m, from one end to the other. */
  readonly course: readonly (readonly [at_m: number, elevation_m: number])[];
  /** True where it goes down about as far as it is long: a bore, not a trench. */
  readonly steep: boolean;
}

/** Pipes shorter than this share of the longest are runs and headers, not circuits, */
const SHARE = 0.4;
/** and so are those that are wider than the narrowest by more than this. */
const WIDER = 1.25;
/** A pipe whose depth is more than this share of its length is a bore. */
const STEEP = 0.25;

/** The long pipes of the loop, in the order of the scenario; none where the job names no loop. */
export function circuitsOf(scenario: Scenario): Circuit[] {
  const loop = scenario.job?.loop_links ?? [];
  const height = (end: string): number => {
    const node = scenario.nodes.find(({ id }) => id === end);
    return node === undefined || node.kind === 'tank' ? 0 : node.elevation_m;
  };
  const all = scenario.links.flatMap((link): Circuit[] => {
    if (link.kind !== 'pipe' || !loop.includes(link.id)) return [];
    const { id, length_m, bore_mm } = link;
    const inner = link.profile.map(({ at_m, elevation_m }) => [at_m, elevation_m] as const);
    const ends = [[0, height(link.from)] as const, [length_m, height(link.to)] as const];
    const course = [ends[0]!, ...inner, ends[1]!];
    const heights = course.map(([, elevation_m]) => elevation_m);
    const depth = Math.max(...heights) - Math.min(...heights);
    const steep = depth > STEEP * length_m;
    return [{ id, length_m, bore_m: bore_mm / 1000, course, steep }];
  });
  const longest = Math.max(0, ...all.map(({ length_m }) => length_m));
  const long = all.filter(({ length_m }) => length_m >= SHARE * longest);
  const narrowest = Math.min(...long.map(({ bore_m }) => bore_m));
  return long.filter(({ bore_m }) => bore_m <= WIDER * narrowest);
}

/** The smallest and the largest of some numbers; null where there are none. */
export function span(values: readonly number[]): readonly [number, number] | null {
  return values.length === 0 ? null : [Math.min(...values), Math.max(...values)];
}
