// The two lines of a header, with a tee for each branch: direct or reverse return, one size or
// reducing. A branch is a circuit, or a bank with valves and a header of its own.
import { outsideDiameter, idNominal, PIPE_SIZES, type PipeSize } from '../laws/pipe.ts';
import { PI } from '../base/math.ts';
import { courseOf, ELBOW_K, LAID } from './circuits.ts';
import { addFitting, addLoopPipe, addValve, pipeSection } from './parts.ts';
import type { Draft } from './parts.ts';
import type { Bank, Circuit, Field, Header, Side } from './site.ts';

/** kPa. Pipe of dimension ratio 11 bears more; this is what its fittings are taken for. */
export const LOOP_RATING = 1000;

/** What all parts of one field share. */
interface Yard {
  readonly draft: Draft;
  readonly field: Field;
  readonly dr: number;
  /** Circuits and banks numbered so far. */
  circuits: number;
  banks: number;
}

interface Place {
  readonly node: string;
  readonly elevation_m: number;
}
interface Ends {
  readonly supply: Place;
  readonly return: Place;
}

/** Lays the whole field between two nodes of the draft that are there already. */
export function layField(draft: Draft, field: Field, ends: Ends): void {
  const yard: Yard = { draft, field, dr: field.dr ?? 11, circuits: 0, banks: 0 };
  layHeader(yard, { header: field.header, branches: field.branches, prefix: '', ends });
}

interface Laying {
  readonly header: Header;
  readonly branches: readonly (Circuit | Bank)[];
  /** Of every id: empty, or `bank_2_`. */
  readonly prefix: string;
  readonly ends: Ends;
}

type Line = 'supply' | 'return';

function layHeader(yard: Yard, laying: Laying): void {
  const { branches } = laying;
  const places = branches.map((_, at): Ends => ({
    supply: teePlace(laying, 'supply', at),
    return: teePlace(laying, 'return', at),
  }));
  for (const place of places) {
    addTeeNode(yard, place.supply);
    addTeeNode(yard, place.return);
  }
  layLine(yard, laying, places, 'supply');
  layLine(yard, laying, places, 'return');
  branches.forEach((branch, at) => {
    const legs = layBranch(yard, branch, places[at]!);
    if (branches.length === 1) return;
    nameTee(yard, { laying, at, line: 'supply', leg: legs.supply });
    nameTee(yard, { laying, at, line: 'return', leg: legs.return });
  });
}

function teePlace({ header, branches, prefix }: Laying, line: Line, at: number): Place {
  const share = branches.length === 1 ? 0 : at / (branches.length - 1);
  const fall = header[line].fall_m ?? 0;
  return { node: `${prefix}${line}_tee_${at + 1}`, elevation_m: header.elevation_m - share * fall };
}

function addTeeNode(yard: Yard, place: Place): void {
  const { start_pressure_kPa, contents } = yard.field;
  addFitting(yard.draft, {
    id: place.node,
    elevation_m: place.elevation_m,
    gas: contents,
    rating_kPa: LOOP_RATING,
    ...(start_pressure_kPa === undefined ? {} : { start_pressure_kPa }),
  });
}

/** The tee at which a line meets the building: the last one of a reverse return. */
function nearTee(laying: Laying, line: Line): number {
  const reverse = line === 'return' && laying.header.return_kind === 'reverse';
  return reverse ? laying.branches.length - 1 : 0;
}

/** Size of the stretch that carries `branches` of all: the run-out carries all of them. */
export function sizeAt(side: Side, all: number, branches: number): PipeSize {
  const size = side.sizes[all - branches] ?? side.sizes[side.sizes.length - 1];
  if (size === undefined) throw new Error('a header needs a pipe size');
  return size;
}

function layLine(yard: Yard, laying: Laying, places: readonly Ends[], line: Line): void {
  const { header, prefix, ends } = laying;
  const n = places.length;
  const near = nearTee(laying, line);
  const back = near > 0 ? near * header.spacing_m : 0;
  layStretch(yard, {
    id: `${prefix}${line}_run`,
    ends: [ends[line], places[near]![line]],
    size: sizeAt(header[line], n, n),
    length_m: header.run_out_m + back,
    line,
    loss_k: 2 * ELBOW_K,
  });
  for (let at = 1; at < n; at += 1) {
    const carried = near === 0 ? n - at : at;
    layStretch(yard, {
      id: `${prefix}${line}_section_${at}`,
      ends:
        near === 0
          ? [places[at - 1]![line], places[at]![line]]
          : [places[at]![line], places[at - 1]![line]],
      size: sizeAt(header[line], n, carried),
      length_m: header.spacing_m,
      line,
      loss_k: 0,
    });
  }
}

interface Stretch {
  readonly id: string;
  /** The end nearer to the building, and the other. */
  readonly ends: readonly [Place, Place];
  readonly size: PipeSize;
  readonly length_m: number;
  readonly line: Line;
  readonly loss_k: number;
}

