// The pipes and hoses above the ground: knots by role, heights by the scenario.
import { pipePath, type Knot } from './path.ts';
import { cartY, stubY, widthOf, type Plan } from './plan.ts';
import { profileOf, slopeOf, type ConduitLink, type Site } from './site.ts';
import type { Conduit, Role, Side } from './types.ts';

type Draw = (site: Site, plan: Plan, link: ConduitLink) => Knot[];

interface HoseRule {
  readonly side: Side;
  readonly knots: Draw;
  readonly inTank?: boolean;
}

/** Shift of a hose towards the viewer where it lies on the ground: hoses lie side by side. */
const ROW = { make_up: -14, return: 6, supply: 26 };

/** Where the hose comes down to the ground and leaves it again: its first and last inner point. */
function laidOut(link: ConduitLink): { s1: number; s2: number; z: number } {
  const first = link.profile[0];
  const last = link.profile[link.profile.length - 1];
  if (first === undefined || last === undefined) {
    return { s1: link.length_m * 0.2, s2: link.length_m * 0.8, z: 0.06 };
  }
  return { s1: first.at_m, s2: last.at_m, z: first.elevation_m };
}

const RULES: Partial<Record<Role, HoseRule>> = {
  suction_hose: {
    side: 'supply',
    knots: (site, plan, link) => [
      { x: plan.x.hoseL, y: cartY(plan, site.heightOf(link.from)), s: 0 },
      { x: plan.x.hoseR, y: cartY(plan, site.heightOf(link.to)), s: link.length_m },
    ],
  },
  riser: {
    side: 'supply',
    knots: (site, plan, link) => {
      const top = cartY(plan, site.heightOf(link.to));
      return [
        { x: plan.x.riser, y: cartY(plan, site.heightOf(link.from)), s: 0 },
        { x: plan.x.riser, y: top, s: link.length_m * 0.85, r: 18 * plan.pipe },
        { x: plan.x.dischargeValve - plan.control * 0.38, y: top, s: link.length_m },
      ];
    },
  },
  drop_pipe: {
    side: 'return',
    inTank: true,
    knots: (site, plan, link) => {
      const top = cartY(plan, site.heightOf(link.from));
      return [
        { x: plan.x.returnValve + plan.control * 0.38, y: top, s: 0 },
        { x: plan.x.returnTop, y: top, s: link.length_m * 0.3, r: 18 * plan.pipe },
        { x: plan.x.returnTop, y: cartY(plan, site.heightOf(link.to)), s: link.length_m },
      ];
    },
  },
  supply_hose: { side: 'supply', knots: supplyHose },
  return_hose: { side: 'return', knots: returnHose },
  make_up_hose: { side: 'make_up', knots: makeUpHose },
};

function supplyHose(site: Site, plan: Plan, link: ConduitLink): Knot[] {
  const { s1, s2, z } = laidOut(link);
  const top = cartY(plan, site.heightOf(link.from));
  const end = stubY(plan, site.heightOf(link.to));
  const stubEnd = plan.x.supplyValve - plan.control * 0.45;
  const ground = cartY(plan, z);
  if (plan.shape === 'wide') {
    const row = ground + ROW.supply;
    return [
      { x: plan.x.coupler, y: top, s: 0 },
      { x: plan.x.coupler + 40, y: top + 4, s: s1 * 0.12, r: 40 },
      { x: plan.x.coupler + 54, y: row, s: s1, r: 46 },
      { x: stubEnd - 52, y: row, s: s2, r: 42 },
      { x: stubEnd - 26, y: end, s: link.length_m - 0.15, r: 24 },
      { x: stubEnd, y: end, s: link.length_m },
    ];
  }
  const right = plan.x.supplyValve + plan.control * 0.45;
  const lies = stubY(plan, z);
  const span = s2 - s1;
  return [
    { x: plan.x.coupler, y: top + 26, s: 0 },
    { x: plan.x.coupler + 6, y: ground + 34, s: s1, r: 46 },
    { x: right + 74, y: ground + 44, s: s1 + span * 0.5, r: 60 },
    { x: right + 70, y: lies, s: s2 - 0.4, r: 34 },
    { x: right + 34, y: lies, s: s2, r: 28 },
    { x: right + 22, y: end, s: link.length_m - 0.1, r: 22 },
    { x: right, y: end, s: link.length_m },
  ];
}

