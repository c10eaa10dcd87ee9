// Anatomy of the deck cart: tank, pump, valves, dials, and the stubs it is coupled to.
import { cartY, stubY, widthOf, type Plan } from './plan.ts';
import type { Site } from './site.ts';
import type {
  Box,
  CartMark,
  DialMark,
  Fitting,
  OutletMark,
  Placed,
  PlacedKind,
  Point,
  PumpMark,
  Role,
  SpoutMark,
  TankMark,
  ValveMark,
} from './types.ts';

export interface Deck {
  readonly placed: Placed[];
  readonly valves: ValveMark[];
  readonly dials: DialMark[];
  readonly pumps: PumpMark[];
  readonly tanks: TankMark[];
  readonly outlets: OutletMark[];
  readonly spouts: SpoutMark[];
  readonly fittings: Fitting[];
  readonly sights: { id: string; box: Box }[];
  readonly cart: CartMark & { couplers: Point[] };
}

const about = (at: Point, w: number, h = w): Box => ({ x: at.x - w / 2, y: at.y - h / 2, w, h });

/** Instruments are named by what they tell, everything else as a part. */
export function nameKey(id: string, instrument: boolean): string {
  return `${instrument ? 'reading' : 'part'}.${id}`;
}

const READS: ReadonlySet<PlacedKind> = new Set(['gauge', 'meter', 'sight', 'note']);

export function placedAt(id: string, kind: PlacedKind, box: Box): Placed {
  return { id, kind, labelKey: nameKey(id, READS.has(kind)), ...box };
}

/** Height of a valve: the middle between its ends, or the end that the gantry fixes. */
function valveHeight(site: Site, id: string): number {
  const link = site.link(id);
  if (link === undefined || link.kind !== 'valve') throw new Error(`no valve "${id}"`);
  return site.heightOf(link.from);
}

const VALVES: readonly [Role, (plan: Plan) => number, 'cart' | 'stub'][] = [
  ['waste_valve', (p) => p.x.wasteValve, 'cart'],
  ['return_valve', (p) => p.x.returnValve, 'cart'],
  ['fill_valve', (p) => p.x.fillValve, 'cart'],
  ['suction_valve', (p) => p.x.suctionValve, 'cart'],
  ['discharge_valve', (p) => p.x.dischargeValve, 'cart'],
  ['loop_supply_valve', (p) => p.x.supplyValve, 'stub'],
  ['loop_return_valve', (p) => p.x.returnStub, 'stub'],
];

function addValves(deck: Deck, site: Site, plan: Plan): void {
  for (const [role, x, where] of VALVES) {
    const id = site.role(role);
    if (id === null) continue;
    const link = site.link(id);
    const height = valveHeight(site, id);
    const y = where === 'cart' ? cartY(plan, height) : stubY(plan, height);
    const width = widthOf(plan, link?.kind === 'valve' ? link.bore_mm : 38);
    deck.valves.push({ id, x: x(plan), y, size: plan.control * 0.76, width });
    deck.placed.push(placedAt(id, 'valve', about({ x: x(plan), y }, plan.control)));
  }
}

function addDials(deck: Deck, site: Site, plan: Plan): void {
  const r = plan.dialR;
  const rise = r + plan.control * 0.5 + 8;
  const dials: readonly [Role, number][] = [
    ['return_gauge', plan.x.tee],
    ['discharge_gauge', plan.x.discharge],
  ];
  for (const [role, x] of dials) {
    const spec = site.scenario.instruments.find((i) => i.id === site.role(role));
    if (spec?.kind !== 'pressure') continue;
    const stem = { x, y: cartY(plan, site.heightOf(spec.node)) };
    const at = { x, y: stem.y - rise };
    deck.dials.push({ id: spec.id, ...at, r, stem, full: spec.range_kPa, per: 1000, unit: 'kPa' });
    deck.placed.push(placedAt(spec.id, 'gauge', about(at, 2 * r)));
  }
  addMeter(deck, site, plan);
}

