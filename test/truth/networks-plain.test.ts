// The steady solver against EPANET with nothing scaled: the same lengths, bores, roughness, local
// losses and viscosity on both sides, each with its own laws. Independent method. Compared are the
// networks in which those laws mean the same, which is told from EPANET's own flows: no pipe in
// the bridge between laminar and turbulent flow (Re 2000 to 4000, where EPANET fits a cubic), and
// no local loss so slow that ours has turned linear (below about 0.1 m/s). The others are counted,
// and networks.test.ts compares them with losses matched.
import { expect, it } from 'vitest';
import { steadyState } from '../../sim/steady.ts';
import { networks, type Network } from '../tools/networks.ts';
import { apart, loadRival, percent, type Apart } from './networks-apart.ts';
import { askPlain, type Rival } from './networks-epanet.ts';

const SEED = Number(process.env['LOOPYARD_SEED'] ?? Date.now() % 1000000);
const LEAST = 40;
const DRAWN_AT_ONCE = 48;
const DRAWN_MOST = 20 * DRAWN_AT_ONCE;
/** Most by which EPANET's loss of a link may differ from ours at EPANET's flow: two formulas for
 * turbulent friction differ by about 1 % in smooth plastic pipe, and gravity by 0.08 %. */
const SAME_LAW = 0.01;

function sameLaws(rival: Rival): boolean {
  return [...rival.ratio.values()].every(
    ([Re, ratio]) => (Re < 2000 || Re > 4000) && Math.abs(ratio - 1) < SAME_LAW,
  );
}

it(`agrees with EPANET on ${LEAST} networks as they stand, seed ${SEED}`, async () => {
  const workspace = await loadRival();
  const warn = console.warn; // The toolkit says there what askPlain finds and tells by itself.
  console.warn = () => undefined;
  const found: { network: Network; rival: Rival }[] = [];
  let drawn = 0;
  for (; found.length < LEAST && drawn < DRAWN_MOST; drawn += DRAWN_AT_ONCE) {
    for (const network of networks(SEED + drawn, DRAWN_AT_ONCE)) {
      const rival = askPlain(workspace, network);
      if (typeof rival !== 'string' && sameLaws(rival)) found.push({ network, rival });
    }
  }
  console.warn = warn;
  const all = found.map(({ network, rival }) =>
    apart(network, steadyState(network.scenario), rival),
  );
  const pipes = found.map(({ network }) => network.pipes);
  const most = (pick: (a: Apart) => number): number => Math.max(...all.map(pick));
  process.stdout.write(
    `  unscaled: ${found.length} networks of ${drawn} drawn, ${Math.min(...pipes)} to ` +
      `${Math.max(...pipes)} pipes, flows above 10 mL/s within ${percent(most((a) => a.flow))} ` +
      `(at most ${most((a) => a.allowed).toFixed(2)} of what is allowed), pressures within ` +
      `${percent(most((a) => a.pressure))} of the range\n`,
  );
  expect(found.length).toBeGreaterThanOrEqual(LEAST);
  expect(
    all.flatMap((a) => a.faults),
    `again with LOOPYARD_SEED=${SEED}`,
  ).toEqual([]);
});
