// How much room a text takes, by letter widths, so that names can be given their place before
// anything is drawn. A little too wide is fine; too narrow would overlap.

/** Advance widths at weight 560 of the pages' typeface, in hundredths of its size. */
const GROUPS: readonly (readonly [number, string])[] = [
  [25, '.,;:j'],
  [29, 'il '],
  [35, "ft-'()"],
  [37, 'r"'],
  [42, 'I/1'],
  [50, 'csvyz'],
  [54, 'axk7J'],
  [57, 'nhuoebdgp2FL'],
  [60, 'q35689STEZ'],
  [64, '0PRBVYCKAX4'],
  [71, 'DUHNGOQw'],
  [87, 'mMW'],
  [95, '%@'],
];
const WIDTHS = new Map(
  GROUPS.flatMap(([w, chars]) => [...chars].map((c) => [c, w / 100] as const)),
);

/** Width of a text in units of its size; letters that are not in the table count as broad. */
export function textWidth(text: string): number {
  let sum = 0;
  for (const c of text) sum += WIDTHS.get(c) ?? 0.72;
  return sum;
}

/** Breaks into lines no wider than `width` units of size; one word a line at least. */
export function breakText(text: string, width: number): string[] {
  const out: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && textWidth(longer) > width) {
      out.push(line);
      line = word;
    } else line = longer;
  }
  out.push(line);
  return out;
}

/** The forms a name can take: on one line, and as even as can be on two or three. */
export function formsOf(text: string): { w: number; lines: number }[] {
  const one = textWidth(text);
  const forms = [{ w: one, lines: 1 }];
  const words = text.split(' ').length;
  for (const n of [2, 3]) {
    if (words < n) break;
    let best = Infinity;
    for (let t = one / n; t <= one; t += 0.25) {
      const lines = breakText(text, t);
      if (lines.length === n) best = Math.min(best, Math.max(...lines.map(textWidth)));
      if (lines.length < n) break;
    }
    if (best < Infinity) forms.push({ w: best, lines: n });
  }
  return forms;
}
