// Defects that are how a plant was built or filled: ends changed over, drums that do not hold what
// their label says, holes in fittings, air under lids. Changes the scenario's parts before the
// plan is made; hidden ones bear the defect's id, a dot and a word, as no id of a scenario can.
import { P_ATM } from '../base/units.ts';
import { max } from '../base/math.ts';
import type { Parts, PartSpec } from '../network/expand.ts';
import type { DefectSpec, HoleSpec, PocketSpec } from '../scenario-defects.ts';
import type { JunctionSpec, NodeSpec, Scenario } from '../scenario.ts';

type Swap = Extract<DefectSpec, { kind: 'swapped_header' }>;
type Ends = 'from' | 'to';

/** The scenario with its ends and fractions as they really are. */
export function asBuilt(scenario: Scenario, defects: readonly DefectSpec[]): Scenario {
  return defects.reduce(applied, scenario);
}

function applied(built: Scenario, defect: DefectSpec): Scenario {
  switch (defect.kind) {
    case 'swapped_header':
      return swapped(built, defect);
    case 'wrong_drum': {
      const { at, antifreeze_fraction: x } = defect;
      return { ...built, nodes: built.nodes.map((n) => (n.id === at ? holding(n, x) : n)) };
    }
    case 'unknown_fluid': {
      const { at, antifreeze_fraction: start_antifreeze_fraction } = defect;
      const links = built.links.map((link) => {
        const conduit = link.kind === 'pipe' || link.kind === 'hose';
        return link.id === at && conduit ? { ...link, start_antifreeze_fraction } : link;
      });
      return { ...built, links };
    }
    default:
      return built;
  }
}

function holding(node: NodeSpec, x: number): NodeSpec {
  if (node.kind === 'reservoir') return { ...node, antifreeze_fraction: x };
  return node.kind === 'tank' ? { ...node, start_antifreeze_fraction: x } : node;
}

/** Two links trade their ends, and the legs of the tees there their names. */
function swapped(scenario: Scenario, { at, with: other, ends }: Swap): Scenario {
  const key: Ends = ends;
  const one = scenario.links.find((l) => l.id === at);
  const two = scenario.links.find((l) => l.id === other);
  if (one === undefined || two === undefined) return scenario;
  const links = scenario.links.map((link) => {
    if (link.id === at) return { ...link, [key]: two[key] };
    return link.id === other ? { ...link, [key]: one[key] } : link;
  });
  const nodes = scenario.nodes.map((node) => {
    const here = node.id === one[key] || node.id === two[key];
    if (!here || node.kind !== 'junction' || node.tee === undefined) return node;
    const turned = (id: string) => (id === at ? other : id === other ? at : id);
    const [a, b] = node.tee.run;
    const run: [string, string] = [turned(a), turned(b)];
    return { ...node, tee: { ...node.tee, run, branch: turned(node.tee.branch) } };
  });
  return { ...scenario, links, nodes };
}

/** The parts with holes and pockets of air added, after all others. */
export function withHidden({ nodes, links }: Parts, defects: readonly DefectSpec[]): Parts {
  const more = defects.flatMap((d) => {
    if (d.kind === 'leak' || d.kind === 'suction_air_leak') return [holeOf(nodes, d)];
    return d.kind === 'trapped_air' ? [pocketOf(nodes, links, d)] : [];
  });
  return {
    nodes: [...nodes, ...more.map(({ node }) => node)],
    links: [...links, ...more.map(({ link }) => link)],
  };
}

interface Hidden {
  readonly node: NodeSpec;
  readonly link: PartSpec;
}

/** Ids of the hidden parts of a defect. */
export const holeId = (defect: string): string => `${defect}.hole`;
export const airId = (defect: string): string => `${defect}.air`;
export const lidId = (defect: string): string => `${defect}.lid`;

function holeOf(nodes: readonly NodeSpec[], defect: HoleSpec): Hidden {
  const { id, at, bore_mm } = defect;
  const fitting = nodes.find((n) => n.id === at) as JunctionSpec;
  const goes_to = defect.kind === 'leak' ? defect.goes_to : 'ground';
  const { elevation_m } = fitting;
  return {
    node: { id: airId(id), kind: 'open', elevation_m, goes_to },
    link: { kind: 'hole', id: holeId(id), from: at, to: airId(id), bore_mm },
  };
}

/** L. A control volume's least room; the lid's air stands at the top of it. */
const LID_LEAST_L = 0.5;
/** Share of a lid that air takes at most: below it water lies, which goes out and in. */
const LID_FULL = 0.8;
/** m. How much higher a lid stands than its part; mm, the width of the way there. */
const LID_RISE = 0.05;
const LID_BORE_MM = 25;
/** Loss of the way there: in and out, [common practice]. */
const LID_K = 1.5;

function pocketOf(
  nodes: readonly NodeSpec[],
  links: readonly PartSpec[],
  { id, at, air_L, clears_L_min }: PocketSpec,
): Hidden {
  const part = links.find((l) => l.id === at)!;
  const beside = nodes.find((n) => n.id === part.from) as JunctionSpec;
  const start_pressure_kPa = beside.start_pressure_kPa ?? 0;
  // `air_L` is at the pressure of the air; squeezed, it takes less room at the start.
  const room = (air_L * P_ATM) / (P_ATM + 1000 * start_pressure_kPa);
  const volume_L = max(LID_LEAST_L, room / LID_FULL);
  return {
    node: {
      id: lidId(id),
      kind: 'junction',
      elevation_m: beside.elevation_m + LID_RISE,
      volume_L,
      start_gas_fraction: room / volume_L,
      start_pressure_kPa,
      ...(beside.start_C === undefined ? {} : { start_C: beside.start_C }),
    },
    link: {
      kind: 'neck',
      id: `${id}.neck`,
      of: at,
      from: part.from,
      to: lidId(id),
      bore_mm: LID_BORE_MM,
      loss_k: LID_K,
      clears: clears_L_min / 60000,
    },
  };
}
