// Below the ground: opened-out trenches as clean slips of soil with datum line and ruler, bore
// holes with their grout, and the chambers around buried valves.
import type { BoreMark, Strip, Vault, YardLayout } from '../yard/layout.ts';
import type { Pen } from './pen.ts';
import { INK, LINE, scatter } from './tokens.ts';

const DATUM = '#8A7A58';

/** One or two circuits: the slip has room for names and distances. */
function paintStrip(pen: Pen, yard: YardLayout, strip: Strip): void {
  const { ctx } = pen;
  const wide = yard.shape === 'wide';
  const left = Math.min(strip.x0, strip.x1);
  const right = Math.max(strip.x0, strip.x1);
  const folded = strip.run !== 'whole';
  const edge = !folded ? 10 : wide ? 52 : 32;
  const title = wide || !folded || yard.bores.length > 0 ? 0 : yard.type + 8;
  const room = strip.ticks.length > 0 && wide && folded && yard.bores.length === 0;
  const ticks = room ? 20 : 3;
  const y = strip.top - title - 3;
  ctx.globalAlpha = 0.82;
  const beside = isBeside(yard, strip);
  const end = beside ? yard.width - 12 : right + edge - (wide && folded ? 24 : 0);
  const foot = !wide && folded && strip === yard.strips.at(-1) && title > 0 ? yard.type + 14 : 0;
  const area = { x: left - edge, y, w: end - left + edge, h: strip.bottom + ticks + foot - y + 2 };
  pen.box(area, INK.trench, folded ? 12 : 7, 1);
  ctx.globalAlpha = 1;
  ctx.setLineDash([14, 5, 2, 5]);
  const last = beside ? strip.rulerX + 14 : right + edge - 6;
  const line = [
    { x: left - edge + 8, y: strip.datumY },
    { x: last, y: strip.datumY },
  ];
  pen.stroke(line, (folded ? 1.2 : 0.9) * pen.weight, DATUM);
  ctx.setLineDash([]);
  if (room || !folded) tickLines(pen, strip);
  if (beside) paintRuler(pen, strip);
}

function tickLines(pen: Pen, strip: Strip): void {
  for (const { x } of strip.ticks) {
    const tick = [
      { x, y: strip.datumY - 5 },
      { x, y: strip.datumY + 5 },
    ];
    pen.stroke(tick, 1.2, DATUM);
  }
}

const isBeside = (yard: YardLayout, strip: Strip): boolean =>
  yard.shape === 'wide' &&
  yard.bores.length === 0 &&
  strip.run !== 'whole' &&
  yard.strips.length <= 4 &&
  strip.rulerX + 186 < yard.width;

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

/** The hole with grout around both legs, and the break where its scale begins. */
function paintBore(pen: Pen, hole: BoreMark): void {
  const { ctx } = pen;
  const s = pen.weight;
  const half = hole.leg + hole.width / 2 + 6 * s;
  const area = {
    x: hole.x - half,
    y: hole.top - 8,
    w: 2 * half,
    h: hole.bottom - hole.top + hole.width / 2 + 13 * s,
  };
  ctx.globalAlpha = 0.9;
  pen.box(area, INK.grout, 5 * s, 1.1);
  ctx.globalAlpha = 1;
  ctx.beginPath();
  const count = Math.round((area.w * area.h) / 260);
  for (let k = 0; k < count; k++) {
    const x = area.x + 3 + scatter(k + hole.x) * (area.w - 6);
    const y = area.y + 4 + scatter(k * 3 + hole.x) * (area.h - 8);
    ctx.moveTo(x + 0.9, y);
    ctx.arc(x, y, 0.9, 0, 2 * Math.PI);
  }
  pen.line(0.8, 'rgba(38,40,43,0.4)');
  for (const m of hole.marks) {
    const tick = [
      { x: area.x - 5 * s, y: m.y },
      { x: area.x + 3 * s, y: m.y },
    ];
    pen.stroke(tick, 1.2 * s, '#5B4F36');
  }
}

/** Two slack waves: from here on down the heights are in a scale of their own. */
function paintBreaks(pen: Pen, yard: YardLayout): void {
  const rows = new Map<number, BoreMark[]>();
  for (const b of yard.bores) rows.set(b.top, [...(rows.get(b.top) ?? []), b]);
  for (const [top, list] of rows) {
    const xs = list.flatMap((b) => [b.x - b.leg - b.width - 14, b.x + b.leg + b.width + 14]);
    const [from, to] = [Math.min(...xs), Math.max(...xs)];
    for (const off of [-3, 3]) {
      const points = [];
      for (let x = from; x <= to; x += 6) {
        points.push({ x, y: top - 4 + off * pen.weight + Math.sin(x / 15) * 2.4 });
      }
      pen.stroke(points, 1 * pen.weight, 'rgba(70,58,36,0.75)');
    }
  }
}

/** A chamber with its lid, light inside, so that the valve in it is easily seen. */
function paintVault(pen: Pen, vault: Vault): void {
  const s = pen.weight;
  pen.box(vault, INK.room, 6 * s, LINE.pipe * s);
  pen.box({ ...vault, x: vault.x - 4 * s, w: vault.w + 8 * s, h: 7 * s }, INK.soils[2], 3, 1.5 * s);
}

export function paintField(pen: Pen, yard: YardLayout): void {
  for (const strip of yard.strips) paintStrip(pen, yard, strip);
  for (const hole of yard.bores) paintBore(pen, hole);
  paintBreaks(pen, yard);
  for (const vault of yard.vaults) paintVault(pen, vault);
}