/** The flow meter stands in the line behind the discharge gauge, or on the hose on the turf. */
function addMeter(deck: Deck, site: Site, plan: Plan): void {
  const spec = site.scenario.instruments.find((i) => i.id === site.role('flow_meter'));
  const hose = site.role('supply_hose');
  if (spec?.kind !== 'flow' || hose === null) return;
  const end = site.conduit(hose);
  const at =
    plan.shape === 'wide'
      ? { x: plan.x.coupler - 22, y: cartY(plan, site.heightOf(end.from)) }
      : { x: plan.x.supplyValve + plan.control * 0.45 + 73, y: plan.line + 130 };
  const r = plan.control / 2 - 2;
  const full = spec.range_L_min;
  deck.dials.push({ id: spec.id, ...at, r, stem: at, full, per: 1 / 60000, unit: 'L/min' });
  deck.placed.push(placedAt(spec.id, 'meter', about(at, plan.control)));
}

function addTank(deck: Deck, site: Site, plan: Plan): void {
  const id = site.role('tank');
  const node = id === null ? undefined : site.node(id);
  if (id === null || node?.kind !== 'tank') return;
  const { tankL, tankR, tube } = plan.x;
  const bottom = cartY(plan, node.floor_m);
  const h = (node.height_mm / 1000) * plan.perMetre;
  const level = site.role('tank_level');
  const box = { x: tankL, y: bottom - h, w: tankR - tankL, h };
  deck.tanks.push({ id, ...box, height_m: node.height_mm / 1000, tubeX: tube, level });
  const inner = 6 * plan.pipe;
  const tubeW = Math.max(plan.control - 4, 2 * (tube - tankL) - 2 * inner);
  if (level !== null) {
    const area = { x: tube - tubeW / 2, y: box.y + inner, w: tubeW, h: h - 2 * inner };
    deck.placed.push(placedAt(level, 'gauge', area));
  }
  const left = plan.x.returnTop + 14 * plan.pipe;
  const area = { x: left, y: box.y + inner, w: tankR - inner - left, h: h - 2 * inner };
  deck.placed.push(placedAt(id, 'tank', area));
}

function addPump(deck: Deck, site: Site, plan: Plan): void {
  const id = site.role('pump');
  const link = id === null ? undefined : site.link(id);
  if (id === null || link?.kind !== 'pump') return;
  const r = plan.shape === 'wide' ? 40 : 46;
  const at = { x: plan.x.pump, y: cartY(plan, site.heightOf(link.from)) };
  const motorL = at.x + r * 0.82;
  const motor = { x: motorL, y: at.y - r * 0.62, w: plan.x.motorR - motorL, h: r * 1.24 };
  deck.pumps.push({ id, casing: link.from, ...at, r, motor });
  // The neck from the casing up to where the riser is coupled on.
  deck.fittings.push({
    width: widthOf(plan, link.bore_mm),
    points: [
      { x: plan.x.riser, y: at.y },
      { x: plan.x.riser, y: cartY(plan, site.heightOf(link.to)) },
    ],
  });
  const box = about(at, 2 * r);
  deck.placed.push(placedAt(id, 'pump', box));
  const note = site.role('pump_note');
  if (note === null) return;
  const left = box.x + box.w + 5 * (plan.shape === 'wide' ? 1 : 2);
  const w = Math.max(plan.control - 4, plan.x.motorR - left);
  deck.placed.push(placedAt(note, 'note', { x: left, y: box.y, w, h: box.h }));
}

