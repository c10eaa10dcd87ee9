// Every number that changes, as named views on one buffer: clone is a copy, equality is a
// comparison of bytes, the hash is one loop. What can be computed is not kept here.
import { assert } from './base/assert.ts';
import { HANDS_QUEUE } from './constants.ts';
import { DEFECT_STRIDE } from './defects/types.ts';

/** How many of each thing there are; fixed when a world is made. */
export interface Sizes {
  readonly volumes: number;
  readonly points: number;
  readonly links: number;
  readonly columns: number;
  readonly faces: number;
  readonly instruments: number;
  readonly tanks: number;
  readonly devices: number;
  /** Lines of the sheet of readings. */
  readonly notes: number;
  readonly cups?: number;
  readonly strokes?: number;
  /** True where a room's air is followed. */
  readonly roomy?: boolean;
  readonly tees: number;
  readonly pumps: number;
  readonly watches: number;
  readonly ledgers: number;
  /** True where heat is followed. */
  readonly heated?: boolean;
  /** True where air in solution is followed. */
  readonly airy?: boolean;
  /** Numbers of the supply and its motors. */
  readonly power?: number;
  /** Elements of creeping walls, all cells together. */
  readonly creep: number;
  /** Classes of grain, parts that catch them, and coils, where debris is followed. */
  readonly debris?: { readonly classes: number; readonly catchers: number; readonly coils: number };
  /** Defects that may come and go. */
  readonly defects?: number;
  /** Numbers kept for surges. */
  readonly surge?: number;
  /** Milestones of the job. */
  readonly goals?: number;
  /** True where the job has a sheet to answer. */
  readonly asks?: boolean;
}

