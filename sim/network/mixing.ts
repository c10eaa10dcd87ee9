// What dosing needs of a scenario, worked out once: where cups are filled, between which tanks a
// pail goes, which links are hand pumps, what lies open in a room. Adds the ledgers they need.
import { pow } from '../base/math.ts';
import type { Scenario } from '../scenario.ts';
import type { CarryPlan, CupPlan, MixPlan, RoomPlan } from './vessel-plan.ts';
import { placesIn } from './places.ts';
import { OPEN, TANK, type LinkPlan, type NodePlan } from './plan.ts';

interface Given {
  readonly scenario: Scenario;
  readonly nodes: readonly NodePlan[];
  readonly links: readonly LinkPlan[];
  readonly ledgers: string[];
}

const deviceOf = ({ device }: { device: number }): number => device;

export function planMixing({ scenario, nodes, links, ledgers }: Given): MixPlan {
  const { devices } = scenario;
  const nodeOf = (id: string): number => nodes.findIndex((n) => n.id === id);
  const cups = devices.flatMap((d, device): CupPlan[] =>
    d.kind === 'cup' ? [planCup(device, Int32Array.from(d.places, nodeOf), d.litres / 1000)] : [],
  );
  const carries = devices.flatMap((d, device): CarryPlan[] =>
    d.kind === 'carry'
      ? [{ device, from: nodeOf(d.from), to: nodeOf(d.to), room: d.litres / 1000 }]
      : [],
  );
  const strokes = links.flatMap(({ spec }, ix) => (spec.kind === 'hand_pump' ? [ix] : []));
  return {
    cups,
    carries,
    cupOf: placesIn(cups.map(deviceOf), devices.length),
    carryOf: placesIn(carries.map(deviceOf), devices.length),
    strokes,
    strokeOf: placesIn(strokes, links.length),
    sample: cups.length > 0 ? ledgers.push('sample') - 1 : -1,
    room: planRoom({ scenario, nodes, links, ledgers }),
  };
}

function planCup(device: number, places: Int32Array, room: number): CupPlan {
  return { device, places, room, side: pow(room, 1 / 3) };
}

function planRoom({ scenario, nodes, ledgers }: Given): RoomPlan | null {
  const { room, devices } = scenario;
  if (room === undefined) return null;
  const holds = (id: string): boolean =>
    room.holds.includes(id) || room.holds.includes(id.split('.')[0]!);
  const inside = nodes.flatMap((node, n) => (holds(node.id) ? [n] : []));
  return {
    volume: room.volume_m3,
    leak: (room.leak_air_changes_per_h * room.volume_m3) / 3600,
    fans: devices.flatMap((d, device) =>
      d.kind === 'fan' ? [{ device, flow: d.air_L_s / 1000 }] : [],
    ),
    tanks: inside.filter((n) => nodes[n]!.kind === TANK),
    spills: inside.flatMap((n) => {
      const { kind, spec, ledger } = nodes[n]!;
      const ground = kind === OPEN && spec.kind === 'open' && spec.goes_to === 'ground';
      return kind === TANK || ground ? [ledger] : [];
    }),
    ledger: ledgers.push('vapour') - 1,
  };
}
