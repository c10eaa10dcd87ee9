// From a site's few numbers to a whole scenario, checked. Pure: equal sites give equal scenarios.
import { max, round } from '../base/math.ts';
import { InputFaults, parseScenario } from '../scenario.ts';
import type { JobSpec, Scenario } from '../scenario.ts';
import { circuitLength } from './circuits.ts';
import { layField, LOOP_RATING, sizeAt } from './header.ts';
import { furnish } from './day.ts';
import { addFitting, addValve, emptyDraft, pipeSection } from './parts.ts';
import type { Draft, ScenarioText } from './parts.ts';
import { addPlant } from './plant.ts';
import { addBarrow } from './rig-barrow.ts';
import { addDeck } from './rig-deck.ts';
import { addMast } from './rig-mast.ts';
import { STUB_M } from './rig-parts.ts';
import type { Field, RigKind, RigSite, Site } from './site.ts';

const RIG_MAKERS: Readonly<Record<RigKind, (draft: Draft, rig: RigSite) => void>> = {
  deck: addDeck,
  barrow: addBarrow,
  mast: addMast,
};

/**
 * s. Cells rule the error of a purge, not the tick (test/campaign/REPORT.md), so the tick is as
 * long as hands and eyes allow.
 */
const TICK_S = 0.2;

/** Lengths of control volume that are tried, m; and how many the builder lets a field have. */
const CELLS_M = [1, 1.5, 2, 3, 4, 5] as const;
const CELLS_WANTED = 18000;

/**
 * The scenario of `site`: rig, hoses, two loop valves, header, circuits, and where they are asked
 * for banks of valves, the heat-pump side and a job. 1 to 200 circuits; fewer with valves of
 * their own, since a scenario has at most 2000 nodes.
 * @throws InputFaults with every fault of what the numbers give, e.g. a crest outside its trench.
 */
export function buildSite(site: Site): Scenario {
  return parseScenario(siteText(site));
}

/** The same before it is checked, with defaults left out: what a file would hold. */
export function siteText(site: Site): ScenarioText {
  const { field, rig } = site;
  checkCount(field);
  const draft = emptyDraft();
  RIG_MAKERS[rig.kind](draft, rig);
  if (rig.contents === 'water') fillUp(draft);
  const inner = addLoopEnds(draft, site);
  layField(draft, field, {
    supply: { node: inner.supply, elevation_m: STUB_M },
    return: { node: inner.return, elevation_m: STUB_M },
  });
  const cell_m = site.cell_m ?? cellFor(field);
  const { antifreeze = 'none', hands = { reach_s: 0.8 }, ...more } = furnish(draft, site);
  return {
    format: 1,
    id: site.id,
    solver: { tick_s: TICK_S, cell_m },
    temperature_C: site.temperature_C,
    antifreeze,
    ...(site.tee_losses === undefined ? {} : { tee_losses: site.tee_losses }),
    hands,
    ends_after_s: site.ends_after_s,
    ...more,
    nodes: draft.nodes,
    links: draft.links,
    instruments: draft.instruments,
    ...(site.job === undefined ? {} : { job: jobOf(site.job, draft) }),
    ...(site.ranges === undefined ? {} : { ranges: [...site.ranges] }),
  };
}

/** Takes the air out of everything that the draft holds so far. */
function fillUp(draft: Draft): void {
  for (const node of draft.nodes) if (node.kind === 'junction') delete node.start_gas_fraction;
  for (const link of draft.links) {
    if (link.kind === 'pipe' || link.kind === 'hose') delete link.gas;
  }
}

/** How many circuits a field has, those of its banks included. */
export function circuitCount(field: Field): number {
  return field.branches.reduce((sum, b) => sum + (b.kind === 'bank' ? b.circuits.length : 1), 0);
}

function checkCount(field: Field): void {
  const count = circuitCount(field);
  const empty = field.branches.findIndex((b) => b.kind === 'bank' && b.circuits.length === 0);
  if (empty >= 0) {
    throw new InputFaults([
      { path: `field.branches[${empty}].circuits`, message: 'a bank needs a circuit' },
    ]);
  }
  if (count < 1 || count > 200) {
    const message = `has ${count} circuits; 1 to 200 can be built`;
    throw new InputFaults([{ path: 'field.branches', message }]);
  }
}

/** The loop's own valves behind the stubs; with a heat-pump side its service valves too. */
function addLoopEnds(draft: Draft, site: Site): { supply: string; return: string } {
  const { field, plant } = site;
  const dr = field.dr ?? 11;
  const all = field.branches.length;
  const bore = (line: 'supply' | 'return') =>
    pipeSection(sizeAt(field.header[line], all, all), dr).bore_mm;
  for (const id of ['loop_start', 'loop_end']) {
    addFitting(draft, {
      id,
      elevation_m: STUB_M,
      gas: field.contents,
      rating_kPa: LOOP_RATING,
      ...(field.start_pressure_kPa === undefined
        ? {}
        : { start_pressure_kPa: field.start_pressure_kPa }),
    });
  }
  addValve(draft, {
    id: 'loop_supply_valve',
    from: 'stub_supply',
    to: 'loop_start',
    bore_mm: bore('supply'),
  });
  addValve(draft, {
    id: 'loop_return_valve',
    from: 'loop_end',
    to: 'stub_return',
    bore_mm: bore('return'),
  });
  if (plant === undefined) return { supply: 'loop_start', return: 'loop_end' };
  addPlant(draft, plant, { elevation_m: STUB_M, gas: field.contents, bore_mm: bore('supply') });
  return { supply: 'field_start', return: 'field_end' };
}

/** The finest control volume with which the field's pipes can be run. */
function cellFor(field: Field): number {
  const lengths = field.branches.flatMap((branch): number[] => {
    if (branch.kind !== 'bank') return [circuitLength(branch)];
    const { circuits, header } = branch;
    return [...circuits.map(circuitLength), ...ofHeader(header, circuits.length)];
  });
  lengths.push(...ofHeader(field.header, field.branches.length));
  const cells = (cell: number) => lengths.reduce((sum, l) => sum + max(1, round(l / cell)), 0);
  return CELLS_M.find((cell) => cells(cell) <= CELLS_WANTED) ?? CELLS_M[CELLS_M.length - 1]!;
}

function ofHeader(header: Field['header'], branches: number): number[] {
  const between = Array.from({ length: 2 * (branches - 1) }, () => header.spacing_m);
  return [header.run_out_m, header.run_out_m, ...between];
}

/** Every pipe of the loop must be free of air; pump off and both loop valves shut, as a rule. */
function jobOf(job: NonNullable<Site['job']>, draft: Draft): JobSpec {
  const usual: JobSpec['hand_over'] = [
    { control: 'pump', state: 'off' },
    { control: 'loop_supply_valve', state: 'shut' },
    { control: 'loop_return_valve', state: 'shut' },
  ];
  return { ...job, loop_links: [...draft.loop], hand_over: job.hand_over ?? usual };
}
