// The wall's time as the page has it: a turn of the job's clock at every frame of the browser.
// Where the address asks for few pictures (?pictures=1, so many a second at most), as the browser
// tests do without a graphics card, the clock turns some ten times a second.
import type { Wall } from './loop.ts';

/** From one turn of a calm clock to the next, ms; the wait for a frame comes on top. */
const CALM_MS = 90;

/** Wall seconds from one picture to the next, at least, where the address asks for that. */
export function pictureEvery_s(address: URLSearchParams): number | null {
  const pictures = Number(address.get('pictures') ?? 0);
  return pictures > 0 && pictures <= 60 ? 1 / pictures : null;
}

const now = (): number => performance.now();

const byFrames: Wall = {
  now,
  request: (frame) => requestAnimationFrame(frame),
  cancel: (id) => cancelAnimationFrame(id),
};

/** Still by frames, so that a page nobody sees stands still. */
function calm(): Wall {
  const waiting = new Set<number>();
  return {
    now,
    request: (frame) => {
      const turn = (): void => {
        if (waiting.delete(id)) frame();
      };
      const id = Number(setTimeout(() => requestAnimationFrame(turn), CALM_MS));
      waiting.add(id);
      return id;
    },
    cancel: (id) => {
      waiting.delete(id);
      clearTimeout(id);
    },
  };
}

export function wallOf(address: URLSearchParams): Wall {
  return pictureEvery_s(address) === null ? byFrames : calm();
}
