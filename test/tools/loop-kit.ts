// What hands of random loops have beside valves: arms, locks, things worn, a cup, a pail, a room.
import type { Chance } from './chance.ts';

/** A loop as far as it is drawn. */
interface Drawn {
  readonly random: Chance;
  readonly antifreeze: string;
  readonly nodes: readonly { readonly id: string; readonly kind: string }[];
  readonly links: readonly { readonly id: string; readonly kind: string }[];
}
const likely = (random: Chance, p: number) => random.unit() < p;

/** A cup, a pail between two tanks, a room around some of it: what dosing needs. */
export function addVessels(d: Drawn): Record<string, unknown>[] {
  const { random } = d;
  if (likely(random, 0.5)) return [];
  const tanks = d.nodes.filter(({ kind }) => kind === 'tank');
  const places = d.nodes.filter(({ kind }) => kind === 'tank' || kind === 'junction').slice(0, 20);
  const take_s = random.pick([0, 2]);
  const litres = random.pick([0.05, 1]);
  return [
    { id: 'fan', kind: 'fan', air_L_s: 20 },
    { id: 'flame', kind: 'flame' },
    ...(places.length === 0
      ? []
      : [{ id: 'cup', kind: 'cup', places: places.map(({ id }) => id), litres, take_s }]),
    ...(tanks.length < 2
      ? []
      : [{ id: 'pail', kind: 'carry', from: tanks[0]!.id, to: tanks[1]!.id, litres: 10, take_s }]),
  ];
}

export function addRoom(d: Drawn): Record<string, unknown> {
  const inside = d.nodes.filter(({ kind }) => kind === 'tank' || kind === 'open');
  if (!['ethanol', 'methanol'].includes(d.antifreeze) || inside.length === 0) return {};
  return { room: { volume_m3: 30, holds: inside.map(({ id }) => id).slice(0, 50) } };
}

/** Arms on some couplings, locks on some pumps; most scenarios have none. */
export function addDevices(d: Drawn): unknown[] {
  if (likely(d.random, 0.6)) return [];
  const worn = ['eyes', 'gloves'].map((what) => ({ id: what, kind: 'wear', what }));
  const parts = d.links.flatMap(({ kind, id }, k) => {
    if (kind === 'valve' && k % 5 === 0) return [{ id: `d${k}`, kind: 'guard', of: id }];
    if (kind === 'coupling') return [{ id: `d${k}`, kind: 'latch', of: id, start: k % 3 }];
    return kind === 'pump' ? [{ id: `d${k}`, kind: 'lock', of: id, start: k % 2 }] : [];
  });
  return [...parts, ...worn];
}
