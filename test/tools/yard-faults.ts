// What may not happen on the drawing of a yard, by geometry alone: names over names or parts,
// pipes through valves, controls that are missing, outside, too small or one over the other,
// and heights out of order.
import { endsOf, heightAt, nodeOf, readSite, type Site } from '../../game/yard/graph.ts';
import type { Box, Conduit, Point, ValveMark, YardLayout } from '../../game/yard/layout.ts';
import type { Scenario } from '../../sim/index.ts';

/** Least CSS width at which each shape is shown. */
const SHOWN_AT = { wide: 1120, tall: 390 } as const;
const TOUCH_px = 44;

const overlap = (a: Box, b: Box, by = 0): boolean =>
  a.x + by < b.x + b.w && b.x + by < a.x + a.w && a.y + by < b.y + b.h && b.y + by < a.y + a.h;

const around = (p: Point, r: number): Box => ({ x: p.x - r, y: p.y - r, w: 2 * r, h: 2 * r });

function words(yard: YardLayout): { id: string; box: Box }[] {
  return [
    ...yard.labels.map((l) => ({ id: `${l.key}@${Math.round(l.x)}`, box: l as Box })),
    ...yard.plates.map((p) => ({ id: `plate ${p.text} ${p.id}`, box: around(p, p.r) })),
    ...(yard.key === null ? [] : [{ id: 'key', box: yard.key as Box }]),
  ];
}

function wordFaults(yard: YardLayout): string[] {
  const all = words(yard);
  const out: string[] = [];
  all.forEach((a, k) => {
    for (const b of all.slice(k + 1)) {
      if (overlap(a.box, b.box, 1)) out.push(`${a.id} lies over ${b.id}`);
    }
  });
  const parts = [
    ...yard.placed.filter((p) => p.kind !== 'sight' && p.kind !== 'note'),
    ...yard.tanks,
    ...yard.dials.map((d) => ({ id: d.id, ...around(d, d.r) })),
  ];
  for (const { id, box } of all) {
    for (const part of parts) if (overlap(box, part, 1)) out.push(`${id} lies over ${part.id}`);
    const page = { x: 0, y: 0, w: yard.width, h: yard.height };
    if (!inside(box, page)) out.push(`${id} lies outside the drawing`);
  }
  return out;
}

const inside = (a: Box, b: Box): boolean =>
  a.x >= b.x - 0.01 &&
  a.y >= b.y - 0.01 &&
  a.x + a.w <= b.x + b.w + 0.01 &&
  a.y + a.h <= b.y + b.h + 0.01;

/** The valve's body: its two cones, along its pipe. */
function bodyOf(v: ValveMark): Box {
  const half = v.size / 2 - 1;
  const tall = v.size * 0.3;
  const [w, h] = v.upright === true ? [tall, half] : [half, tall];
  return { x: v.x - w, y: v.y - h, w: 2 * w, h: 2 * h };
}

/** True where a thick line comes into a box. */
function enters(line: readonly Point[], width: number, box: Box): boolean {
  const r = width / 2;
  const near = { x: box.x - r, y: box.y - r, w: box.w + width, h: box.h + width };
  for (let i = 1; i < line.length; i++) {
    const [a, b] = [line[i - 1]!, line[i]!];
    if (a.x < near.x && b.x < near.x) continue;
    if (a.y < near.y && b.y < near.y) continue;
    if (a.x > near.x + near.w && b.x > near.x + near.w) continue;
    if (a.y > near.y + near.h && b.y > near.y + near.h) continue;
    const n = Math.max(1, Math.ceil(Math.hypot(b.x - a.x, b.y - a.y) / 4));
    for (let k = 0; k <= n; k++) {
      const p = { x: a.x + ((b.x - a.x) * k) / n, y: a.y + ((b.y - a.y) * k) / n };
      if (overlap(around(p, r), box)) return true;
    }
  }
  return false;
}

function pipeFaults(yard: YardLayout): string[] {
  const out: string[] = [];
  const lines = [
    ...yard.conduits.map((c) => ({
      id: c.id,
      points: c.points as readonly Point[],
      width: c.width,
    })),
    ...yard.fittings.map((f, k) => ({ id: `fitting ${k}`, points: f.points, width: f.width })),
  ];
  for (const valve of yard.valves) {
    const body = bodyOf(valve);
    const reach = around(valve, valve.size * 0.5 + 16 * yard.pipe);
    for (const line of lines) {
      const ends = [line.points[0]!, line.points.at(-1)!];
      const own = ends.some((p) => overlap(around(p, 1), reach));
      if (!own && enters(line.points, line.width, body)) {
        out.push(`${line.id} runs through ${valve.id}`);
      }
    }
  }
  return out;
}

