// Water at many litres a second through small fittings, and past a short shut bleed: the ticking
// engine comes to the flow of the steady solver, which networks.test.ts holds against EPANET. The
// bound on what gas may pass in a tick, which small volumes set, must not hold water back.
import { describe, expect, it } from 'vitest';
import { createWorld, steadyState } from '../../sim/index.ts';
import { held, joint, off, pipe, scenario } from '../support/fields.ts';
import { link, run } from '../support/worlds.ts';

/** 1 % in 100 of the flow. */
const SAME = 1e-4;

interface Line {
  readonly bore_mm: number;
  readonly head_kPa: number;
  readonly tick_s?: number;
  /** Bore and length of a shut pipe at the middle of the line. */
  readonly bleed?: readonly [bore_mm: number, length_m: number];
}

function line({ bore_mm, head_kPa, tick_s = 0.1, bleed }: Line) {
  const valve = { kind: 'valve', rate_deg_s: 90 };
  const nodes: unknown[] = [held('high', head_kPa), joint('a'), joint('b'), held('low', 0)];
  const links: unknown[] = [
    { ...pipe('first', ['high', 'a'], bore_mm, 20), loss_k: 1 },
    { ...valve, id: 'valve', from: 'a', to: 'b', bore_mm, start_deg: 90 },
    { ...pipe('second', ['b', 'low'], bore_mm, 20), loss_k: 1 },
  ];
  if (bleed !== undefined) {
    const [bore, length] = bleed;
    nodes.push(joint('c'), { id: 'pail', kind: 'open', elevation_m: 0, goes_to: 'pail' });
    links.push(pipe('bleed', ['a', 'c'], bore, length));
    links.push({ ...valve, id: 'shut', from: 'c', to: 'pail', bore_mm: bore, start_deg: 0 });
  }
  return scenario(nodes, links, { solver: { tick_s, cell_m: 1 } });
}

describe('water in a tick of many litres', () => {
  const lines: readonly Line[] = [
    { bore_mm: 60, head_kPa: 100 },
    { bore_mm: 60, head_kPa: 25 },
    { bore_mm: 60, head_kPa: 400, tick_s: 0.05 },
    { bore_mm: 93, head_kPa: 50 },
    { bore_mm: 38, head_kPa: 60, bleed: [13, 0.3] },
    { bore_mm: 38, head_kPa: 60, bleed: [20, 0.3] },
    { bore_mm: 50, head_kPa: 200, bleed: [13, 1] },
  ];
  it.each(lines)(
    'flows as the steady solver says: $bore_mm mm, $head_kPa kPa, bleed $bleed',
    (one) => {
      const rig = line(one);
      const want = steadyState(rig).links.find(({ id }) => id === 'first')!.flow;
      const got = link(run(createWorld(rig, 1), 60), 'first').flow;
      expect(off(got, want), `${got} m3/s against ${want}`).toBeLessThan(SAME);
    },
  );
});
