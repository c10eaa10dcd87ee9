// Parts without length for random loops: what each kind has beside its ends.
import type { Chance } from './chance.ts';

const CURVES = [
  [
    [0, 30],
    [2, 24],
    [4, 0],
  ],
  [
    [0, 8],
    [1.5, 0],
  ],
  [
    [0, 60],
    [0.5, 50],
    [1, 5],
  ],
] as const;

/** What a part has beside its ends, by kind. */
export function makeFitting(random: Chance, kind: string): Record<string, unknown> {
  const deg = (top: number) => random.pick([0, 45, 90, top, random.below(top + 1)]);
  switch (kind) {
    case 'valve':
      return { start_deg: deg(90), rate_deg_s: random.pick([20, 60, 360]) };
    case 'three_way':
      return { start_deg: deg(270), rate_deg_s: random.pick([20, 45, 360]) };
    case 'check_valve':
      return { opens_at_kPa: random.pick([0.1, 1, 10]) };
    case 'filter':
      return { loss_k: random.pick([2, 20, 500]), start_blocked: random.pick([0, 0.5, 0.95]) };
    case 'coil':
      return {
        table: [
          { flow_L_s: 0.2, loss_kPa: 8 },
          { flow_L_s: 0.5, loss_kPa: 40 },
        ],
      };
    case 'coupling':
      return {
        start: random.pick(['made', 'apart']),
        from_apart: random.pick(['open', 'capped']),
        to_apart: random.pick(['open', 'capped']),
        goes_to: random.pick(['waste', 'ground', 'pail']),
        make_s: random.pick([0.1, 2, 8]),
      };
    case 'pump': {
      const curve = random.pick(CURVES).map(([flow_L_s, head_m]) => ({ flow_L_s, head_m }));
      const best_flow_L_s = curve[curve.length - 1]!.flow_L_s * 0.6;
      return { curve, best_flow_L_s, start_on: random.unit() < 0.5 };
    }
    case 'hand_pump':
      return {
        stroke_mL: random.pick([5, 40, 400]),
        stroke_s: random.pick([0.3, 1.5]),
        max_kPa: random.pick([30, 400]),
      };
    default:
      return { flow_L_s: Math.round(600 * random.unit() - 300) / 1000 };
  }
}

/** Kinds to pick from, the commonest more than once. */
export const FITTINGS = [
  'valve',
  'valve',
  'valve',
  'check_valve',
  'filter',
  'coil',
  'coupling',
  'coupling',
  'pump',
  'pump',
  'three_way',
  'fixed_flow',
  'hand_pump',
] as const;