function addOutlet(deck: Deck, site: Site, plan: Plan): void {
  const id = site.role('waste');
  const node = id === null ? undefined : site.node(id);
  if (id === null || node?.kind !== 'open') return;
  const y = cartY(plan, node.elevation_m);
  const w = plan.shape === 'wide' ? 92 : 76;
  const h = (node.elevation_m - 0.04) * plan.perMetre;
  const drum = { x: plan.x.drum - w / 2, y: plan.line - h, w, h };
  deck.outlets.push({ id, x: plan.x.drum, y, goesTo: node.goes_to, drum, room_m3: 0.06 });
  const valve = site.role('waste_valve');
  if (valve === null) return;
  const top = cartY(plan, valveHeight(site, valve));
  const x = plan.x.wasteValve - plan.control * 0.38;
  deck.fittings.push({
    width: widthOf(plan, 25),
    points: [
      { x, y: top },
      { x: plan.x.drum, y: top },
      { x: plan.x.drum, y },
    ],
  });
}

function addSpout(deck: Deck, site: Site, plan: Plan): void {
  const valve = site.role('fill_valve');
  const tank = site.role('tank');
  const link = valve === null ? undefined : site.link(valve);
  if (valve === null || tank === null || link?.kind !== 'valve') return;
  const top = cartY(plan, site.heightOf(link.from));
  const y = cartY(plan, site.heightOf(link.to));
  deck.fittings.push({
    width: widthOf(plan, link.bore_mm),
    points: [
      { x: plan.x.fillValve - plan.control * 0.38, y: top },
      { x: plan.x.spout, y: top },
      { x: plan.x.spout, y },
    ],
  });
  deck.spouts.push({ valve, tank, x: plan.x.spout, y });
}

function addFittings(deck: Deck, site: Site, plan: Plan): void {
  const { x } = plan;
  const half = plan.control * 0.38;
  const straight = (x0: number, x1: number, y: number, bore: number): void => {
    deck.fittings.push({
      width: widthOf(plan, bore),
      points: [
        { x: x0, y },
        { x: x1, y },
      ],
    });
  };
  const hose = site.role('return_hose');
  if (hose !== null) {
    const y = cartY(plan, site.heightOf(site.conduit(hose).to));
    straight(x.wasteValve + half, x.returnValve - half, y, 38);
    const down = { x: x.tee, y: y + 40 * plan.pipe };
    deck.fittings.push({ width: widthOf(plan, 32), points: [{ x: x.tee, y }, down] });
    deck.cart.couplers.push(down);
  }
  const supply = site.role('supply_hose');
  if (supply !== null) {
    const y = cartY(plan, site.heightOf(site.conduit(supply).from));
    const end = { x: x.coupler, y: plan.shape === 'wide' ? y : y + 26 };
    const points = [{ x: x.dischargeValve + half, y }, { x: x.coupler, y }, end];
    deck.fittings.push({ width: widthOf(plan, 38), points });
    deck.cart.couplers.push(end);
  }
  const suction = site.role('suction_valve');
  if (suction !== null) {
    const y = cartY(plan, valveHeight(site, suction));
    straight(x.tankR, x.suctionValve - half, y, 50);
    straight(x.suctionValve + half, x.hoseL, y, 50);
  }
}

/** The cart, standing on its own four wheels at the plan's ground line. */
export function layDeck(site: Site, plan: Plan): Deck {
  const { x } = plan;
  const wheelR = 0.11 * plan.perMetre;
  const deck: Deck = {
    placed: [],
    valves: [],
    dials: [],
    pumps: [],
    tanks: [],
    outlets: [],
    spouts: [],
    fittings: [],
    sights: [],
    cart: {
      deck: { x: x.deckL, y: cartY(plan, 0.3), w: x.deckR - x.deckL, h: 0.045 * plan.perMetre },
      wheels: [
        { x: x.wheelL, y: plan.line - wheelR },
        { x: x.wheelR, y: plan.line - wheelR },
      ],
      wheelR,
      posts: [
        { x: x.tee + 26 * plan.pipe, y: 0 },
        { x: x.discharge, y: 0 },
      ],
      railY: cartY(plan, 1.05),
      couplers: [],
    },
  };
  addValves(deck, site, plan);
  addDials(deck, site, plan);
  addTank(deck, site, plan);
  addPump(deck, site, plan);
  addOutlet(deck, site, plan);
  addSpout(deck, site, plan);
  addFittings(deck, site, plan);
  return deck;
}
