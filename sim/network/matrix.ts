// Sparse symmetric positive-definite solve for node pressures: order, symbolic factor once,
// numeric L D L^T every pass. Leaves out pivoting: the matrix is diagonally dominant.
// Up-looking factorisation after Davis (2006), Direct Methods for Sparse Linear Systems, ch. 4.

export interface Factor {
  readonly n: number;
  /** Position of unknown i in elimination order, and back. */
  readonly place: Int32Array;
  readonly order: Int32Array;
  /** Upper part of the permuted matrix by column: rows above the diagonal. */
  readonly colStart: Int32Array;
  readonly row: Int32Array;
  /** Values to fill before `solve`: diagonal (by unknown) and one per edge. */
  readonly diagonal: Float64Array;
  readonly off: Float64Array;
  /** Where edge k adds to `off`. */
  readonly edgeSlot: Int32Array;
  /** L by columns: the pattern is worked out once, only values change. */
  readonly lStart: Int32Array;
  readonly lRow: Int32Array;
  readonly lValue: Float64Array;
  /** L by rows: the columns of each row in the order in which they go in, and their slots. */
  readonly reachStart: Int32Array;
  readonly reach: Int32Array;
  readonly reachSlot: Int32Array;
  readonly d: Float64Array;
  readonly work: Float64Array;
}

/** Minimum-degree order on a small graph; ties go to the lower number, so it is repeatable. */
function minimumDegree(n: number, edges: ReadonlyArray<readonly [number, number]>): Int32Array {
  const near: Set<number>[] = Array.from({ length: n }, () => new Set<number>());
  for (const [a, b] of edges) {
    near[a]!.add(b);
    near[b]!.add(a);
  }
  const order = new Int32Array(n);
  const gone = new Uint8Array(n);
  for (let k = 0; k < n; k++) {
    let best = -1;
    for (let i = 0; i < n; i++) {
      if (gone[i] === 0 && (best < 0 || near[i]!.size < near[best]!.size)) best = i;
    }
    order[k] = best;
    gone[best] = 1;
    const ring = [...near[best]!].sort((a, b) => a - b);
    for (const a of ring) {
      near[a]!.delete(best);
      for (const b of ring) if (a !== b) near[a]!.add(b);
    }
  }
  return order;
}

interface Columns {
  readonly colStart: Int32Array;
  readonly row: Int32Array;
  readonly edgeSlot: Int32Array;
}

function upperColumns(
  n: number,
  edges: ReadonlyArray<readonly [number, number]>,
  place: Int32Array,
): Columns {
  const cols: Map<number, number[]>[] = Array.from({ length: n }, () => new Map());
  edges.forEach(([a, b], k) => {
    const pa = place[a]!;
    const pb = place[b]!;
    const col = pa > pb ? pa : pb;
    const row = pa > pb ? pb : pa;
    const list = cols[col]!.get(row);
    if (list) list.push(k);
    else cols[col]!.set(row, [k]);
  });
  const colStart = new Int32Array(n + 1);
  const rows: number[] = [];
  const edgeSlot = new Int32Array(edges.length);
  for (let c = 0; c < n; c++) {
    for (const [r, list] of [...cols[c]!.entries()].sort((x, y) => x[0] - y[0])) {
      for (const k of list) edgeSlot[k] = rows.length;
      rows.push(r);
    }
    colStart[c + 1] = rows.length;
  }
  return { colStart, row: Int32Array.from(rows), edgeSlot };
}

interface Pattern {
  readonly lStart: Int32Array;
  readonly lRow: Int32Array;
  readonly reachStart: Int32Array;
  readonly reach: Int32Array;
  readonly reachSlot: Int32Array;
}

/**
 * Where L has values, and in which order row k takes its columns: each path of the elimination
 * tree that starts at an entry of the matrix, later paths first.
 */
