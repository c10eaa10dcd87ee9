// The far side of a worker: one file in, its report out. Leaves who asks and how many of these
// there are to pool.ts.
import type { Answer, Asked } from './pool.ts';
import { keptOf } from './kept.ts';
import { verify } from './verify.ts';

self.addEventListener('message', ({ data }: MessageEvent<Asked>) => {
  const checked = verify(data.file, data.text);
  const kept = data.wants === 'kept' ? keptOf(checked) : null;
  const answer: Answer = { ask: data.ask, report: checked.report, kept };
  self.postMessage(answer);
});
