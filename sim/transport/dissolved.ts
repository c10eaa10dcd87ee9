// Air in solution: a load of the liquid (load.ts), in J as gas is, so that what goes from one to
// the other is one number in one book. Once a second each volume's liquid draws near what it can
// hold at its pressure and temperature, through bubbles, under pockets, at tanks' surfaces, and on
// the motes and walls where bubbles begin. Antifreeze is taken to hold as much as water does.
import { abs, max, min, pow, round, smoothstep, sqrt } from '../base/math.ts';
import { G, P_ATM, ZERO_C } from '../base/units.ts';
import { BUBBLE_COARSE, BUBBLE_FINE, GAS_DUST } from '../constants.ts';
import {
  airDiffusivity,
  bubbleTransfer,
  dissolvedAirStp,
  streamTransfer,
} from '../laws/dissolved.ts';
import { layerThickness, type GasSection } from '../laws/gas.ts';
import { vapourPressure } from '../laws/water.ts';
import { JUNCTION, RESERVOIR, OPEN, TANK, type Plan } from '../network/plan.ts';
import { LEDGER_STRIDE, type State } from '../state.ts';
import type { Flow } from './flow.ts';

/** s. Water and gas exchange air in steps of this. */
const AIR_S = 1;
/**
 * Pa. Bubbles begin on motes and in crevices of about 25 um, against their surface tension: 2 sigma
 * over radius [fit, no source].
 */
const SEED_OVER = 6000;
/** Gas share whose surface those seeds have, once more is in solution than they need [fit]. */
const SEED_SHARE = 1e-3;
/** m/s. Transfer at the surface of a tank that is stirred by what returns [fit, no source]. */
const SURFACE = 2e-5;
/** Gas share of a fitting from which its gas is a pocket [fit]. */
const FITTING_POCKET = 0.3;
/** kg. Less liquid than this holds nothing of its own. */
const TRACE = 1e-12;

/** Pa of vapour at the temperature that was last asked for: a volume is asked at two pressures. */
const vapour = { t: NaN, p: 0 };

/** J/kg in solution at equilibrium under p Pa abs of moist air at t C. */
export function saturation(plan: Plan, p: number, t: number): number {
  if (t !== vapour.t) {
    vapour.t = t;
    vapour.p = vapourPressure(t);
  }
  const dry = max(0, p - vapour.p);
  return (dissolvedAirStp(dry, t, 1) * P_ATM * (plan.scenario.temperature_C + ZERO_C)) / ZERO_C;
}

/** Ticks from one exchange to the next: right after the liquid's loads have been carried. */
export function airEvery({ scenario, tick, soluteEvery }: Plan): number {
  if (scenario.dissolved_air === undefined) return 0;
  return soluteEvery * max(1, round(AIR_S / tick / soluteEvery));
}

/** J/kg that boundaries bring: make-up water is saturated under one atmosphere. */
export function givenAir(plan: Plan): Float64Array {
  const fresh = saturation(plan, P_ATM, plan.scenario.temperature_C);
  return Float64Array.from(plan.nodes, ({ kind }) =>
    kind === RESERVOIR || kind === OPEN ? fresh : 0,
  );
}

/** Once contents stand. */
export function startAir(plan: Plan, state: State): void {
  const { temperature_C, dissolved_air } = plan.scenario;
  const held = saturation(plan, P_ATM, temperature_C) * dissolved_air!.start_share;
  for (let v = 0; v < plan.volumes; v++) {
    state.airShare[v] = held;
    state.air[v] = held * state.mass[v]!;
  }
}

/** J/kg of a volume, from what it holds. */
export function freshAir(state: State, v: number): void {
  const mass = state.mass[v]!;
  if (mass > TRACE) state.airShare[v] = max(0, state.air[v]! / mass);
}

/** What an exchange needs to know, one for all: a second makes none anew. */
const here = {
  /** m2/s of air in water; m, bubbles' diameter; m/s, transfer to those that rise. */
  D: 0,
  d: 0,
  rises: 0,
  /** Seconds; J/kg at the gas's pressure, and at that of seeds. */
  dt: 0,
  full: 0,
  seeded: 0,
  /** m3/s: transfer velocity times surface of the gas, and of seeds. */
  gas: 0,
  seeds: 0,
  /** The same of a tank's surface, and J/kg in balance with it. */
  surface: 0,
  open: 0,
  /** Pa of vapour, and J/kg a Pa above it, of the warmest volume: every other holds more. */
  vapour: 0,
  surely: 0,
};
/** Beside 1, what rounding could make of a law that falls as it gets warmer. */
const ROUNDING = 1e-9;