function patternOf(n: number, { colStart, row }: Columns): Pattern {
  const parent = new Int32Array(n).fill(-1);
  const flag = new Int32Array(n).fill(-1);
  const columns: number[][] = Array.from({ length: n }, () => []);
  const rows: number[][] = [];
  for (let k = 0; k < n; k++) {
    let reached: number[] = [];
    flag[k] = k;
    for (let p = colStart[k]!; p < colStart[k + 1]!; p++) {
      const path: number[] = [];
      for (let i = row[p]!; flag[i] !== k; i = parent[i]!) {
        if (parent[i] === -1) parent[i] = k;
        path.push(i);
        flag[i] = k;
      }
      reached = [...path, ...reached];
    }
    for (const i of reached) columns[i]!.push(k);
    rows.push(reached);
  }
  const lStart = startsOf(columns);
  const taken = lStart.slice();
  return {
    lStart,
    lRow: Int32Array.from(columns.flat()),
    reachStart: startsOf(rows),
    reach: Int32Array.from(rows.flat()),
    reachSlot: Int32Array.from(rows.flat(), (i) => taken[i]!++),
  };
}

function startsOf(lists: readonly (readonly number[])[]): Int32Array {
  const starts = new Int32Array(lists.length + 1);
  lists.forEach((list, k) => (starts[k + 1] = starts[k]! + list.length));
  return starts;
}

/** Orders and factors symbolically. `edges` join unknowns 0..n-1; parallel edges may repeat. */
export function makeFactor(n: number, edges: ReadonlyArray<readonly [number, number]>): Factor {
  const order = minimumDegree(n, edges);
  const place = new Int32Array(n);
  order.forEach((unknown, k) => (place[unknown] = k));
  const columns = upperColumns(n, edges, place);
  const pattern = patternOf(n, columns);
  return {
    n,
    place,
    order,
    ...columns,
    ...pattern,
    diagonal: new Float64Array(n),
    off: new Float64Array(columns.row.length),
    lValue: new Float64Array(pattern.lRow.length),
    d: new Float64Array(n),
    work: new Float64Array(n),
  };
}

/** Factors with the values now in `diagonal` (by unknown) and `off` (by slot). */
function factorNumeric(f: Factor): void {
  const { n, colStart, row, off, order, diagonal, lStart, lRow, lValue } = f;
  const { reachStart, reach, reachSlot, d, work } = f;
  for (let k = 0; k < n; k++) {
    for (let p = colStart[k]!; p < colStart[k + 1]!; p++) {
      const i = row[p]!;
      work[i] = work[i]! + off[p]!;
    }
    let dk = diagonal[order[k]!]!;
    for (let t = reachStart[k]!; t < reachStart[k + 1]!; t++) {
      const i = reach[t]!;
      const end = reachSlot[t]!;
      const yi = work[i]!;
      work[i] = 0;
      for (let p = lStart[i]!; p < end; p++) {
        work[lRow[p]!] = work[lRow[p]!]! - lValue[p]! * yi;
      }
      const lki = yi / d[i]!;
      dk -= lki * yi;
      lValue[end] = lki;
    }
    d[k] = dk;
  }
}

/** Solves A x = rhs in place; both by unknown. */
export function solve(f: Factor, rhs: Float64Array): void {
  factorNumeric(f);
  const { n, order, lStart, lRow, lValue, d, work } = f;
  for (let k = 0; k < n; k++) work[k] = rhs[order[k]!]!;
  for (let k = 0; k < n; k++) {
    const x = work[k]!;
    for (let p = lStart[k]!; p < lStart[k + 1]!; p++)
      work[lRow[p]!] = work[lRow[p]!]! - lValue[p]! * x;
  }
  for (let k = 0; k < n; k++) work[k] = work[k]! / d[k]!;
  for (let k = n - 1; k >= 0; k--) {
    let x = work[k]!;
    for (let p = lStart[k]!; p < lStart[k + 1]!; p++) x -= lValue[p]! * work[lRow[p]!]!;
    work[k] = x;
  }
  for (let k = 0; k < n; k++) {
    rhs[order[k]!] = work[k]!;
    work[k] = 0;
  }
}
