// The far side of a worker: one record in; moments as the run comes to them, and the series at its
// end. Leaves who asks, and what it is good for, to review.ts.
import { drive } from './drive.ts';
import type { Asked } from './rerun.ts';

self.addEventListener('message', ({ data }: MessageEvent<Asked>) => {
  const step = drive(data, (told) => self.postMessage(told));
  while (step(Infinity)); // It has a processor of its own.
});
