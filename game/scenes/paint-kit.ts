// The board that the kit hangs on, and the lines from kit beside its part to that part. The kit
// itself is in the buttons over the drawing.
import type { YardLayout } from '../yard/layout.ts';
import type { Pen } from './pen.ts';
import { INK, LINE, scatter } from './tokens.ts';

/** Planks on two posts, with a hook for each thing. */
export function paintBoard(pen: Pen, yard: YardLayout): void {
  const { board, ground } = yard;
  if (board === null) return;
  const { ctx } = pen;
  const s = pen.weight;
  for (const share of [0.06, 0.94]) {
    const x = board.x + board.w * share - 6 * s;
    const post = { x, y: board.y - 6, w: 12 * s, h: ground.back - board.y + 6 };
    pen.box(post, INK.boardDeep, 2, 1.2 * s);
  }
  pen.box(board, INK.board, 5 * s, LINE.pipe * s);
  const planks = Math.max(2, Math.round(board.h / (44 * s)));
  ctx.beginPath();
  for (let k = 1; k < planks; k++) {
    const y = board.y + (board.h * k) / planks;
    ctx.moveTo(board.x + 3, y);
    ctx.lineTo(board.x + board.w - 3, y);
  }
  for (let k = 0; k < 26; k++) {
    const x = board.x + 12 + scatter(k + 500) * (board.w - 70);
    const y = board.y + 8 + scatter(k + 600) * (board.h - 14);
    ctx.moveTo(x, y);
    ctx.lineTo(x + 14 + scatter(k) * 30, y);
  }
  pen.line(1, 'rgba(70,58,36,0.32)');
}

/** A thin line and a dot: what this belongs to. */
export function paintKit(pen: Pen, yard: YardLayout): void {
  for (const { leader } of yard.kit) {
    const [a, b] = leader;
    if (a === undefined || b === undefined) continue;
    pen.stroke([a, b], LINE.leader * pen.weight * 1.3);
    pen.disc(b, 3 * pen.weight, INK.ink, 0);
  }
}
