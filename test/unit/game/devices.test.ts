// Devices, hand pumps and needles as the page offers them: words, counts and commands.
import { describe, expect, it } from 'vitest';
import { byHelper } from '../../../game/asked.ts';
import { captionOf } from '../../../game/captions.ts';
import {
  againCommand, controlLabel, controlsOf, isHandled, needlesOf, stateWord, type HandPumpControl,
} from '../../../game/controls.ts';
import { added, stopped, STROKES_MOST } from '../../../game/counted.ts';
import {
  deviceCommand, deviceLabel, devicePosition, devicesOf, deviceState, tripCommand,
} from '../../../game/devices.ts';
import { lexicon } from '../../../game/i18n/index.ts';
import { readingText, spoken } from '../../../game/readings.ts';
import { LEVELS } from '../../../levels/index.ts';
import {
  createWorld, parseScenario, snapshot, step, type Command, type Reading,
} from '../../../sim/index.ts';

const lex = lexicon({
  ...LEVELS[0]!.words,
  'part.lever': 'hand pump', 'part.cup': 'cup', 'part.pail': 'pail', 'part.drum': 'drum',
  'part.tank': 'tank', 'part.gloves': 'gloves', 'reading.gauge': 'gauge',
  'reading.sight': 'clear hose',
});

const tank = (id: string, start_level_mm: number) => ({
  id, kind: 'tank', floor_m: 0, area_m2: 0.2, height_mm: 900, start_level_mm,
  ports: [{ id: 'foot', height_mm: 50, bore_mm: 25 }],
});
const RIG = parseScenario({
  format: 1, id: 'bench', temperature_C: 15, ends_after_s: 600, antifreeze: 'propylene_glycol',
  hands: { reach_s: 0.5, helper: {} },
  nodes: [
    tank('tank', 300), tank('drum', 500),
    { id: 'a', kind: 'junction', elevation_m: 0, volume_L: 1 },
  ],
  links: [
    {
      id: 'lever', kind: 'hand_pump', from: 'drum.foot', to: 'a', bore_mm: 12, stroke_mL: 40,
      stroke_s: 1, max_kPa: 300,
    },
    { id: 'way', kind: 'valve', from: 'a', to: 'tank.foot', bore_mm: 25, start_deg: 90 },
  ],
  devices: [
    { id: 'gloves', kind: 'wear', what: 'gloves' },
    { id: 'cup', kind: 'cup', places: ['tank', 'drum'], take_s: 1 },
    { id: 'pail', kind: 'carry', from: 'drum', to: 'tank', litres: 5, take_s: 1 },
  ],
  instruments: [
    { id: 'gauge', kind: 'pressure', node: 'a', range_kPa: 400, resolution_kPa: 5, lag_s: 0.4 },
    { id: 'dip', kind: 'dip_thermometer', cup: 'cup', resolution_C: 0.5 },
    { id: 'level', kind: 'level', tank: 'tank', resolution_mm: 2 },
  ],
});

/** A bench whose clock can be run, with what the page offers of it. */
function bench() {
  const world = createWorld(RIG, 1);
  const run = (seconds: number, ...commands: Command[]) => {
    step(world, commands);
    for (let k = 1; k < seconds * 10; k++) step(world, []);
  };
  const lever = (asked?: Command): HandPumpControl => {
    const waiting = new Map(asked === undefined ? [] : [['lever', asked] as const]);
    const found = controlsOf(RIG, snapshot(world), waiting).find(({ id }) => id === 'lever');
    if (found?.kind !== 'hand_pump') throw new Error('no hand pump');
    return found;
  };
  const device = (id: string, asked?: Command) => {
    const waiting = new Map(asked === undefined ? [] : [[id, asked] as const]);
    const found = devicesOf(RIG, snapshot(world), waiting).find((one) => one.id === id);
    if (found === undefined) throw new Error(`no ${id}`);
    return found;
  };
  return { run, lever, device };
}
const strokes = (n: number) => ({ kind: 'stroke', pump: 'lever', strokes: n }) as const;