export interface State {
  readonly buffer: ArrayBuffer;
  /** Gas of each control volume as p*V, J (isothermal). Tank nodes: bubbles in the liquid. */
  readonly gas: Float64Array;
  /** Liquid of each control volume, kg, and the antifreeze in it, kg. */
  readonly mass: Float64Array;
  readonly solute: Float64Array;
  /** Mass fraction and density as of the last time solutes were carried. */
  readonly fraction: Float64Array;
  readonly density: Float64Array;
  /** Absolute pressure of each control volume, Pa (nodes first, then cells). */
  readonly pressure: Float64Array;
  /** Pressure of column joints that are no fitting, Pa (all pressure points). */
  readonly point: Float64Array;
  /** Temperature of each point's gas over the ground's, kelvin over kelvin. */
  readonly warmth: Float64Array;
  /** Flow of each column at the end of the tick, m3/s along from -> to, and its mean over it. */
  readonly flow: Float64Array;
  readonly flowMean: Float64Array;
  /** Liquid of each column, as of the last whole second: density kg/m3, viscosity Pa s. */
  readonly liquid: Float64Array;
  /** Heat of each volume, J from liquid at -150 C, and of a kilogram; C; mass share of ice. All
   *  lists of heat are empty where it is not followed. */
  readonly heat: Float64Array;
  readonly heatShare: Float64Array;
  readonly temp: Float64Array;
  readonly ice: Float64Array;
  /** Room that warmth has added to each volume, m3, as of the last whole second. */
  readonly swell: Float64Array;
  /** Heat carried into the volume behind a face but not yet handed over, J (two a face). */
  readonly heatPending: Float64Array;
  /** Where heat went and came from, J: one a ledger, then those of HEAT_LEDGERS. */
  readonly heatBook: Float64Array;
  /** Reynolds number at which a column's friction was last worked out, factor and its slope. */
  readonly friction: Float64Array;
  /** Solute carried into the volume behind a face but not yet handed over, kg (two a face). */
  readonly pending: Float64Array;
  /** Air in solution in each volume, J as gas is, and in a kilogram of its liquid; what has been
   *  carried but not yet handed over (two a face). Empty where it is not followed. */
  readonly air: Float64Array;
  readonly airShare: Float64Array;
  readonly airPending: Float64Array;
  /** Liquid through each face since solutes were last carried, kg. */
  readonly carried: Float64Array;
  /** One a link: handle of a valve, degrees; pump wanted, coupling made, check valve open, 0/1;
   *  share of a filter that is blocked; imposed flow, m3/s. */
  readonly control: Float64Array;
  /** What each tee's three legs are pushed towards it by its losses, Pa. */
  readonly tee: Float64Array;
  /** Tank marker, m, or -1. */
  readonly mark: Float64Array;
  /** Pump: speed 0..1, gas factor, npsh factor, lock timer s, locked 0/1, casing heat K. */
  readonly pump: Float64Array;
  /** Supply, then each pump's motor (sim/power.ts); empty where the scenario has no power. */
  readonly power: Float64Array;
  /** Room that each element of a creeping wall has given, m3, cell by cell. */
  readonly creep: Float64Array;
  /**
   * Debris, kg, all lists empty where it is not followed. Of class c: what moves with the liquid of
   * volume v at [2c][v], what lies there at [2c + 1][v].
   */
  readonly grains: Float64Array;
  /** Of class c in catcher k, at [c][k]: what it sheds when reversed, what it keeps, what stands
   *  behind it. */
  readonly caught: Float64Array;
  /** Of each catcher: its element or -1, loss of its cake, Pa s/m3, K of its element. */
  readonly fitted: Float64Array;
  /** What has come to each coil, kg. */
  readonly arrived: Float64Array;
  /** Liquid through each face since debris was last moved, kg. */
  readonly swept: Float64Array;
  /** What has run over each tank's rim since then, m3. */
  readonly overRim: Float64Array;
  /** Where debris went: of class c, one a ledger, then what hands took out. */
  readonly grainBook: Float64Array;
  /** Each defect: when it began and ended, how bad it is, two numbers of its own (defects/). */
  readonly defect: Float64Array;
  /** What each instrument shows, SI. */
  readonly shown: Float64Array;
  /** Hazard watch: measure, stage 0/1/2, worst measure, a number of the kind's own. */
  readonly watch: Float64Array;
  /** Where things went and came from: kg of liquid, kg of antifreeze, J of gas (with what
   *  is in solution), triples. */
  readonly ledger: Float64Array;
  /** Part of each tank's bubbles that is coarse, and the foam on its surface, J: pairs. */
  readonly tankGas: Float64Array;
  /** Overflow of each tank and air breaking its surface in the last tick, m3/s. */
  readonly tankRate: Float64Array;
  /** Each line of the sheet: how far off its last note was, and what was shown (notes.ts). */
  readonly note: Float64Array;
  /** Position of each device. */
  readonly device: Float64Array;
  /** Of each cup: kg, mass fraction, C. */
  readonly cup: Float64Array;
  /** Of each hand pump: m3/s that the hand asks of it in this tick. */
  readonly stroke: Float64Array;
  /** A room's air: kg of alcohol in it, come into it, gone from it, and come off spills. */
  readonly roomAir: Float64Array;
  /** Hands: [busy control, target, reach left (s), queue length, (control, target) * n], twice. */
  readonly hands: Float64Array;
  /** Flow, pressure and opening of parts that shut, of the last ticks (surge.ts). */
  readonly surge: Float64Array;
  /** Of each milestone: a sum, and the tick it was reached in, plus 1 (milestones.ts). */
  readonly goal: Float64Array;
  /** Of a job with a sheet: 1 once a hand has been asked to a control (jobsheet/answer.ts). */
  readonly begun: Float64Array;
  /** Limits of the model told, as bits; then each point's lowest pressure of two seconds, Pa. */
  readonly beyond: Float64Array;
  /** [tick, over, shape changed flag, ...]. */
  readonly counter: Int32Array;
  /** Four streams of chance, four words each. */
  readonly chance: Uint32Array;
}

export const CUP_STRIDE = 3;
const ROOM_STRIDE = 4;
export const PUMP_STRIDE = 6;
export const FRICTION_STRIDE = 3;
export const COLUMN_LIQUID_STRIDE = 2;
export const WATCH_STRIDE = 4;
export const LEDGER_STRIDE = 3;
export const CAUGHT_STRIDE = 3;
export const FITTED_STRIDE = 3;
export const GOAL_STRIDE = 2;
/** [0] off, [1] s that this is still told; then least and most shown in each ten seconds. */
export const NOTE_BUCKETS = 7;
export const NOTE_STRIDE = 2 + 2 * NOTE_BUCKETS;
/** Where heat goes to and comes from that no liquid carries. */
export const HEAT_LEDGERS = ['soil', 'air', 'sun', 'shaft', 'surface'] as const;
const STREAMS = 4;

