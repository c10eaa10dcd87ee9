// Pressures to test at and to leave: by what the job asks for, what the weakest part bears, and how
// far plastic lets a pressure down.
import { assert } from '../base/assert.ts';
import { max, min } from '../base/math.ts';
import { G } from '../base/units.ts';
import type { ConduitSpec, LinkSpec } from '../scenario.ts';
import { conduit, given } from './ask.ts';
import type { Ask, Expected, LineOf } from './ask.ts';
import { shareLeft } from './give.ts';
import type { Rig } from './rig.ts';

export function ofTest({ rig, job }: Ask): Expected {
  const held = job.milestones?.find((one) => one.kind === 'held' && one.phase === 'leak_test');
  assert(held?.kind === 'held', 'no leak test is asked for');
  const bears = bearsAt(rig, held.node);
  const from = 1000 * held.from_kPa;
  const to = max(from, min(1000 * held.to_kPa, bears));
  const numbers = [given('asked', from, 'pressure'), given('bears', bears, 'pressure')];
  return { value: from, from, to, cannot_tell: false, given: numbers };
}

/** Pa at a node with which no part that is joined to it at the start bears more than its rating. */
function bearsAt({ scenario, rho }: Rig, id: string): number {
  const { nodes, links } = scenario;
  const open = links.filter((link) => !isShutAtStart(link));
  const joined = new Set([id]);
  for (let size = 0; size < joined.size;) {
    size = joined.size;
    for (const { from, to } of open) {
      if (joined.has(from)) joined.add(to);
      if (joined.has(to)) joined.add(from);
    }
  }
  const high = (name: string): number => {
    const node = nodes.find((one) => one.id === name);
    return node?.kind === 'junction' ? node.elevation_m : 0;
  };
  return nodes
    .filter((node) => node.kind === 'junction' && joined.has(node.id))
    .flatMap((node) => (node.kind === 'junction' && node.rating_kPa !== undefined ? [node] : []))
    .map((node) => 1000 * node.rating_kPa! - rho * G * (high(id) - node.elevation_m))
    .reduce((x, y) => min(x, y), Infinity);
}

function isShutAtStart(link: LinkSpec): boolean {
  if (link.kind === 'valve') return link.start_deg === 0;
  return link.kind === 'coupling' && link.start === 'apart';
}

/** What gives way under the pressure that is left: the loop and what the line names besides. */
export const leftIn = (rig: Rig, { links }: LineOf<'leave'>): readonly ConduitSpec[] => [
  ...rig.loop,
  ...links.map((id) => conduit(rig, id)),
];

export function ofLeave({ rig, job }: Ask, line: LineOf<'leave'>): Expected {
  const asked = job.outcomes?.find((one) => one.kind === 'pressure');
  assert(asked?.kind === 'pressure', 'no pressure is asked for');
  const away = job.milestones?.find((one) => one.kind === 'left');
  const after = 3600 * (away?.kind === 'left' ? away.hours : 0);
  const share = shareLeft(leftIn(rig, line), rig.scenario.temperature_C, after);
  const at = (kPa: number): number => (1000 * kPa) / share;
  return {
    value: at(asked.aim_kPa),
    from: at(asked.aim_kPa - asked.within_kPa),
    to: at(asked.aim_kPa + asked.within_kPa),
    cannot_tell: false,
    given: [
      given('aim', 1000 * asked.aim_kPa, 'pressure'),
      given('left', share, 'ratio'),
      given('hours', after, 'time'),
    ],
  };
}