/** Supply runs away from the building, return towards it: so that forward is from -> to. */
function layStretch(yard: Yard, stretch: Stretch): void {
  const { ends, line } = stretch;
  const [from, to] = line === 'supply' ? ends : [ends[1], ends[0]];
  const drop = from.elevation_m - to.elevation_m;
  const length_m = stretch.length_m;
  const steep = drop < 0 ? -drop : drop;
  // A run-out that comes from above ground falls at its indoor end, then lies in its trench.
  const inside = steep * LAID;
  const bend =
    line === 'supply'
      ? { at_m: inside, elevation_m: to.elevation_m }
      : { at_m: length_m - inside, elevation_m: from.elevation_m };
  const bent = steep > 0.5 && inside < length_m - 0.3;
  const { start_pressure_kPa, contents } = yard.field;
  addLoopPipe(yard.draft, {
    id: stretch.id,
    from: from.node,
    to: to.node,
    size: stretch.size,
    dr: yard.dr,
    length_m,
    loss_k: stretch.loss_k,
    contents,
    ...(bent ? { profile: [bend] } : {}),
    ...(start_pressure_kPa === undefined ? {} : { start_pressure_kPa }),
  });
}

/** The links by which a branch leaves its two tees. */
function layBranch(
  yard: Yard,
  branch: Circuit | Bank,
  ends: Ends,
): { supply: string; return: string } {
  if (branch.kind === 'bank') return layBank(yard, branch, ends);
  yard.circuits += 1;
  const id = `circuit_${yard.circuits}`;
  const dr = branch.dr ?? yard.dr;
  const bore_mm = pipeSection(branch.size, dr).bore_mm;
  const inner = branch.valves ? addPair(yard, id, ends, { bore_mm, valves: branch.valves }) : ends;
  const course = courseOf(branch, inner.supply.elevation_m, inner.return.elevation_m);
  const { start_pressure_kPa } = yard.field;
  addLoopPipe(yard.draft, {
    id,
    from: inner.supply.node,
    to: inner.return.node,
    size: branch.size,
    dr,
    ...course,
    contents: branch.contents,
    ...(start_pressure_kPa === undefined ? {} : { start_pressure_kPa }),
  });
  return {
    supply: branch.valves ? `${id}_supply_valve` : id,
    return: branch.valves === true ? `${id}_return_valve` : id,
  };
}

function layBank(yard: Yard, bank: Bank, ends: Ends): { supply: string; return: string } {
  yard.banks += 1;
  const id = `bank_${yard.banks}`;
  const { header, circuits } = bank;
  const size = sizeAt(header.supply, circuits.length, circuits.length);
  const { bore_mm } = pipeSection(size, yard.dr);
  const inner = addPair(yard, id, ends, { bore_mm, valves: true });
  layHeader(yard, { header, branches: circuits, prefix: `${id}_`, ends: inner });
  return { supply: `${id}_supply_valve`, return: `${id}_return_valve` };
}

/** A valve on each side, or on the supply's alone, shut off from the header; they stand open. */
function addPair(
  yard: Yard,
  id: string,
  ends: Ends,
  { bore_mm, valves }: { bore_mm: number; valves: true | 'supply' },
): Ends {
  const supply = { node: `${id}_start`, elevation_m: ends.supply.elevation_m };
  addTeeNode(yard, supply);
  const open = { bore_mm, start_deg: 90 };
  addValve(yard.draft, {
    id: `${id}_supply_valve`,
    from: ends.supply.node,
    to: supply.node,
    ...open,
  });
  if (valves === 'supply') return { supply, return: ends.return };
  const back = { node: `${id}_end`, elevation_m: ends.return.elevation_m };
  addTeeNode(yard, back);
  addValve(yard.draft, {
    id: `${id}_return_valve`,
    from: back.node,
    to: ends.return.node,
    ...open,
  });
  return { supply, return: back };
}

/** Where three links meet, the node is told which two run straight through. */
function nameTee(
  yard: Yard,
  { laying, at, line, leg }: { laying: Laying; at: number; line: Line; leg: string },
): void {
  const { branches, prefix } = laying;
  const last = branches.length - 1;
  const near = nearTee(laying, line);
  const far = near === 0 ? last : 0;
  if (at === far) return; // The end of a line: two links meet, an elbow.
  const towards = at === near ? 'run' : near === 0 ? `section_${at}` : `section_${at + 1}`;
  const away = near === 0 ? `section_${at + 1}` : `section_${at}`;
  const id = `${prefix}${line}_tee_${at + 1}`;
  const node = yard.draft.nodes.find((n) => n.id === id);
  if (node?.kind !== 'junction') return;
  node.tee = { run: [`${prefix}${line}_${towards}`, `${prefix}${line}_${away}`], branch: leg };
}

/**
 * Sizes of a reducing line for `branches` equal branches of `flow_L_s` each: for every stretch
 * the widest pipe in which the water still runs at `velocity_m_s`; the narrowest where none is.
 * That each section be checked is common practice; this way of choosing has no source.
 */
export function reducingSizes(o: {
  readonly branches: number;
  readonly flow_L_s: number;
  readonly velocity_m_s: number;
  readonly dr: number;
}): PipeSize[] {
  return Array.from({ length: o.branches }, (_, at) => {
    const flow = ((o.branches - at) * o.flow_L_s) / 1000;
    let chosen: PipeSize = PIPE_SIZES[0];
    for (const size of PIPE_SIZES) {
      const bore = idNominal(outsideDiameter(size), o.dr);
      if (flow >= (PI / 4) * bore * bore * o.velocity_m_s) chosen = size;
    }
    return chosen;
  });
}
