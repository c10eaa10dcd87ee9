// A chain of links along a line: pipes share the line by their lengths, parts without length
// stand on a straight of it.
import { lengthOf, type Circuit } from './circuits.ts';
import { isConduit, type ConduitLink, type Link } from './graph.ts';
import type { Walked } from './headers.ts';
import type { Sheet } from './sheet.ts';
import { knotsOf, lineLength, straightFor, partOf, type Line } from './trace.ts';
import type { PartMark, Point } from './types.ts';

export type Still = Exclude<Link, ConduitLink>;

export interface ChainLook {
  /** Share of the plain width, where many pipes must share the page. */
  readonly slim: number;
  /** Radius of bends. */
  readonly r: number;
  /** Which way the line runs where parts without length stand; null where it is all one. */
  readonly upright?: boolean;
  /** Share of the spare length of their straight that lies before them; half if left out. */
  readonly along?: number;
  /** They stand below this height on the page. */
  readonly below?: number;
  /** Metres of the first pipe that stand along the line's first piece. */
  readonly drop_m?: number;
}

export const stillsIn = (links: readonly Walked[]): Still[] =>
  links.flatMap(({ link }) => (isConduit(link) ? [] : [link]));

/** Room along a line that a part without length takes, with pipe on both sides. */
export const stillPitch = (sheet: Sheet): number => sheet.plan.control + 8;

function wayOf(a: Point, b: Point): PartMark['way'] {
  if (Math.abs(b.x - a.x) >= Math.abs(b.y - a.y)) return b.x >= a.x ? 'right' : 'left';
  return b.y >= a.y ? 'down' : 'up';
}

const OPPOSITE = { left: 'right', right: 'left', up: 'down', down: 'up' } as const;

/** Pipes one after the other along a line, or a plain piece where there are none. */
function layRun(sheet: Sheet, run: readonly Walked[], line: Line, look: ChainLook & Bore): void {
  const total = lineLength(line);
  if (total < 0.5) return;
  const metres = run.reduce((sum, w) => sum + lengthOf(w), 0);
  if (run.length === 0) {
    sheet.piece(line, look.bore_mm, look.slim);
    return;
  }
  const first = run[0]!;
  const foot = footOf(line);
  const drop = look.drop_m !== undefined && foot > 1 ? Math.min(look.drop_m, lengthOf(first)) : 0;
  const bent = drop > 0 && drop < metres;
  /** Metres along the chain at a distance along the line. */
  const metresAt = (at: number): number => {
    if (!bent) return (at / total) * metres;
    return at < foot ? (at / foot) * drop : drop + ((at - foot) / (total - foot)) * (metres - drop);
  };
  const lineAt = (m: number): number => {
    if (!bent) return (m / metres) * total;
    return m < drop ? (m / drop) * foot : foot + ((m - drop) / (metres - drop)) * (total - foot);
  };
  let m = 0;
  for (const walked of run) {
    const link = walked.link as ConduitLink;
    const [from, to] = [lineAt(m), lineAt(m + link.length_m)];
    const start = m;
    const s = (at: number): number => {
      const own = Math.min(link.length_m, Math.max(0, metresAt(from + at) - start));
      return walked.forward ? own : link.length_m - own;
    };
    const knots = knotsOf(partOf(line, from, to), s, look.r);
    sheet.pipe(link, walked.forward ? knots : knots.reverse(), { slim: look.slim });
    m += link.length_m;
  }
}

/** Length drawn from the start of a line to the end of its first upright piece. */
function footOf(line: Line): number {
  let at = 0;
  for (let i = 1; i < line.length - 1; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    at += Math.abs(a.x - b.x) + Math.abs(a.y - b.y);
    if (Math.abs(a.y - b.y) > 1) return at;
  }
  return 0;
}

interface Bore {
  readonly bore_mm: number;
}

/**
 * Draws a chain along a line from its first node to its last.
 * Its parts without length stand on the longest straight, in the order of the chain.
 */
export function layChain(
  sheet: Sheet,
  links: readonly Walked[],
  line: Line,
  look: ChainLook,
): void {
  const stills = stillsIn(links);
  const bore_mm = links[0]?.link.bore_mm ?? 25;
  if (stills.length === 0) {
    layRun(sheet, links, line, { ...look, bore_mm });
    return;
  }
  const straight = straightFor(line, stills.length * stillPitch(sheet), {
    upright: look.upright ?? null,
    below: look.below ?? -Infinity,
  });
  const pitch = Math.min(stillPitch(sheet), straight.length / stills.length);
  const spare = straight.length - pitch * stills.length;
  const start = straight.from + pitch / 2 + spare * (look.along ?? 0.5);
  const half = sheet.plan.control * 0.38;
  let run: Walked[] = [];
  let from = 0;
  let placed = 0;
  for (const walked of links) {
    if (isConduit(walked.link)) {
      run.push(walked);
      continue;
    }
    const at = start + placed * pitch;
    const near = partOf(line, at - 1, at + 1);
    const here = partOf(line, at, at + 1)[0]!;
    const way = wayOf(near[0]!, near.at(-1)!);
    layRun(sheet, run, partOf(line, from, at - half), { ...look, bore_mm });
    sheet.station(walked.link, here, walked.forward ? way : OPPOSITE[way]);
    run = [];
    from = at + half;
    placed++;
  }
  layRun(sheet, run, partOf(line, from, lineLength(line)), { ...look, bore_mm });
}

/** Metres of standing pipe at the start of a chain walked from above the ground. */
export function dropOf(sheet: Sheet, links: readonly Walked[]): number {
  const first = links.find((w) => isConduit(w.link));
  if (first === undefined || !isConduit(first.link)) return 0;
  const { s, z } = sheet.site.profile(first.link);
  const own = first.forward ? { s, z } : turnedProfile(s, z);
  let i = 0;
  while (i < own.s.length - 1 && own.z[i]! - own.z[i + 1]! > 0.5 * (own.s[i + 1]! - own.s[i]!)) i++;
  return own.s[i]!;
}

function turnedProfile(s: readonly number[], z: readonly number[]) {
  const L = s.at(-1)!;
  return { s: [...s].reverse().map((at) => L - at), z: [...z].reverse() };
}

export const hasStills = (circuit: Circuit): boolean =>
  stillsIn(circuit.supplyLead.links).length + stillsIn(circuit.returnLead.links).length > 0;
