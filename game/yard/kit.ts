// Where the kit is: on the board, or beside what it belongs to, each with a line to it. And the
// dials that stand at no junction: thermometers, water meters, differences between two places.
import { boardOf, type Board } from './board.ts';
import { nodeOf } from './graph.ts';
import { about, type Sheet } from './sheet.ts';
import { leaderTo, nearestFree, type Taken } from './tags.ts';
import type { Box, DialMark, HouseMark, Label, Point, Vault } from './types.ts';

type Spec = Sheet['site']['scenario'];
type Device = Spec['devices'][number];
type Instrument = Spec['instruments'][number];

export interface Around {
  readonly taken: Taken;
  readonly house: HouseMark;
  readonly vaults: readonly Vault[];
}

/** The board with its hooks placed; its names where there is room for them. */
export function hangBoard(sheet: Sheet): { board: Board | null; labels: Label[] } {
  const board = boardOf(sheet.site, sheet.plan);
  if (board === null) return { board, labels: [] };
  const { plan } = sheet;
  const labels: Label[] = [];
  for (const { id, x, y, w, h, reads, room: across } of board.slots) {
    const dial = sheet.site.scenario.instruments.find((i) => i.id === id);
    const scale = dial === undefined ? null : scaleOf(dial);
    if (scale !== null)
      addDial(sheet, id, { x: x + w / 2, y: y + h / 2 }, { ...scale, leader: [] });
    else sheet.place(id, reads ? 'held' : 'device', { x, y, w, h });
    if (plan.shape !== 'wide') continue;
    const room = {
      ...{ x: x + (w - across) / 2, y: y + h + 1 },
      ...{ w: across, h: 2.28 * plan.type },
    };
    labels.push({
      key: `${reads ? 'reading' : 'part'}.${id}`,
      ...room,
      values: {},
      align: 'center',
      tone: 'name',
      leader: [],
    });
  }
  return { board, labels };
}

type Scale = Pick<DialMark, 'from' | 'full' | 'per' | 'unit'>;

/** A dial for what has a needle and no junction of its own; null of everything else. */
function scaleOf(spec: Instrument): Scale | null {
  switch (spec.kind) {
    case 'difference':
      return { from: 0, full: spec.range_kPa, per: 1000, unit: 'kPa' };
    case 'temperature':
      return { from: spec.from_C, full: spec.to_C, per: 1, unit: 'C' };
    case 'current':
      return { from: 0, full: spec.range_A, per: 1, unit: 'A' };
    case 'voltage':
      return { from: 0, full: spec.range_V, per: 1, unit: 'V' };
    case 'meter':
      return { from: 0, full: 100, per: 1e-3, unit: 'L' }; // Once round in 100 L.
    default:
      return null;
  }
}

function addDial(
  sheet: Sheet,
  id: string,
  at: Point,
  how: Scale & { readonly leader: readonly Point[] },
): void {
  const { control } = sheet.plan;
  sheet.dials.push({ id, ...at, r: control / 2 - 2, stem: at, ...how });
  sheet.place(id, 'gauge', about(at, control));
}

/** A part as it is drawn: its area, or what is left where only its node is known. */
function boxOf(sheet: Sheet, id: string): Box | null {
  const placed = sheet.placed.find((p) => p.id === id);
  if (placed !== undefined) return placed;
  const part = sheet.parts.find((p) => p.id === id);
  if (part !== undefined) return about(part, part.kind === 'coil' ? part.size * 1.25 : part.size);
  const tank = sheet.tanks.find((t) => t.id === id);
  if (tank !== undefined) return tank;
  const pipe = sheet.drawn(id);
  const p = pipe?.points[Math.floor(pipe.points.length / 2)];
  return p === undefined ? null : about(p, 8);
}

const middle = (b: Box): Point => ({ x: b.x + b.w / 2, y: b.y + b.h / 2 });

