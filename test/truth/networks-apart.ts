// How far the steady solver and EPANET stand apart on one network, and how far they may.
import { Workspace } from 'epanet-js';
import type { Steady } from '../../sim/steady.ts';
import type { Network } from '../tools/networks.ts';
import type { Rival } from './networks-epanet.ts';

/** Share, and m3/s below which a difference does not count. */
const FLOW_SHARE = 0.005;
const FLOW_LEAST = 1e-6;
const PRESSURE_SHARE = 0.005;

export interface Apart {
  /** Largest difference of a flow that passes more than 1e-5 m3/s, as a share of it. */
  readonly flow: number;
  /** Largest difference of pressure, as a share of the network's range. */
  readonly pressure: number;
  /** Largest difference of a flow as a share of the difference that is allowed. */
  readonly allowed: number;
  /** What differs by more than FLOW_SHARE and FLOW_LEAST, or PRESSURE_SHARE of the range. */
  readonly faults: readonly string[];
}

/** Compares flows by link and pressures by node; a fault for each that differs by more. */
export function apart(network: Network, steady: Steady, rival: Rival): Apart {
  const faults: string[] = [];
  let flow = 0;
  let allowed = 0;
  for (const { id, flow: ours } of steady.links) {
    const theirs = rival.flow.get(id);
    if (theirs === undefined) continue; // Openings of couplings that are made.
    const off = Math.abs(ours - theirs);
    const may = Math.max(FLOW_LEAST, FLOW_SHARE * Math.abs(theirs));
    allowed = Math.max(allowed, off / may);
    if (!(off <= may)) {
      faults.push(`${network.name} ${id}: ${ours} m3/s, EPANET ${theirs}`);
    }
    if (Math.abs(theirs) > 1e-5) flow = Math.max(flow, off / Math.abs(theirs));
  }
  const known = steady.nodes.filter((n) => n.pressure !== null && rival.pressure.has(n.id));
  const all = known.map((n) => n.pressure!);
  const range = Math.max(...all) - Math.min(...all);
  let pressure = 0;
  for (const { id, pressure: ours } of known) {
    const off = Math.abs(ours! - rival.pressure.get(id)!) / range;
    if (!(off <= PRESSURE_SHARE)) {
      faults.push(`${network.name} ${id}: ${ours} Pa, EPANET ${rival.pressure.get(id)}`);
    }
    pressure = Math.max(pressure, off);
  }
  return { flow, pressure, allowed, faults };
}

export const percent = (share: number): string => `${(100 * share).toFixed(3)} %`;

export async function loadRival(): Promise<Workspace> {
  const workspace = new Workspace();
  await workspace.loadModule();
  return workspace;
}
