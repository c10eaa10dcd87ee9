// Everything hands can be put to in a scenario, with what each looks like now and what was asked
// of it. Drawing, handle slip and controls list show the same data.
import { hasNeedle, type Command, type Scenario, type Snapshot } from '../sim/index.ts';
import {
  added, countedOf, inHands, strokeCommand, STROKES_MOST, type Counted,
} from './counted.ts';
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
/** A T-port ball between three ends: at each position two of them are joined, or all three. */
export interface ThreeWayControl {
  readonly kind: 'three_way';
  readonly id: string;
  readonly deg: number;
  readonly target: number;
  readonly busy: boolean;
  /** The nodes at its ends. */
  readonly from: string;
  readonly branch: string;
  readonly to: string;
}
/** Two halves that hands join or part. */
export interface CouplingControl {
  readonly kind: 'coupling';
  readonly id: string;
  readonly made: boolean;
  readonly wanted: boolean;
  readonly busy: boolean;
}
/** A pump worked by an arm, so many strokes at a time. */
export interface HandPumpControl extends Counted {
  readonly kind: 'hand_pump';
  readonly id: string;
}
export type Control =
  | ValveControl | PumpControl | TankControl | ThreeWayControl | CouplingControl | HandPumpControl;

type Waiting = ReadonlyMap<string, Command>;

type LinkSpec = Scenario['links'][number];

/** The control that a link is, with what was asked of it; null for links without one. */
function controlOf(link: LinkSpec, now: Snapshot, asked: Command | undefined): Control | null {
  const { valves, pumps, couplings, hand_pumps } = now.scene;
  const { id } = link;
  const busy = inHands(now, id).at;
  switch (link.kind) {
    case 'valve':
    case 'three_way': {
      const valve = valves.find((one) => one.id === id);
      if (valve === undefined) return null;
      const target = asked?.kind === 'valve' ? asked.target_deg : valve.target_deg;
      const handle = { id, deg: valve.deg, target, busy };
      if (link.kind === 'valve') return { kind: 'valve', ...handle };
      const node = (end: string) => end.split('.')[0] ?? end;
      const { from, branch, to } = link;
      const ends = { from: node(from), branch: node(branch), to: node(to) };
      return { kind: 'three_way', ...handle, ...ends };
    }
    case 'pump': {
      const pump = pumps.find((one) => one.id === id);
      if (pump === undefined) return null;
      const wanted = asked?.kind === 'switch' ? asked.on : pump.wanted;
      return { kind: 'pump', id, on: pump.on, wanted };
    }
    case 'coupling': {
      const found = couplings.find((one) => one.id === id);
      if (found === undefined) return null;
      const wanted = asked?.kind === 'coupling' ? asked.made : found.wanted;
      return { kind: 'coupling', id, made: found.made, wanted, busy };
    }
    case 'hand_pump': {
      const found = hand_pumps.find((one) => one.id === id);
      if (found === undefined) return null;
      const seen = { id, done: found.strokes, wanted: found.wanted };
      const strokes = asked?.kind === 'stroke' ? asked.strokes : undefined;
      return { kind: 'hand_pump', id, ...countedOf(now, seen, strokes) };
    }
    default:
      return null;
  }
}

/** In the order of the scenario: what its links have to be handled, then tanks. */
export function controlsOf(scenario: Scenario, now: Snapshot, waiting: Waiting): Control[] {
  const links = scenario.links.flatMap((link) => controlOf(link, now, waiting.get(link.id)) ?? []);
  const tanks = now.scene.tanks.map(({ id }): Control => ({ kind: 'tank', id }));
  return [...links, ...tanks];
}

