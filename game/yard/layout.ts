// The yard as a drawing: takes a scenario and the little its level may say about the drawing, and
// gives every part a place by rule. Heights are true elevation; nothing here knows the state.
import type { Scenario } from '../../sim/index.ts';
import { bandsOf, drawBands, isPlainTap } from './bands.ts';
import { layBores } from './bores.ts';
import { readField, type Field } from './circuits.ts';
import { framesOf } from './frames.ts';
import { isConduit, isMadeUp, nodeOf, readSite, type Site } from './graph.ts';
import { grazesOf } from './grazes.ts';
import { fieldParts } from './headers.ts';
import { drawHoses, rowsOf, type Hose } from './hoses.ts';
import { hangBoard, placeKit } from './kit.ts';
import { keyOf } from './key.ts';
import { layLadder, type Frame } from './ladder.ts';
import { fieldMarks, houseMarks, type FieldDrawn } from './marks.ts';
import { hoseNames, kitNames, namedOf, plainSay, takenBy, type Say } from './names.ts';
import { placeMeters } from './meters.ts';
import { placesOf } from './places.ts';
import { lookOf, type Look } from './plan.ts';
import { Sheet } from './sheet.ts';
import { sidesOf } from './hues.ts';
import { frostLabel, groundOf, houseOf, vaultsOf } from './setting.ts';
import { placeSights } from './sights.ts';
import { tagAll, type Named } from './tags.ts';
import type {
  Drawing,
  GroundMark,
  HoseEnd,
  HouseMark,
  Plate,
  Point,
  RiserEnd,
  Shape,
  Strip,
  YardLayout,
} from './types.ts';
import { zonesOf, type Zones } from './zones.ts';

export type * from './types.ts';

function layHoses(sheet: Sheet, zones: Zones, house: HouseMark): void {
  const taps = zones.patches.filter(isPlainTap).flatMap((p) => [...p.nodes]);
  const list: Omit<Hose, 'row' | 'floor'>[] = [];
  const back = new Set<string>();
  for (const link of zones.hoses) {
    const end = (e: string): HoseEnd | undefined => {
      const tap = taps.indexOf(nodeOf(e));
      if (tap < 0) return sheet.hoseEnds.get(`${link.id}@${nodeOf(e)}`);
      back.add(link.id);
      const at = house.taps[tap]!;
      return {
        at: { x: at.x - 15 * Math.sqrt(sheet.plan.pipe), y: at.y + 6 },
        dir: 1,
        onCart: false,
        ground: sheet.plan.house,
      };
    };
    const [from, to] = [end(link.from), end(link.to)];
    const places = [link.from, link.to].map((e) => zones.patchOf.get(nodeOf(e))?.place);
    const led = link.kind === 'pipe';
    const inside = places.includes('house') && !led;
    const wall = inside && sheet.plan.stacked ? { wall: house.x } : {};
    if (from !== undefined && to !== undefined) list.push({ link, from, to, led, ...wall });
  }
  drawHoses(sheet, rowsOf(list, back));
}

function layField(sheet: Sheet, fields: readonly Field[], ground: GroundMark): FieldDrawn {
  const { plan } = sheet;
  const wide = plan.shape === 'wide';
  const circuits = fields.flatMap((f) => f.circuits);
  const bottom = ground.frostY + 120;
  if (circuits.length === 0) return { rungs: [], holes: [], circuits, bottom };
  const pinOf = (root: string): RiserEnd => {
    const at = sheet.at.get(root) ?? { x: plan.width / 2, y: plan.cut };
    return sheet.risers.get(root) ?? { start: at, at };
  };
  const frame: Frame = {
    top: ground.frostY + 28,
    target: wide ? Math.max(912, plan.cut + 390) : plan.cut + 520,
    left: wide ? 40 : 22,
    right: wide ? 1376 : plan.width - 22,
    pinOf,
  };
  if (circuits.every((c) => c.kind === 'bore')) {
    const drawn = layBores(sheet, fields, { ...frame, right: wide ? 1470 : frame.right });
    return { rungs: [], holes: drawn.holes, circuits, bottom: drawn.bottom };
  }
  const drawn = layLadder(sheet, fields, frame);
  const holes = drawn.rungs.flatMap((r) => (r.hole === null ? [] : [r.hole]));
  return { rungs: drawn.rungs, holes, circuits, bottom: drawn.bottom };
}

/** Buried links that belong to no circuit and no header are drawn straight from end to end. */
function leftovers(sheet: Sheet, zones: Zones): void {
  const drawn = new Set([
    ...sheet.conduits.map((c) => c.id),
    ...sheet.valves.map((v) => v.id),
    ...sheet.parts.map((p) => p.id),
  ]);
  for (const link of zones.fieldLinks) {
    if (drawn.has(link.id)) continue;
    const end = (e: string): Point | undefined =>
      sheet.risers.get(nodeOf(e))?.at ?? sheet.at.get(nodeOf(e));
    const [a, b] = [end(link.from), end(link.to)];
    if (a === undefined || b === undefined) continue;
    const line = [a, { x: b.x, y: a.y }, b];
    if (!isConduit(link)) sheet.piece(line, link.bore_mm);
    else
      sheet.pipe(
        link,
        line.map((p, k) => ({ ...p, s: (link.length_m * k) / 2, r: k === 1 ? 12 : 0 })),
        {},
      );
  }
}