/** What a thermometer or meter is held to. */
function measured(sheet: Sheet, spec: Instrument): Box | null {
  if (spec.kind === 'difference') {
    const between = sheet.site.scenario.links.find((l) => {
      const ends = [l.from, l.to].map(nodeOf);
      return ends.includes(spec.high) && ends.includes(spec.low);
    });
    const at = between === undefined ? null : boxOf(sheet, between.id);
    if (at !== null) return at;
  }
  if (spec.kind === 'meter') return endOf(sheet, spec.link);
  if (spec.kind !== 'difference' && spec.kind !== 'temperature') return null;
  const node = spec.kind === 'difference' ? spec.high : spec.node;
  const link = spec.kind === 'temperature' ? spec.link : undefined;
  if (link !== undefined) return boxOf(sheet, link);
  const at = sheet.at.get(nodeOf(node ?? ''));
  return at === undefined ? null : about(at, 8);
}

/** The end of a hose at the tap, where its meter and its guard are. */
function endOf(sheet: Sheet, link: string): Box | null {
  const pipe = sheet.drawn(link);
  const spec = sheet.site.links.get(link);
  if (pipe === undefined || spec === undefined) return null;
  const tap = sheet.site.nodes.get(nodeOf(spec.from))?.kind === 'reservoir';
  const p = pipe.points.at(tap ? 2 : -3) ?? pipe.points[0]!;
  return about(p, 10);
}

/** What a device belongs to, as a box on the drawing. */
function anchorOf(sheet: Sheet, device: Device, around: Around): Box | null {
  switch (device.kind) {
    case 'lock':
    case 'latch':
    case 'housing':
      return boxOf(sheet, device.of);
    case 'guard':
      return endOf(sheet, device.of);
    case 'carry':
      return boxOf(sheet, device.from);
    case 'entry':
      return around.vaults.reduce<Box | null>((a, b) => (a === null || b.h > a.h ? b : a), null);
    case 'fan':
    case 'flame': {
      const { house } = around;
      return about({ x: house.x + house.wall + 60, y: house.y + 60 }, 8);
    }
    default:
      return null;
  }
}

/** Places all devices and dials that hang on no board. Whatever finds no room stays in the list. */
export function placeKit(sheet: Sheet, around: Around): void {
  const { scenario } = sheet.site;
  // What is looked into stays in sight.
  for (const p of sheet.placed) if (p.kind === 'sight') around.taken.add(p, 1);
  const on = new Set(sheet.placed.map((p) => p.id));
  for (const spec of scenario.instruments) {
    const scale = on.has(spec.id) ? null : scaleOf(spec);
    const anchor = scale === null ? null : measured(sheet, spec);
    if (scale === null || anchor === null) continue;
    const found = besideOf(sheet, anchor, around);
    if (found !== null) addDial(sheet, spec.id, found.at, { ...scale, leader: found.leader });
  }
  for (const device of scenario.devices) {
    if (on.has(device.id)) continue;
    const anchor = anchorOf(sheet, device, around);
    const found = anchor === null ? null : besideOf(sheet, anchor, around);
    if (found === null) continue;
    const box = about(found.at, sheet.plan.control);
    sheet.place(device.id, 'device', box);
    const leader = leaderTo(found.at, sheet.plan.control / 2, bodyOf(sheet, device, anchor!));
    sheet.kit.push({ id: device.id, ...box, leader });
  }
}

/** A part's drawn body, smaller than the area that is touched: there a line to it ends. */
function bodyOf(sheet: Sheet, device: Device, anchor: Box): Box {
  const of = 'of' in device ? device.of : null;
  const part = sheet.parts.find((p) => p.id === of);
  return part === undefined ? anchor : about(part, part.size * 0.8);
}

function besideOf(
  sheet: Sheet,
  anchor: Box,
  { taken }: Around,
): { at: Point; leader: Point[] } | null {
  const { plan } = sheet;
  const deep = anchor.y > plan.cut;
  const within = {
    x: 4,
    y: deep ? plan.cut + 4 : 4,
    w: plan.width - 8,
    h: deep ? 1e5 : plan.cut - 10,
  };
  const size = { w: plan.control + 6, h: plan.control + 6 };
  const page = { x: 4, y: 4, w: plan.width - 8, h: 1e5 };
  const near = (room: Box): Point | null =>
    nearestFree(taken, middle(anchor), { ...size, own: anchor, within: room });
  const at = near(within) ?? near(page);
  if (at === null) return null;
  taken.add(about(at, plan.control + 4), 2);
  return { at, leader: leaderTo(at, plan.control / 2, anchor) };
}
