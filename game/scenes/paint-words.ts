// Names and marks: text in the room the layout kept for it, leader lines with a dot at the end.
import type { KeyMark, Label, Plate, YardLayout } from '../yard/layout.ts';
import type { Pen } from './pen.ts';
import { INK, LINE } from './tokens.ts';

export interface Words {
  readonly say: (key: string) => string;
  /** A number as it is written in the page's language. */
  readonly number: (value: number) => string;
  readonly font: string;
}

function fill(words: Words, label: Label): string {
  return words.say(label.key).replace(/\{(\w+)\}/g, (whole, name: string) => {
    const value = label.values[name];
    return value === undefined ? whole : words.number(value);
  });
}

/** Breaks a text into the lines that fit the width. */
function lines(pen: Pen, text: string, width: number): string[] {
  const out: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && pen.ctx.measureText(longer).width > width) {
      out.push(line);
      line = word;
    } else line = longer;
  }
  out.push(line);
  return out;
}

function paintLabel(pen: Pen, yard: YardLayout, label: Label, words: Words): void {
  const { ctx } = pen;
  const name = label.tone === 'name';
  ctx.font = `${name ? 560 : 440} ${yard.type}px ${words.font}`;
  ctx.fillStyle = name ? INK.ink : '#453F33';
  ctx.textBaseline = 'middle';
  ctx.textAlign = label.align;
  const text = lines(pen, fill(words, label), label.w + 2);
  const pitch = yard.type * 1.14;
  const x =
    label.align === 'left'
      ? label.x
      : label.align === 'right'
        ? label.x + label.w
        : label.x + label.w / 2;
  // Text above its leader sits at the bottom of its room, so that the leader meets it.
  const [a, b] = label.leader;
  const low = a !== undefined && b !== undefined && a.y >= label.y + label.h - 2 && b.y > a.y;
  const free = label.h - pitch * text.length;
  const y0 = label.y + (low ? free : Math.max(0, free / 2)) + pitch / 2; // Never over its thing.
  if (!name && y0 > yard.ground.cut)
    clearPatch(pen, yard, label, { text, y: y0 - pitch / 2, h: pitch * text.length });
  text.forEach((line, k) => ctx.fillText(line, x, y0 + k * pitch));
  if (a === undefined || b === undefined) return;
  pen.stroke([a, b], LINE.leader * pen.weight);
  pen.disc(b, 2.6 * pen.weight, INK.ink, 0);
}

interface Written {
  readonly text: readonly string[];
  readonly y: number;
  readonly h: number;
}

/** Clears the hatch from under a mark, as wide as its text. */
function clearPatch(pen: Pen, yard: YardLayout, label: Label, written: Written): void {
  const { ctx } = pen;
  const within = yard.strips.some(
    (s) => label.y > s.top - yard.type * 2 && label.y < s.bottom + 30,
  );
  if (within) return;
  const w = Math.max(...written.text.map((line) => ctx.measureText(line).width)) + 12;
  const x =
    label.align === 'left'
      ? label.x - 6
      : label.align === 'right'
        ? label.x + label.w - w + 6
        : label.x + (label.w - w) / 2;
  const ink = ctx.fillStyle;
  pen.box({ x, y: written.y - 1, w, h: written.h + 1 }, INK.soils[0], 6, 0);
  ctx.fillStyle = ink;
}

/** A round plate of paper with its number or letter. */
function paintPlate(pen: Pen, yard: YardLayout, plate: Plate, font: string): void {
  const { ctx } = pen;
  const [a, b] = plate.leader;
  if (a !== undefined && b !== undefined) {
    pen.stroke([a, b], LINE.leader * pen.weight);
    pen.disc(b, 2.6 * pen.weight, INK.ink, 0);
  }
  pen.disc(plate, plate.r, INK.paper, 1.5 * pen.weight);
  const size = Math.min(yard.type, (plate.r * 2 * 0.86) / Math.max(1, 0.62 * plate.text.length));
  ctx.font = `640 ${size}px ${font}`;
  ctx.fillStyle = INK.ink;
  ctx.textAlign = 'center';
  ctx.textBaseline = 'middle';
  ctx.fillText(plate.text, plate.x, plate.y + size * 0.06);
}

/** What the letters stand for, on a slip of its own under the drawing. */
function paintKey(pen: Pen, yard: YardLayout, key: KeyMark, words: Words): void {
  const { ctx } = pen;
  pen.box({ ...key, x: key.x - 10, w: key.w + 20 }, INK.paper, 12, 1.2 * pen.weight);
  const column = key.w / key.columns;
  const rows = Math.ceil(key.rows.length / key.columns);
  const r = yard.type * 0.66;
  key.rows.forEach((row, k) => {
    const x = key.x + 8 + Math.floor(k / rows) * column;
    const y = key.y + 7 + ((k % rows) + 0.5) * key.pitch;
    const plate = { id: row.key, text: row.text, x: x + r, y, r, leader: [] };
    paintPlate(pen, yard, plate, words.font);
    ctx.font = `560 ${yard.type}px ${words.font}`;
    ctx.textAlign = 'left';
    ctx.fillText(words.say(row.key), x + 2 * r + 10, y, column - 2 * r - 24);
  });
}

export function paintWords(pen: Pen, yard: YardLayout, words: Words): void {
  for (const label of yard.labels) paintLabel(pen, yard, label, words);
  for (const plate of yard.plates) paintPlate(pen, yard, plate, words.font);
  if (yard.key !== null) paintKey(pen, yard, yard.key, words);
}