/** Packed so close at first; looser where a pipe finds no way but through a valve. */
const EASES = [0, 1, 2, 3] as const;

/**
 * Lays out the yard of any scenario.
 * @param drawing what the level says about its drawing, or null
 * @param say names by key; ids are spelled out where it is left out
 */
export function layoutYard(
  scenario: Scenario,
  drawing: Drawing | null,
  shape: Shape,
  say: Say = plainSay,
): YardLayout {
  const site = readSite(scenario, drawing);
  const zones = zonesOf(site);
  const fields = fieldParts(site, zones).map((part) => readField(site, part));
  let best: Drawn | null = null;
  for (const ease of EASES) {
    const one = drawAll({ site, zones, fields }, lookOf(shape, ease));
    if (best === null || one.grazes < best.grazes) best = one;
    if (best.grazes === 0) break;
  }
  return finish(best!, say);
}

interface Read {
  readonly site: Site;
  readonly zones: Zones;
  readonly fields: readonly Field[];
}

/** All that has its place before names are given. */
interface Drawn {
  readonly sheet: Sheet;
  readonly zones: Zones;
  readonly ground: GroundMark;
  readonly house: HouseMark;
  readonly field: FieldDrawn;
  /** Pipes that pass through a valve that is not theirs. */
  readonly grazes: number;
}

function drawAll(read: Read, look: Look, short = 0): Drawn {
  const { site, zones, fields } = read;
  const bands = bandsOf(site, look, zones, short);
  const sheet = new Sheet(site, bands.plan, sidesOf(site, zones, fields));
  const over = drawBands(sheet, zones, bands);
  if (over > 0 && short === 0) return drawAll(read, look, over);
  const ground = groundOf(sheet);
  const house = houseOf(sheet, zones, bands);
  layHoses(sheet, zones, house);
  const field = layField(sheet, fields, ground);
  leftovers(sheet, zones);
  return { sheet, zones, ground, house, field, grazes: grazesOf(sheet) };
}

/** Names of hoses, and of the kit on a wide page: where there is room, and not otherwise. */
function extraNames({ sheet, zones }: Drawn, say: Say): Named[] {
  const hoses = zones.hoses.map((h) => h.id).filter((id) => !isMadeUp(id));
  const kit = sheet.plan.shape === 'wide' ? kitNames(sheet, say) : [];
  return [...hoseNames(sheet, hoses, say), ...kit];
}

/** Names, numbers and the key, and everything put together. */
function finish(f: Drawn, say: Say): YardLayout {
  const { sheet } = f;
  const { plan } = sheet;
  placeMeters(sheet);
  placeSights(sheet);
  const foot = plan.shape === 'wide' ? plan.type + 22 : 2 * plan.type + 36;
  const marks = fieldMarks(plan, f.field);
  const bottom = Math.ceil(Math.max(marks.bottom + foot, plan.shape === 'wide' ? 900 : 0));
  const frames = framesOf(sheet);
  const { board, labels } = hangBoard(sheet);
  const known = [...marks.labels, ...houseMarks(plan, f.house), ...labels];
  const size = { width: plan.width, height: bottom };
  const vaults = vaultsOf(sheet);
  const taken = takenBy(sheet, {
    labels: known,
    plates: marks.plates,
    frames,
    vaults,
    holes: f.field.holes,
    house: f.house,
    size,
    cut: plan.cut,
  });
  if (board !== null) taken.add(board, 2);
  placeKit(sheet, { taken, house: f.house, vaults });
  const fixed = [...known, frostLabel(plan, f.ground, taken)];
  const how = { type: plan.type, limit: plan.type * 8.5, plateR: plan.type * 0.72 };
  const hung = new Set(labels.map((l) => l.key));
  const tagged = tagAll(taken, namedOf(sheet, say, hung), how);
  const extra = tagAll(taken, extraNames(f, say), how, false);
  const key = keyOf(tagged, { plan, ground: f.ground, taken, say, bottom });
  const plates: Plate[] = [...marks.plates, ...tagged.plates];
  const strips: Strip[] = f.field.rungs.flatMap((r) => [...r.strips]);
  return {
    shape: plan.shape,
    width: plan.width,
    height: Math.ceil(Math.max(bottom, key === null ? 0 : key.y + key.h + 16)),
    type: plan.type,
    pipe: plan.pipe,
    placed: sheet.placed,
    labels: [...fixed, ...tagged.labels, ...extra.labels],
    plates,
    key,
    cartScale: { zero: plan.line, perMetre: plan.perMetre },
    stubScale: { zero: plan.front, perMetre: plan.stubPerMetre },
    conduits: sheet.conduits,
    fittings: sheet.fittings,
    valves: sheet.valves,
    parts: sheet.parts,
    dials: sheet.dials,
    kit: sheet.kit,
    board,
    pumps: sheet.pumps,
    tanks: sheet.tanks,
    outlets: sheet.outlets,
    spouts: sheet.spouts,
    couplers: sheet.couplers,
    joints: sheet.joints,
    frames,
    ground: f.ground,
    house: f.house,
    strips,
    bores: f.field.holes,
    vaults,
    places: placesOf(sheet, { zones: f.zones, board, key, cut: plan.cut }),
  };
}
