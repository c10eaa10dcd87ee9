// Where each strip of the field lies on the page: cells side by side, runs one under the other,
// a datum line and a height scale each.
import { smoothHeights } from './path.ts';
import { widthOf, type Plan } from './plan.ts';
import { profileOf, type ConduitLink, type Profile, type Site } from './site.ts';
import type { Strip } from './types.ts';

/** Slope above which a pipe counts as a riser and not as a run in the trench. */
const STEEP_RISER = 0.5;
const DATUM_STEP_m = 0.5;
const TICK_m = 30;

/** The part of a circuit that lies in the trench: from `a` to `b` metres, folded at `fold`. */
export interface Lie {
  readonly a: number;
  readonly b: number;
  readonly fold: number;
}

/** Cuts the steep pipes at both ends off and folds the rest in the middle. */
export function lieOf(profile: Profile): Lie {
  const { s, z } = profile;
  const steep = (i: number): boolean =>
    Math.abs((z[i + 1]! - z[i]!) / (s[i + 1]! - s[i]!)) > STEEP_RISER;
  let i = 0;
  while (i < s.length - 2 && steep(i)) i++;
  let j = s.length - 1;
  while (j > i + 1 && steep(j - 1)) j--;
  return { a: s[i]!, b: s[j]!, fold: (s[i]! + s[j]!) / 2 };
}

/** Least and greatest height between two distances, m. */
function heightRange(profile: Profile, from: number, to: number): { lo: number; hi: number } {
  const at = smoothHeights(profile.s, profile.z);
  const z = [at(from), at(to)];
  profile.s.forEach((s, k) => {
    if (s >= from && s <= to) z.push(profile.z[k]!);
  });
  return { lo: Math.min(...z), hi: Math.max(...z) };
}

interface Cell {
  readonly x0: number;
  readonly x1: number;
  readonly supplyX: number;
  readonly returnX: number;
}

/** Columns side by side, each with its start where the plan's start is. */
function cellsOf(plan: Plan, circuits: number): Cell[] {
  const n = plan.field.columns(circuits);
  const { start, fold, supplyX, returnX } = plan.field;
  const away = Math.sign(fold - start);
  const pitch = (fold - start) / n;
  const rest = 130 * away;
  return Array.from({ length: n }, (_, k) => ({
    x0: start + k * pitch + (k === 0 ? 0 : rest),
    x1: start + (k + 1) * pitch,
    supplyX: k === 0 ? supplyX : start + k * pitch + rest - 44 * away,
    returnX: k === 0 ? returnX : start + k * pitch + rest - 84 * away,
  }));
}

/** Fewer units a metre when many strips must share the page. */
function perMetreFor(plan: Plan, rows: number): number {
  const share = rows <= 1 ? 1 : rows === 2 ? 0.7 : 0.5;
  return Math.round(plan.field.perMetre * share);
}

export interface Band {
  readonly link: ConduitLink;
  readonly profile: Profile;
  readonly lie: Lie;
  readonly cell: Cell;
  readonly strips: readonly [Strip, Strip];
}

interface RunPlace {
  readonly run: 'out' | 'back';
  readonly top: number;
  readonly perMetre: number;
}

function stripOf(plan: Plan, band: Omit<Band, 'strips'>, place: RunPlace): Strip {
  const { lie, profile, cell, link } = band;
  const { run, perMetre } = place;
  const [from, to] = run === 'out' ? [lie.a, lie.fold] : [lie.fold, lie.b];
  const { lo, hi } = heightRange(profile, from, to);
  const half = widthOf(plan, link.bore_mm) / 2 + 3;
  const datum = Math.round((lo + hi) / 2 / DATUM_STEP_m) * DATUM_STEP_m;
  const datumY = place.top + half + (Math.max(hi, datum) - datum) * perMetre;
  const along = Math.abs(cell.x1 - cell.x0) / (lie.fold - lie.a);
  const xAt = (s: number): number =>
    cell.x0 + Math.sign(cell.x1 - cell.x0) * along * (run === 'out' ? s - lie.a : lie.b - s);
  const first = Math.ceil((from + 1) / TICK_m) * TICK_m;
  const count = Math.max(0, Math.floor((to - 1 - first) / TICK_m) + 1);
  return {
    circuit: link.id,
    run,
    datum_m: datum,
    datumY,
    perMetre,
    along,
    x0: cell.x0,
    x1: cell.x1,
    top: place.top,
    bottom: datumY + (datum - Math.min(lo, datum)) * perMetre + half,
    rulerX: plan.field.returnX + 44,
    ruler: [Math.ceil(hi * 10) / 10, datum, Math.floor(lo * 10) / 10],
    ticks: Array.from({ length: count }, (_, k) => ({
      at_m: first + k * TICK_m,
      x: xAt(first + k * TICK_m),
    })),
  };
}

/** Height on a strip. */
export const stripY = (strip: Strip, elevation_m: number): number =>
  strip.datumY + (strip.datum_m - elevation_m) * strip.perMetre;

export function layBands(site: Site, plan: Plan, top: number): { bands: Band[]; bottom: number } {
  const ids = site.drawing.field.circuits;
  const cells = cellsOf(plan, ids.length);
  const rows = Math.ceil(ids.length / cells.length);
  const perMetre = perMetreFor(plan, rows);
  const bands: Band[] = [];
  const { title, ticks, gap } = plan.field;
  let bottom = top;
  ids.forEach((id, k) => {
    const link = site.conduit(id);
    const profile = profileOf(site, link);
    const cell = cells[Math.floor(k / rows)]!;
    const above = k % rows === 0 ? undefined : bands[k - 1]!.strips[1];
    const base = { link, profile, lie: lieOf(profile), cell };
    const start = (above === undefined ? top : above.bottom + ticks + gap) + title;
    const out = stripOf(plan, base, { run: 'out', top: start, perMetre });
    const next = out.bottom + ticks + gap + title;
    const back = stripOf(plan, base, { run: 'back', top: next, perMetre });
    bands.push({ ...base, strips: [out, back] });
    bottom = Math.max(bottom, back.bottom + ticks);
  });
  return { bands, bottom };
}
