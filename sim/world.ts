// A world is made from a scenario and a seed, and changed by `step` alone.
import { assert } from './base/assert.ts';
import { hashBytes } from './base/hash.ts';
import { seedStream } from './base/rng.ts';
import { startBeyond, watchBeyond } from './beyond.ts';
import { findCracks, openCracks } from './cracks.ts';
import type { Command } from './command.ts';
import { NO_FACTS, type Fact } from './fact.ts';
import { instruct, moveHands } from './hands.ts';
import { contents } from './books.ts';
import { followDefects, startDefects } from './defects.ts';
import { drawFor } from './defects/drawn.ts';
import { formOf } from './form.ts';
import { endHazards, makeWatches, watchHazards } from './hazard.ts';
import { followInstruments } from './instrument.ts';
import { everySecond, freshen, startLiquids } from './liquids.ts';
import { answerLine, begin } from './jobsheet/answer.ts';
import { tryLatches } from './latches.ts';
import { coolCups } from './vessels.ts';
import { runPumps } from './machines.ts';
import { heedFacts, makeGoals, watchMilestones } from './milestones.ts';
import { comeBack, isAway, leave, planNight, stepNow } from './night.ts';
import { powerSize, runPower, startPower } from './power.ts';
import { followNotes, startNotes, writeDown } from './notes.ts';
import { creepWalls } from './network/creep.ts';
import { solveHeads } from './network/heads.ts';
import { setOpenings } from './network/passage.ts';
import { followTees } from './network/tees.ts';
import { makeScratch, weigh } from './network/weigh.ts';
import { countsOf } from './network/debris-plan.ts';
import { turnOf, type Plan } from './network/plan.ts';
import { makePlan } from './network/topology.ts';
import { makeHeads } from './network/unknowns.ts';
import type { Scenario } from './scenario.ts';
import type { World } from './world-parts.ts';
import { fillWorld } from './start.ts';
import { measure } from './see-truth.ts';
import { makeState, type Sizes } from './state.ts';
import { followSurges, startSurges, surgeSize } from './surge.ts';
import { makeMoves } from './transport/carry.ts';
import { followDebris } from './transport/debris.ts';
import { forgetRoom, makeGrainRoom } from './transport/grain-room.ts';
import { makeFluxes } from './transport/flux.ts';
import { moveContents } from './transport/pipes.ts';
import { exchangeAir } from './transport/dissolved.ts';
import { carriesAir, carriesHeat, carriesLoads, carriesSolute } from './transport/flow.ts';
import { makeLoads } from './transport/load.ts';
import { carryLoads, mixNodes } from './transport/solute.ts';
import { settleTanks } from './transport/tank.ts';

export type { World } from './world-parts.ts';

export function tickSeconds(scenario: Scenario): number {
  return scenario.solver.tick_s;
}

function sizesOf(plan: Plan, watches: number): Sizes {
  return {
    volumes: plan.volumes,
    points: plan.points,
    links: plan.links.length,
    columns: plan.columns.length,
    faces: plan.faces,
    watches,
    instruments: plan.scenario.instruments.length,
    tanks: plan.tanks.length,
    devices: plan.scenario.devices.length,
    notes: plan.scenario.record.length,
    cups: plan.mix.cups.length,
    strokes: plan.mix.strokes.length,
    roomy: plan.mix.room !== null,
    tees: plan.tees.length,
    pumps: plan.pumps.length,
    power: plan.power === null ? 0 : powerSize(plan.pumps.length),
    ledgers: plan.ledgers.length,
    heated: plan.thermal !== null,
    airy: carriesAir(plan),
    creep: plan.creep.give.length,
    ...(plan.debris === null ? {} : { debris: countsOf(plan.debris) }),
    defects: plan.defects.timed.length,
    surge: surgeSize(plan.surges),
    goals: plan.scenario.job?.milestones?.length ?? 0,
    asks: plan.scenario.job?.sheet !== undefined,
  };
}

