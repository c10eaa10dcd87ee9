// A player at the controls: each second it gets what a trainee would have, and its commands go the
// way of a trainee's. Here player and engine meet, and nowhere else; what a player is handed is
// made here, frozen, out of panel, scene and the drawing.
import { max, round } from './base/math.ts';
import { residualOf } from './derived.ts';
import { proofBook } from './jobsheet/residual.ts';
import { workedOut } from './jobsheet/worked-out.ts';
import type { Command } from './command.ts';
import { fractionForFreezePoint, mixDensity } from './laws/antifreeze.ts';
import { isAway } from './night.ts';
import { advance, recordOf, startRun, type Run, type RunRecord } from './run.ts';
import { outcomesOf, type MilestoneSpec, type Scenario } from './scenario.ts';
import { snapshot, timeOf } from './see.ts';
import { isOver } from './world.ts';
import type { Player } from './player/player.ts';
import type { Asked, Briefing, SeenLink, SeenNode, View } from './player/view.ts';

/** s. How often a player looks and decides. */
const DECIDE_EVERY = 1;

/** What was decided when, and why. */
interface Why {
  readonly time_s: number;
  readonly why: string;
  readonly commands: readonly Command[];
}

export interface PlayedBy {
  readonly run: Run;
  readonly record: RunRecord;
  readonly whys: readonly Why[];
}

/**
 * Plays a job from its start to its end. The job sheet is filled in for the player before it
 * begins: it is worked out from drawing and plates, and shows nothing of how one works.
 */
export function playJob(scenario: Scenario, player: Player, seed: number): PlayedBy {
  const run = startRun(scenario, seed);
  const decide = player.begin(briefingOf(run.scenario));
  const every = max(1, round(DECIDE_EVERY / scenario.solver.tick_s));
  const whys: Why[] = [];
  for (let tick = 0, due = 0; !isOver(run.world); tick = run.world.state.counter[0]!) {
    let commands: readonly Command[] = tick === 0 ? workedOut(run.scenario) : [];
    // Nobody looks while nobody is there.
    if (tick >= due && !isAway(run.world.state)) {
      due = tick + every;
      const decided = decide(viewOf(run));
      const { why, commands: next } = decided;
      if (next.length > 0) whys.push({ time_s: timeOf(run.world), why, commands: next });
      commands = [...commands, ...next];
    }
    advance(run, commands);
  }
  return { run, record: recordOf(run), whys };
}

function viewOf(run: Run): View {
  const { time_s, panel, scene } = snapshot(run.world);
  return frozen({ time_s, panel, scene });
}

/** Plain data, all of it out of reach of a hand that would write on it. */
function frozen<T>(data: T): T {
  if (typeof data !== 'object' || data === null || Object.isFrozen(data)) return data;
  if (Array.isArray(data)) {
    for (const value of data) if (typeof value === 'object') frozen(value);
  } else for (const key in data) if (typeof data[key] === 'object') frozen(data[key]);
  return Object.freeze(data);
}

/** The job as a trainee may know it: no defects, no debris, no air that stands in its pipes. */
export function briefingOf(scenario: Scenario): Briefing {
  const { job } = scenario;
  return frozen({
    nodes: scenario.nodes.map(nodeOf),
    links: scenario.links.map(linkOf),
    instruments: scenario.instruments.map((spec) => ({
      id: spec.id,
      kind: spec.kind,
      at: ['node', 'link', 'tank', 'pump', 'high', 'low', 'cup'].flatMap((key) =>
        key in spec ? [String(spec[key as keyof typeof spec])] : [],
      ),
    })),
    devices: scenario.devices.map((spec) => ({
      id: spec.id,
      kind: spec.kind,
      of: 'of' in spec ? spec.of : null,
      places: 'places' in spec ? [...spec.places] : placesOf(spec),
      needs: 'needs' in spec ? [...spec.needs] : [],
      inside: 'inside' in spec ? [...spec.inside] : [],
      what: 'what' in spec ? spec.what : null,
    })),
    sheet: scenario.record.map(({ id, reading = null }) => {
      return { id, reading, of: lettered(scenario, id) };
    }),
    antifreeze: scenario.antifreeze,
    products: productsOf(scenario),
    proof: proofOf(scenario),
    loop: [...(job?.loop_links ?? [])],
    rule_velocity_m_s: job?.rule_velocity_m_s ?? 0,
    air_allowed_L: job?.air_allowed_L ?? 0,
    hand_over: (job?.hand_over ?? []).map(({ control, state }) => ({ control, state })),
    asked: (job?.milestones ?? []).map(askedOf),
    aims: (job === undefined ? [] : outcomesOf(job)).map(({ kind, ...rest }) => ({
      kind,
      ...byType(rest),
    })),
  });
}

