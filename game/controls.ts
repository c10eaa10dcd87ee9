// Everything hands can be put to in a scenario, with what each looks like now and what was asked
// of it. Drawing, handle slip and controls list show the same data.
import type { Command, Scenario, Snapshot } from '../sim/index.ts';
import { t, upper, type Lexicon } from './i18n/index.ts';

export interface ValveControl {
  readonly kind: 'valve';
  readonly id: string;
  readonly deg: number;
  /** Where it is to stand, once hands and clock allow. */
  readonly target: number;
  readonly busy: boolean;
}
export interface PumpControl {
  readonly kind: 'pump';
  readonly id: string;
  readonly on: boolean;
  readonly wanted: boolean;
}
export interface TankControl {
  readonly kind: 'tank';
  readonly id: string;
}
export type Control = ValveControl | PumpControl | TankControl;

type Waiting = ReadonlyMap<string, Command>;

/** In the order of the scenario: valves and pumps as they stand in it, then tanks. */
export function controlsOf(scenario: Scenario, now: Snapshot, waiting: Waiting): Control[] {
  const { valves, pumps, hands } = now.scene;
  const links = scenario.links.flatMap((link): Control[] => {
    const valve = valves.find((one) => one.id === link.id);
    const asked = waiting.get(link.id);
    if (valve !== undefined) {
      const target = asked?.kind === 'valve' ? asked.target_deg : valve.target_deg;
      const busy = hands.busy === valve.id;
      return [{ kind: 'valve', id: valve.id, deg: valve.deg, target, busy }];
    }
    const pump = pumps.find((one) => one.id === link.id);
    if (pump === undefined) return [];
    const wanted = asked?.kind === 'switch' ? asked.on : pump.wanted;
    return [{ kind: 'pump', id: pump.id, on: pump.on, wanted }];
  });
  const tanks = now.scene.tanks.map(({ id }): Control => ({ kind: 'tank', id }));
  return [...links, ...tanks];
}

export function degreesWord(deg: number): string {
  const whole = Math.round(deg);
  if (whole <= 0) return t('controls.shut');
  return whole >= 90 ? t('controls.open') : t('controls.partly', { n: whole });
}

/** Name and state: "Suction valve, shut, turning to open". */
export function controlLabel(control: Control, lex: Lexicon): string {
  const part = upper(lex.part(control.id));
  switch (control.kind) {
    case 'valve': {
      const state = degreesWord(control.deg);
      if (Math.round(control.deg) === control.target) return t('controls.valve', { part, state });
      const target = degreesWord(control.target);
      const key = control.busy ? 'controls.turning' : 'controls.waiting';
      return t(key, { part, state, target });
    }
    case 'pump': {
      const state = t(control.on ? 'controls.running' : 'controls.standing');
      return t('controls.pump', { part, state });
    }
    case 'tank':
      return t('controls.marker_label', { part });
  }
}

export const QUARTER_DEG = 23; // Whole degrees only, so a quarter of the way is 23, not 22.5.
export const HALF_DEG = 45;
export const STEP_DEG = 5;

/** To the far end: a valve that is to stand half open or more is shut, else opened. */
export function toggled(control: ValveControl): number {
  return control.target >= HALF_DEG ? 0 : 90;
}

/** A step lands on multiples of the step, from wherever the handle is to stand. */
export function stepped(control: ValveControl, by: number): number {
  const size = Math.abs(by);
  const steps = control.target / size;
  const on = (by > 0 ? Math.floor(steps) + 1 : Math.ceil(steps) - 1) * size;
  return Math.min(90, Math.max(0, on));
}

/** Keys on a valve; null for keys that do nothing there. */
export function keyTarget(control: ValveControl, key: string): number | null {
  switch (key) {
    case 'ArrowUp':
    case 'ArrowRight':
      return stepped(control, STEP_DEG);
    case 'ArrowDown':
    case 'ArrowLeft':
      return stepped(control, -STEP_DEG);
    case 'PageUp':
      return Math.min(90, control.target + QUARTER_DEG);
    case 'PageDown':
      return Math.max(0, control.target - QUARTER_DEG);
    case 'Home':
      return 0;
    case 'End':
      return 90;
    default:
      return null;
  }
}
