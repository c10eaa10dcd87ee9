// The plan's lists of numbers: room, give, weight and neighbours of every volume and face.
import { max, min, round } from '../base/math.ts';
import { G } from '../base/units.ts';
import { wallCompliance } from '../laws/elastic.ts';
import { AIR_DENSITY, gasSection, type GasSection } from '../laws/gas.ts';
import type { ConduitSpec } from '../scenario.ts';
import { boresOf } from './columns.ts';
import { peCompliance } from './creep.ts';
import { elevationAt, isConduit } from './cut.ts';
import { JUNCTION, type ColumnPlan, type LinkPlan, type NodePlan, type Plan } from './plan.ts';

function conduitCompliance(spec: ConduitSpec, water: Plan['water'], t_C: number): number {
  if (spec.kind === 'hose') return spec.compliance_per_MPa / 1e6 + water.compressibility;
  if (spec.material === 'pe') return peCompliance(spec, t_C) + water.compressibility;
  const wall = wallCompliance(
    spec.bore_mm / 1000,
    spec.wall_mm / 1000,
    spec.modulus_MPa * 1e6,
    spec.poisson,
  );
  return wall + water.compressibility;
}

/** Compliance of a fitting: brass and cast iron hardly stretch, the liquid yields. */
const FITTING_COMPLIANCE = 2e-10;

/** Slopes that differ by less are one: they differ by rounding, and cells then share constants. */
const SAME_SLOPE = 1e-9;

/** Sine of the slope up to which layers level themselves along the crown: 10 degrees. */
const LEVEL_SINE = 0.17365;

/**
 * Share of an exchange that a cell takes part in as the sink, by its fall away from the face over
 * LEVEL_SINE. Gas that rises through a face trades places with liquid that falls through it; over
 * a crest both liquids stand below the face and none can.
 */
function sinkShare(fall: number): number {
  return fall <= 0 ? 1 : fall >= 1 ? 0 : 1 - fall;
}

/** Elastic room that a pascal adds at each point, m3, into `wallC`. */
function wallsOf(
  nodes: readonly NodePlan[],
  leans: Int32Array,
  give: Float64Array,
  wallC: Float64Array,
): Float64Array {
  leans.forEach((point, v) => {
    if (v >= nodes.length || nodes[v]!.kind === JUNCTION) wallC[point]! += give[v]!;
  });
  return wallC;
}

/** Two a face: share of an exchange that the cell behind it and the cell before it take. */
function crests(links: readonly LinkPlan[], drop: Float64Array, faces: number): Float64Array {
  const crest = new Float64Array(2 * faces).fill(1);
  for (const { firstCell, firstFace, cells, length } of links) {
    const steep = cells / (length * G * LEVEL_SINE);
    for (let k = 1; k < cells; k++) {
      crest[2 * (firstFace + k)] = sinkShare(drop[firstCell + k]! * steep);
      crest[2 * (firstFace + k) + 1] = sinkShare(-drop[firstCell + k - 1]! * steep);
    }
  }
  return crest;
}

/** The first numbers of all lists, then the second numbers, and so on. */
function sideBySide(lists: readonly Float64Array[]): Float64Array {
  const [first] = lists;
  return Float64Array.from({ length: lists.length * first!.length }, (_, i) => {
    const list = lists[i % lists.length]!;
    return list[(i - (i % lists.length)) / lists.length]!;
  });
}

/** Constants of a bore and slope, worked out once for all cells that have them. */
function sectionOf(
  known: Map<string, GasSection>,
  bore: number,
  slope: number,
  water: Plan['water'],
): GasSection {
  const steps = round(slope / SAME_SLOPE);
  const key = `${bore} ${steps}`;
  const found =
    known.get(key) ?? gasSection(bore, steps * SAME_SLOPE, water.rho, AIR_DENSITY, water.sigma);
  known.set(key, found);
  return found;
}

/** Each half of a column leans on the point at its own end. */
function leanCells(columns: readonly ColumnPlan[], leans: Int32Array): void {
  for (const { a, b, cell, cells, half } of columns) {
    for (let k = 0; k < cells; k++) leans[cell + k] = k < half ? a : b;
  }
}

/** Per cell: the first one behind it with another section, or its pipe's end. */
function runsOf(links: readonly LinkPlan[], section: readonly (GasSection | null)[]): Int32Array {
  const runEnd = new Int32Array(section.length);
  for (const { firstCell, cells } of links) {
    const end = firstCell + cells;
    for (let v = end - 1; v >= firstCell; v--) {
      runEnd[v] = v + 1 < end && section[v + 1] === section[v] ? runEnd[v + 1]! : v + 1;
    }
  }
  return runEnd;
}

export function fillTables(args: {
  nodes: readonly NodePlan[];
  links: readonly LinkPlan[];
  columns: readonly ColumnPlan[];
  points: number;
  volumes: number;
  faces: number;
  water: Plan['water'];
  t_C: number;
}) {
  const { nodes, links, columns, volumes, faces, water } = args;
  const room = new Float64Array(volumes);
  const compliance = new Float64Array(volumes);
  const cellLength = new Float64Array(volumes);
  const zStart = new Float64Array(volumes);
  const zEnd = new Float64Array(volumes);
  const leans = new Int32Array(volumes);
  const faceFrom = new Int32Array(faces);
  const faceTo = new Int32Array(faces);
  const known = new Map<string, GasSection>();
  const section: (GasSection | null)[] = new Array<GasSection | null>(volumes).fill(null);
  nodes.forEach((node, i) => {
    room[i] = node.volume;
    compliance[i] = FITTING_COMPLIANCE + water.compressibility;
    zStart[i] = zEnd[i] = node.elevation;
    leans[i] = i;
  });
  for (const link of links) {
    for (let k = 0; k <= link.cells; k++) {
      faceFrom[link.firstFace + k] = k === 0 ? link.from : link.firstCell + k - 1;
      faceTo[link.firstFace + k] = k === link.cells ? link.to : link.firstCell + k;
    }
    if (!isConduit(link.spec)) continue;
    const dx = link.length / link.cells;
    for (let k = 0; k < link.cells; k++) {
      const v = link.firstCell + k;
      room[v] = link.area * dx;
      cellLength[v] = dx;
      compliance[v] = conduitCompliance(link.spec, water, args.t_C);
      zStart[v] = elevationAt(link.spec, link, k * dx);
      zEnd[v] = elevationAt(link.spec, link, (k + 1) * dx);
      const slope = max(-1, min(1, (zEnd[v]! - zStart[v]!) / dx));
      section[v] = sectionOf(known, link.bore, slope, water);
    }
  }
  leanCells(columns, leans);
  const give = room.map((v, i) => v * compliance[i]!);
  const drop = zStart.map((z, i) => G * (z - zEnd[i]!));
  const wallC = wallsOf(nodes, leans, give, new Float64Array(args.points));
  return {
    room,
    compliance,
    give,
    drop,
    shape: sideBySide([room, give, drop]),
    crest: crests(links, drop, faces),
    wallC,
    kinds: Uint8Array.from({ length: volumes }, (_, v) => nodes[v]?.kind ?? JUNCTION),
    bores: boresOf(links, columns),
    cellLength,
    zStart,
    zEnd,
    section,
    runEnd: runsOf(links, section),
    leans,
    faceFrom,
    faceTo,
  };
}