/** Instruments whose glass can be tapped, by id, in the order of the scenario. */
export function needlesOf({ instruments }: Scenario): string[] {
  return instruments.filter(({ kind }) => hasNeedle(kind)).map(({ id }) => id);
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
    case 'three_way': {
      const state = positionWord(control, control.deg, lex);
      if (control.deg === control.target) return t('controls.valve', { part, state });
      const target = positionWord(control, control.target, lex);
      const key = control.busy ? 'controls.turning' : 'controls.waiting';
      return t(key, { part, state, target });
    }
    case 'coupling': {
      const state = halvesWord(control.made);
      if (control.made === control.wanted) return t('controls.valve', { part, state });
      const key = control.busy ? 'controls.making' : 'controls.will_make';
      return t(key, { part, state, target: halvesWord(control.wanted) });
    }
    case 'hand_pump':
      return t('controls.valve', { part, state: strokesWord(control) });
    case 'tank':
      return t('controls.marker_label', { part });
  }
}

/** Degrees at which a three-way valve has a position with a name. */
export const POSITIONS = [0, 90, 180, 270] as const;

/** Which ends are joined: "tank with stub", or the level's own words for this position. */
export function positionWord(
  control: Pick<ThreeWayControl, 'id' | 'from' | 'branch' | 'to'>,
  deg: number,
  lex: Lexicon,
): string {
  const own = `position.${control.id}.${Math.round(deg)}`;
  if (lex.has(own)) return lex.say(own);
  const [from, branch, to] = [control.from, control.branch, control.to].map(lex.part);
  switch (Math.round(deg)) {
    case 0: return t('controls.all_joined');
    case 90: return t('controls.joined', { a: branch ?? '', b: to ?? '' });
    case 180: return t('controls.joined', { a: from ?? '', b: to ?? '' });
    case 270: return t('controls.joined', { a: from ?? '', b: branch ?? '' });
    default: return t('controls.between');
  }
}

export function halvesWord(made: boolean): string {
  return t(made ? 'controls.made' : 'controls.apart');
}

export function strokesText(n: number): string {
  return n === 1 ? t('controls.stroke') : t('controls.strokes', { n });
}

/** "2 of 5 strokes" while they are made. */
export function strokesWord({ wanted, left }: HandPumpControl): string {
  if (left === 0) return t('controls.at_rest');
  return t('controls.strokes_of', { done: wanted - left, n: wanted });
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

/** The named position next to where a three-way valve is to stand; round again after the last. */
export function nextPosition(control: ThreeWayControl, by: 1 | -1): number {
  const at = by > 0 ? Math.floor(control.target / 90) : Math.ceil(control.target / 90);
  return 90 * ((at + by + POSITIONS.length) % POSITIONS.length);
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

/** What has a slip of its own beside the drawing. */
export type Handled = ValveControl | ThreeWayControl | CouplingControl | HandPumpControl;

export function isHandled(control: Control | undefined): control is Handled {
  const kind = control?.kind;
  return kind === 'valve' || kind === 'three_way' || kind === 'coupling'
    || kind === 'hand_pump';
}

export function stateWord(control: Handled, lex: Lexicon): string {
  if (control.kind === 'valve') return degreesWord(control.deg);
  if (control.kind === 'coupling') return halvesWord(control.made);
  if (control.kind === 'hand_pump') return strokesWord(control);
  return positionWord(control, control.deg, lex);
}

/** What a tap asks for when the slip is open already. */
export function againCommand(control: Handled): Command {
  const { id } = control;
  if (control.kind === 'coupling') return { kind: 'coupling', coupling: id, made: !control.wanted };
  if (control.kind === 'hand_pump') return strokeCommand(id, added(control, 1, STROKES_MOST));
  const target_deg = control.kind === 'valve' ? toggled(control) : nextPosition(control, 1);
  return { kind: 'valve', valve: id, target_deg };
}

/** What a key asks for; null where it does nothing. */
export function keyCommand(control: Handled, key: string): Command | null {
  const { id } = control;
  if (control.kind === 'coupling' || control.kind === 'hand_pump') return null;
  if (control.kind === 'valve') {
    const target_deg = keyTarget(control, key);
    return target_deg === null ? null : { kind: 'valve', valve: id, target_deg };
  }
  const by = /^(ArrowUp|ArrowRight|PageUp)$/.test(key) ? 1
    : /^(ArrowDown|ArrowLeft|PageDown)$/.test(key) ? -1 : null;
  return by === null ? null : { kind: 'valve', valve: id, target_deg: nextPosition(control, by) };
}
