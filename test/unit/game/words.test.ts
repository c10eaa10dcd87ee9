// Words and numbers: keys put together while running exist, and what is shown is rounded honestly.
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import attempts from '../../../game/i18n/attempts.en.json';
import en from '../../../game/i18n/en.json';
import review from '../../../game/i18n/review.en.json';
import { projectFiles } from '../../tools/files.mjs';
import { ROOT } from '../../tools/install.mjs';
import { HERON } from '../../support/player.ts';
import { captionOf } from '../../../game/captions.ts';
import {
  controlLabel, controlsOf, keyTarget, stepped, toggled, type ValveControl,
} from '../../../game/controls.ts';
import { clock, figure, inUnit, number, UNITS } from '../../../game/i18n/format.ts';
import { fill, isWord, lexicon, t } from '../../../game/i18n/index.ts';
import { readingText, spoken } from '../../../game/readings.ts';
import { MODES, Session } from '../../../game/session.ts';
import { PLACE_NAMES } from '../../../game/yard/types.ts';
import {
  DEVICE_KINDS, LINE_STATES, NOTES, SHEET_KINDS, SIGHTS, type Reading,
} from '../../../sim/index.ts';

const lex = lexicon(HERON.words);
/** Kinds with three positions, and those that go by places or trips. */
const THREE = ['latch', 'plug', 'ground_fault'];
const COUNTED = ['cup', 'carry', 'housing'];
const handle = (target: number): ValveControl =>
  ({ kind: 'valve', id: 'suction_valve', deg: 0, target, busy: false });

describe('words', () => {
  it('exist for every sight, note and unit', () => {
    const keys = [
      ...SIGHTS.map((sight) => `sight.${sight}`),
      ...MODES.flatMap((mode) => [`mode.${mode}`, `mode.${mode}_says`]),
      ...DEVICE_KINDS.flatMap((kind) =>
        COUNTED.includes(kind)
          ? []
          : Array.from({ length: THREE.includes(kind) ? 3 : 2 }, (_, k) => `device.${kind}.${k}`)),
      ...NOTES.flatMap((note) => [`note.${note}`, `note_why.${note}`, `heard.${note}`]),
      ...SHEET_KINDS.map((kind) => `jobsheet_hint.${kind}`),
      ...LINE_STATES.map((state) => `jobsheet_state.${state}`),
      ...PLACE_NAMES.map((name) => `place.${name}`),
      ...Object.values(UNITS).map(({ key }) => key),
    ];
    expect(keys.filter((key) => !isWord(key))).toEqual([]);
  });

  it('are all asked for by some page', () => {
    const pages = projectFiles().filter((path) => /^game\/.*\.tsx?$/.test(path));
    const source = pages.map((path) => readFileSync(join(ROOT, path), 'utf8')).join('\n');
    // Put together from an id; checked above.
    const joined =
      /^((sight|note|note_why|heard|device|mode|place|jobsheet_(hint|state))\.|rating\.step_\d$)/;
    const files = [en, attempts, review];
    const all = files.flatMap((words) => Object.keys(words));
    expect(new Set(all).size).toBe(all.length); // No key stands in two of them.
    const idle = all.filter((key) => !joined.test(key) && !source.includes(`'${key}'`));
    expect(idle).toEqual([]);
  });

  it('keep a value that was not given as its name', () => {
    expect(fill('{a} and {b}', { a: 1 })).toBe('1 and {b}');
    expect(t('clock.speed', { n: 5 })).toBe('5x');
  });

  it('name every control of the job with its state', () => {
    const now = Session.start(HERON, 'learn', 1).snapshot();
    const labels = controlsOf(HERON.scenario, now, new Map()).map((one) => controlLabel(one, lex));
    expect(labels).toContain('Suction valve, shut');
    expect(labels).toContain('Pump, off');
    expect(new Set(labels).size).toBe(labels.length);
    expect(labels.filter((label) => /[{}_]/.test(label))).toEqual([]);
  });

  it('tell a critical error from a warning', () => {
    const fact = (stage: 'warning' | 'tripped' | 'ended') => ({
      tick: 9, kind: 'hazard', hazard: 'dry_run', at: 'pump', stage, value: 1, limit: 1,
    }) as const;
    expect(captionOf(fact('warning'), lex, ['dry_run'])?.tone).toBe('warning');
    expect(captionOf(fact('tripped'), lex, ['dry_run'])?.tone).toBe('critical');
    expect(captionOf(fact('tripped'), lex, [])?.tone).toBe('warning');
    expect(captionOf(fact('ended'), lex, ['dry_run'])?.tone).toBe('event');
  });
});

