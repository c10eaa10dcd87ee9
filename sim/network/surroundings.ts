// What heat needs of a scenario, worked out once: where every pipe lies and what lies between its
// liquid and the outside, which fittings stand in the air, how pipes grow. Null where the scenario
// says nothing of heat: then all stands at its one temperature for ever.
import { pow } from '../base/math.ts';
import { mixHeatCapacity } from '../laws/antifreeze.ts';
import { wallResistance } from '../laws/heat.ts';
import type { Scenario } from '../scenario.ts';
import { isConduit } from './cut.ts';
import { JUNCTION, type LinkPlan, type NodePlan } from './plan.ts';
import { tablesOf, type Thermal, type ThermalLink } from './thermal.ts';

/** J/K, iron of a small pump's casing, 5 kg at 460 J/kg/K. */
const CASING_IRON = 2300;
/** Surface of a compact fitting over the two-thirds power of its room: that of a ball. */
const BALL = 4.836;
/** mm. A hose's wall, and W/m/K of it, of polyethylene and of what pipe is lagged with. */
const HOSE_WALL = 5;
const K_HOSE = 0.2;
const K_PLASTIC = 0.45;
const K_METAL = 50;
/** MPa. Stiffer is metal. */
const METAL_ABOVE = 10000;
/** 1/K along: PE4710 [PPI2008], steel; a hose is braided, and its bore is taken to stay. */
const EXPANSION_PLASTIC = 1.44e-4;
const EXPANSION_METAL = 1.2e-5;

function thermalLink(scenario: Scenario, link: LinkPlan, ix: number): ThermalLink[] {
  const { spec } = link;
  if (!isConduit(spec)) return [];
  const place = scenario.heat!.places.find((one) => one.link === spec.id);
  const thick = place?.wall_mm ?? (spec.kind === 'pipe' ? spec.wall_mm : HOSE_WALL);
  const usual =
    spec.kind === 'hose' ? K_HOSE : spec.modulus_MPa > METAL_ABOVE ? K_METAL : K_PLASTIC;
  const bare = link.bore + (2 * thick) / 1000;
  const outside = bare + (2 * (place?.insulation_mm ?? 0)) / 1000;
  const wall =
    wallResistance(link.bore, bare, place?.wall_W_mK ?? usual) +
    wallResistance(bare, outside, place?.insulation_W_mK ?? 1);
  const soil = (place?.in ?? (spec.kind === 'pipe' ? 'soil' : 'air')) === 'soil';
  return [{ link: ix, soil, outside, wall }];
}

/** 1/K by which a pipe's room grows, as a share of itself. */
function swellOf(link: LinkPlan, soil: boolean): number {
  const { spec } = link;
  if (spec.kind !== 'pipe') return 0;
  const along = spec.modulus_MPa > METAL_ABOVE ? EXPANSION_METAL : EXPANSION_PLASTIC;
  // Held lengthwise by the ground it grows the more across.
  return soil ? 2 * along * (1 + spec.poisson) : 3 * along;
}

/** Above ground: what hoses or pipes in air end in, and all that hangs on it but by buried pipe. */
function standsInAir(
  nodes: readonly NodePlan[],
  links: readonly LinkPlan[],
  thermal: readonly ThermalLink[],
): Uint8Array {
  const air = new Uint8Array(nodes.length);
  const buried = new Uint8Array(nodes.length);
  for (const { link, soil } of thermal) {
    for (const n of [links[link]!.from, links[link]!.to]) (soil ? buried : air)[n] = 1;
  }
  const isPipe = new Set(thermal.map(({ link }) => link));
  for (let moved = true; moved; ) {
    moved = false;
    links.forEach(({ from, to }, ix) => {
      if (isPipe.has(ix) || air[from] === air[to]) return;
      const other = air[from] === 1 ? to : from;
      if (buried[other] === 1) return;
      air[other] = 1;
      moved = true;
    });
  }
  return air;
}

export function planThermal(
  scenario: Scenario,
  net: { nodes: readonly NodePlan[]; links: readonly LinkPlan[]; volumes: number },
): Thermal | null {
  const spec = scenario.heat;
  if (spec === undefined) return null;
  const { nodes, links } = net;
  const { antifreeze: fluid, temperature_C } = scenario;
  const water = mixHeatCapacity('none', temperature_C, 0);
  const quarter = mixHeatCapacity(fluid, temperature_C, 0.25);
  const thermal = links.flatMap((link, ix) => thermalLink(scenario, link, ix));
  const air = standsInAir(nodes, links, thermal);
  const metal = new Float64Array(nodes.length);
  for (const { spec: own, from } of links) if (own.kind === 'pump') metal[from] = CASING_IRON;
  const swell = new Float64Array(net.volumes);
  for (const { link, soil } of thermal) {
    const { firstCell, cells } = links[link]!;
    swell.fill(swellOf(links[link]!, soil), firstCell, firstCell + cells);
  }
  const exposed = Float64Array.from(nodes, ({ spec: own, kind, volume }, n) => {
    if (own.kind === 'tank') return own.area_m2 * spec.air_film_W_m2K;
    if (kind !== JUNCTION || air[n] === 0) return 0;
    return BALL * pow(volume, 2 / 3) * spec.air_film_W_m2K;
  });
  const added = water + (quarter - water) / 0.25;
  const tables = tablesOf(fluid);
  return { spec, fluid, water, added, metal, exposed, links: thermal, swell, tables };
}

