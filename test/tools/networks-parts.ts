// Parts of the networks that networks.ts makes: pipes, fittings, circuits, headers, grids, banks.
// Bores of 15 to 100 mm, lengths of 1 to 300 m, roughness of 0 to 0.1 mm.
import type { Chance } from './chance.ts';

export const SHAPES = ['series', 'parallel', 'direct', 'reverse', 'grid', 'banks'] as const;
export type Shape = (typeof SHAPES)[number];

export interface Draft {
  readonly c: Chance;
  readonly nodes: object[];
  readonly links: object[];
  pipes: number;
}

export const between = (c: Chance, lo: number, hi: number): number => lo + c.unit() * (hi - lo);
export const logBetween = (c: Chance, lo: number, hi: number): number =>
  lo * Math.exp(c.unit() * Math.log(hi / lo));
export const places = (x: number, digits: number): number => Number(x.toFixed(digits));

/** Heights differ by 0.6 m at most, so that a pipe of 1 m spans any two of them. */
export function joint(d: Draft): string {
  const id = `n${d.nodes.length}`;
  const elevation_m = places(between(d.c, -1.5, -0.9), 2);
  d.nodes.push({ id, kind: 'junction', elevation_m });
  return id;
}

export function pipe(d: Draft, from: string, to: string): void {
  const { c } = d;
  const bore_mm = places(logBetween(c, 15, 100), 1);
  const length_m = places(logBetween(c, 1, 300), 1);
  const roughness_mm = c.unit() < 0.2 ? 0 : places(logBetween(c, 0.0015, 0.1), 4);
  const loss_k = c.unit() < 0.6 ? 0 : places(between(c, 0.2, 10), 1);
  const deep = length_m > 40 && c.unit() < 0.3;
  const profile = deep ? [{ at_m: length_m / 2, elevation_m: places(-0.4 * length_m, 1) }] : [];
  const shape = { bore_mm, length_m, roughness_mm, loss_k, profile };
  const wall = c.unit() < 0.15 ? { kind: 'hose' } : { kind: 'pipe', wall_mm: bore_mm / 9 };
  d.links.push({ id: `p${d.links.length}`, from, to, ...shape, ...wall });
  d.pipes += 1;
}

function valve(d: Draft, from: string, to: string, start_deg: number): void {
  const bore_mm = places(logBetween(d.c, 25, 80), 1);
  d.links.push({ id: `v${d.links.length}`, kind: 'valve', from, to, bore_mm, start_deg });
}

/** A fitting of any kind that loses by a coefficient, or a check valve either way round. */
function fitting(d: Draft, from: string, to: string): void {
  const { c, links } = d;
  const id = `f${links.length}`;
  const bore_mm = places(logBetween(c, 25, 80), 1);
  const x = c.unit();
  if (x < 0.4) return valve(d, from, to, 20 + c.below(71));
  if (x < 0.6) links.push({ id, kind: 'coupling', from, to, bore_mm, start: 'made' });
  else if (x < 0.8) {
    const start_blocked = places(c.unit() * 0.8, 2);
    links.push({ id, kind: 'filter', from, to, bore_mm, loss_k: 3, start_blocked });
  } else {
    const [a, b] = c.unit() < 0.8 ? [from, to] : [to, from];
    links.push({ id, kind: 'check_valve', from: a, to: b, bore_mm, opens_at_kPa: 0.05 });
  }
}

/** One to three pipes in a row, with a fitting before them now and then. */
function circuit(d: Draft, from: string, to: string): void {
  const { c } = d;
  let at = from;
  if (c.unit() < 0.4) {
    at = joint(d);
    if (c.unit() < 0.15) valve(d, from, at, c.below(8));
    else fitting(d, from, at);
  }
  for (let k = c.below(3); k > 0; k--) {
    const next = joint(d);
    pipe(d, at, next);
    at = next;
  }
  pipe(d, at, to);
}

export interface Ends {
  readonly from: string;
  readonly to: string;
}

/** Circuits between two headers; `last` takes the return from the far end. */
function headers(d: Draft, circuits: number, last: boolean): Ends {
  const supply = [joint(d)];
  const back = [joint(d)];
  circuit(d, supply[0]!, back[0]!);
  for (let k = 1; k < circuits; k++) {
    supply.push(joint(d));
    back.push(joint(d));
    pipe(d, supply[k - 1]!, supply[k]!);
    pipe(d, back[k - 1]!, back[k]!);
    circuit(d, supply[k]!, back[k]!);
  }
  return { from: supply[0]!, to: last ? back[circuits - 1]! : back[0]! };
}

function grid(d: Draft, rows: number, columns: number): Ends {
  const at = Array.from({ length: rows }, () => Array.from({ length: columns }, () => joint(d)));
  at.forEach((row, r) =>
    row.forEach((node, k) => {
      if (k > 0) pipe(d, row[k - 1]!, node);
      if (r > 0) pipe(d, at[r - 1]![k]!, node);
    }),
  );
  return { from: at[0]![0]!, to: at[rows - 1]![columns - 1]! };
}

/** Fields side by side, each behind two valves; in one of three banks one or both are shut. */
function banks(d: Draft, count: number): Ends {
  const from = joint(d);
  const to = joint(d);
  for (let k = 0; k < count; k++) {
    const field = headers(d, 2 + d.c.below(5), d.c.unit() < 0.5);
    const x = k === 0 ? 1 : d.c.unit();
    valve(d, from, field.from, x < 0.33 ? 0 : 90);
    valve(d, field.to, to, x < 0.16 || (x >= 0.33 && x < 0.45) ? 5 : 60 + d.c.below(31));
  }
  return { from, to };
}

export function field(d: Draft, shape: Shape): Ends {
  const { c } = d;
  if (shape === 'grid') return grid(d, 2 + c.below(6), 2 + c.below(6));
  if (shape === 'banks') return banks(d, 2 + c.below(3));
  if (shape === 'direct' || shape === 'reverse') {
    return headers(d, 3 + c.below(20), shape === 'reverse');
  }
  const from = joint(d);
  const to = joint(d);
  const ways = shape === 'series' ? 1 : 3 + c.below(12);
  for (let k = 0; k < ways; k++) circuit(d, from, to);
  if (shape === 'parallel') return { from, to };
  let at = to;
  for (let k = 4 + c.below(10); k > 0; k--) {
    const next = joint(d);
    if (c.unit() < 0.25) fitting(d, at, next);
    else pipe(d, at, next);
    at = next;
  }
  return { from, to: at };
}
