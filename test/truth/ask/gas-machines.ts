// How questions of cases.json are put to the laws of gas in pipes, cushions and surge, pumps,
// tanks, dissolved air and grains. Arithmetic here is that of the question, never of the law.
import { wallCompliance, joukowsky, waveSpeed } from '../../../sim/laws/elastic.ts';
import * as dissolved from '../../../sim/laws/dissolved.ts';
import { frictionFactor, pipeLoss } from '../../../sim/laws/friction.ts';
import * as gas from '../../../sim/laws/gas.ts';
import * as pump from '../../../sim/laws/pump.ts';
import * as solids from '../../../sim/laws/solids.ts';
import * as tank from '../../../sim/laws/tank.ts';
import * as water from '../../../sim/laws/water.ts';

const G = 9.80665;
const ATM = 101325;
const GPM = 3.785411784e-3 / 60;
const PSI = 6894.757;
const RHO = water.density(20);
const SIGMA = water.surfaceTension(20);
const AIR = 1.205; // kg/m3 at 20 C, 1 atm.

type Input = Readonly<Record<string, number>>;

const sine = (i: Input): number => Math.sin(((i['th_deg'] ?? 0) * Math.PI) / 180);
const section = (i: Input): gas.GasSection => gas.gasSection(i['D']!, sine(i), RHO, AIR, SIGMA);
const eotvos = (i: Input): number => ((RHO - AIR) * G * i['D']! * i['D']!) / SIGMA;
const out = new Float64Array(3);

/** Velocity of the gas itself, before the end limiter: C j + slip. */
function velocity(i: Input, alpha: number): number {
  gas.gasDrift(section(i), alpha, i['j']!, i['n'] ?? 1, out);
  return out[0]! * i['j']! + out[1]!;
}

/** Where a rising function crosses nothing, between lo and hi. */
function crossing(f: (x: number) => number, lo: number, hi: number): number {
  for (let k = 0; k < 60; k++) {
    const mid = (lo + hi) / 2;
    if (f(mid) < 0) lo = mid;
    else hi = mid;
  }
  return (lo + hi) / 2;
}

/** Greatest gas flux of a vertical leg whose total flux is nothing, over r. */
function exchangeVertical(D: number): number {
  const sec = gas.gasSection(D, 1, RHO, AIR, SIGMA);
  let most = 0;
  for (let k = 1; k < 1000; k++) most = Math.max(most, gas.gasFlux(sec, k / 1000, 0, 1));
  return most / sec.r;
}

/** Two streams past each other in equal volumes, over r: Wallis' flooding line. */
const flooding = (C: number): number => (C / (1 + (AIR / RHO) ** 0.25)) ** 2;

function shear(i: Input): number {
  const rho = water.density(i['t']!);
  const Re = (rho * i['V']! * i['D']!) / water.viscosity(i['t']!);
  return solids.wallShear(frictionFactor(Re, 1.5e-6 / i['D']!), rho, i['V']!);
}

/** Air column, m, that balances the loss of a clear circuit. */
function blockedColumn(i: Input): number {
  const D = i['D']!;
  const A = (Math.PI * D * D) / 4;
  const rho = water.density(i['t']!);
  const run = { D, A, L: i['L']!, e: 1.5e-6, rho, mu: water.viscosity(i['t']!) };
  pipeLoss(i['V']! * A, run, out);
  return out[0]! / (rho * G);
}

/** d(p V)/dt = -p q with the water following, integrated over the lift by midpoints. */
function primingTime(i: Input): number {
  const { lift, extra, D, q } = i as { lift: number; extra: number; D: number; q: number };
  const A = (Math.PI * D * D) / 4;
  const steps = 2000;
  let seconds = 0;
  for (let k = 0; k < steps; k++) {
    const z = ((k + 0.5) * lift) / steps;
    const p = ATM - RHO * G * z;
    const air = A * (lift + extra - z);
    const rate = pump.primingAirRate(q, p, Infinity);
    seconds += (((air * RHO * G) / p + A) / rate) * (lift / steps);
  }
  return seconds;
}

/** Time until a bubble of diameter d is gone, by the rate of its radius. */
function bubbleLife(i: Input): number {
  const { p, p_sat, t } = i as { p: number; p_sat: number; t: number };
  const rate = dissolved.bubbleGrowth(i['k_L']!, { p, p_sat, t_C: t, rho: water.density(t) });
  return -i['d']! / 2 / rate;
}

function headAt(i: Input): number {
  pump.pumpHead(pump.onePointCurve(i['Hd']!, i['Qd']!), i['Q']!, i['speed'] ?? 1, out);
  return out[0]!;
}

const stp = (p: number, t: number): number =>
  1000 * dissolved.dissolvedAirStp(p, t, water.density(t));
const moist = (t: number): number => stp(ATM - water.vapourPressure(t), t);
const shutOff = (i: Input): number =>
  60 * pump.shutOffHeating(i['P']!, { m_w: i['m_w']!, c_w: 4184, m_m: i['m_m']!, c_m: 460 });
const volume = (i: Input): number => (Math.PI * i['D']! * i['D']! * i['L']!) / 4;
const wall = (i: Input): number => wallCompliance(i['D']!, i['e']!, i['E']!, i['nu']!);
const wave = (compliance: number): number =>
  waveSpeed(1 / water.compressibility(20), RHO, compliance);

