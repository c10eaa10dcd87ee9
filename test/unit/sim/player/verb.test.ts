// The verb `play`: marks a seed, decisions with their reasons, a record that replays.
import { describe, expect, it } from 'vitest';
import { HELP } from '../../../../sim/cli/help.ts';
import { PLAYERS } from '../../../../sim/player/players.ts';
import { LEVELS, readJson } from '../../../tools/golden.ts';
import { asked, faultPaths, folderOfTests, sim } from '../cli-tools.ts';

const { at } = folderOfTests();
const LEVEL = 'levels/01-heron-lane';

interface Said {
  readonly player: string;
  readonly played: number;
  readonly passed: number;
  readonly least_total: number;
  readonly seeds: readonly {
    readonly seed: number;
    readonly passed: boolean;
    readonly reasons: readonly string[];
    readonly decisions?: readonly { readonly why: string; readonly commands: readonly unknown[] }[];
  }[];
}

describe('play', () => {
  it('lets the reference play, and keeps a record that replays', () => {
    const path = at('reference.record.json');
    const said = asked('play', LEVEL, '--seeds', '3', '--why', '--record', path) as Said;
    expect(said).toMatchObject({ player: 'reference', played: 1, passed: 1 });
    expect(said.least_total).toBeGreaterThanOrEqual(90);
    expect(asked('replay', path)).toMatchObject({ same: true, diverged_at_tick: null });
    const words = readJson(LEVELS, 'players.words.en.json') as Record<string, string>;
    const decisions = said.seeds[0]!.decisions!;
    expect(decisions.length).toBeGreaterThan(5);
    for (const { why, commands } of decisions) {
      expect(Object.keys(words)).toContain(why);
      expect(commands.length).toBeGreaterThan(0);
    }
  });

  it('ends with 1 where a seed fails', () => {
    const told = sim('play', LEVEL, '--player', 'stops_early', '--seeds', '3..4');
    const said = told.json as unknown as Said;
    expect(told.code).toBe(1);
    expect(said.seeds.map(({ seed }) => seed)).toEqual([3, 4]);
    expect(said).toMatchObject({ played: 2, passed: 0 });
    expect(said.seeds[0]!.reasons).toContain('air_left');
    expect(said.seeds[0]!.decisions).toBeUndefined();
  });

  it('refuses what it cannot do', () => {
    const refused = (...more: string[]): string[] =>
      faultPaths(() => asked('play', LEVEL, ...more));
    expect(refused('--player', 'nobody')).toEqual(['--player']);
    expect(refused('--seeds', '5..3')).toEqual(['--seeds']);
    expect(refused('--seeds', '1..2..3')).toEqual(['--seeds']);
    expect(refused('--seeds', '1..x')).toEqual(['--seeds']);
    expect(refused('--seeds', '0..5000')).toEqual(['--seeds']);
    expect(refused('--seeds', '1..2', '--record', at('two.json'))).toEqual(['--record']);
  });

  it('names every player in its help', () => {
    for (const name of PLAYERS) expect(HELP).toContain(name);
  });
});
