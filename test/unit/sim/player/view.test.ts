// A player gets panel and scene and a drawing, frozen; the x-ray, the books and the state are out
// of its reach, by type, by import and at run time.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { briefingOf, playJob } from '../../../../sim/play.ts';
import type { Player } from '../../../../sim/player/player.ts';
import { PLAYERS } from '../../../../sim/player/players.ts';
import type { View } from '../../../../sim/player/view.ts';
import { DAYS, drill, drillsOf } from './drills.ts';
import { folders, LEVELS, readJson, scenarioOf } from '../../../tools/golden.ts';

const PLAYER = fileURLToPath(new URL('../../../../sim/player/', import.meta.url));

/** Every object that can be got at from `data`, with its path. */
function reach(data: unknown, path = ''): [string, object][] {
  if (typeof data === 'function') return [[path, data]];
  if (typeof data !== 'object' || data === null) return [];
  const below = Object.entries(data).flatMap(([key, value]) => reach(value, `${path}.${key}`));
  return [[path, data], ...below];
}

/** Plays until `look` has seen enough, and is done. */
function spy(look: (view: View, at: number) => void, most = 5): void {
  let at = 0;
  const player: Player = {
    id: 'spy',
    begin: () => (view) => {
      look(view, at);
      at += 1;
      return { why: 'done', commands: at >= most ? [{ kind: 'done' }] : [] };
    },
  };
  playJob(scenarioOf('01-heron-lane'), player, 1);
  expect(at).toBe(most);
}

describe('what a player gets', () => {
  it('is time, panel and scene', () => {
    expectTypeOf<keyof View>().toEqualTypeOf<'time_s' | 'panel' | 'scene'>();
    spy((view) => expect(Object.keys(view).sort()).toEqual(['panel', 'scene', 'time_s']));
  });

  it('is plain data and frozen all through', () => {
    spy((view) => {
      const objects = reach(view);
      expect(objects.length).toBeGreaterThan(30);
      for (const [path, one] of objects) {
        expect([Object.prototype, Array.prototype], path).toContain(Object.getPrototypeOf(one));
        expect(Object.isFrozen(one), path).toBe(true);
      }
      expect(() => Object.assign(view.scene.valves[0]!, { deg: 90 })).toThrow(TypeError);
    });
  });

  it('comes once a second', () => {
    const times: number[] = [];
    spy((view) => times.push(view.time_s), 4);
    expect(times).toEqual([0, 1, 2, 3]);
  });

  it('has a drawing without what nobody can see', () => {
    for (const folder of folders) {
      const briefing = briefingOf(scenarioOf(folder));
      const text = JSON.stringify(briefing);
      const hidden = ['defects', 'start_gas', '"gas"', 'lying', 'air_knots', 'points', 'error_'];
      for (const word of hidden) expect(text, `${folder}: ${word}`).not.toContain(word);
      for (const [path, one] of reach(briefing)) expect(Object.isFrozen(one), path).toBe(true);
    }
  });
});

describe('what a job tells of antifreeze and of its sheet', () => {
  it('is what stands on the drum, and how much of it a mixture takes', () => {
    // Premix that freezes where it is asked to is all of the mixture; of undiluted ethanol 25 % by
    // mass is 0.25 x 965 / 800 by volume, kg/m3 of mixture and ethanol at 8 C [common practice].
    const [drum, ...others] = briefingOf(scenarioOf('05-curlew-rise')).products;
    expect(others).toEqual([]);
    expect(drum!.tank).toBe('drum');
    expect(drum!.share).toBeCloseTo(1, 1);
    expect(drum!.neat_share).toBeCloseTo(0.3, 1);
  });

  it('never what is in the tank of the cart', () => {
    for (const folder of DAYS) {
      const { products } = briefingOf(drill(folder, 'verify'));
      expect(products.map(({ tank }) => tank)).toEqual(['drum']);
    }
  });

  it('is of which part a line speaks, as the drawing letters it', () => {
    const { sheet } = briefingOf(scenarioOf('06-lapwing-school'));
    const of = (line: string): readonly string[] => sheet.find(({ id }) => id === line)!.of;
    expect(of('flow_low')).toEqual([]); // Which trench that is, nobody is told.
    expect(of('flow_bank_1')).toContain('bank_1_supply_run');
    expect(of('flow_bank_1').every((id) => id.startsWith('bank_1_'))).toBe(true);
    expect(of('level_open')).toEqual([]);
  });
});

describe('the wall around players', () => {
  const files = readdirSync(PLAYER).filter((name) => name.endsWith('.ts'));
  const imports = (text: string): string[] =>
    [...text.matchAll(/(?:from|import)\s*\(?\s*'([^']+)'/g)].map(([, path]) => path!);
  const may = /^(\.\/[\w-]+\.ts|\.\.\/base\/[\w-]+\.ts|\.\.\/(command|lens)\.ts)$/;

  it('lets in types of commands and lenses, and mathematics', () => {
    expect(files.length).toBeGreaterThan(5);
    for (const file of files) {
      for (const path of imports(readFileSync(join(PLAYER, file), 'utf8'))) {
        expect(path, file).toMatch(may);
      }
    }
  });

  it('keeps out the world, the state, the x-ray and the books', () => {
    for (const path of ['world', 'state', 'see', 'see-truth', 'lens-truth', 'run', 'play']) {
      expect(`../${path}.ts`).not.toMatch(may);
    }
    expect(imports("const w = await import('../world.ts');")).toEqual(['../world.ts']);
  });

  it('is there for the import checker too', () => {
    const config = readFileSync(join(PLAYER, '../../.dependency-cruiser.cjs'), 'utf8');
    expect(config).toContain("name: 'players-see-views-only'");
  });
});

describe('words of players', () => {
  it('are there for every reason', () => {
    const words = readJson(LEVELS, 'players.words.en.json') as Record<string, string>;
    const used = readdirSync(PLAYER).flatMap((name) =>
      [...readFileSync(join(PLAYER, name), 'utf8').matchAll(/\bwhy: '(\w+)'/g)].map(
        ([, key]) => key,
      ),
    );
    const phases = DAYS.flatMap(drillsOf); // Tasks of a phase are told by its name.
    const keys = new Set([...used, ...phases].map((key) => `player.${key}`));
    for (const none of ['wait', 'purge_', 'prove_']) keys.delete(`player.${none}`);
    expect(Object.keys(words).sort()).toEqual([...keys].sort());
    expect(PLAYERS[0]).toBe('reference');
  });
});
