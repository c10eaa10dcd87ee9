// What stands still around the job: ground and frost line, the house with its taps, and the
// chambers around buried valves.
import { isPlainTap, type Bands } from './bands.ts';
import { houseY, type Plan } from './plan.ts';
import type { Sheet } from './sheet.ts';
import type { Taken } from './tags.ts';
import type { Box, GroundMark, HouseMark, Label, Vault } from './types.ts';
import type { Zones } from './zones.ts';

const FROST_m = 0.9;

export function groundOf({ site, plan, benches }: Sheet): GroundMark {
  const frost_m = site.hints.field?.frost_m ?? FROST_m;
  return {
    back: plan.turfBack,
    line: plan.line,
    cut: plan.cut,
    front: plan.front,
    benches,
    house: plan.house,
    frost_m,
    frostY: plan.cut + frost_m * plan.soilPerMetre,
  };
}

/** How far up the plant reaches as it is drawn, rows and all. */
function topOfPlant({ placed, parts, plan, site }: Sheet, zones: Zones): number {
  const own = new Set<string>();
  for (const patch of zones.patches) {
    if (patch.place === 'house') for (const link of patch.links) own.add(link.id);
  }
  const ys = [
    ...placed.filter((p) => own.has(p.id)).map((p) => p.y + p.h / 2),
    ...parts.filter((p) => own.has(p.id)).map((p) => p.y),
  ];
  const heights = zones.patches.flatMap((p) =>
    p.place === 'house' ? [...p.nodes].map((n) => houseY(plan, site.heightOf(n))) : [],
  );
  return Math.min(Infinity, ...heights, ...ys);
}

export function houseOf(sheet: Sheet, zones: Zones, bands: Bands): HouseMark {
  const { plan, houseX } = bands;
  const { site } = sheet;
  const wide = plan.shape === 'wide';
  const plant = zones.patches.some((p) => p.place === 'house');
  const wall = wide ? 24 : 26;
  const taps = zones.patches.filter(isPlainTap).flatMap((p) => [...p.nodes]);
  const highest = topOfPlant(sheet, zones);
  const plain = plan.stacked ? plan.house - 226 : 140;
  const y = plant ? Math.min(plain, highest - 90 * plan.pipe) : plain;
  const w = wide ? 112 : 120;
  const left = houseX + wall + (plan.width - houseX - wall - w) / 2;
  const unitH = plan.stacked ? 106 : 176;
  const unit = plant ? null : { x: left, y: plan.house - 22 - unitH, w, h: unitH };
  return {
    x: houseX,
    y,
    w: plan.width - houseX,
    h: plan.house - y,
    wall,
    unit,
    taps: taps.map((id, k) => ({ x: houseX - 2 - 40 * k, y: houseY(plan, site.heightOf(id)) })),
  };
}

/** Chambers around parts below the ground that hands reach from above. */
export function vaultsOf(sheet: Sheet): Vault[] {
  const pad = 9 * sheet.plan.pipe;
  const half = sheet.plan.control / 2 + pad;
  // Valves over each other that one chamber can hold stand in one.
  const own = sheet.plan.control * 0.6;
  const out: Vault[] = [];
  for (const v of [...sheet.valves, ...sheet.parts]) {
    if (v.y < sheet.plan.cut) continue;
    let box: Vault = { x: v.x - half, y: v.y - half, w: 2 * half, h: 2 * half };
    for (let k = out.length - 1; k >= 0; k--) {
      if (!meets(out[k]!, { ...box, y: box.y - own, h: box.h + 2 * own })) continue;
      box = around(out.splice(k, 1)[0]!, box);
    }
    out.push(box);
  }
  return out;
}

const meets = (a: Box, b: Box): boolean =>
  a.x < b.x + b.w && b.x < a.x + a.w && a.y < b.y + b.h && b.y < a.y + a.h;

function around(a: Box, b: Box): Box {
  const [x, y] = [Math.min(a.x, b.x), Math.min(a.y, b.y)];
  const right = Math.max(a.x + a.w, b.x + b.w);
  return { x, y, w: right - x, h: Math.max(a.y + a.h, b.y + b.h) - y };
}

/** Written over its line where nothing else is, else under it, as far to the right as can be. */
export function frostLabel(plan: Plan, ground: GroundMark, taken: Taken): Label {
  const h = plan.type + 2;
  const w = plan.type * 7.6;
  const last = plan.width - w - 12;
  const places = [ground.frostY - h - 3, ground.frostY + 3].flatMap((y) =>
    Array.from({ length: Math.floor((last - 8) / 12) + 1 }, (_, k) => ({ x: last - 12 * k, y })),
  );
  const { x, y } = places.find((p) => taken.free({ ...p, w, h })) ?? places[0]!;
  taken.add({ x, y, w, h }, 2);
  return {
    key: 'yard.frost_line',
    x,
    y,
    w,
    h,
    values: { m: ground.frost_m },
    align: 'right',
    tone: 'mark',
    leader: [],
  };
}
