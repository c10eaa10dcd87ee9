// The yard as a drawing: takes a scenario and the little its level says about the drawing,
// and gives every part a place. Heights are true elevation; nothing here knows the state.
import type { Scenario } from '../../sim/index.ts';
import { layDeck } from './deck.ts';
import { layField } from './field.ts';
import { yardConduits } from './hoses.ts';
import { layLabels } from './labels.ts';
import { planOf, stubY, type Plan } from './plan.ts';
import { readSite, type Site } from './site.ts';
import type { Box, Drawing, GroundMark, HouseMark, Placed, Shape, YardLayout } from './types.ts';
import { placedAt } from './deck.ts';

export type * from './types.ts';

function groundOf(site: Site, plan: Plan): GroundMark {
  const frost_m = site.drawing.field.frost_m;
  return {
    back: plan.turfBack,
    line: plan.line,
    cut: plan.cut,
    front: plan.front,
    frost_m,
    frostY: plan.cut + frost_m * plan.soilPerMetre,
  };
}

function houseOf(site: Site, plan: Plan): HouseMark {
  const { houseL, houseR } = plan.x;
  const wide = plan.shape === 'wide';
  const wall = wide ? 24 : 26;
  const y = wide ? 140 : plan.front - 226;
  const h = plan.front - y;
  const w = wide ? 112 : 120;
  const left = houseL + wall + (houseR - houseL - wall - w) / 2;
  const unitH = wide ? 176 : 106;
  const unit = { x: left, y: plan.front - 22 - unitH, w, h: unitH };
  const hose = site.role('make_up_hose');
  const node = hose === null ? undefined : site.node(site.conduit(hose).from);
  const tap =
    node === undefined || node.kind === 'tank'
      ? null
      : { x: houseL - 2, y: stubY(plan, node.elevation_m) };
  return { x: houseL, y, w: houseR - houseL, h, wall, unit, tap };
}

/** The stretch of the clear return hose that the technician looks at. */
function sightBox(site: Site, plan: Plan): { id: string; box: Box } | null {
  const id = site.role('return_sight');
  if (id === null) return null;
  const c = plan.control;
  const box =
    plan.shape === 'wide'
      ? { x: plan.x.tee - c / 2, y: plan.line - 0.56 * plan.perMetre, w: c, h: c * 1.5 }
      : { x: plan.x.tee - 62, y: plan.line + 90, w: c, h: c };
  return { id, box };
}

/** @throws Error where the drawing names what the scenario does not have */
export function layoutYard(scenario: Scenario, drawing: Drawing, shape: Shape): YardLayout {
  const site = readSite(scenario, drawing);
  const plan = planOf(shape);
  const ground = groundOf(site, plan);
  const house = houseOf(site, plan);
  const deck = layDeck(site, plan);
  const field = layField(site, plan, ground);
  const sight = sightBox(site, plan);
  const placed: Placed[] = [...deck.placed];
  if (sight !== null) placed.push(placedAt(sight.id, 'sight', sight.box));
  const foot = shape === 'wide' ? 18 : plan.type + 40;
  return {
    shape,
    width: plan.width,
    height: Math.ceil(Math.max(field.bottom + foot, shape === 'wide' ? 900 : 0)),
    type: plan.type,
    pipe: plan.pipe,
    placed,
    labels: layLabels(site, plan, { strips: field.strips, ground, house, placed }),
    cartScale: { zero: plan.line, perMetre: plan.perMetre },
    stubScale: { zero: plan.front, perMetre: plan.stubPerMetre },
    conduits: [...yardConduits(site, plan), ...field.conduits],
    fittings: deck.fittings,
    valves: deck.valves,
    dials: deck.dials,
    pumps: deck.pumps,
    tanks: deck.tanks,
    outlets: deck.outlets,
    spouts: deck.spouts,
    sights: sight === null ? [] : [sight],
    cart: deck.cart,
    ground,
    house,
    strips: field.strips,
    calm: { sky: shape === 'wide' ? { x: 1090, y: 18, w: 290, h: 210 } : null },
  };
}
