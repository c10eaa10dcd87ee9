// What a player knows at a moment: the rig, what is seen of it now, and what it has kept in mind.
// It measures time and water by its own looks, as somebody with a watch would.
import { abs } from '../base/math.ts';
import type { Command } from '../command.ts';
import type { Reading, Sight } from '../lens.ts';
import type { Habits } from './habits.ts';
import { kitOf, type Kit } from './kit.ts';
import type { Rig, Way } from './map.ts';
import type { View } from './view.ts';

interface Span {
  from: number;
  last: number;
  /** m3 that have gone by. */
  volume: number;
}

type Stands = (scene: View['scene']) => number;

/** Where each control is found: the lists of a scene keep their order from view to view. */
function standsOf({ valves, pumps, couplings, devices }: View['scene']): Map<string, Stands> {
  return new Map([
    ...devices.map(({ id }, k): [string, Stands] => [id, (scene) => scene.devices[k]!.position]),
    ...couplings.map(({ id }, k): [string, Stands] => {
      return [id, (scene) => (scene.couplings[k]!.made ? 1 : 0)];
    }),
    ...pumps.map(({ id }, k): [string, Stands] => [id, (scene) => (scene.pumps[k]!.on ? 1 : 0)]),
    ...valves.map(({ id }, k): [string, Stands] => [id, (scene) => scene.valves[k]!.deg]),
  ]);
}

export class Know {
  readonly rig: Rig;
  readonly kit: Kit;
  readonly habits: Habits;
  /** What is done and stays done, and numbers worth keeping. */
  readonly mind = new Map<string, number>();
  private readonly spans = new Map<string, Span>();
  private readonly stands: ReadonlyMap<string, Stands>;
  private readonly readings: ReadonlyMap<string, number>;
  private seen: View;
  private before = -1;

  constructor(rig: Rig, habits: Habits, view: View) {
    this.rig = rig;
    this.kit = kitOf(rig);
    this.habits = habits;
    this.seen = view;
    this.stands = standsOf(view.scene);
    this.readings = new Map(view.panel.readings.map(({ id }, k) => [id, k]));
    if (this.pumpOn) this.keep('primed');
  }

  look(view: View): void {
    this.before = this.seen.time_s;
    this.seen = view;
  }

  /** True of a day or a part of one; false of a job that is to fill and purge. */
  get drill(): boolean {
    return !this.rig.toPurge;
  }
  get now(): number {
    return this.seen.time_s;
  }
  get scene(): View['scene'] {
    return this.seen.scene;
  }

  has(key: string): boolean {
    return this.mind.has(key);
  }
  keep(key: string, value = 1): void {
    this.mind.set(key, value);
  }

  /** s for which something has held without a break, as far as eyes were on it. */
  held(key: string, holds: boolean, flow = 0): number {
    return this.span(key, holds, flow).time_s;
  }

  /** The same, and m3 that have passed meanwhile at the flow seen. */
  span(key: string, holds: boolean, flow: number): { time_s: number; volume: number } {
    if (!holds) {
      this.spans.delete(key);
      return { time_s: 0, volume: 0 };
    }
    const { now } = this;
    const old = this.spans.get(key);
    const goesOn = old !== undefined && (old.last === this.before || old.last === now);
    const span = goesOn ? old : { from: now, last: now, volume: 0 };
    span.volume += abs(flow) * (now - span.last);
    span.last = now;
    this.spans.set(key, span);
    return { time_s: now - span.from, volume: span.volume };
  }

  /** True while no hand is on anything and nothing waits. */
  get free(): boolean {
    const { hands, back_in_s } = this.scene;
    return back_in_s === null && hands.busy === null && hands.waiting.length === 0;
  }

  /** Degrees of a valve, 0 or 1 of a pump or a coupling, a device's position; as it stands. */
  readonly at = (control: string): number | null => this.stands.get(control)?.(this.scene) ?? null;

  /** True where a pump is to run, once hands are at it. */
  readonly willRun = (pump: string): boolean =>
    this.scene.pumps.some(({ id, wanted }) => id === pump && wanted);

  /** A command that brings a control to a position. */
  readonly to = (control: string, position: number): Command => {
    const { valves, pumps, couplings } = this.scene;
    if (valves.some(({ id }) => id === control)) {
      return { kind: 'valve', valve: control, target_deg: position };
    }
    if (pumps.some(({ id }) => id === control)) {
      return { kind: 'switch', pump: control, on: position === 1 };
    }
    if (couplings.some(({ id }) => id === control)) {
      return { kind: 'coupling', coupling: control, made: position === 1 };
    }
    return { kind: 'set', device: control, position };
  };

  reading(id: string | null): Reading | null {
    const at = id === null ? undefined : this.readings.get(id);
    return at === undefined ? null : this.seen.panel.readings[at]!;
  }
  number(id: string | null): number | null {
    const value = this.reading(id)?.value;
    return typeof value === 'number' ? value : null;
  }

  get pumpOn(): boolean {
    return this.at(this.rig.pump) === 1;
  }
  get pumpStill(): boolean {
    return !this.pumpOn && this.scene.pumps.every((p) => p.id !== this.rig.pump || p.speed < 0.05);
  }
  get note(): string {
    return String(this.reading(this.rig.note)?.value ?? 'steady');
  }

  /** m in the cart's tank, as its scale says, or as eyes see it. */
  get level(): number {
    const { tank, level } = this.rig;
    return this.number(level) ?? this.scene.tanks.find(({ id }) => id === tank.id)?.level ?? 0;
  }

  /** What comes back on a way; of several sights the worst. */
  back(way: Way): Sight {
    const said = way.sights.flatMap((id) => {
      const reading = this.reading(id);
      return reading?.kind === 'sight' ? [reading.value] : [];
    });
    return WORST_FIRST.find((sight) => said.includes(sight)) ?? 'clear';
  }

  /** m3/s on a way: by its meter, else by how fast it goes by in a clear hose. */
  flow(way: Way): number {
    for (const id of way.meters) {
      const shown = this.number(id);
      if (shown !== null) return shown;
    }
    const [hose] = way.clear;
    const velocity = this.scene.clear.find(({ id }) => id === hose?.id)?.velocity ?? 0;
    return abs(velocity) * (hose?.area ?? 0);
  }
}

const WORST_FIRST: readonly Sight[] = ['empty', 'slugs', 'bubbles', 'haze', 'clear'];
