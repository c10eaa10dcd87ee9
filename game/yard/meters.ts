// Flow meters: their dial, and where they sit astride a hose on the turf because the page is too
// narrow for them in line.
import { isConduit } from './graph.ts';
import { about, type Sheet } from './sheet.ts';
import { apart, crowd, othersOf } from './sights.ts';
import type { Instrument } from './stations.ts';
import type { Box, Point } from './types.ts';

type FlowMeter = Extract<Instrument, { kind: 'flow' }>;

export function placeMeters(sheet: Sheet): void {
  const { plan, site } = sheet;
  for (const spec of site.scenario.instruments) {
    if (spec.kind !== 'flow' || sheet.placed.some((p) => p.id === spec.id)) continue;
    const link = site.links.get(spec.link);
    const pipe = sheet.drawn(spec.link);
    if (pipe === undefined || link === undefined || !isConduit(link)) continue;
    const others = othersOf(sheet, pipe.id);
    let best: { at: Point; cost: number } | null = null;
    for (const [k, p] of pipe.points.entries()) {
      const box: Box = about(p, plan.control + 8);
      if (p.y > plan.cut - plan.control / 2 && link.kind === 'hose') continue;
      if (box.x < 2 || box.x + box.w > plan.width - 2) continue;
      const hits = sheet.placed.filter((o) => !apart(o, box, 4)).length;
      const bend = Math.min(Math.abs(p.nx), Math.abs(p.ny)) * 30;
      const edge = k < 8 || k > pipe.points.length - 9 ? 60 : 0;
      const cost = 1000 * hits + crowd(others, box) * 3 + bend + edge;
      if (best === null || cost < best.cost) best = { at: { x: p.x, y: p.y }, cost };
    }
    if (best === null) continue;
    addMeter(sheet, spec, best.at);
  }
}

/** The dial of a flow meter around a point of its pipe; the dial's radius. */
export function addMeter(sheet: Sheet, spec: FlowMeter, at: Point): number {
  const { control } = sheet.plan;
  const r = control / 2 - 2;
  sheet.dials.push({
    id: spec.id,
    ...at,
    r,
    stem: at,
    from: 0,
    full: spec.range_L_min,
    per: 1 / 60000, // L/min to m3/s.
    unit: 'L/min',
  });
  sheet.place(spec.id, 'meter', about(at, control));
  return r;
}