describe('a hand pump', () => {
  it('counts what is done and left, and what is asked for adds up', () => {
    const { run, lever } = bench();
    expect(isHandled(lever())).toBe(true);
    expect(controlLabel(lever(), lex)).toBe('Hand pump, at rest');
    expect(againCommand(lever())).toEqual(strokes(1));
    run(3, strokes(5));
    expect(lever()).toMatchObject({ wanted: 5, left: 3 });
    expect(stateWord(lever(), lex)).toBe('2 of 5 strokes');
    expect(added(lever(), 20, STROKES_MOST)).toBe(25);
    expect(againCommand(lever())).toEqual(strokes(6));
    run(10);
    expect(lever().left).toBe(0);
    expect(againCommand(lever())).toEqual(strokes(1));
  });

  it('begins to count anew when hands take it up, also before they do', () => {
    const { run, lever } = bench();
    run(8, strokes(5));
    run(0.1, { kind: 'set', device: 'cup', position: 1 }, strokes(5));
    expect(lever()).toMatchObject({ done: 0, wanted: 5, left: 5 });
    expect(lever(strokes(3))).toMatchObject({ done: 0, wanted: 3, left: 3 });
  });

  it('stops after the stroke that is begun, and never asks for too many', () => {
    const { run, lever } = bench();
    run(3.2, strokes(20));
    expect(lever().done).toBeGreaterThan(2);
    run(3, strokes(stopped(lever())));
    expect(lever()).toMatchObject({ done: 3, left: 0 });
    expect(stopped({ done: 0, wanted: 5, left: 5 })).toBe(1);
    expect(added({ done: 0, wanted: 490, left: 490 }, 20, STROKES_MOST)).toBe(STROKES_MOST);
  });

  it('can be a helper to work; a tap on a gauge cannot', () => {
    expect(byHelper(strokes(5))).toEqual({ ...strokes(5), by: 'helper' });
    const tap = { kind: 'tap', gauge: 'gauge' } as const;
    expect(byHelper(tap)).toEqual(tap);
    const { run, lever } = bench();
    run(6, byHelper(strokes(5)));
    expect(lever().done).toBeGreaterThan(1); // Told for 3 s, then at it.
  });

  it('says why it gives nothing', () => {
    for (const [why, text] of [
      ['too_hard', 'cannot be pushed any further'], ['empty', 'nothing left to take'],
      ['nothing_comes', 'nothing runs out here'],
    ] as const) {
      const said = captionOf({ tick: 0, kind: 'held', control: 'lever', why }, lex, []);
      expect(said?.text).toContain(text);
      expect(said?.text).toMatch(/^Hand pump/);
      expect(said?.tone).toBe('warning');
    }
  });
});

describe('the kit', () => {
  it('names the places that a cup is filled at', () => {
    const { run, device } = bench();
    const words = [0, 1, 2].map((k) => devicePosition(device('cup'), k, lex));
    expect(words).toEqual(['empty', 'from the tank', 'from the drum']);
    run(3, deviceCommand(device('cup'), 2));
    expect(deviceLabel(device('cup'), lex)).toBe('Cup, from the drum');
  });

  it('says what is worn, so that its sign can show it', () => {
    expect(bench().device('gloves').what).toBe('gloves');
    expect(bench().device('cup').what).toBeNull();
  });

  it('counts trips with a pail, which add up as strokes do', () => {
    const { run, device } = bench();
    expect(deviceState(device('pail'), lex)).toBe('not carried yet');
    expect(tripCommand(device('pail'), 2)).toEqual({ kind: 'set', device: 'pail', position: 2 });
    run(2.2, tripCommand(device('pail'), 2));
    expect(deviceState(device('pail'), lex)).toBe('1 of 2 trips');
    expect(tripCommand(device('pail'), 5)).toMatchObject({ position: 7 });
    run(3);
    expect(deviceLabel(device('pail'), lex)).toBe('Pail, 2 trips done');
    expect(tripCommand(device('pail'), 1)).toMatchObject({ position: 1 });
    expect(devicePosition(device('pail'), 1, lex)).toBe('1 trip');
  });
});

describe('instruments', () => {
  it('are tapped where they have a needle in the rig, not in a cup', () => {
    expect(needlesOf(RIG)).toEqual(['gauge']);
    const world = createWorld(RIG, 1);
    const tap = (gauge: string) => step(world, [{ kind: 'tap', gauge }])[0]?.kind;
    expect([tap('gauge'), tap('dip'), tap('level')]).toEqual(['command', 'refused', 'refused']);
  });

  it('that hands are at go by the name of their reading', () => {
    expect(lex.part('gauge')).toBe('gauge');
    expect(lex.part('nowhere')).toBe('nowhere');
  });

  it('say the grains that go by', () => {
    const sight = { id: 'sight', kind: 'sight', value: 'clear', moving: 1, grit: 'some' } as const;
    const said = (reading: Reading) => spoken(readingText(reading, lex));
    expect(said(sight)).toBe('clear hose, clear, some grit');
    expect(said({ ...sight, grit: 'much' })).toBe('clear hose, clear, much grit');
    expect(said({ ...sight, grit: 'none' })).toBe('clear hose, clear');
  });
});