/** With steps of `per` of the scenario's ticks. */
function frame(scenario: Scenario, seed: number, buffer?: ArrayBuffer, per: number = 1): World {
  const plan = makePlan(scenario, drawFor(scenario, seed), per);
  const watches = makeWatches(plan);
  const state = makeState(sizesOf(plan, watches.length), buffer);
  return {
    plan,
    seed,
    dt: plan.tick,
    state,
    start: new Float64Array(5),
    scratch: makeScratch(plan),
    heads: makeHeads(plan),
    fluxes: makeFluxes(plan),
    moves: makeMoves(plan),
    loads: makeLoads(plan, state),
    grainRoom: makeGrainRoom(plan),
    watches,
    cracks: findCracks(plan, watches),
    goals: makeGoals(plan),
    trial: new Float64Array(plan.columns.length),
    night: planNight(plan),
    frames: { steps: [null, null], last: null },
  };
}

/** In place: a world whose shape changed would be slow for all its life. */
function setStart(world: World, start: ArrayLike<number>): void {
  world.start.set(start);
}

/** A fresh world. `scenario` must have come from `parseScenario`; seed is a whole number. */
export function createWorld(scenario: Scenario, seed: number): World {
  const world = frame(formOf(scenario, seed), seed);
  const { plan, state } = world;
  for (let stream = 0; stream < 4; stream++) seedStream(state.chance, 4 * stream, seed, stream);
  fillWorld(world);
  startPower(plan, state);
  startLiquids(world);
  startBeyond(world);
  weigh(plan, state, world.scratch);
  startDefects(world);
  setOpenings(plan, state, world.scratch);
  startSurges(world);
  followInstruments(plan, state, 1e9);
  startNotes(plan, state);
  setStart(world, contents(world));
  return world;
}

/** One tick, or a step of a night. The only writer. Returns what happened, in order. */
export function step(world: World, commands: readonly Command[]): readonly Fact[] {
  const facts: Fact[] = [];
  takeCommands(world, commands, facts);
  if (world.state.counter[1] === 0) {
    if (isAway(world.state)) stepAway(world, facts);
    else goOn(world, facts);
    if (facts.length > 0 && world.goals.length > 0) heedFacts(world, facts);
  }
  if (facts.length > 0) heedFacts(world, facts);
  return facts.length === 0 ? NO_FACTS : facts;
}

/** While nobody is there: one step as long as flows allow. Ends where they are back. */
function stepAway(world: World, facts: Fact[]): void {
  const k = stepNow(world.state, world.night);
  takeUp(world, k < 0 ? world : (world.frames.steps[k] ??= atNight(world, k)));
  goOn(world.frames.last!, facts);
  comeBack(world.state, facts);
  if (!isAway(world.state)) takeUp(world, world);
}

/** The same world, on the same state, with longer steps. */
function atNight({ plan: { scenario }, seed, state, start, night }: World, k: number): World {
  const world = frame(scenario, seed, state.buffer as ArrayBuffer, night.steps[k]!);
  setStart(world, start);
  return world;
}

/** What is no state must be brought up to date in another frame than the last. */
function takeUp({ frames }: World, next: World): void {
  if (frames.last === next) return;
  frames.last = next;
  forgetRoom(next.grainRoom);
  freshen(next);
}

