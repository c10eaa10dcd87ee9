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
import { freshSeed } from '../tools/chance.ts';

const SEED = freshSeed();
const LEAST = 40;
const DRAWN_AT_ONCE = 48;
const DRAWN_MOST = 20 * DRAWN_AT_ONCE;
/** Most by which EPANET's loss of a link may differ from ours at EPANET's flow: two formulas for
 * turbulent friction differ by about 1 % in smooth plastic pipe, and gravity by 0.08 %. */
const SAME_LAW = 0.01;

type Sort = 'same' | 'bridge' | 'slow' | 'silent';

/** Whether the laws mean the same in a network, or why it is left to networks.test.ts. */
function sortOf(rival: Rival | string): Sort {
  if (typeof rival === 'string') return 'silent'; // EPANET comes to no balance of its own.
  const links = [...rival.ratio.values()];
  if (links.some(([Re]) => Re > 2000 && Re < 4000)) return 'bridge';
  return links.every(([, ratio]) => Math.abs(ratio - 1) < SAME_LAW) ? 'same' : 'slow';
}

it(`agrees with EPANET on ${LEAST} networks as they stand, seed ${SEED}`, async () => {
  const workspace = await loadRival();
  const warn = console.warn; // The toolkit says there what askPlain finds and tells by itself.
  console.warn = () => undefined;
  const found: { network: Network; rival: Rival }[] = [];
  const sorts: Record<Sort, number> = { same: 0, bridge: 0, slow: 0, silent: 0 };
  let drawn = 0;
  for (; found.length < LEAST && drawn < DRAWN_MOST; drawn += DRAWN_AT_ONCE) {
    for (const network of networks(SEED + drawn, DRAWN_AT_ONCE)) {
      const rival = askPlain(workspace, network);
      const sort = sortOf(rival);
      sorts[sort] += 1;
      if (sort === 'same' && typeof rival !== 'string') found.push({ network, rival });
    }
  }
  console.warn = warn;
  const all = found.map(({ network, rival }) =>
    apart(network, steadyState(network.scenario), rival),
  );
  const pipes = found.map(({ network }) => network.pipes);
  const most = (pick: (a: Apart) => number): number => Math.max(...all.map(pick));
  const { bridge, slow, silent } = sorts;
  const sizes = `${found.length} networks of ${Math.min(...pipes)} to ${Math.max(...pipes)} pipes`;
  const others = `${bridge} with a pipe in the bridge, ${slow} with another law of loss`;
  const flows = `flows above 10 mL/s within ${percent(most((a) => a.flow))}`;
  const share = `at most ${most((a) => a.allowed).toFixed(2)} of what is allowed`;
  process.stdout.write(
    `  unscaled: ${sizes} of ${drawn} drawn (${others}, ${silent} without an answer); ${flows} ` +
      `(${share}), pressures within ${percent(most((a) => a.pressure))} of the range\n`,
  );
  expect(found.length).toBeGreaterThanOrEqual(LEAST);
  expect(
    all.flatMap((a) => a.faults),
    `again with LOOPYARD_SEED=${SEED}`,
  ).toEqual([]);
});