interface Every {
  /** m3/s through each node: scratch. */
  readonly through: Float64Array;
  readonly airEvery: number;
}

/** Once a second. */
export function exchangeAir(flow: Flow, { through, airEvery: every }: Every): void {
  const { plan, state } = flow;
  here.dt = every * flow.dt;
  here.D = airDiffusivity(plan.scenario.temperature_C, plan.water.mu);
  here.d = plan.scenario.dissolved_air!.bubble_mm / 1000;
  here.rises = bubbleTransfer(here.d, here.D, 1);
  const warmest = warmestOf(plan, state);
  here.vapour = vapourPressure(warmest);
  here.surely = (saturation(plan, P_ATM + here.vapour, warmest) / P_ATM) * (1 - ROUNDING);
  settleThrough(plan, state, through);
  for (let n = 0; n < plan.nodes.length; n++) {
    const kind = plan.kinds[n]!;
    if (kind === TANK) exchangeTank(plan, state, n);
    if (kind === JUNCTION) exchangeFitting(flow, n, through[n]!);
  }
  for (let c = 0; c < plan.columns.length; c++) exchangeColumn(flow, c);
}

function settleThrough(plan: Plan, state: State, through: Float64Array): void {
  through.fill(0);
  for (let c = 0; c < plan.columns.length; c++) {
    const { a, b } = plan.columns[c]!;
    const half = abs(state.flow[c]!) / 2;
    if (a < through.length) through[a] = through[a]! + half;
    if (b < through.length) through[b] = through[b]! + half;
  }
}

function temperatureAt(plan: Plan, state: State, v: number): number {
  return plan.thermal === null ? plan.scenario.temperature_C : state.temp[v]!;
}

/** C. */
function warmestOf(plan: Plan, { temp }: State): number {
  if (plan.thermal === null) return plan.scenario.temperature_C;
  let t = temp[0]!;
  for (let v = 1; v < plan.volumes; v++) t = max(t, temp[v]!);
  return t;
}

/** m3 of gas, no more than its room. */
function gasRoomAt({ plan, state }: Flow, v: number): number {
  const room = (state.gas[v]! * state.warmth[plan.leans[v]!]!) / state.pressure[v]!;
  return min(room, plan.room[v]!);
}

/** Writes what a volume's liquid can hold; false where there is nothing to exchange. */
function stands({ plan, state }: Flow, v: number): boolean {
  const mass = state.mass[v]!;
  if (mass <= TRACE) {
    giveUp(state, v);
    return false;
  }
  const p = state.pressure[v]!;
  const surely = here.surely * (p + SEED_OVER - here.vapour) * mass;
  if (state.gas[v] === 0 && state.air[v]! <= surely) return false;
  const t = temperatureAt(plan, state, v);
  here.seeded = saturation(plan, p + SEED_OVER, t);
  const rich = state.air[v]! > here.seeded * mass;
  if (state.gas[v] === 0 && !rich) return false;
  here.full = saturation(plan, p, t);
  here.seeds = rich ? (here.rises * 6 * SEED_SHARE * mass) / state.density[v]! / here.d : 0;
  here.surface = 0;
  return true;
}

/** A volume without liquid: what was in solution is gas now. */
function giveUp(state: State, v: number): void {
  if (!(state.air[v]! > 0)) return;
  state.gas[v] = state.gas[v]! + state.air[v]!;
  state.air[v] = 0;
}

/** The cells of a column; it moves as one. */
function exchangeColumn(flow: Flow, c: number): void {
  const { plan, state } = flow;
  const { link, cell, cells } = plan.columns[c]!;
  const { area, bore } = plan.links[link]!;
  const j = abs(state.flowMean[c]!) / area;
  for (let v = cell; v < cell + cells; v++) {
    if (!stands(flow, v)) continue;
    const { sinTheta, U_b } = plan.section[v]!;
    const room = gasRoomAt(flow, v);
    const alpha = room / plan.room[v]!;
    const h = layerThickness(alpha);
    const w = pocketShare(plan.section[v]!, alpha, h);
    here.gas = 0;
    if (w < 1) {
      const moves = min(1, abs(sinTheta) + j / U_b);
      here.gas += ((1 - w) * bubbleTransfer(here.d, here.D, moves) * 6 * room) / here.d;
    }
    if (w > 0) {
      const width = max(0.05, 2 * sqrt(max(0, h - h * h))) * bore;
      const water = max(0.02, 1 - alpha);
      const deep = min(bore, (water * area) / width);
      here.gas += w * streamTransfer(j / water, deep, here.D) * width * plan.cellLength[v]!;
    }
    draw(state, v);
  }
}