describe('numbers', () => {
  it('are written with a true minus and without minus nothing', () => {
    expect(number(-14)).toBe('−14');
    expect(number(-0.2)).toBe('0');
    expect(number(3, 0, true)).toBe('+3');
    expect(number(0, 0, true)).toBe('0');
    expect(figure(24, 1)).toBe('24');
    expect(figure(24.04, 1)).toBe('24');
    expect(figure(24.06, 1)).toBe('24.1');
  });

  // Exact by definition: 1 psi = 0.45359237 kg * 9.80665 m/s2 / (0.0254 m)^2; 1 US gal = 231 in3.
  it('turn SI into both systems of units', () => {
    expect(inUnit(100000, UNITS.kPa)).toBe('100');
    expect(inUnit(6894.757293168, { ...UNITS.psi, decimals: 6 })).toBe('1.000000');
    expect(inUnit(0.001, UNITS.L_min)).toBe('60');
    expect(inUnit(0.003785411784 / 60, { ...UNITS.gpm, decimals: 6 })).toBe('1.000000');
    expect(inUnit(0.0254, UNITS.in)).toBe('1.0');
  });

  it('show the clock in hours, minutes and seconds', () => {
    expect(clock(0)).toBe('00:00:00');
    expect(clock(760)).toBe('00:12:40');
    expect(clock(3599.99)).toBe('00:59:59');
    expect(clock(20 * 0.05)).toBe('00:00:01');
    expect(clock(7200)).toBe('02:00:00');
  });
});

describe('readings', () => {
  const gauge = (value: number, off_scale: -1 | 0 | 1): Reading =>
    ({ id: 'return_gauge', kind: 'pressure', value, range: 400000, off_scale });

  it('say when a needle is beyond the dial instead of a number it cannot show', () => {
    expect(readingText(gauge(95000, 0), lex)).toMatchObject({ value: '95', second: '14 psi' });
    expect(readingText(gauge(400000, 1), lex).value).toBe('over 400');
    expect(readingText(gauge(0, -1), lex).value).toBe('below 0');
  });

  it('give the level in mm and its change from the marker', () => {
    const level = { id: 'tank_level', kind: 'level', value: 0.364, range: 0.6 } as const;
    expect(readingText({ ...level, mark: null }, lex).remark).toBe('no marker set');
    const text = readingText({ ...level, mark: 0.378 }, lex);
    expect(text).toMatchObject({ value: '364', unit: 'mm', remark: '−14 mm from the marker' });
    expect(spoken(text)).toBe('sight tube, 364 mm');
  });

  it('give amperes and volts in one unit, and say when a clamp is beyond its range', () => {
    const clamp = { id: 'clamp', kind: 'current', value: 16.54, range: 60, off_scale: 0 } as const;
    expect(readingText(clamp, lex)).toMatchObject({ value: '16.5', unit: 'A', second: '' });
    expect(readingText({ ...clamp, value: 60, off_scale: 1 }, lex).value).toBe('over 60.0');
    expect(readingText({ ...clamp, kind: 'voltage', value: 117.4 }, lex)).toMatchObject({
      value: '117', unit: 'V',
    });
  });
});

describe('a handle', () => {
  it('goes to the far end when tapped twice', () => {
    expect(toggled(handle(0))).toBe(90);
    expect(toggled(handle(20))).toBe(90);
    expect(toggled(handle(60))).toBe(0);
    expect(toggled(handle(90))).toBe(0);
  });

  it('steps by five degrees from wherever it stands, within a quarter turn', () => {
    expect(stepped(handle(0), 5)).toBe(5);
    expect(stepped(handle(23), 5)).toBe(25);
    expect(stepped(handle(23), -5)).toBe(20);
    expect(stepped(handle(90), 5)).toBe(90);
    expect(stepped(handle(0), -5)).toBe(0);
  });

  it('follows the keys of a slider', () => {
    expect(keyTarget(handle(40), 'ArrowUp')).toBe(45);
    expect(keyTarget(handle(40), 'ArrowLeft')).toBe(35);
    expect(keyTarget(handle(40), 'PageUp')).toBe(63);
    expect(keyTarget(handle(40), 'Home')).toBe(0);
    expect(keyTarget(handle(40), 'End')).toBe(90);
    expect(keyTarget(handle(40), 'x')).toBeNull();
  });
});