/** One step by the world's own plan. */
function goOn(world: World, facts: Fact[]): void {
  const { plan, state, scratch, fluxes, loads, dt } = world;
  const turn = turnOf(plan, state);
  moveHands(plan, state, dt, facts); //            Hands first: the tick shows their effect.
  if (plan.scenario.devices.length > 0) tryLatches(plan, state, facts);
  weigh(plan, state, scratch); //                  What is where, as the last tick left it.
  setOpenings(plan, state, scratch);
  followDefects(world, dt);
  openCracks(world);
  followTees(plan, state, scratch, dt);
  if (plan.power !== null) runPower({ plan, state, alpha: scratch.alpha, dt, facts });
  runPumps({ plan, state, alpha: scratch.alpha, dt, facts });
  solveHeads(world);
  moveContents(world); //    Contents follow this tick's flow.
  settleTanks(world);
  if (carriesLoads(plan)) {
    mixNodes(world, loads);
    if (turn % plan.soluteEvery === plan.soluteEvery - 1)
      carryLoads(plan, state, loads, fluxes.total);
    if (carriesAir(plan) && turn % loads.airEvery === loads.airEvery - 1) exchangeAir(world, loads);
  }
  if (carriesSolute(plan) || carriesHeat(plan)) {
    if (turn % plan.mixEvery === plan.mixEvery - 1) everySecond(world);
  }
  if (plan.debris !== null) followDebris(world);
  if (turn % plan.creep.every === plan.creep.every - 1) creepWalls(plan, state, scratch);
  if (plan.mix.cups.length > 0) coolCups(plan, state, dt);
  followInstruments(plan, state, dt);
  if (plan.scenario.record.length > 0) followNotes(plan, state, dt);
  if (plan.per === 1) followSurges(world);
  else startSurges(world); // No wave lasts that long.
  const { alpha } = scratch;
  watchHazards({ plan, state, alpha, scratch, watches: world.watches, dt, facts });
  watchBeyond(world, facts);
  if (world.goals.length > 0) watchMilestones(world, facts);
  state.counter[0] = state.counter[0]! + plan.per;
  const { solver, ends_after_s } = plan.scenario;
  if (state.counter[0]! * solver.tick_s >= ends_after_s) end(world, false, facts);
}

function takeCommands(world: World, commands: readonly Command[], facts: Fact[]): void {
  const { plan, state } = world;
  const tick = state.counter[0]!;
  for (const command of commands) {
    if (state.counter[1] === 1) {
      facts.push({ tick, kind: 'refused', command, reason: 'over' });
      continue;
    }
    if (isAway(state)) {
      facts.push({ tick, kind: 'refused', command, reason: 'away' });
      continue;
    }
    if (command.kind === 'leave') {
      const reason = leave(world, command, facts);
      if (reason === null) begin(state);
      else facts.push({ tick, kind: 'refused', command, reason });
      continue;
    }
    if (command.kind === 'done') {
      facts.push({ tick, kind: 'command', command });
      end(world, true, facts);
      continue;
    }
    if (command.kind === 'note' && writeDown(world, command, facts)) continue;
    if (command.kind === 'answer') {
      answerLine(world, command, facts);
      continue;
    }
    const answer = instruct(plan, state, command);
    if (answer === 'taken') begin(state);
    if (answer === 'taken') facts.push({ tick, kind: 'command', command });
    else facts.push({ tick, kind: 'refused', command, reason: answer });
  }
}

function end(world: World, asked: boolean, facts: Fact[]): void {
  heedFacts(world, facts);
  world.state.counter[1] = 1;
  endHazards({ state: world.state, watches: world.watches, facts });
  facts.push({ tick: world.state.counter[0]!, kind: 'done', asked, measures: measure(world) });
}

/** True when the run is over. */
export function isOver(world: World): boolean {
  return world.state.counter[1] === 1;
}

/** An independent copy, for rewinding and branching. */
export function clone(world: World): World {
  return loadState(world.plan.scenario, world.seed, world.state.buffer.slice(0), world.start);
}

export function saveState(world: World): ArrayBuffer {
  return world.state.buffer.slice(0);
}

/** @throws AssertionError when the bytes are not of this scenario. */
export function loadState(
  scenario: Scenario,
  seed: number,
  bytes: ArrayBuffer,
  start?: ArrayLike<number>,
): World {
  const from = start ?? createWorld(scenario, seed).start;
  const world = frame(formOf(scenario, seed), seed, bytes);
  setStart(world, from);
  freshen(world);
  return world;
}

/** 16 hex digits over every byte of the state. @throws AssertionError if a number is not finite. */
export function hash(world: World): string {
  const { state } = world;
  for (const view of [state.gas, state.mass, state.point, state.flow]) {
    assert(
      view.every((x) => x - x === 0),
      'a number of the state is not finite',
    );
  }
  return hashBytes(new Uint8Array(state.buffer));
}
