// A trench as opened-out strips: true in height on a datum line of its own, true along.
// A circuit fills one strip, or two where it is folded at its far end.
import type { Circuit } from './circuits.ts';
import { smoothHeights, type Knot } from './path.ts';
import { gapOf, type Line } from './trace.ts';
import type { Strip } from './types.ts';

export const DATUM_STEP_m = 0.5;
/** Half of a bend at the fold, m of pipe. */
const BEND_m = 1;
const STEP = 5;

export interface Slot {
  readonly circuit: Circuit;
  readonly run: Strip['run'];
  /** Where the strip starts and ends, in the sense in which the circuit runs out. */
  readonly x0: number;
  readonly x1: number;
  readonly perMetre: number;
  readonly half: number;
  readonly tick_m: number;
  readonly rulerX: number;
}

/** Stretch of the circuit that a run shows, m. */
export function rangeOf(circuit: Circuit, run: Strip['run']): [number, number] {
  const { a, b, fold } = circuit.lie;
  return run === 'out' ? [a, fold] : run === 'back' ? [fold, b] : [a, b];
}

/** Least and greatest height of a run, m. */
export function reliefOf(circuit: Circuit, run: Strip['run']): { lo: number; hi: number } {
  const [from, to] = rangeOf(circuit, run);
  const { s, z } = circuit.profile;
  const at = smoothHeights(s, z);
  const all = [at(from), at(to)];
  s.forEach((d, k) => {
    if (d >= from && d <= to) all.push(z[k]!);
  });
  return { lo: Math.min(...all), hi: Math.max(...all) };
}

/** A strip whose top edge is at `top`. */
export function stripOf(slot: Slot, top: number): Strip {
  const { circuit, run, perMetre, half, x0, x1, tick_m } = slot;
  const [from, to] = rangeOf(circuit, run);
  const { lo, hi } = reliefOf(circuit, run);
  const datum = Math.round((lo + hi) / 2 / DATUM_STEP_m) * DATUM_STEP_m;
  const datumY = top + half + (Math.max(hi, datum) - datum) * perMetre;
  const along = Math.abs(x1 - x0) / (to - from);
  const way = Math.sign(x1 - x0) * along;
  const xAt = (s: number): number => x0 + way * (run === 'back' ? to - s : s - from);
  const first = Math.ceil((from + 1) / tick_m) * tick_m;
  const count = Math.max(0, Math.floor((to - 1 - first) / tick_m) + 1);
  const ticks = Array.from({ length: count }, (_, k) => ({
    at_m: first + k * tick_m,
    x: xAt(first + k * tick_m),
  }));
  return {
    circuit: circuit.id,
    run,
    datum_m: datum,
    datumY,
    perMetre,
    along,
    x0,
    x1,
    top,
    bottom: datumY + (datum - Math.min(lo, datum)) * perMetre + half,
    rulerX: slot.rulerX,
    ruler: [Math.ceil(hi * 10) / 10, datum, Math.floor(lo * 10) / 10],
    ticks,
  };
}

/** Height on a strip. */
export const stripY = (strip: Strip, elevation_m: number): number =>
  strip.datumY + (strip.datum_m - elevation_m) * strip.perMetre;

export function heightOn(circuit: Circuit, s: number): number {
  return smoothHeights(circuit.profile.s, circuit.profile.z)(s);
}

/** Points of one run in true height and true distance, `s` rising. */
function runKnots(circuit: Circuit, strip: Strip, from: number, to: number): Knot[] {
  const at = smoothHeights(circuit.profile.s, circuit.profile.z);
  const [a, b] = rangeOf(circuit, strip.run);
  const n = Math.max(2, Math.ceil(((to - from) * strip.along) / STEP));
  const way = Math.sign(strip.x1 - strip.x0) * strip.along;
  const even = Array.from({ length: n + 1 }, (_, k) => from + ((to - from) * k) / n);
  const exact = circuit.profile.s.filter((s) => s > from && s < to);
  return [...new Set([...even, ...exact])]
    .sort((p, q) => p - q)
    .map((s) => {
      const off = strip.run === 'back' ? b - s : s - a;
      return { x: strip.x0 + way * off, y: stripY(strip, at(s)), s };
    });
}

function foldKnots(circuit: Circuit, out: Strip, back: Strip): Knot[] {
  const { fold } = circuit.lie;
  const z = heightOn(circuit, fold);
  const x = out.x1 + Math.sign(out.x1 - out.x0) * 26;
  const r = Math.min(60, (stripY(back, z) - stripY(out, z)) / 2);
  return [
    { x, y: stripY(out, z), s: fold - BEND_m * 0.4, r },
    { x, y: stripY(back, z), s: fold + BEND_m * 0.4, r },
  ];
}

/** Metres of the circuit that its lead on the drawing stands for. */
export const leadMetres = (circuit: Circuit, standing_m: number): number =>
  Math.max(standing_m, Math.min(1, circuit.length_m / 100));

/** A lead's corners with metres by the length drawn, from the header to the circuit. */
export function leadKnots(line: Line, metres: number, r: number): Knot[] {
  let total = 0;
  for (let i = 1; i < line.length; i++) total += gapOf(line[i - 1]!, line[i]!);
  let at = 0;
  return line.map((p, i) => {
    if (i > 0) at += gapOf(line[i - 1]!, p);
    return { x: p.x, y: p.y, s: (metres * at) / (total || 1), ...(i > 0 ? { r } : {}) };
  });
}

/** Corners of the whole circuit between its two leads, `s` in the circuit's own metres. */
export function stripKnots(circuit: Circuit, strips: readonly Strip[], ends: Ends): Knot[] {
  const { fold } = circuit.lie;
  const [out, back] = strips;
  const { from, to } = ends;
  if (back === undefined) return runKnots(circuit, out!, from, to);
  return [
    ...runKnots(circuit, out!, from, fold - BEND_m),
    ...foldKnots(circuit, out!, back),
    ...runKnots(circuit, back, fold + BEND_m, to),
  ];
}

export interface Ends {
  readonly from: number;
  readonly to: number;
}