/** Where one has to find out which part it is, not that part: only those among which it is. */
function askedOf({ id, phase, kind, ...rest }: MilestoneSpec): Asked {
  const { names, numbers } = byType(rest);
  const { link: _where, found: _what, ...others } = names;
  return {
    id,
    phase,
    kind,
    names: names['found'] === undefined ? names : others,
    numbers,
    still: 'still' in rest ? [...rest.still] : [],
    after: [...rest.after],
  };
}

function proofOf(scenario: Scenario): Briefing['proof'] {
  const [line, book] = [residualOf(scenario), proofBook(scenario)];
  return line === null || book === null ? null : { open: line.open, shut: line.shut, ...book };
}

/** Links of which a line speaks: "flow of trench 8" is of what the drawing letters so. */
function lettered({ links }: Scenario, line: string): string[] {
  const words = line.split('_');
  const names = words.map((_, at) => words.slice(at).join('_')).filter((n) => /\d/.test(n));
  for (const name of names) {
    const own = links.filter(({ id }) => id === name);
    const parts = own.length > 0 ? own : links.filter(({ id }) => id.startsWith(`${name}_`));
    if (parts.length > 0) return parts.map(({ id }) => id);
  }
  return [];
}

/** Tanks that come with antifreeze and are only drawn from, by what stands on them. */
function productsOf(scenario: Scenario): Briefing['products'] {
  const { job, antifreeze, temperature_C, links, devices } = scenario;
  const aim = (job === undefined ? [] : outcomesOf(job)).find((one) => one.kind === 'freeze');
  if (aim === undefined) return [];
  const x = fractionForFreezePoint(antifreeze, aim.aim_C);
  const kilos = (of: number): number => mixDensity(antifreeze, temperature_C, of) * of;
  const filled = (id: string): boolean =>
    links.some(({ to }) => to.split('.')[0] === id) ||
    devices.some((one) => one.kind === 'carry' && one.to === id);
  return scenario.nodes.flatMap((node) => {
    if (node.kind !== 'tank' || node.start_antifreeze_fraction === 0 || filled(node.id)) return [];
    const share = kilos(x) / kilos(node.start_antifreeze_fraction);
    return [{ tank: node.id, share, neat_share: kilos(x) / kilos(1) }];
  });
}

function placesOf(spec: Scenario['devices'][number]): string[] {
  return spec.kind === 'carry' ? [spec.from, spec.to] : [];
}

function byType(of: object): { names: Record<string, string>; numbers: Record<string, number> } {
  const entries = Object.entries(of).filter(([key]) => !MARKS.includes(key));
  return {
    names: Object.fromEntries(entries.filter(([, value]) => typeof value === 'string')),
    numbers: Object.fromEntries(entries.filter(([, value]) => typeof value === 'number')),
  };
}

/** How it is marked is nothing to play by. */
const MARKS: readonly string[] = ['points', 'share', 'dimension'];

function nodeOf(spec: Scenario['nodes'][number]): SeenNode {
  const tank = spec.kind === 'tank' ? spec : null;
  return {
    id: spec.id,
    kind: spec.kind,
    elevation_m: spec.kind === 'tank' ? spec.floor_m : spec.elevation_m,
    goes_to: spec.kind === 'open' ? spec.goes_to : null,
    height: (tank?.height_mm ?? 0) / 1000,
    area: tank?.area_m2 ?? 0,
    ports: Object.fromEntries((tank?.ports ?? []).map((p) => [p.id, p.height_mm / 1000])),
  };
}

function linkOf(spec: Scenario['links'][number]): SeenLink {
  const ends = [spec.from, spec.to, ...('branch' in spec ? [spec.branch] : [])];
  return {
    id: spec.id,
    kind: spec.kind,
    ends: ends.map((end) => end.split('.')[0]!),
    ports: ends.map((end) => end.split('.')[1] ?? null),
    bore_m: spec.bore_mm / 1000,
    length_m: 'length_m' in spec ? spec.length_m : 0,
    clear: 'clear' in spec && spec.clear,
    stroke: 'stroke_mL' in spec ? spec.stroke_mL / 1e6 : 0,
  };
}