const GAS = {
  verticalFroude: (i) => gas.verticalFroude(eotvos(i)),
  verticalFroudeOf: (i) => gas.verticalFroude(i['Eo']!),
  pocketConstant: (i) => gas.pocketConstant(i['n']!),
  levelFroude: (i) => gas.levelFroude(eotvos(i)),
  scale: (i) => section(i).r,
  bubbleSpeed: () => section({ D: 0.05 }).U_b,
  driftFroude: (i) => section(i).Up / section(i).r,
  exchangeLevel: (i) => gas.levelling(section(i), 1, 0) / section(i).r,
  layerThickness: (i) => gas.layerThickness(i['alpha']!),
  exchangeVertical: (i) => exchangeVertical(i['D']!),
  exchangeOverFlooding: (i) => exchangeVertical(i['D']!) / flooding(i['C']!),
  clearing: (i) => gas.clearingVelocity(section(i), i['n']!),
  clearingFroude: (i) => gas.clearingVelocity(section(i), i['n']!) / section(i).r,
  onsetConstant: (i) =>
    section(i).onset / section(i).r / Math.sqrt(Math.tan((-i['th_deg']! * Math.PI) / 180)),
  jumpEntrainment: (i) => gas.jumpEntrainment(i['Fr']!),
  jumpEntrainmentOld: (i) => gas.jumpEntrainmentOld(i['Fr']!),
  pocketVelocity: (i) => velocity(i, 0.5),
  bubbleVelocity: (i) => velocity(i, 0),
  bubbleArrest: (i) => crossing((j) => velocity({ ...i, th_deg: -90, j }, 0), 0, 1),
  fluxThreshold: (i) =>
    crossing((j) => gas.gasFlux(section(i), i['alpha']!, j, 1), 0, 2) / section(i).r,
  gasFlux: (i) => gas.gasFlux(section(i), i['alpha']!, i['j']!, i['n']!),
} satisfies Record<string, (i: Input) => number>;

const WALLS_AND_PUMPS = {
  wallGive: (i) => volume(i) * wall(i),
  wallAndWaterGive: (i) => volume(i) * (wall(i) + water.compressibility(20)),
  waveSpeed: (i) => wave(wallCompliance(i['DR']! - 2, 1, i['E']!, i['nu']!)),
  waveSpeedOf: (i) => wave(wall(i)),
  surge: (i) => joukowsky(RHO, i['a']!, i['dV']!) / PSI,
  blockedColumn,
  onePoint: headAt,
  onePointAt: headAt,
  affinity: (i) => pump.affinity(i['rpm']! / i['full']!)[AFFINE[i['of']!]!],
  wheelHead: (i) => pump.wheelHead((Math.PI * i['D']! * i['rpm']!) / 60),
  shaftPower: (i) =>
    pump.shaftPower(pump.onePointCurve(i['Hd']!, i['Qd']!), i['Q']!, {
      rho: RHO,
      Q_bep: i['Qd']!,
      eta_max: i['eta']!,
    }),
  npsh: (i) =>
    pump.npshAvailable({
      p: ATM,
      p_v: water.vapourPressure(i['t']!),
      rho: water.density(i['t']!),
      z: i['z']!,
      h: i['h']!,
    }),
  npshFactor: (i) => pump.npshFactor(i['ratio']!),
  gasFactor: (i) => pump.gasFactor(i['alpha']!, i['share']!),
  primingTime,
  throughHeating: (i) => pump.throughHeating(i['H']!, i['eta']!, 4184),
  shutOffHeating: shutOff,
  shutOffHeatingF: (i) => 1.8 * shutOff(i),
} satisfies Record<string, (i: Input) => number>;
const AFFINE = ['flow', 'head', 'power'] as const;

const TANKS_AIR_GRAINS = {
  bubbleRise: (i) => tank.bubbleRise(i['d']!, i['t']!),
  plungeDepth: (i) => tank.plungeDepth(i['V']!, i['d']!),
  plungeEntrainment: (i) => tank.plungeEntrainment(i['V']!, i['d']!, i['fall']!),
  hazenRemoval: (i) => tank.hazenRemoval(i['uA']!, i['Q']!),
  submergence: (i) =>
    tank.vortexSubmergence(i['D']!, (i['gpm']! * GPM * 4) / (Math.PI * i['D']! * i['D']!)),
  stirredApproach: (i) => tank.stirredApproach(i['Q']!, i['V']!, i['t']!),
  henry: (i) => 1e6 * dissolved.henryAir(i['t']!),
  dissolvedAir: (i) => dissolved.dissolvedAir(i['p']!, i['t']!, water.density(i['t']!)),
  dissolvedStp: (i) => stp(i['p']!, i['t']!),
  ostwald: (i) => dissolved.ostwald(i['t']!, water.density(i['t']!)),
  warming: (i) => moist(i['t0']!) - moist(i['t1']!),
  uptake: (i) => (i['V']! * (stp(i['p1']!, i['t']!) - stp(i['p0']!, i['t']!))) / 1000,
  bubbleLife,
  settling: (i) => solids.settlingSpeed(i['d']!, i['s']!, water.viscosity(20) / RHO),
  wallShear: shear,
  grainMoved: (i) => 1000 * solids.grainMoved(shear(i), { s: 2.65, rho: RHO, theta: 0.05 }),
  deposit: (i) => solids.depositVelocity(i['F_L']!, i['D']!, i['s']!),
} satisfies Record<string, (i: Input) => number>;

export const GAS_AND_MACHINES: Readonly<Record<string, (i: Input) => number>> = {
  ...GAS,
  ...WALLS_AND_PUMPS,
  ...TANKS_AIR_GRAINS,
};
