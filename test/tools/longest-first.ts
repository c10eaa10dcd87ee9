// Test files that take longest begin first, so that no worker is left with one at the end while the
// other has nothing to do. The list is by measurement; a file that is not in it comes behind.
import { BaseSequencer, type TestSpecification } from 'vitest/node';

const LONG = [
  'unit/game/yard-random',
  'golden/lapwing-school',
  'golden/curlew-rise',
  'golden/otter-bank',
  'golden/levels',
  'property/loops',
  'truth/cases',
  'property/heat',
  'golden/third-engine',
  'property/hands',
  'golden/replays',
  'truth/networks-plain',
  'property/world',
  'property/orderings',
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
