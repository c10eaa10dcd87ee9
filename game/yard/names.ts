// Which things are named on the drawing, and what their names must keep off.
import { about, nameKey, type Sheet } from './sheet.ts';
import type { Named, Side } from './tags.ts';
import { Taken } from './tags.ts';
import type { Box, BoreMark, FrameMark, HouseMark, Label, Placed, Plate, Vault } from './types.ts';

export type Say = (key: string) => string;

/** Names as ids spell them, where no words are given. */
export const plainSay: Say = (key) => key.slice(key.indexOf('.') + 1).replaceAll('_', ' ');

const SIDES: Readonly<Record<Placed['kind'], readonly Side[]>> = {
  valve: ['above', 'below', 'right', 'left'],
  coupling: ['above', 'below', 'right', 'left'],
  hand_pump: ['above', 'below', 'right', 'left'],
  pump: ['above', 'below', 'left', 'right'],
  tank: ['left', 'right', 'below', 'above'],
  gauge: ['left', 'right', 'above', 'below'],
  meter: ['above', 'right', 'below', 'left'],
  sight: ['left', 'right', 'below', 'above'],
  note: ['below', 'above', 'right', 'left'],
  device: ['below', 'above', 'right', 'left'],
  held: ['below', 'above', 'right', 'left'],
};

const VAULT_SIDES: readonly Side[] = ['left', 'right', 'below', 'above'];

/** The thing itself, on which a leader ends: smaller than the area that is touched. */
function bodyOf(sheet: Sheet, p: Placed): Box {
  const { plan } = sheet;
  const m = { x: p.x + p.w / 2, y: p.y + p.h / 2 };
  if (['valve', 'coupling', 'hand_pump'].includes(p.kind)) return about(m, plan.control * 0.6);
  if (p.kind === 'sight') return sightBody(sheet, p);
  const tank = sheet.tanks.find((t) => t.id === p.id || t.level === p.id);
  if (tank === undefined) return p;
  if (p.id === tank.level)
    return { x: tank.tubeX - 7, y: tank.y + tank.h * 0.16, w: 14, h: tank.h * 0.3 };
  return { x: tank.x, y: tank.y + tank.h * 0.36, w: tank.w, h: tank.h * 0.4 };
}

/** The clear pipe itself within the area that is looked at. */
function sightBody(sheet: Sheet, p: Placed): Box {
  const spec = sheet.site.scenario.instruments.find((i) => i.id === p.id);
  const pipe = spec?.kind === 'sight' ? sheet.drawn(spec.link) : undefined;
  if (pipe === undefined) return p;
  const m = { x: p.x + p.w / 2, y: p.y + p.h / 2 };
  return about(m, pipe.width + 4);
}

/** Signs that say themselves what they are; their names come up when they are touched. */
const UNNAMED: readonly Placed['kind'][] = ['note', 'device', 'held'];

const RANK: Readonly<Record<Placed['kind'], number>> = {
  pump: 0,
  meter: 1,
  valve: 2,
  coupling: 2,
  hand_pump: 2,
  gauge: 3,
  tank: 4,
  sight: 5,
  note: 6,
  device: 7,
  held: 7,
};

/** Everything that must have a name and has none yet, those with the least choice first. */
export function namedOf(sheet: Sheet, say: Say, named: ReadonlySet<string>): Named[] {
  const out: (Named & { rank: number })[] = [];
  for (const p of sheet.placed) {
    if (UNNAMED.includes(p.kind) || named.has(p.labelKey)) continue;
    const own = sheet.dials.find((d) => d.id === p.id && d.stem.y !== d.y);
    const key = p.labelKey;
    const base = { id: p.id, key, text: say(key), tone: 'name' as const };
    const body = own === undefined ? bodyOf(sheet, p) : about(own, 2 * own.r);
    const tank = sheet.tanks.find((t) => t.level === p.id);
    const area = tank ?? p;
    const vault = p.y > sheet.plan.cut;
    const sides = vault ? VAULT_SIDES : SIDES[p.kind];
    const around = vault ? about({ x: p.x + p.w / 2, y: p.y + p.h / 2 }, p.w * 1.5) : area;
    out.push({ ...base, box: body, own: around, sides, rank: RANK[p.kind] });
  }
  for (const part of sheet.parts) {
    if (['coupling', 'fixed_flow', 'hand_pump'].includes(part.kind)) continue;
    const key = nameKey(part.id, false);
    const w = part.kind === 'coil' ? part.size * 1.25 : part.size;
    const box = about(part, w, part.kind === 'coil' ? w * 1.2 : w);
    const sides = SIDES.valve;
    out.push({ id: part.id, key, text: say(key), tone: 'name', box, own: box, sides, rank: 4.5 });
  }
  return out.sort((a, b) => a.rank - b.rank || a.box.x - b.box.x);
}

