// Pours a circuit's corners into its pipes: one path over the whole circuit is cut where one pipe
// ends and the next begins, and turned where a pipe is given the other way round.
import type { Circuit } from './circuits.ts';
import { layChain } from './chains.ts';
import { slopeOf, type ConduitLink } from './graph.ts';
import { pipePath, type Knot } from './path.ts';
import type { LeadLine } from './rails.ts';
import type { Sheet } from './sheet.ts';
import { leadKnots, leadMetres } from './strips.ts';
import { lineLength, partOf, type Line } from './trace.ts';
import type { PathPoint } from './types.ts';

/** Drawn between a circuit and the last part of its lead. */
const TAIL = 14;

function between(a: PathPoint, b: PathPoint, s: number): PathPoint {
  const t = b.s > a.s ? (s - a.s) / (b.s - a.s) : 0;
  return { ...a, x: a.x + (b.x - a.x) * t, y: a.y + (b.y - a.y) * t, s };
}

/** Points whose distance lies in [from, to], with both ends exactly. */
function cut(points: readonly PathPoint[], from: number, to: number): PathPoint[] {
  const inner = points.filter((p) => p.s > from + 1e-9 && p.s < to - 1e-9);
  const at = (s: number): PathPoint => {
    let i = 0;
    while (i < points.length - 2 && points[i + 1]!.s < s) i++;
    return between(points[i]!, points[i + 1]!, s);
  };
  return [at(from), ...inner, at(to)];
}

/** The lines of a circuit's two leads, each from the header to the circuit. */
export interface TwoLeads {
  readonly supply: LeadLine;
  readonly back: LeadLine;
  /** Metres of the circuit before and after what the strips or the bore show. */
  readonly before_m: number;
  readonly after_m: number;
}

export function poured(circuit: Circuit, two: TwoLeads): { from: number; to: number } {
  return {
    from: leadMetres(circuit, two.before_m),
    to: circuit.length_m - leadMetres(circuit, two.after_m),
  };
}

/** Draws a circuit: leads with their parts, then its pipes along `middle`. */
export function pourCircuit(
  sheet: Sheet,
  circuit: Circuit,
  two: TwoLeads,
  how: { middle: readonly Knot[]; slim: number },
): void {
  const { from, to } = poured(circuit, two);
  const r = 16 * sheet.plan.pipe;
  const own = ({ line, stop }: LeadLine, lead: Circuit['supplyLead']): Line => {
    if (lead.links.length === 0) return line;
    const total = lineLength(line);
    const share = Math.max(total * 0.4, Math.min(stop ?? Infinity, total - TAIL));
    layChain(sheet, lead.links, partOf(line, 0, share), { slim: how.slim, r });
    return partOf(line, share, total);
  };
  const first = leadKnots(own(two.supply, circuit.supplyLead), from, r);
  const last = leadKnots(own(two.back, circuit.returnLead), circuit.length_m - to, r)
    .map((k) => ({ ...k, s: circuit.length_m - k.s }))
    .reverse();
  const knots = [...first.slice(0, -1), ...how.middle, ...last.slice(1)];
  const points = pipePath(knots, 5, slopeOf(circuit.profile));
  let base = 0;
  for (const { link, forward } of circuit.pipes) {
    const pipe = link as ConduitLink;
    const part = cut(points, base, base + pipe.length_m).map((p) => ({
      ...p,
      s: forward ? p.s - base : base + pipe.length_m - p.s,
    }));
    const [a, b] = [base / circuit.length_m, (base + pipe.length_m) / circuit.length_m];
    const share: [number, number] = forward ? [a, b] : [b, a];
    sheet.pipeOf(pipe, forward ? part : part.reverse(), { slim: how.slim, share });
    base += pipe.length_m;
  }
}
