// Where the rig's hoses meet the loop: couplings with arms, caps, drains, the gauge and the cock
// at the loop's own end; and what changes the ways over.
import { addFitting, addValve, heightOf, linkOf } from './parts.ts';
import type { Draft } from './parts.ts';
import { addRigPipe, SMALL_RIG_RATING } from './rig-parts.ts';
import type { DaySite, EndsSite } from './kit-site.ts';
import type { RigSite } from './site.ts';

/** m. A hose's end lies on the ground, so that it drains. */
const END_M = 0.1;
/** m. A pail set into the ground under it. */
const PAIL_M = 0.02;
/** mm. Cocks for air and water [invented]. */
const COCK = 8;
const DRAIN = 13;
/** kPa. As the stubs (rig-parts.ts). */
const RATING = 600;

/** Couplings at both stubs; with `dry` ones a second pair, crosswise. */
export function addJoints(draft: Draft, ends: EndsSite, rig: RigSite): void {
  const gas = rig.contents ?? 'air';
  const supply = linkOf(draft, 'supply_hose');
  const back = linkOf(draft, 'return_hose');
  const bore_mm = supply.kind === 'hose' ? supply.bore_mm : 0;
  for (const id of ['supply_end', 'return_end']) {
    addFitting(draft, { id, elevation_m: END_M, gas, rating_kPa: RATING });
  }
  supply.to = 'supply_end';
  back.from = 'return_end';
  const made = ends.start ?? 'apart';
  const one = (id: string, line: string, stub: string, start: 'made' | 'apart'): void => {
    const [from, to] = [`${line}_end`, `stub_${stub}`];
    draft.links.push({
      ...{ id, kind: 'coupling', from, to, bore_mm, start, to_apart: 'capped', goes_to: 'ground' },
      ...(ends.joints === 'dry' ? { from_apart: 'capped' } : {}),
    });
    const arms = start === 'made' ? 2 : 0;
    draft.devices.push({ id: `${id}_arms`, kind: 'latch', of: id, start: arms });
  };
  one('supply_joint', 'supply', 'supply', made);
  one('return_joint', 'return', 'return', made);
  if (ends.joints === 'cam') return;
  one('supply_cross', 'supply', 'return', 'apart');
  one('return_cross', 'return', 'supply', 'apart');
}

/** A gauge and a cock to the open air at the loop's own end, behind all valves of the rig. */
export function addLoopCock(draft: Draft, ends: EndsSite, at: string): void {
  const { range_kPa, resolution_kPa } = ends.gauge ?? { range_kPa: 600, resolution_kPa: 10 };
  const elevation_m = heightOf(draft, at) + 0.1;
  draft.nodes.push({ id: 'cock_end', kind: 'open', elevation_m, goes_to: 'ground' });
  addValve(draft, { id: 'air_cock', from: at, to: 'cock_end', bore_mm: COCK });
  draft.instruments.push({
    ...{ id: 'loop_gauge', kind: 'pressure', node: at, range_kPa, resolution_kPa, lag_s: 0.5 },
  });
}

/** Two three-way valves: 180 supply hose forth, 270 return hose forth. The mast has four valves. */
export function addChangeover(draft: Draft): void {
  const elevation_m = heightOf(draft, 'discharge');
  const rated = { elevation_m, gas: 'air', rating_kPa: SMALL_RIG_RATING } as const;
  for (const id of ['port_a', 'port_b', 'collect']) addFitting(draft, { id, ...rated });
  linkOf(draft, 'supply_hose').from = 'port_a';
  linkOf(draft, 'return_hose').to = 'port_b';
  const way = { kind: 'three_way', bore_mm: 38, start_deg: 180, rate_deg_s: 60 } as const;
  draft.links.push(
    { id: 'feed_way', from: 'discharge', to: 'port_a', branch: 'port_b', ...way },
    { id: 'back_way', from: 'collect', to: 'port_b', branch: 'port_a', ...way },
  );
  addRigPipe(draft, {
    ...{ id: 'back_pipe', from: 'collect', to: 'return_tee', bore_mm: 38, length_m: 1 },
    ...{ loss_k: 0.6, air_m: 1, clear: true },
  });
  for (const one of draft.instruments) {
    if (one.kind === 'sight' && one.link === 'return_hose') one.link = 'back_pipe';
    if (one.kind === 'flow' && one.link === 'supply_hose') one.link = 'discharge_valve';
  }
}

/** Both hoses' ends and the casing into a pail, the tank to waste; air in at the discharge. */
export function addDrains(draft: Draft, day: DaySite): void {
  draft.nodes.push({ id: 'pail', kind: 'open', elevation_m: PAIL_M, goes_to: 'pail' });
  const end = day.ends === undefined ? 'stub_' : '';
  for (const line of ['supply', 'return']) {
    const from = end === '' ? `${line}_end` : `${end}${line}`;
    addValve(draft, { id: `${line}_drain`, from, to: 'pail', bore_mm: DRAIN });
  }
  addValve(draft, { id: 'casing_drain', from: 'casing', to: 'pail', bore_mm: DRAIN });
  const top = draft.nodes.some(({ id }) => id === 'discharge') ? 'discharge' : 'feed';
  const elevation_m = heightOf(draft, top) + 0.1;
  draft.nodes.push({ id: 'vent_end', kind: 'open', elevation_m, goes_to: 'pail' });
  addValve(draft, { id: 'vent_valve', from: top, to: 'vent_end', bore_mm: COCK });
  const tank = draft.nodes.find(({ id }) => id === 'tank');
  if (tank?.kind !== 'tank') return;
  tank.ports.push({ id: 'drain', height_mm: 12, bore_mm: 25 });
  draft.nodes.push({
    ...{ id: 'drain_end', kind: 'open', elevation_m: tank.floor_m - 0.1, goes_to: 'waste' },
  });
  addValve(draft, { id: 'tank_drain', from: 'tank.drain', to: 'drain_end', bore_mm: 25 });
}
