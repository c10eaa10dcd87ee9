// Debris for random loops: grains of any size and weight in any pipe, elements in any housing
// that can wear one.
import type { Chance } from './chance.ts';

type Part = Record<string, unknown> & { id: string; kind: string };

const CLASSES = [
  { id: 'silt', diameter_mm: 0.05, relative_density: 2.65 },
  { id: 'fine', diameter_mm: 0.2, relative_density: 2.65 },
  { id: 'coarse', diameter_mm: 1, relative_density: 2.65 },
  { id: 'gravel', diameter_mm: 6, relative_density: 2.6 },
  { id: 'brass', diameter_mm: 0.7, relative_density: 8.5 },
  { id: 'shavings', diameter_mm: 2, relative_density: 0.95 },
  { id: 'neutral', diameter_mm: 0.5, relative_density: 1 },
] as const;

const ELEMENTS = [
  { id: 'fine_bag', d50_um: 100, capacity_g: 50, loss_k: 3, sheds: 0.6 },
  { id: 'coarse_screen', d50_um: 800, capacity_g: 200, full_kPa: 40 },
] as const;

/** Grams such that some housings choke and most do not. */
export function makeDebris(random: Chance, links: readonly Part[]): object {
  const classes = CLASSES.filter(() => random.unit() < 0.5);
  if (classes.length === 0 || classes.length > 6) classes.splice(0, 7, CLASSES[2], CLASSES[5]);
  const lying = links.flatMap((link) => {
    if ((link.kind !== 'pipe' && link.kind !== 'hose') || random.unit() < 0.5) return [];
    const length = link['length_m'] as number;
    const from_m = Math.round(500 * length * random.unit()) / 1000;
    const grams = random.pick([0.01, 1, 20, 500]);
    return [{ link: link.id, class: random.pick(classes).id, from_m, to_m: length, grams }];
  });
  const catchers = links.flatMap((link) =>
    ['filter', 'coil', 'check_valve'].includes(link.kind) && random.unit() < 0.7
      ? [{ link: link.id, element: random.pick(ELEMENTS).id }]
      : [],
  );
  return { classes, elements: ELEMENTS, lying, catchers };
}
