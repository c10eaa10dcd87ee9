// Trench strips: the opened-out trench as a clean slip of soil with its datum line and ruler.
import type { Strip, YardLayout } from '../yard/layout.ts';
import type { Pen } from './pen.ts';
import { INK } from './tokens.ts';

function paintStrip(pen: Pen, yard: YardLayout, strip: Strip): void {
  const { ctx } = pen;
  const wide = yard.shape === 'wide';
  const left = Math.min(strip.x0, strip.x1);
  const right = Math.max(strip.x0, strip.x1);
  const edge = wide ? 52 : 32;
  const title = wide ? 0 : yard.type + 8;
  const ticks = strip.ticks.length > 0 && wide ? 20 : 4;
  const y = strip.top - title - 4;
  ctx.globalAlpha = 0.82;
  const beside = wide && yard.strips.length <= 2;
  const end = beside ? yard.width - 12 : right + edge - (wide ? 24 : 0);
  const foot = !wide && strip === yard.strips.at(-1) ? yard.type + 14 : 0;
  const area = { x: left - edge, y, w: end - left + edge, h: strip.bottom + ticks + foot - y + 2 };
  pen.box(area, INK.trench, 12, 1);
  ctx.globalAlpha = 1;
  ctx.setLineDash([14, 5, 2, 5]);
  const last = beside ? strip.rulerX + 14 : right + edge - 6;
  pen.stroke(
    [
      { x: left - edge + 8, y: strip.datumY },
      { x: last, y: strip.datumY },
    ],
    1.2 * pen.weight,
    '#8A7A58',
  );
  ctx.setLineDash([]);
  for (const tick of strip.ticks) {
    if (!wide) break;
    const x = tick.x;
    pen.stroke(
      [
        { x, y: strip.datumY - 5 },
        { x, y: strip.datumY + 5 },
      ],
      1.2,
      '#8A7A58',
    );
  }
  if (beside) paintRuler(pen, strip);
}

/** A staff beside the strip, a division every 0.1 m in the strip's own scale. */
function paintRuler(pen: Pen, strip: Strip): void {
  const { rulerX: x, perMetre, datumY, datum_m } = strip;
  const top = strip.ruler[0]!;
  const low = strip.ruler[strip.ruler.length - 1]!;
  const y = (e: number): number => datumY + (datum_m - e) * perMetre;
  const step = 0.1;
  const n = Math.round((top - low) / step);
  for (let k = 0; k < n; k++) {
    const a = top - k * step;
    const area = { x: x - 4, y: y(a), w: 8, h: step * perMetre };
    pen.box(area, k % 2 === 0 ? INK.ink : INK.paper, 0, 1.1);
  }
}

export function paintField(pen: Pen, yard: YardLayout): void {
  for (const strip of yard.strips) paintStrip(pen, yard, strip);
}
