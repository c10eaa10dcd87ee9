// Worlds with one defect on the rig of the table of signs, and hands that tell what came of it.
import { createWorld, step, truth, type Command, type Fact, type World } from '../../sim/index.ts';
import { defectRig, numbersOf } from './defect-rig.ts';

export const rig = (defect: object | null, seed = 1): World =>
  createWorld(defectRig(defect === null ? [] : [{ id: 'wrong', ...defect }]), seed);
export const turn = (valve: string, target_deg: number): Command => ({
  kind: 'valve',
  valve,
  target_deg,
});
export const reading = (world: World, id: string): number => numbersOf(world)[id]!;
export const level = (world: World): number => truth(world).defects[0]!.level;

/** Gives a command and goes on; facts but those of the command. */
export function told(world: World, command: Command, seconds: number): Fact[] {
  const facts = [...step(world, [command])];
  for (let t = 1; t < 10 * seconds; t++) facts.push(...step(world, []));
  return facts.filter(({ kind }) => ['moved', 'held', 'refused'].includes(kind));
}
