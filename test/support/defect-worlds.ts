// Worlds with one defect on the rig of the table of signs, and hands that tell what came of it.
import { createWorld, truth, type Command, type Fact, type World } from '../../sim/index.ts';
import { defectRig } from './defect-rig.ts';
import { during } from './hands.ts';

export const rig = (defect: object | null, seed = 1): World =>
  createWorld(defectRig(defect === null ? [] : [{ id: 'wrong', ...defect }]), seed);
export const level = (world: World): number => truth(world).defects[0]!.level;

/** Gives a command and goes on; what became of it. */
export const told = (world: World, command: Command, seconds: number): Fact[] =>
  during(world, seconds, [command]).filter(({ kind }) =>
    ['moved', 'held', 'refused'].includes(kind),
  );
