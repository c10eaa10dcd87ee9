// How questions of cases.json about valves that are slammed are put to whole worlds: what the
// engine tells as a hazard, over what stood before.
import { createWorld, type World } from '../../../sim/index.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { during, of, turn } from '../../support/hands.ts';
import { ATM, node, PSI, run } from '../../support/worlds.ts';
import type { Slam } from '../origin/surge.ts';

/** A pipe from a reservoir to a valve at its end; more keys for the pipe, and for the whole. */
export function slamRig(i: Slam, rating_kPa: number, more: { pipe?: object; all?: object } = {}) {
  const { bore_mm, loss_k_open } = i;
  const main = {
    ...pipe('main', ['head', 'end'], bore_mm, i.length_m),
    ...{ wall_mm: i.wall_mm, modulus_MPa: i.modulus_MPa, roughness_mm: 0, ...more.pipe },
  };
  const valve = { id: 'valve', kind: 'valve', from: 'end', to: 'away', bore_mm, loss_k_open };
  return scenario(
    [held('head', i.head_kPa), { ...joint('end'), rating_kPa }, held('away', 0)],
    [main, { ...valve, start_deg: 90, rate_deg_s: 90 / i.shut_s }],
    { surges: true, hands: { reach_s: 0 }, ...more.all },
  );
}

/** What is told of hammer from the slam on, for fifteen seconds. */
export function slam(world: World) {
  return of(during(world, 15, [turn('valve', 0)]), 'hammer');
}

/** psi by which the pressure jumps beside a valve that is shut, held against a rating of 1 psi. */
function surge(i: Slam): number {
  const world = run(createWorld(slamRig(i, PSI / 1000), 1), 40);
  const before = node(world, 'end') - ATM;
  return (Math.max(...slam(world).map(({ value }) => value)) - before) / PSI;
}

export const SURGES = { 'world.surge_psi': surge };
