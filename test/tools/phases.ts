// Drills of a whole day: plays a job's solution, and at every marker of a phase writes down how all
// parts stand, as a merge patch on the job's scenario, with the job cut down to that phase.
//   node --import tsx test/tools/phases.ts [FOLDER ...]
// writes levels/NN-name/phases.json of every level whose solution has markers. A drill that its own
// piece of the solution does not pass, because no key can say how it begins, is left out.
import { existsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { assert } from '../../sim/base/assert.ts';
import type { Fact } from '../../sim/fact.ts';
import { drillOf, drillScript, PHASES, type Phase, type Phases } from '../../sim/phases.ts';
import { parseScenario, type Scenario } from '../../sim/scenario.ts';
import { parseScript } from '../../sim/script-schema.ts';
import { runScript, type Played } from '../../sim/script.ts';
import { score } from '../../sim/score.ts';
import type { Rules } from '../../sim/rules.ts';
import type { Score } from '../../sim/marks.ts';
import type { World } from '../../sim/world.ts';
import { folders, LEVELS, readJson, RULES } from './golden.ts';
import { outcomesIn, standingOf, type Piece, type Standing } from './phases-outcomes.ts';
import {
  devicePatches,
  debrisNow,
  defectsNow,
  linkPatches,
  nodePatches,
  stateOf,
} from './phases-parts.ts';

type Json = Record<string, unknown>;

/** Over what the solution needs: within the first all marks for time, beyond the second none. */
const TIME = { full: 1.3, zero: 3, ends: 4 } as const;
/** s. A phase of a few moves still gives hands so long. */
const TIME_LEAST = 300;

/** Every drill of a job, from its scenario and its solution as JSON. */
export function drillsOf(scenarioJson: unknown, scriptJson: unknown): Phases {
  const scenario = parseScenario(scenarioJson);
  const script = parseScript(scriptJson, scenario);
  const starts: Json[] = [];
  const stood: Standing[] = [];
  const { run, outcome, phases } = runScript(scenario, script, {
    onPhase: (_, { world }) => {
      stood.push(standingOf(world)); // The phase before ends here.
      starts.push(world.state.counter[0] === 0 ? {} : startNow(world));
    },
  });
  assert(outcome.end === 'finished', `the solution stops at ${outcome.step ?? 'its start'}`);
  stood.push(standingOf(run.world));
  const end = run.world.state.counter[0]!;
  const drills: Partial<Record<Phase, { scenario: Json }>> = {};
  phases.forEach(({ id, tick }, k) => {
    const last = phases[k + 1]?.tick ?? end;
    const facts = run.facts.filter((fact) => fact.tick >= tick && fact.tick < last);
    const [before, after] = [stood[k]!, stood[k + 1]!];
    const cut = { scenario, phase: id, facts, ticks: last - tick, before, after };
    const own = { ...sheetOf(cut), job: jobOf(cut) };
    drills[id] = { scenario: { ...timesOf(cut), ...starts[k], ...own } };
  });
  return drills;
}

/** Members whose patch changes something, without what stays as it is. */
function changes(own: readonly { readonly id: string }[], patches: readonly Json[]): Json[] {
  const before = new Map(own.map((spec) => [spec.id, spec as Json]));
  return patches.flatMap((patch) => {
    const spec = before.get(String(patch.id)) ?? {};
    const differs = ([key, value]: [string, unknown]): boolean =>
      key !== 'id' && JSON.stringify(spec[key] ?? none(value)) !== JSON.stringify(value);
    const kept = Object.entries(patch).filter(differs);
    return kept.length === 0 ? [] : [{ id: patch.id, ...Object.fromEntries(kept) }];
  });
}

/** What a key that is not said stands for. */
const none = (value: unknown): unknown => (typeof value === 'number' ? 0 : undefined);

function startNow(world: World): Json {
  const { nodes, links, devices } = world.plan.scenario;
  const defects = defectsNow(world);
  const debris = debrisNow(world);
  return {
    nodes: changes(nodes, nodePatches(world)),
    links: changes(links, linkPatches(world)),
    devices: changes(devices, devicePatches(world)),
    ...(defects === null ? {} : { defects }),
    ...(debris === null ? {} : { debris }),
  };
}

interface Cut extends Piece {
  readonly facts: readonly Fact[];
  readonly ticks: number;
}

/** s. By the work that the solution needs; while nobody is there time goes by for everybody. */
function timeOf({ scenario, facts, ticks }: Cut, factor: number): number {
  const away = facts.reduce((s, fact) => s + (fact.kind === 'left' ? fact.hours * 3600 : 0), 0);
  const work = Math.max(TIME_LEAST, ticks * scenario.solver.tick_s - away);
  return 60 * Math.ceil((away + factor * work) / 60);
}

const timesOf = (cut: Cut) => ({ ends_after_s: timeOf(cut, TIME.ends) });

/**
 * Lines of the sheet that belong to the phase: those its milestones ask for, and what else the
 * solution writes beside them. None where no milestone asks: a sheet that nobody need fill in
 * would be points for nothing.
 */
function sheetOf({ scenario, phase, facts }: Cut): Json {
  const { record } = scenario;
  if (record.length === 0) return {};
  const asked = new Set<string>();
  for (const one of scenario.job?.milestones ?? []) {
    if (one.phase === phase && one.kind === 'noted') asked.add(one.entry);
  }
  if (asked.size === 0) return { record: [] };
  for (const fact of facts) if (fact.kind === 'noted') asked.add(fact.entry);
  return { record: record.filter(({ id }) => asked.has(id)) };
}

/** What the drill asks for: the phase's own milestones, what it decides, its controls, its time. */
function jobOf(cut: Cut): Json {
  const { scenario, phase, facts } = cut;
  const job = (scenario.job ?? {}) as Json;
  const milestones = membersOf(job.milestones).filter((one) => one.phase === phase);
  const ids = new Set(milestones.map(({ id }) => id));
  const own = milestones.map((one) =>
    Array.isArray(one.after) ? { ...one, after: one.after.filter((id) => ids.has(id)) } : one,
  );
  const goals = job.milestones === undefined && job.outcomes === undefined;
  return {
    time_full_s: timeOf(cut, TIME.full),
    time_zero_s: timeOf(cut, TIME.zero),
    hand_over: handOverOf(scenario, facts),
    ...(goals ? {} : { milestones: own, ...outcomesIn(cut) }),
  };
}

function membersOf(list: unknown): Json[] {
  return Array.isArray(list) ? (list as Json[]) : [];
}

/** As they stand in the solution when the phase ends: the controls that the phase has moved. */
function handOverOf(scenario: Scenario, facts: readonly Fact[]): Json[] {
  const last = new Map<string, number>();
  for (const fact of facts) if (fact.kind === 'moved') last.set(fact.control, fact.value);
  return [...last].flatMap(([control, value]) => {
    const state = stateOf(scenario, control, value);
    return state === null ? [] : [{ control, state }];
  });
}

/** One member of a list to a line, so that a change is a diff that can be read. */
export function phasesText(drills: Phases): string {
  const text = (json: unknown, depth: number): string => {
    const [pad, end] = ['\n' + '  '.repeat(depth), '\n' + '  '.repeat(depth - 1)];
    if (Array.isArray(json)) {
      if (json.length === 0) return '[]';
      return `[${json.map((one) => pad + JSON.stringify(one)).join(',')}${end}]`;
    }
    if (typeof json !== 'object' || json === null) return JSON.stringify(json);
    const rows = Object.entries(json).map(([key, one]) => `"${key}": ${text(one, depth + 1)}`);
    return rows.length === 0 ? '{}' : `{${pad}${rows.join(`,${pad}`)}${end}}`;
  };
  return `${text(drills, 1)}\n`;
}

/** What the piece of a solution comes to that stands between a phase's markers. */
export interface Drilled {
  readonly outcome: Played['outcome'];
  readonly marks: Score;
  /** Milestones that the drill asks for and that were not reached. */
  readonly missed: readonly string[];
}

/** Plays one drill by its piece of the whole day's script. */
export function playDrill(day: Day, phase: Phase, patch: Json): Drilled {
  const scenario = parseScenario(drillOf(day.scenario, phase, patch));
  const lines = scenario.record.map(({ id }) => id);
  const script = parseScript(drillScript(day.script, phase, lines), scenario);
  const { run, outcome } = runScript(scenario, script);
  const reached = new Set(
    (run.facts as readonly Json[]).flatMap((f) => (f.kind === 'reached' ? [f.milestone] : [])),
  );
  const asked = membersOf((scenario.job as Json | undefined)?.milestones);
  const missed = asked.map(({ id }) => String(id)).filter((id) => !reached.has(id));
  return { outcome, marks: score(scenario, day.rules, run.facts), missed };
}

/** A whole day as JSON, and what marks it. */
export interface Day {
  readonly scenario: unknown;
  readonly script: unknown;
  readonly rules: Rules;
}

function rewrite(named: readonly string[]): void {
  for (const folder of named.length > 0 ? named : folders) {
    if (!existsSync(join(LEVELS, folder, 'solution.script.json'))) continue;
    const script = readJson(LEVELS, folder, 'solution.script.json');
    const scenario = readJson(LEVELS, folder, 'scenario.json');
    const drills: Record<string, Phases[Phase]> = { ...drillsOf(scenario, script) };
    for (const phase of PHASES) {
      const patch = drills[phase]?.scenario;
      if (patch === undefined) continue;
      const { outcome, marks, missed } = playDrill(
        { scenario, script, rules: RULES },
        phase,
        patch,
      );
      const lost = marks.deductions.map(({ rule, points }) => `${rule} -${points.toFixed(1)}`);
      const told = [...lost, ...missed, ...(marks.passed ? [] : ['LEFT OUT'])].join();
      console.log(folder, phase, outcome.end, marks.total.toFixed(1), told);
      if (!marks.passed) delete drills[phase];
    }
    if (Object.keys(drills).length === 0) continue;
    writeFileSync(join(LEVELS, folder, 'phases.json'), phasesText(drills));
  }
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) rewrite(process.argv.slice(2));
