// A job of two hours in the frost with antifreeze in the tank, worked by hands that know nothing:
// every book, that of heat too, closes to 1e-9 at every minute; a copy made half-way and a replay
// end bit for bit where it does. test/property/heat.test.ts has it for a quarter of an hour.
import {
  advance,
  clone,
  hash,
  parseScenario,
  recordOf,
  replay,
  startRun,
  step,
  truth,
} from '../../sim/index.ts';
import { randomHands, generator } from '../support/rigs.ts';
import { readJson, LEVELS } from '../tools/golden.ts';

const HOURS = 2;
const BOOK = 1e-9;
const BOOKS = ['liquid', 'antifreeze', 'gas', 'heat'] as const;
const WINTER = { air_C: -20, soil_C: -4, air_film_W_m2K: 60 };
const MIXES = ['propylene_glycol', 'ethanol', 'methanol'] as const;

interface Json {
  readonly nodes: readonly { readonly kind: string }[];
}

function winterJob(folder: string, fluid: string) {
  const json = readJson(LEVELS, folder, 'scenario.json') as Json;
  const nodes = json.nodes.map((node) =>
    node.kind === 'tank' ? { ...node, start_antifreeze_fraction: 0.25 } : node,
  );
  const more = { antifreeze: fluid, heat: WINTER, ends_after_s: 3600 * HOURS + 60 };
  return parseScenario({ ...json, ...more, nodes });
}

interface Worked {
  /** Largest share missing from any book at any minute. */
  readonly worst: number;
  readonly faults: readonly string[];
}

/** One job; `hours` for the test of these checks. */
export function worked(folder: string, fluid: string, seed: number, hours = HOURS): Worked {
  const scenario = winterJob(folder, fluid);
  const chance = generator(seed);
  const played = startRun(scenario, seed);
  const ticks = Math.round((3600 * hours) / played.world.dt);
  const minute = Math.round(60 / played.world.dt);
  const faults: string[] = [];
  let worst = 0;
  let copy = played.world;
  for (let tick = 0; tick < ticks; tick++) {
    const now = tick % 40 === 0 && chance() < 0.4 ? randomHands(scenario, chance) : [];
    advance(played, now);
    if (copy !== played.world) step(copy, now);
    if (tick === ticks >> 1) copy = clone(played.world);
    if (tick % minute !== minute - 1) continue;
    const books = truth(played.world);
    for (const kind of BOOKS) {
      const error = Math.abs(books[kind]!.error);
      worst = Math.max(worst, error);
      if (!(error < BOOK)) faults.push(`${kind} at ${(tick + 1) / minute} min: ${error}`);
    }
  }
  const end = hash(played.world);
  if (hash(copy) !== end) faults.push('a copy goes another way');
  const again = replay(scenario, recordOf(played));
  if (again.divergedAt !== null || hash(again.world) !== end)
    faults.push('a replay ends elsewhere');
  return { worst, faults };
}

/** Every mixture at the first job, each with hands of its own. */
export function winters(
  seed: number,
  say: (line: string) => void,
): { text: string; failed: number } {
  let failed = 0;
  const lines = MIXES.map((fluid, k) => {
    const { worst, faults } = worked('01-heron-lane', fluid, seed + k);
    for (const fault of faults) say(`FAILED ${fluid} seed ${seed + k}: ${fault}`);
    failed += faults.length === 0 ? 0 : 1;
    const line = `${fluid}, seed ${seed + k}: most missing from a book ${worst.toExponential(1)}`;
    say(line);
    return `- ${line}${faults.length === 0 ? '' : `; **${faults.length} faults**`}`;
  });
  const head = `${HOURS} hours of random hands at 01-heron-lane in air of -20 C, 25 % antifreeze:`;
  return { text: `${head}\n\n${lines.join('\n')}`, failed };
}
