// Volumes, times and levels: what the loop holds, how long the tap takes, how much antifreeze it
// needs, and by how much the tank falls for what air is left.
import { assert } from '../base/assert.ts';
import { abs } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import { fractionForFreezePoint, mixDensity } from '../laws/antifreeze.ts';
import type { Scenario } from '../scenario.ts';
import type { Steady } from '../steady.ts';
import { exactly, given, lineOf, ownOr, roomOfLoop } from './ask.ts';
import type { Ask, Expected, LineOf } from './ask.ts';
import { airGives, giveOf, PROOF } from './give.ts';
import { isConduit, roomOf, steadyWith, type Rig } from './rig.ts';

/** m that a tank's level can be read to where no instrument says so. */
export const LEVEL_READ = 0.002;

export const ofVolume = ({ rig }: Ask): Expected => exactly(roomOfLoop(rig), []);

function volumeGoneOnFrom(ask: Ask): number {
  return ownOr(ask, lineOf(ask.rig, 'volume'), roomOfLoop(ask.rig));
}

export function ofMakeUp(ask: Ask, line: LineOf<'make_up'>): Expected {
  const { rig } = ask;
  const V = volumeGoneOnFrom(ask);
  const Q = makeUpFlow(rig, line);
  return exactly(V / Q, [given('volume', V, 'volume'), given('flow', Q, 'flow')]);
}

/** m3/s that pass a line's link while water is made up. */
export function makeUpFlow(rig: Rig, { link }: LineOf<'make_up'>): number {
  const steady = steadyWith(rig, rig.sheet.make_up ?? {});
  const flow = abs(steady.links.find(({ id }) => id === link)?.flow ?? 0);
  assert(flow > 0, `nothing passes ${link} while water is made up`);
  return flow;
}

export function ofAntifreeze(ask: Ask, line: LineOf<'antifreeze'>): Expected {
  const { rig, job } = ask;
  const { antifreeze: kind, temperature_C: t, nodes } = rig.scenario;
  const aim = job.outcomes?.find((one) => one.kind === 'freeze');
  const drum = nodes.find(({ id }) => id === line.from);
  assert(aim !== undefined && drum?.kind === 'tank', 'no freeze point, or no drum');
  const V = volumeGoneOnFrom(ask);
  const x = fractionForFreezePoint(kind, aim.aim_C);
  const product = drum.start_antifreeze_fraction;
  const value = (V * mixDensity(kind, t, x) * x) / (mixDensity(kind, t, product) * product);
  return exactly(value, [
    given('volume', V, 'volume'),
    given('aim', aim.aim_C, 'celsius'),
    given('fraction', x, 'ratio'),
    given('product', product, 'ratio'),
  ]);
}

/** Mean gauge pressure of a link by its ends; null where nothing ties it to a boundary. */
function meanOf(steady: Steady, id: string): number | null {
  const link = steady.links.find((one) => one.id === id);
  if (link === undefined) return null;
  const at = (name: string) => steady.nodes.find((node) => node.id === name)?.pressure ?? null;
  const [a, b] = [at(link.from), at(link.to)];
  return a === null || b === null ? null : (a + b) / 2;
}

/** Pa abs, the loop's mean with its return open, and shut against the pump. */
export function proofPressures(rig: Rig, shut: Steady): { open: number; closed: number } {
  const truth = roomOfLoop(rig);
  let [open, closed] = [0, 0];
  for (const link of rig.loop) {
    const [p1, p2] = [meanOf(rig.purge, link.id), meanOf(shut, link.id)];
    if (p1 === null || p2 === null) continue;
    open += (roomOf(link) / truth) * (P_ATM + p1);
    closed += (roomOf(link) / truth) * (P_ATM + p2);
  }
  return { open, closed };
}

export function ofDrop(ask: Ask, line: LineOf<'drop'>): Expected {
  const { rig, job, scenario } = ask;
  const t = rig.scenario.temperature_C;
  const shut = steadyWith(rig, { ...rig.sheet.purge, [line.valve]: 0 });
  const truth = roomOfLoop(rig);
  const larger = volumeGoneOnFrom(ask) / truth;
  const inLoop = new Set(rig.loop.map(({ id }) => id));
  let stretch = 0;
  for (const link of rig.scenario.links.filter(isConduit)) {
    const [p1, p2] = [meanOf(rig.purge, link.id), meanOf(shut, link.id)];
    if (p1 === null || p2 === null) continue;
    const own = inLoop.has(link.id) ? larger : 1;
    stretch += own * roomOf(link) * giveOf(link, t, PROOF) * (p2 - p1);
  }
  const { open, closed } = proofPressures(rig, shut);
  const area = areaOfTank(scenario, line.tank);
  const air = airGives((line.air_L ?? job.air_allowed_L) / 1000, open, closed) / area;
  const division = divisionOf(scenario, line.tank);
  return {
    ...exactly(air + stretch / area, [
      given('air', air, 'level'),
      given('stretch', stretch / area, 'level'),
      given('open', open - P_ATM, 'pressure'),
      given('shut', closed - P_ATM, 'pressure'),
      given('division', division, 'level'),
    ]),
    cannot_tell: air < division,
  };
}

export function areaOfTank({ nodes }: Scenario, id: string): number {
  const tank = nodes.find((node) => node.id === id);
  assert(tank?.kind === 'tank', `${id} is no tank`);
  return tank.area_m2;
}

/** m. One division of what shows a tank's level. */
export function divisionOf({ instruments }: Scenario, tank: string): number {
  const found = instruments.find((one) => one.kind === 'level' && one.tank === tank);
  return found?.kind === 'level' ? found.resolution_mm / 1000 : LEVEL_READ;
}
