// How plant and water give way under pressure, and what stays of a pressure that plastic is left
// with. Pure sums of laws over pipes and hoses.
import { P_ATM } from '../base/units.ts';
import { c1Restrained, peCreepCompliance, wallCompliance } from '../laws/elastic.ts';
import { compressibility } from '../laws/water.ts';
import type { ConduitSpec } from '../scenario.ts';
import { roomOf } from './rig.ts';

/** 1/Pa. Room that a pipe or hose and the water in it give `after` s, as a share of the room. */
export function giveOf(link: ConduitSpec, t_C: number, after: number): number {
  const water = compressibility(t_C);
  if (link.kind === 'hose') return link.compliance_per_MPa / 1e6 + water;
  const [D, e, nu] = [link.bore_mm / 1000, link.wall_mm / 1000, link.poisson];
  if (link.material === 'pe') {
    return (c1Restrained(D, e, nu) * D * peCreepCompliance(after, t_C)) / e + water;
  }
  return wallCompliance(D, e, link.modulus_MPa * 1e6, nu) + water;
}

/** s of a proof against the shut return. */
export const PROOF = 60;
/** s until hands have brought a loop to its pressure and shut it in. */
const PRESSED = 600;

/** m3/Pa of all of them. */
export function giveOfAll(links: readonly ConduitSpec[], t_C: number, after: number): number {
  return links.reduce((sum, link) => sum + roomOf(link) * giveOf(link, t_C, after), 0);
}

/**
 * Share of a pressure that is left `after` s on, of one that was brought up before all was shut:
 * the volume stays, so p times what gives way does, the stress taken as constant meanwhile.
 */
export function shareLeft(links: readonly ConduitSpec[], t_C: number, after: number): number {
  return giveOfAll(links, t_C, PRESSED) / giveOfAll(links, t_C, PRESSED + after);
}

/** m3 that air of `air` m3 at 1 atm gives way from p1 to p2, Pa abs; at one temperature. */
export function airGives(air: number, p1: number, p2: number): number {
  return air * P_ATM * (1 / p1 - 1 / p2);
}