/**
 * Share of a cell's gas that is pocket, not bubbles: in a steep pipe as the law of drift has it; in
 * others, where bubbles gather under the crown, once they lie there side by side [fit].
 */
function pocketShare({ lo, hi, D }: GasSection, alpha: number, thickness: number): number {
  const steep = (hi - 0.05) / 0.2; // As sections have it: 0 to 45 degrees, 1 from 75.
  const flat = smoothstep((2 * thickness * D) / here.d - 1);
  return flat + (smoothstep((alpha - lo) / (hi - lo)) - flat) * steep;
}

/** A pocket in a fitting is as broad as it is deep. */
function exchangeFitting(flow: Flow, n: number, through: number): void {
  if (!stands(flow, n)) return;
  const all = flow.plan.room[n]!;
  const room = gasRoomAt(flow, n);
  const w = smoothstep(room / all / FITTING_POCKET);
  here.gas = ((1 - w) * here.rises * 6 * room) / here.d;
  if (w > 0) {
    const size = pow(all, 1 / 3);
    const water = max(0.02, 1 - room / all);
    const U = through / (size * size * water);
    here.gas += w * streamTransfer(U, size * water, here.D) * size * size;
  }
  draw(flow.state, n);
}

/** A tank's bubbles, of two sizes, at half its depth; its surface to the air. */
function exchangeTank(plan: Plan, state: State, n: number): void {
  const { ledger, tank } = plan.nodes[n]!;
  const { area_m2 } = plan.tanks[tank]!.spec;
  const at = ledger * LEDGER_STRIDE + 2;
  const mass = state.mass[n]!;
  if (mass <= TRACE) {
    state.ledger[at] = state.ledger[at]! + state.air[n]!;
    state.air[n] = 0;
    return;
  }
  const t = temperatureAt(plan, state, n);
  const p = P_ATM + (G * mass) / area_m2 / 2;
  const coarse = state.tankGas[2 * tank]!;
  const fine = state.gas[n]! - coarse;
  here.full = saturation(plan, p, t);
  here.seeded = saturation(plan, P_ATM + SEED_OVER, t);
  here.open = saturation(plan, P_ATM, t);
  const small = bubbleTransfer(BUBBLE_FINE, here.D, 1) / BUBBLE_FINE;
  const big = bubbleTransfer(BUBBLE_COARSE, here.D, 1) / BUBBLE_COARSE;
  here.gas = (6 * (small * fine + big * coarse)) / p;
  const rich = state.air[n]! > here.seeded * mass;
  here.seeds = rich ? (6 * small * SEED_SHARE * mass) / state.density[n]! : 0;
  here.surface = SURFACE * area_m2;
  const before = state.gas[n]!;
  const out = draw(state, n);
  state.ledger[at] = state.ledger[at]! + out;
  if (state.gas[n]! < before) state.tankGas[2 * tank] = (coarse * state.gas[n]!) / before;
}

/**
 * One step of a volume, implicit, so that no step passes the balance: J that leave by the surface
 * are returned, the rest becomes gas, or was gas as far as there is any.
 */
function draw(state: State, v: number): number {
  const mass = state.mass[v]!;
  const per = (here.dt * state.density[v]!) / mass;
  const r1 = here.gas * per;
  const r2 = here.seeds * per;
  const r3 = here.surface * per;
  const x = state.air[v]! / mass;
  const next = (x + r1 * here.full + r2 * here.seeded + r3 * here.open) / (1 + r1 + r2 + r3);
  const held = state.gas[v]!;
  let freed = mass * (r1 * (next - here.full) + r2 * (next - here.seeded));
  if (held + freed < GAS_DUST) freed = freed < 0 ? -held : 0;
  const out = r3 === 0 ? 0 : mass * r3 * (next - here.open);
  state.gas[v] = held + freed;
  state.air[v] = state.air[v]! - freed - out;
  freshAir(state, v);
  return out;
}
