// The kit of a whole day, found on the drawing and in the list of controls by kind and place: the
// loop's gauge and cock, the hand pump and its pail, the machine's own pump, what is worn.
import type { Rig } from './map.ts';
import type { Briefing, SeenDevice, SeenLink } from './view.ts';

export interface Kit {
  readonly devices: (kind: string) => readonly SeenDevice[];
  /** Gauge at the loop, and the small cock that lets it off to the ground. */
  readonly loopGauge: string | null;
  readonly cock: string | null;
  /** Hand pump into the loop, its pail's level, and what carries mix there. */
  readonly handPump: SeenLink | null;
  readonly pail: string | null;
  readonly jug: string | null;
  /** The machine's own pump, and the gauge across its coil. */
  readonly loopPump: string | null;
  readonly coilGauge: string | null;
  /** Valves to the outside air: of the cart's tank, and of the rest of cart and hoses. */
  readonly tankDrains: readonly string[];
  readonly drains: readonly string[];
  /** Where the tank's drains end. */
  readonly tankEnds: readonly string[];
  readonly taps: readonly string[];
  /** Valves that let air out above the pump. */
  readonly vents: readonly string[];
}

export function kitOf(rig: Rig): Kit {
  const { briefing, field, unit, tank, fill, ways, casing } = rig;
  const { links, instruments, devices } = briefing;
  const isLoop = (node: string): boolean =>
    field.nodes.has(node) || (unit !== null && unit.nodes.has(node));
  const openEnds = new Map(
    briefing.nodes.flatMap((n) => (n.kind === 'open' ? [[n.id, n.goes_to]] : [])),
  );
  const handPump =
    links.find(({ kind, ends }) => kind === 'hand_pump' && isLoop(ends[1] ?? '')) ?? null;
  const pail = handPump?.ends[0] ?? null;
  const toAir = links.filter(
    ({ kind, ends }) => kind === 'valve' && ends.some((end) => openEnds.has(end)),
  );
  const waste = new Set(
    toAir.filter(({ ends }) => ends.some((e) => openEnds.get(e) === 'waste')).map(({ id }) => id),
  );
  const high = new Map(briefing.nodes.map(({ id, elevation_m }) => [id, elevation_m]));
  const lift = high.get(casing) ?? 0;
  const isPumpSide = (nodes: readonly string[], end: string): boolean =>
    nodes.includes(end) && !isLoop(end);
  const out = toAir.filter(({ ends }) => !ends.some(isLoop));
  return {
    devices: (kind) => devices.filter((device) => device.kind === kind),
    loopGauge:
      instruments.find(({ kind, at }) => kind === 'pressure' && at.some(isLoop))?.id ?? null,
    cock:
      toAir.find(({ ends }) => ends.some((e) => field.nodes.has(e)) && !ends.includes(tank.id))
        ?.id ?? null,
    handPump,
    pail: instruments.find((i) => i.kind === 'level' && i.at.includes(pail ?? ''))?.id ?? null,
    jug:
      devices.find(({ kind, places }) => {
        return kind === 'carry' && places[0] === tank.id && places[1] === pail;
      })?.id ?? null,
    loopPump: unit?.pieces.find(({ link }) => link.kind === 'pump')?.link.id ?? null,
    coilGauge: instruments.find(({ kind }) => kind === 'difference')?.id ?? null,
    tankDrains: out.filter(({ ends }) => ends.includes(tank.id)).map(({ id }) => id),
    drains: out.flatMap(({ id, ends }) => (ends.includes(tank.id) || waste.has(id) ? [] : [id])),
    tankEnds: out.flatMap(({ ends }) =>
      ends.includes(tank.id) ? ends.filter((end) => end !== tank.id) : [],
    ),
    vents: out.flatMap(({ id, ends }) => {
      const above = ways.some(({ out: path }) => ends.some((e) => isPumpSide(path.nodes, e)));
      return above && ends.some((end) => (high.get(end) ?? -Infinity) > lift) ? [id] : [];
    }),
    taps: fill.slice(0, -1),
  };
}

/** Couplings that join the hoses of these, straight or crossed; these among them. */
export function jointsOf({ links }: Briefing, couplings: readonly string[]): string[] {
  const ends = links.flatMap(({ id, ends: own }) => (couplings.includes(id) ? [...own] : []));
  return links.flatMap(({ id, kind, ends: own }) =>
    kind === 'coupling' && own.some((end) => ends.includes(end)) ? [id] : [],
  );
}

/** Arms of couplings. */
export function armsOf(kit: Kit, couplings: readonly string[]): string[] {
  const arms = kit.devices('latch');
  return arms.flatMap(({ id, of }) => (of !== null && couplings.includes(of) ? [id] : []));
}
