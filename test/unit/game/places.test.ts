// Places of a drawing: each begins above what it names and near it, so that one tap on a phone
// brings it into sight.
import { describe, expect, it } from 'vitest';
import { layoutYard, type Drawing } from '../../../game/yard/layout.ts';
import { SHAPES } from '../../../game/yard/types.ts';
import { LEVELS } from '../../../levels/index.ts';

/** What is seen of the drawing at once, in drawing units, above what stays at a window's foot. */
const SIGHT = { wide: (430 / 1120) * 1600, tall: (600 / 390) * 780 } as const;
const DAYS = ['otter_bank', 'curlew_rise', 'lapwing_school'];

/** A part of each place of the whole days. */
const PARTS = {
  board: 'plug', cart: 'tank', store: 'drum', unit: 'loop_pump', ends: 'loop_supply_valve',
  field: 'circuit_1',
} as const;

describe('places of a drawing', () => {
  const all = LEVELS.flatMap((level) => SHAPES.map((shape) => ({ id: level.id, level, shape })));
  it.each(all)('$id, $shape: from above to below, each once', ({ id, level, shape }) => {
    const { places, height, placed, plates, tanks } =
      layoutYard(level.scenario, level.drawing as Drawing, shape);
    expect(new Set(places.map(({ name }) => name)).size).toBe(places.length);
    expect(places.map(({ y }) => y)).toEqual(places.map(({ y }) => y).sort((a, b) => a - b));
    for (const { y } of places) expect(y >= 0 && y < height, String(y)).toBe(true);
    if (!DAYS.includes(id)) return;
    for (const [name, part] of Object.entries(PARTS)) {
      const place = places.find((one) => one.name === name);
      const at = [...placed, ...tanks, ...plates].find((one) => one.id === part);
      if (place === undefined || at === undefined) throw new Error(`${name}: no ${part}`);
      expect(at.y, name).toBeGreaterThanOrEqual(place.y);
      expect(at.y - place.y, name).toBeLessThan(name === 'cart' ? 2 * SIGHT[shape] : SIGHT[shape]);
    }
  });
});