function placeFaults(yard: YardLayout, scenario: Scenario): string[] {
  const out: string[] = [];
  const handles = new Set(['valve', 'three_way', 'coupling', 'hand_pump', 'pump']);
  const wanted = [
    ...scenario.links.filter((l) => handles.has(l.kind)).map((l) => l.id),
    ...scenario.nodes.filter((n) => n.kind === 'tank').map((n) => n.id),
    ...scenario.instruments.map((i) => i.id),
    ...scenario.devices.map((d) => d.id),
  ];
  const placed = new Map(yard.placed.map((p) => [p.id, p]));
  for (const id of wanted) if (!placed.has(id)) out.push(`${id} is not placed`);
  const scale = SHOWN_AT[yard.shape] / yard.width;
  const page = { x: 0, y: 0, w: yard.width, h: yard.height };
  yard.placed.forEach((p, k) => {
    if (!inside(p, page)) out.push(`${p.id} lies outside the drawing`);
    if (Math.min(p.w, p.h) * scale < TOUCH_px - 0.01) {
      out.push(`${p.id} is ${Math.round(Math.min(p.w, p.h) * scale)} px`);
    }
    for (const q of yard.placed.slice(k + 1)) {
      if (overlap(p, q, 0.5)) out.push(`${p.id} lies over ${q.id}`);
    }
  });
  return out;
}

/** Bands with a scale of their own: cart, bench and front; null below the ground. */
function bandOf(yard: YardLayout, p: Point): string | null {
  const { line, benches, front, cut, house } = yard.ground;
  if (p.y > cut) return null;
  if (p.y <= line) return 'cart';
  const bench = benches.findIndex((b) => p.y <= b);
  if (bench >= 0) return `bench ${bench}`;
  if (house < front && p.y <= house) return 'house';
  return p.y <= front ? 'front' : null;
}

function valveHeights(yard: YardLayout, site: Site): string[] {
  const out: string[] = [];
  const list = yard.valves.flatMap((v) => {
    const link = site.links.get(v.id)!;
    const zs = endsOf(link)
      .filter((e) => site.nodes.get(nodeOf(e))!.kind === 'junction')
      .map((e) => site.heightOf(e));
    const band = bandOf(yard, v);
    return band === null || zs.length === 0
      ? []
      : [{ v, band, lo: Math.min(...zs), hi: Math.max(...zs) }];
  });
  for (const a of list) {
    for (const b of list) {
      if (a.band === b.band && a.lo > b.hi + 1e-6 && a.v.y >= b.v.y) {
        out.push(`${a.v.id} stands higher than ${b.v.id} and is drawn lower`);
      }
    }
  }
  return out;
}

/** The drawn curve is smoothed between the profile's points, m. */
const SMOOTH_m = 0.15;

function fieldHeights(yard: YardLayout, site: Site): string[] {
  const out: string[] = [];
  const check = (pipe: Conduit, from: (p: Point) => boolean, slack: number, name: string): void => {
    const link = site.links.get(pipe.id)!;
    if (link.kind !== 'pipe' && link.kind !== 'hose') return;
    const profile = site.profile(link);
    const on = pipe.points.filter(from).filter((_, k) => k % 4 === 0);
    const heights = on
      .map((p) => ({ y: p.y, z: heightAt(profile, p.s) }))
      .sort((a, b) => b.z - a.z);
    for (let i = 0; i < heights.length; i++) {
      for (let j = i + 1; j < heights.length; j += 3) {
        const [a, b] = [heights[i]!, heights[j]!];
        if (a.z > b.z + slack && a.y > b.y) {
          out.push(`${name}: ${a.z.toFixed(2)} m is drawn below ${b.z.toFixed(2)} m`);
          return;
        }
      }
    }
  };
  for (const strip of yard.strips) {
    const pipe = yard.conduits.find((c) => c.id === strip.circuit);
    if (pipe === undefined) continue;
    const [l, r] = [Math.min(strip.x0, strip.x1) + 4, Math.max(strip.x0, strip.x1) - 4];
    const on = (p: Point): boolean => p.x > l && p.x < r && p.y > strip.top && p.y < strip.bottom;
    check(pipe, on, SMOOTH_m, `strip ${strip.circuit} ${strip.run}`);
  }
  for (const hole of yard.bores) {
    const pipe = yard.conduits.find((c) => c.id === hole.circuit);
    const half = hole.leg + hole.width;
    const on = (p: Point): boolean =>
      Math.abs(p.x - hole.x) < half && p.y > hole.top + 6 && p.y < hole.bottom - 6;
    if (pipe !== undefined) check(pipe, on, 3, `bore ${hole.circuit}`);
  }
  return out;
}

/** Every fault of a drawing; none on a good one. */
export function yardFaults(yard: YardLayout, scenario: Scenario): string[] {
  const site = readSite(scenario, null);
  return [
    ...wordFaults(yard),
    ...pipeFaults(yard),
    ...placeFaults(yard, scenario),
    ...valveHeights(yard, site),
    ...fieldHeights(yard, site),
  ];
}