function floatCounts(n: Sizes): ReadonlyArray<readonly [string, number]> {
  return [
    ['gas', n.volumes],
    ['mass', n.volumes],
    ['solute', n.volumes],
    ['fraction', n.volumes],
    ['density', n.volumes],
    ['pressure', n.volumes],
    ['point', n.points],
    ['warmth', n.points],
    ['flow', n.columns],
    ['flowMean', n.columns],
    ['liquid', COLUMN_LIQUID_STRIDE * n.columns],
    ...heatCounts(n),
    ['friction', FRICTION_STRIDE * n.columns],
    ['pending', 2 * n.faces],
    ['air', n.airy === true ? n.volumes : 0],
    ['airShare', n.airy === true ? n.volumes : 0],
    ['airPending', n.airy === true ? 2 * n.faces : 0],
    ['carried', n.faces],
    ['control', n.links],
    ['tee', 3 * n.tees],
    ['mark', n.tanks],
    ['pump', PUMP_STRIDE * n.pumps],
    ['power', n.power ?? 0],
    ['creep', n.creep],
    ...debrisCounts(n),
    ['shown', n.instruments],
    ['defect', DEFECT_STRIDE * (n.defects ?? 0)],
    ['watch', WATCH_STRIDE * n.watches],
    ['ledger', LEDGER_STRIDE * n.ledgers],
    ['tankGas', 2 * n.tanks],
    ['tankRate', 2 * n.tanks],
    ['beyond', 1 + 2 * n.points],
    ['device', n.devices],
    ['note', NOTE_STRIDE * n.notes],
    ['cup', CUP_STRIDE * (n.cups ?? 0)],
    ['stroke', n.strokes ?? 0],
    ['roomAir', n.roomy === true ? ROOM_STRIDE : 0],
    ['hands', 2 * (4 + 2 * HANDS_QUEUE)],
    ['surge', n.surge ?? 0],
    ['goal', GOAL_STRIDE * (n.goals ?? 0)],
    ['begun', n.asks === true ? 1 : 0],
  ];
}

function heatCounts(n: Sizes): ReadonlyArray<readonly [string, number]> {
  const volumes = n.heated === true ? n.volumes : 0;
  return [
    ['heat', volumes],
    ['heatShare', volumes],
    ['temp', volumes],
    ['ice', volumes],
    ['swell', volumes],
    ['heatPending', n.heated === true ? 2 * n.faces : 0],
    ['heatBook', n.heated === true ? n.ledgers + HEAT_LEDGERS.length : 0],
  ];
}

function debrisCounts(n: Sizes): ReadonlyArray<readonly [string, number]> {
  const { classes, catchers, coils } = n.debris ?? { classes: 0, catchers: 0, coils: 0 };
  return [
    ['grains', 2 * classes * n.volumes],
    ['caught', CAUGHT_STRIDE * classes * catchers],
    ['fitted', FITTED_STRIDE * catchers],
    ['arrived', coils],
    ['swept', classes > 0 ? n.faces : 0],
    ['overRim', classes > 0 ? n.tanks : 0],
    ['grainBook', classes * (n.ledgers + 1)],
  ];
}

/** Bytes a state of these sizes takes. */
export function stateBytes(sizes: Sizes): number {
  const floats = floatCounts(sizes).reduce((sum, [, count]) => sum + count, 0);
  return 8 * floats + 4 * 4 + 4 * 4 * STREAMS;
}

/** Views on `buffer`, or on a fresh one. @throws AssertionError if the buffer has another size. */
export function makeState(sizes: Sizes, buffer?: ArrayBuffer): State {
  const bytes = stateBytes(sizes);
  const room = buffer ?? new ArrayBuffer(bytes);
  assert(
    room.byteLength === bytes,
    `state of ${room.byteLength} bytes where ${bytes} are expected`,
  );
  const views: Record<string, Float64Array> = {};
  let at = 0;
  for (const [name, count] of floatCounts(sizes)) {
    views[name] = new Float64Array(room, at, count);
    at += 8 * count;
  }
  const counter = new Int32Array(room, at, 4);
  const chance = new Uint32Array(room, at + 16, 4 * STREAMS);
  return { buffer: room, ...views, counter, chance } as unknown as State;
}
