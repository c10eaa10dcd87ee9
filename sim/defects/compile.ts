// From the defects of a run to their plan: parts by index, moments in SI.
import { min, round } from '../base/math.ts';
import { P_ATM } from '../base/units.ts';
import type { LinkPlan, NodePlan, PumpPlan } from '../network/plan.ts';
import type { MomentSpec, TimedSpec, WhenSpec } from '../scenario-defects.ts';
import type { Scenario } from '../scenario.ts';
import type { Drawn } from './drawn.ts';
import { airId, holeId } from './rebuild.ts';
import type { Defects, Look, Moment, TimedDefect } from './types.ts';

/** What a plan has when its defects are compiled. */
interface Known {
  readonly scenario: Scenario;
  readonly nodes: readonly NodePlan[];
  readonly links: readonly LinkPlan[];
  readonly pumps: readonly PumpPlan[];
}

export function planDefects(known: Known, { defects, errors }: Drawn): Defects {
  const { scenario, nodes, links, pumps } = known;
  const timed = defects.flatMap((spec) => ('share' in spec ? [compiled(known, spec)] : []));
  const byOf = (kind: string, of: (d: TimedDefect) => number, count: number) => {
    const found = new Int32Array(count).fill(-1);
    timed.forEach((d, k) => {
      if (d.spec.kind === kind) found[of(d)] = k;
    });
    return found;
  };
  const unseen = defects.flatMap((d) =>
    'visible' in d && !d.visible ? [nodes.findIndex((n) => n.id === airId(d.id))] : [],
  );
  return {
    timed,
    stuck: byOf('stuck_valve', (d) => d.link, links.length),
    worn: byOf('worn_impeller', (d) => d.pump, pumps.length),
    gauges: scenario.instruments.map((_, i) =>
      timed.flatMap((d, k) => (d.instrument === i ? [k] : [])),
    ),
    errors,
    there: new Set(defects.map((d) => d.id)),
    unseen: new Set(unseen),
  };
}

function compiled(known: Known, spec: TimedSpec): TimedDefect {
  const { scenario, nodes, links, pumps } = known;
  const hole = spec.kind === 'leak' || spec.kind === 'suction_air_leak';
  const id = hole ? holeId(spec.id) : spec.at;
  const link = links.findIndex((l) => l.id === id);
  return {
    spec,
    from: momentOf(known, spec.from),
    until: spec.until === undefined ? null : momentOf(known, spec.until),
    link,
    column: link < 0 ? -1 : columnOf(links[link]!, spec),
    node: nodes.findIndex((n) => n.id === spec.at),
    pump: pumps.findIndex((p) => p.id === spec.at),
    instrument: scenario.instruments.findIndex((i) => i.id === spec.at),
  };
}

/** The column in which a pipe is pinched: its middle one, or that of the metre. */
function columnOf({ firstColumn, columns, length }: LinkPlan, spec: TimedSpec): number {
  const at = spec.kind === 'blocked' ? spec.at_m : undefined;
  const share = at === undefined ? 0.5 : min(1, at / length);
  return firstColumn + min(columns - 1, round(share * columns - 0.5));
}

/** Far beyond anything, SI. */
const FAR = 1e30;

function momentOf(known: Known, spec: MomentSpec): Moment {
  if ('after_s' in spec) return { look: 'time', index: -1, above: spec.after_s, below: FAR };
  return lookFor(known, spec.when);
}

/** Limits in SI: times `unit`, plus `zero`. */
function between(
  [above, below]: readonly [number | undefined, number | undefined],
  unit: number,
  zero = 0,
): { above: number; below: number } {
  return {
    above: above === undefined ? -FAR : zero + unit * above,
    below: below === undefined ? FAR : zero + unit * below,
  };
}

function lookFor({ nodes, links }: Known, when: WhenSpec): Moment {
  const made = (look: Look, index: number, limits: { above: number; below: number }): Moment => ({
    look,
    index,
    ...limits,
  });
  const link = (id: string) => links.findIndex((l) => l.id === id);
  const node = (id: string) => nodes.findIndex((n) => n.id === id);
  if ('pressure' in when) {
    const limits = between([when.above_kPa, when.below_kPa], 1000, P_ATM);
    return made('pressure', node(when.pressure), limits);
  }
  if ('flow' in when) {
    const column = links[link(when.flow)]!.firstColumn;
    return made('flow', column, between([when.above_L_min, when.below_L_min], 1 / 60000));
  }
  if ('level' in when) {
    const tank = nodes[node(when.level)]!.tank;
    return made('level', tank, between([when.above_mm, when.below_mm], 0.001));
  }
  if ('valve' in when) {
    return made('valve', link(when.valve), between([when.above_deg, when.below_deg], 1));
  }
  return made(
    'pump',
    link(when.pump),
    when.on ? { above: 0.5, below: FAR } : between([-1, 0.5], 1),
  );
}
