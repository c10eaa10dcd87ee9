// Test files that take longest begin first, so that no worker is left with one at the end while the
// other has nothing to do. The list is by measurement; a file that is not in it comes behind.
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const LONG = [
  'unit/sim/player/lapwing-school-drills',
  'unit/sim/player/lapwing-school',
  'property/orderings',
  'unit/sim/player/otter-bank-drills',
  'unit/sim/player/curlew-rise-drills',
  'unit/sim/player/otter-bank',
  'unit/sim/player/curlew-rise',
  'golden/levels',
  'unit/sim/form-marks',
  'golden/lapwing-school',
  'property/loops',
  'property/heat',
  'golden/replays',
  'unit/game/yard-random',
  'truth/cases',
  'unit/sim/player/reference',
  'unit/sim/cli',
  'unit/sim/player/wrong',
  'golden/curlew-rise',
  'property/world',
  'property/dissolved',
  'golden/otter-bank',
  'property/residual-day',
  'property/hands',
  'truth/networks-plain',
  'golden/third-engine',
].map((name) => `/test/${name}.test.ts`);

const placeOf = ({ moduleId }: TestSpecification): number => {
  const place = LONG.findIndex((end) => moduleId.endsWith(end));
  return place < 0 ? LONG.length : place;
};

export class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    return sorted.sort((a, b) => placeOf(a) - placeOf(b));
  }
}
