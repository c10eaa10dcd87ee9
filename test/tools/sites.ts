// Whole sites by chance: a rig, a field of 1 to 24 circuits, headers and banks, as a seeded
// generator for tests of everything that must take any loop.
import { buildSite } from '../../sim/field/build.ts';
import type { Bank, Circuit, Field, Header, Site } from '../../sim/field/site.ts';
import { RIGS } from '../../sim/field/site.ts';
import { parseScenario, type Scenario } from '../../sim/index.ts';
import { chance, type Chance } from './chance.ts';

const FIELDS = ['trench', 'bore', 'mixed'] as const;
const CIRCUIT_SIZES = ['3/4', '1', '1-1/4'] as const;

interface Drawn {
  readonly draw: Chance;
  readonly between: (lo: number, hi: number) => number;
  readonly maybe: (share: number) => boolean;
}

function dice(seed: number): Drawn {
  const draw = chance(seed);
  return {
    draw,
    between: (lo, hi) => Math.round((lo + (hi - lo) * draw.unit()) * 10) / 10,
    maybe: (share) => draw.unit() < share,
  };
}

function trench({ draw, between }: Drawn, valves: boolean): Circuit {
  const length_m = between(70, 220);
  const n = 1 + draw.below(5);
  const crests = Array.from({ length: n }, (_, k) => ({
    at_m: (length_m * (k + 0.7)) / (n + 0.6),
    rise_m: between(0.08, 0.4),
    half_m: Math.min(4, length_m / (4 * n)),
  }));
  const elevation_m = -between(1.2, 2);
  const size = draw.pick(CIRCUIT_SIZES);
  return { kind: 'trench', size, contents: 'air', length_m, elevation_m, crests, valves };
}

function bore({ draw, between }: Drawn, valves: boolean): Circuit {
  const size = draw.pick(CIRCUIT_SIZES);
  const depth_m = between(25, 120);
  return { kind: 'bore', size, contents: 'air', depth_m, run_m: between(0.5, 4), valves };
}

function header(d: Drawn, elevation_m: number): Header {
  const reducing = d.maybe(0.5);
  const sizes = reducing ? (['2', '2', '1-1/2', '1-1/4'] as const) : (['2'] as const);
  const side = { sizes: [...sizes] };
  return {
    return_kind: d.maybe(0.5) ? 'reverse' : 'direct',
    elevation_m,
    run_out_m: d.between(4, 40),
    spacing_m: d.between(3, 8),
    supply: side,
    return: side,
  };
}

function fieldOf(d: Drawn, count: number): Field {
  const kind = d.draw.pick(FIELDS);
  const top = -d.between(1.2, 1.8);
  const valved = count <= 6 && d.maybe(0.25);
  const banked = !valved && count >= 4 && d.maybe(0.4);
  const one = (k: number): Circuit => {
    const isBore = kind === 'bore' || (kind === 'mixed' && k < count / 2);
    return isBore ? bore(d, valved) : trench(d, valved);
  };
  const circuits = Array.from({ length: count }, (_, k) => one(k));
  const branches: (Circuit | Bank)[] = [];
  if (!banked) branches.push(...circuits);
  const size = 2 + d.draw.below(4);
  for (let k = 0; banked && k < count; k += size) {
    const own = circuits.slice(k, k + size);
    branches.push({ kind: 'bank', header: header(d, top), circuits: own });
  }
  return { header: header(d, top), branches, contents: 'air' };
}

/** The numbers of a site; the count of circuits is drawn unless it is given. */
export function siteBySeed(seed: number, circuits?: number): Site {
  const d = dice(seed);
  const count = circuits ?? 1 + d.draw.below(24);
  const field = fieldOf(d, count);
  const plant = d.maybe(0.25);
  const coil = [
    { flow_L_s: 0.4, loss_kPa: 6 },
    { flow_L_s: 0.8, loss_kPa: 21 },
  ];
  return {
    id: `site_${seed}`,
    temperature_C: 10,
    rig: { kind: d.draw.pick(RIGS), hose_m: d.between(6, 14) },
    field,
    ...(plant
      ? { plant: { coil, size: '1-1/4', pipe_m: 3, elevation_m: 0.9, contents: 'water' } }
      : {}),
    ends_after_s: 7200,
  };
}

/** A second pump beside the first, each with a check valve behind it, or one after the other. */
function withSecondPump(scenario: Scenario, how: 'beside' | 'after'): Scenario {
  const pump = scenario.links.find((l) => l.kind === 'pump')!;
  const out = scenario.nodes.find((n) => n.id === pump.to)!;
  const node = (id: string) => ({ ...out, id });
  const check = (id: string, from: string) => ({
    id,
    kind: 'check_valve',
    from,
    to: pump.to,
    bore_mm: pump.bore_mm,
  });
  const rest = scenario.links.filter((l) => l !== pump);
  const added =
    how === 'beside'
      ? {
          nodes: [node('first_out'), node('second_out')],
          links: [
            { ...pump, to: 'first_out' },
            check('first_check', 'first_out'),
            { ...pump, id: 'second_pump', to: 'second_out' },
            check('second_check', 'second_out'),
          ],
        }
      : {
          nodes: [node('between')],
          links: [
            { ...pump, to: 'between' },
            { ...pump, id: 'second_pump', from: 'between' },
          ],
        };
  return parseScenario({
    ...scenario,
    nodes: [...scenario.nodes, ...added.nodes],
    links: [...rest, ...added.links],
  });
}

/** A whole valid scenario by seed; one in four has two pumps. */
export function scenarioBySeed(seed: number, circuits?: number): Scenario {
  const scenario = buildSite(siteBySeed(seed, circuits));
  if (seed % 4 !== 3) return scenario;
  return withSecondPump(scenario, seed % 8 === 3 ? 'beside' : 'after');
}