/** Kit beside its part is named where there is room; else its name comes up when it is touched. */
export function kitNames(sheet: Sheet, say: Say): Named[] {
  return sheet.kit.map((box): Named => {
    const key = nameKey(box.id, false);
    return { id: box.id, key, text: say(key), tone: 'name', box, own: box, sides: SIDES.device };
  });
}

/** Hoses across the yard are named where there is room, and not otherwise. */
export function hoseNames(sheet: Sheet, hoses: readonly string[], say: Say): Named[] {
  return hoses.flatMap((id): Named[] => {
    const pipe = sheet.drawn(id);
    if (pipe === undefined) return [];
    const flat = pipe.points.filter((p) => Math.abs(p.ny) > 0.98);
    const at = flat[Math.floor(flat.length / 2)] ?? pipe.points[0]!;
    const box = about(at, pipe.width);
    const key = nameKey(id, false);
    return [{ id, key, text: say(key), tone: 'name', box, own: box, sides: ['below', 'above'] }];
  });
}

export interface Obstacles {
  readonly labels: readonly Label[];
  readonly plates: readonly Plate[];
  readonly frames: readonly FrameMark[];
  readonly vaults: readonly Vault[];
  readonly holes: readonly BoreMark[];
  readonly house: HouseMark;
  readonly size: { width: number; height: number };
  readonly cut: number;
}

/** All that is drawn, as taken cells. */
export function takenBy(sheet: Sheet, o: Obstacles): Taken {
  const { plan } = sheet;
  const edge = 4 * plan.pipe;
  const taken = new Taken(o.size.width, o.size.height);
  for (const c of sheet.conduits) {
    for (let i = 1; i < c.points.length; i++)
      taken.line(c.points[i - 1]!, c.points[i]!, c.width + edge + 2);
  }
  for (const f of sheet.fittings) {
    for (let i = 1; i < f.points.length; i++)
      taken.line(f.points[i - 1]!, f.points[i]!, f.width + edge + 2);
  }
  for (const t of sheet.tanks) taken.add({ x: t.x - 8, y: t.y - 4, w: t.w + 16, h: t.h + 10 });
  for (const p of sheet.placed) if (p.kind !== 'sight') taken.add(p, p.kind === 'tank' ? 1 : 2);
  for (const d of sheet.dials) {
    taken.add(about(d, 2 * d.r), 2);
    taken.line(d, d.stem, 12);
  }
  for (const h of o.holes) {
    const half = h.leg + h.width;
    taken.add({ x: h.x - half, y: h.top - 10, w: 2 * half, h: h.bottom - h.top + 20 });
  }
  for (const v of o.vaults) taken.add({ ...v, x: v.x - 4, w: v.w + 8 });
  for (const p of sheet.pumps) taken.add(p.motor, 2);
  for (const p of sheet.parts) taken.add(about(p, p.kind === 'coil' ? p.size * 1.3 : p.size), 2);
  for (const c of sheet.couplers) taken.add(about(c, 40 * plan.pipe, 26 * plan.pipe));
  for (const d of sheet.outlets)
    taken.add({
      ...d.drum,
      y: Math.min(d.y, d.drum.y),
      h: d.drum.y + d.drum.h - Math.min(d.y, d.drum.y),
    });
  for (const f of o.frames) {
    taken.add({ ...f.deck, y: f.deck.y - 2, h: f.deck.h + 6 });
    for (const w of f.wheels) taken.add(about(w, 2 * f.wheelR));
    if (f.rig === 'barrow') {
      const low = { x: f.deck.x + 20 * plan.pipe, y: plan.line };
      taken.line({ ...low, y: f.deck.y }, low, 10);
      const axle = f.wheels[0] ?? low;
      taken.line({ x: f.deck.x + f.deck.w - 24 * plan.pipe, y: f.deck.y }, axle, 10);
    }
  }
  const { house } = o;
  taken.add({ x: house.x - 24, y: house.y - 70, w: house.w + 30, h: 76 }, 2);
  taken.add({ x: house.x - 4, y: house.y, w: house.wall + 6, h: house.h }, 2);
  if (house.unit !== null) taken.add({ ...house.unit, h: house.unit.h + 30 }, 2);
  taken.line({ x: 0, y: o.cut }, { x: o.size.width, y: o.cut }, 26 * plan.pipe);
  for (const l of o.labels) taken.add(l, 2);
  for (const p of o.plates) taken.add(about(p, 2 * p.r + 4), 2);
  return taken;
}
