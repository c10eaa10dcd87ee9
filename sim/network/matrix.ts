// Sparse symmetric positive-definite solve for node pressures: order and pattern once, numeric
// L D L^T every pass. Leaves out pivoting: the matrix is diagonally dominant.
// Right-looking factorisation after Davis (2006), Direct Methods for Sparse Linear Systems, ch. 4,
// with the place of every update worked out beforehand: what is left is one flat pass.

export interface Factor {
  readonly n: number;
  /** Unknown that is eliminated at each place. */
  readonly order: Int32Array;
  /** Columns of L by place: rows below the diagonal, in order. */
  readonly start: Int32Array;
  readonly row: Int32Array;
  /** Where in `off` each product of two entries of a column goes, in the order they come up. */
  readonly update: Int32Array;
  /** Values to fill anew before each `solve`, which uses them up: by unknown, and by slot. */
  readonly diagonal: Float64Array;
  readonly off: Float64Array;
  /** Where edge k adds to `off`. */
  readonly edgeSlot: Int32Array;
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

/** Rows below the diagonal of each column of L, by place: the matrix's, and what fills in. */
function patternOf(
  n: number,
  edges: ReadonlyArray<readonly [number, number]>,
  place: Int32Array,
): number[][] {
  const below: Set<number>[] = Array.from({ length: n }, () => new Set<number>());
  for (const [a, b] of edges) {
    const [pa, pb] = [place[a]!, place[b]!];
    below[pa < pb ? pa : pb]!.add(pa < pb ? pb : pa);
  }
  return below.map((set) => {
    const rows = [...set].sort((x, y) => x - y);
    for (const row of rows.slice(1)) below[rows[0]!]!.add(row);
    return rows;
  });
}

/** Orders and factors symbolically. `edges` join unknowns 0..n-1; parallel edges may repeat. */
export function makeFactor(n: number, edges: ReadonlyArray<readonly [number, number]>): Factor {
  const order = minimumDegree(n, edges);
  const place = new Int32Array(n);
  order.forEach((unknown, k) => (place[unknown] = k));
  const columns = patternOf(n, edges, place);
  const start = new Int32Array(n + 1);
  columns.forEach((rows, k) => (start[k + 1] = start[k]! + rows.length));
  const slotOf = (a: number, b: number): number => {
    const [first, second] = a < b ? [a, b] : [b, a];
    return start[first]! + columns[first]!.indexOf(second);
  };
  const pairs = columns.flatMap((rows) =>
    rows.flatMap((a, i) => rows.slice(i + 1).map((b) => slotOf(a, b))),
  );
  return {
    n,
    order,
    start,
    row: Int32Array.from(columns.flat()),
    update: Int32Array.from(pairs),
    edgeSlot: Int32Array.from(edges, ([a, b]) => slotOf(place[a]!, place[b]!)),
    diagonal: new Float64Array(n),
    off: new Float64Array(start[n]!),
    d: new Float64Array(n),
    work: new Float64Array(n),
  };
}

/** Factors, and takes the right-hand side in `work` through L on the way; L D into `off` and d. */
function eliminate({ n, start, row, update, off, d, work }: Factor): void {
  let t = 0;
  for (let k = 0; k < n; k++) {
    const end = start[k + 1]!;
    const over = 1 / d[k]!;
    const x = work[k]!;
    for (let p = start[k]!; p < end; p++) {
      const i = row[p]!;
      const own = off[p]!;
      const l = own * over;
      d[i] = d[i]! - l * own;
      work[i] = work[i]! - l * x;
      off[p] = l;
      for (let q = p + 1; q < end; q++, t++) {
        const at = update[t]!;
        off[at] = off[at]! - l * off[q]!;
      }
    }
    work[k] = x * over;
  }
}

/** Solves A x = rhs in place; both by unknown. */
export function solve(f: Factor, rhs: Float64Array): void {
  const { n, order, diagonal, start, row, off, d, work } = f;
  for (let k = 0; k < n; k++) {
    const unknown = order[k]!;
    d[k] = diagonal[unknown]!;
    work[k] = rhs[unknown]!;
  }
  eliminate(f);
  for (let k = n - 1; k >= 0; k--) {
    let x = work[k]!;
    const end = start[k + 1]!;
    for (let p = start[k]!; p < end; p++) x -= off[p]! * work[row[p]!]!;
    work[k] = x;
    rhs[order[k]!] = x;
  }
}
