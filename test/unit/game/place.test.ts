// A slip of paper beside a control: never on it, always inside the drawing.
import { describe, expect, it } from 'vitest';
import { leaderBetween, overlap, placeBeside, type Rect } from '../../../game/place.ts';
import { chance } from '../../tools/chance.ts';

const SLIP = { w: 316, h: 140 };

describe('the handle slip', () => {
  it('never lies on the control it belongs to, nor outside the drawing', () => {
    const draw = chance(7).unit;
    for (let k = 0; k < 500; k++) {
      const room: Rect = { x: 6, y: 6, w: 378 + draw() * 1200, h: 600 + draw() * 400 };
      const at = (): Rect => ({
        x: room.x + draw() * (room.w - 44), y: room.y + draw() * (room.h - 44), w: 44, h: 44,
      });
      const target = at();
      const others = Array.from({ length: 8 }, () => ({ ...at(), cost: draw() }));
      const { left, top } = placeBeside(target, SLIP, room, others);
      const slip = { x: left, y: top, ...SLIP };
      expect(overlap(slip, target)).toBe(0);
      expect(left).toBeGreaterThanOrEqual(room.x - 1e-9);
      expect(top).toBeGreaterThanOrEqual(room.y - 1e-9);
      expect(left + SLIP.w).toBeLessThanOrEqual(room.x + room.w + 1e-9);
      expect(top + SLIP.h).toBeLessThanOrEqual(room.y + room.h + 1e-9);
    }
  });

  it('lies where nothing is covered when there is such a place', () => {
    const room: Rect = { x: 0, y: 0, w: 1200, h: 700 };
    const target: Rect = { x: 580, y: 80, w: 44, h: 44 };
    const under: Rect = { x: 400, y: 140, w: 400, h: 200 };
    const { left, top } = placeBeside(target, SLIP, room, [{ ...under, cost: 0.6 }]);
    expect(overlap({ x: left, y: top, ...SLIP }, under)).toBe(0);
  });

  it('is joined to its control by the shortest line', () => {
    const control: Rect = { x: 100, y: 100, w: 44, h: 44 };
    expect(leaderBetween(control, { x: 60, y: 200, w: 300, h: 90 })).toEqual([122, 144, 122, 200]);
    expect(leaderBetween(control, { x: 200, y: 300, w: 9, h: 9 })).toEqual([144, 144, 200, 300]);
  });
});
