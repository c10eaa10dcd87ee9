// How questions of cases.json about cold liquid, heat and frost are put to whole worlds.
import { createWorld, steadyState } from '../../../sim/index.ts';
import { held, joint, pipe, scenario } from '../../support/fields.ts';
import { node, run } from '../../support/worlds.ts';

interface Cold {
  readonly fluid: string;
  readonly x: number;
  readonly t_C: number;
  readonly bore_mm: number;
  readonly flow_L_s: number;
}

/** 102 m of smooth pipe under an imposed flow of a mixture, 100 m of it between two fittings. */
function coldRig({ fluid, x, t_C, bore_mm, flow_L_s }: Cold) {
  const mixed = (of: object) => ({ ...of, start_antifreeze_fraction: x, roughness_mm: 0 });
  return scenario(
    [
      { ...held('source', 100), antifreeze_fraction: x },
      joint('a'),
      joint('b'),
      { ...held('sink', 50), antifreeze_fraction: x },
    ],
    [
      { id: 'feed', kind: 'fixed_flow', from: 'source', to: 'a', bore_mm, flow_L_s },
      mixed(pipe('long', ['a', 'b'], bore_mm, 100)),
      mixed(pipe('out', ['b', 'sink'], bore_mm, 2)),
    ],
    { antifreeze: fluid, temperature_C: t_C },
  );
}

/** Loss over 100 m of pipe as a run comes to it, Pa. */
function coldLoss(i: Cold): number {
  const world = run(createWorld(coldRig(i), 1), 120);
  return node(world, 'a') - node(world, 'b');
}

/** The same as the steady solver has it, Pa. */
function coldSteady(i: Cold): number {
  return steadyState(coldRig(i)).links.find(({ id }) => id === 'long')!.loss;
}

export const HEAT = {
  'world.cold_loss_Pa': coldLoss,
  'cold.steady_Pa': coldSteady,
};