function returnHose(site: Site, plan: Plan, link: ConduitLink): Knot[] {
  const { s1, s2, z } = laidOut(link);
  const end = stubY(plan, site.heightOf(link.from));
  const ground = cartY(plan, z);
  const tee = cartY(plan, site.heightOf(link.to)) + 40 * plan.pipe;
  if (plan.shape === 'wide') {
    const row = ground + ROW.return;
    const stub = plan.x.returnStub - plan.control * 0.45;
    return [
      { x: stub, y: end, s: 0 },
      { x: stub - 16, y: end, s: 0.1, r: 16 },
      { x: stub - 42, y: row, s: s1, r: 44 },
      { x: plan.x.tee + 4, y: row, s: s2, r: 54 },
      { x: plan.x.tee, y: tee, s: link.length_m },
    ];
  }
  const stub = plan.x.returnStub + plan.control * 0.45;
  const lies = stubY(plan, z);
  return [
    { x: stub, y: end, s: 0 },
    { x: stub + 20, y: end, s: 0.1, r: 20 },
    { x: stub + 30, y: lies, s: s1, r: 28 },
    { x: stub + 62, y: lies, s: s1 + 0.4, r: 30 },
    { x: stub + 56, y: ground + 60, s: s1 + (s2 - s1) * 0.8, r: 80 },
    { x: plan.x.tee, y: ground, s: s2, r: 60 },
    { x: plan.x.tee, y: tee, s: link.length_m },
  ];
}

function makeUpHose(site: Site, plan: Plan, link: ConduitLink): Knot[] {
  const { s1, s2, z } = laidOut(link);
  const tap = stubY(plan, site.heightOf(link.from));
  const top = cartY(plan, site.heightOf(link.to));
  const end = plan.x.fillValve + plan.control * 0.38;
  const ground = cartY(plan, z);
  const arrive: Knot[] = [
    { x: plan.x.fillIn, y: top, s: link.length_m - 0.1, r: 16 * plan.pipe },
    { x: end, y: top, s: link.length_m },
  ];
  if (plan.shape === 'wide') {
    const row = ground + ROW.make_up;
    return [
      { x: plan.x.houseL - 16, y: tap, s: 0 },
      { x: plan.x.houseL - 18, y: row, s: s1, r: 30 },
      { x: plan.x.fillIn, y: row, s: s2, r: 26 },
      ...arrive,
    ];
  }
  const lies = stubY(plan, z) - 6;
  const aside = plan.x.houseL - 40;
  return [
    { x: plan.x.houseL - 18, y: tap, s: 0 },
    { x: plan.x.houseL - 18, y: lies, s: s1, r: 14 },
    { x: aside, y: lies, s: s1 + 0.5, r: 14 },
    { x: aside, y: ground + 42, s: s2 - 2, r: 30 },
    { x: plan.x.fillIn, y: ground + 18, s: s2, r: 30 },
    ...arrive,
  ];
}

const STEP = 5;

/** Every hose and pipe above the ground that plays a role, as a path. */
export function yardConduits(site: Site, plan: Plan): Conduit[] {
  const out: Conduit[] = [];
  for (const [role, rule] of Object.entries(RULES)) {
    const id = site.role(role as Role);
    if (id === null) continue;
    const link = site.conduit(id);
    out.push({
      id,
      kind: link.kind,
      clear: link.clear,
      side: rule.side,
      width: widthOf(plan, link.bore_mm),
      length_m: link.length_m,
      points: pipePath(rule.knots(site, plan, link), STEP, slopeOf(profileOf(site, link))),
      inTank: rule.inTank ?? false,
    });
  }
  return out;
}
