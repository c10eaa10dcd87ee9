// What every part of a scenario is written with: ids, and numbers within limits.
import * as z from 'zod';

export const Id = z
  .string()
  .regex(/^[a-z][a-z0-9_]{0,39}$/, 'an id: a-z first, then a-z, 0-9 or _');
export const within = (lo: number, hi: number) => z.number().min(lo).max(hi);
export const whole = (lo: number, hi: number) => z.int().min(lo).max(hi);
