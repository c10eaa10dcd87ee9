// Three-way valves and couplings as the page offers them: positions, words, keys and commands.
import { describe, expect, it } from 'vitest';
import {
  againCommand, controlLabel, controlsOf, isHandled, keyCommand, nextPosition, positionWord,
  stateWord, type Control, type CouplingControl, type ThreeWayControl,
} from '../../../game/controls.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { createWorld, parseScenario, snapshot, step, type Command } from '../../../sim/index.ts';

const lex = lexicon({
  'part.diverter': 'diverter', 'part.joint': 'joint', 'part.a': 'cart', 'part.b': 'loop',
  'part.c': 'house', 'position.diverter.270': 'cart to loop',
});

const RIG = parseScenario({
  format: 1, id: 'bench', temperature_C: 15, ends_after_s: 60,
  nodes: [
    { id: 'a', kind: 'junction', elevation_m: 0 }, { id: 'b', kind: 'junction', elevation_m: 0 },
    { id: 'c', kind: 'junction', elevation_m: 0 }, { id: 'd', kind: 'junction', elevation_m: 0 },
    { id: 'mains', kind: 'reservoir', elevation_m: 0, pressure_kPa: 100 },
  ],
  links: [
    { id: 'inlet', kind: 'valve', from: 'mains', to: 'a', bore_mm: 25, start_deg: 0 },
    {
      id: 'diverter', kind: 'three_way', from: 'a', branch: 'b', to: 'c', bore_mm: 25,
      start_deg: 180,
    },
    { id: 'joint', kind: 'coupling', from: 'c', to: 'd', bore_mm: 25, start: 'made' },
  ],
});

const asked = (command: Command | null) => {
  const now = snapshot(createWorld(RIG, 1));
  const id = command?.kind === 'coupling' ? 'joint' : 'diverter';
  return controlsOf(RIG, now, command === null ? new Map() : new Map([[id, command]]));
};
const find = <K extends Control['kind']>(list: readonly Control[], kind: K) => {
  const found = list.find((one): one is Extract<Control, { kind: K }> => one.kind === kind);
  if (found === undefined) throw new Error(`no ${kind}`);
  return found;
};
const diverter = (): ThreeWayControl => find(asked(null), 'three_way');
const joint = (): CouplingControl => find(asked(null), 'coupling');

describe('a three-way valve', () => {
  it('is offered with the ends that it stands between, not as a valve of a quarter turn', () => {
    expect(diverter()).toMatchObject({ deg: 180, target: 180, from: 'a', branch: 'b', to: 'c' });
    expect(asked(null).filter(({ kind }) => kind === 'valve')).toHaveLength(1);
  });

  it('says which ends are joined, in words of the level where it has them', () => {
    const words = [0, 90, 180, 270, 45].map((deg) => positionWord(diverter(), deg, lex));
    expect(words).toEqual([
      'all three joined', 'loop with house', 'cart with house', 'cart to loop',
      'between two positions',
    ]);
    expect(controlLabel(diverter(), lex)).toBe('Diverter, cart with house');
    const turning = find(asked({ kind: 'valve', valve: 'diverter', target_deg: 270 }), 'three_way');
    expect(controlLabel(turning, lex))
      .toBe('Diverter, cart with house, your hands will set it to cart to loop');
  });

  it('goes round from position to position, from wherever it is to stand', () => {
    const at = (target: number) => ({ ...diverter(), target });
    expect([0, 90, 180, 270, 45].map((deg) => nextPosition(at(deg), 1)))
      .toEqual([90, 180, 270, 0, 90]);
    expect([0, 90, 180, 270, 45].map((deg) => nextPosition(at(deg), -1)))
      .toEqual([270, 0, 90, 180, 0]);
    expect(keyCommand(at(90), 'ArrowUp')).toEqual(againCommand(at(90)));
    expect(keyCommand(at(90), 'x')).toBeNull();
  });
});

describe('a coupling', () => {
  it('is parted by a second tap and joined by another', () => {
    const part = { kind: 'coupling', coupling: 'joint', made: false } as const;
    expect(againCommand(joint())).toEqual(part);
    expect(againCommand(find(asked(part), 'coupling'))).toEqual({ ...part, made: true });
    expect(stateWord(joint(), lex)).toBe('joined');
    expect(controlLabel(find(asked(part), 'coupling'), lex))
      .toBe('Joint, joined, your hands will see that it is apart');
  });

  it('stands apart when the hands have had the time they need', () => {
    const world = createWorld(RIG, 1);
    step(world, [{ kind: 'coupling', coupling: 'joint', made: false }]);
    for (let k = 0; k < 300; k++) step(world, []);
    const now = find(controlsOf(RIG, snapshot(world), new Map()), 'coupling');
    expect(now).toMatchObject({ made: false, wanted: false, busy: false });
  });
});

it('tanks and pumps have no slip of their own', () => {
  expect(isHandled({ kind: 'tank', id: 'tank' })).toBe(false);
  expect(isHandled(joint())).toBe(true);
  expect(isHandled(undefined)).toBe(false);
});
