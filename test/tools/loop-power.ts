// Power for some random loops that have a pump: a supply, good or too small, and what stands
// between it and the motors that it turns. Draws last, so that all else stays as it was drawn.
import type { Chance } from './chance.ts';

type Link = Record<string, unknown> & { readonly kind: string };
interface Loop {
  readonly links: Link[];
  readonly devices: readonly unknown[];
}

/** Share of the loops with a pump that turn without any of this. */
const WITHOUT = 0.7;

export function withPower<T extends Loop>(random: Chance, loop: T): T {
  const pumps = loop.links.filter(({ kind }) => kind === 'pump');
  if (pumps.length === 0 || random.unit() < WITHOUT) return loop;
  for (const pump of pumps) {
    if (random.unit() < 0.2) continue;
    pump['motor'] = { rated_W: 400 + random.below(3000), voltage_V: 115, leak_mA: random.below(9) };
  }
  const circuit = { voltage_V: 80 + random.below(50), breaker_A: random.pick([10, 15, 20, 40]) };
  const max_W = 800 + random.below(5000);
  const supply = random.pick([
    { kind: 'outlet', ...circuit },
    { kind: 'generator', max_W, ...circuit },
  ]);
  const cord = { length_m: 1 + random.below(120), copper_mm2: random.pick([0.8, 2, 3.3]) };
  const devices = [
    ...loop.devices,
    { id: 'plug', kind: 'plug', start: random.below(3) },
    { id: 'breaker', kind: 'breaker', start: 1 },
    { id: 'protector', kind: 'ground_fault', start: 1 },
  ];
  return { ...loop, devices, power: { supply, cord } };
}
