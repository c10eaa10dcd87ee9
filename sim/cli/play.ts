// The verb `play`: a player that sees panel and scene alone plays a job, at one seed or at many.
import { existsSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { playJob, type PlayedBy } from '../play.ts';
import { PLAYERS, playerNamed, REFERENCE } from '../player/players.ts';
import type { Player } from '../player/player.ts';
import { recordText } from '../record-schema.ts';
import { score } from '../score.ts';
import { ENGINE } from '../version.ts';
import type { Answer } from './answer.ts';
import { scenarioIn } from './drill.ts';
import { checkPlace, refuse, seedOf, together, written, type Options } from './files.ts';
import { rulesOf } from './run.ts';

/** Seeds that one call may ask for. */
const SEEDS_MOST = 1000;

export function playVerb(named: string, options: Options): Answer {
  const file = fileOf(named);
  const [scenario, player, seeds] = together(
    () => scenarioIn(file, options),
    () => playerIn(options.player),
    () => seedsIn(options.seeds),
    () => checkPlace(options.record, [file, options.rules]),
  );
  if (scenario.job === undefined) refuse('job', `"${scenario.id}" has no job to be played`);
  if (options.record !== undefined && seeds.length > 1) refuse('--record', 'is of one seed');
  const rules = rulesOf(file, options);
  const rows = seeds.map((seed) => {
    const played = playJob(scenario, player, seed);
    if (options.record !== undefined) written(options.record, recordText(played.record));
    const { passed, total, dimensions, reasons } = score(
      played.run.scenario,
      rules,
      played.run.facts,
    );
    const shares = dimensions.map((d) => [d.dimension, { points: d.points, max: d.max }]);
    const row = { seed, passed, total, dimensions: Object.fromEntries(shares), reasons };
    return options.why === true ? { ...row, decisions: decisionsOf(played) } : row;
  });
  const passed = rows.filter((row) => row.passed).length;
  const totals = rows.map(({ total }) => total).sort((x, y) => x - y);
  const json = {
    engine: ENGINE,
    scenario: scenario.id,
    player: player.id,
    played: rows.length,
    passed,
    least_total: totals[0],
    most_total: totals.at(-1),
    seeds: rows,
    ...(options.record === undefined ? {} : { record: options.record }),
  };
  return { code: passed === rows.length ? 0 : 1, json };
}

function decisionsOf({ whys }: PlayedBy): unknown {
  return whys.map(({ time_s, why, commands }) => ({ time_s, why: `player.${why}`, commands }));
}

/** A level may be named by its folder. */
function fileOf(named: string): string {
  return existsSync(named) && statSync(named).isDirectory() ? join(named, 'scenario.json') : named;
}

function playerIn(named = REFERENCE): Player {
  return playerNamed(named) ?? refuse('--player', `is one of ${PLAYERS.join(', ')}`);
}

/** `5`, or `1..50`. */
function seedsIn(text = '1'): readonly number[] {
  const [from, to, ...rest] = text.split('..');
  if (rest.length > 0) return refuse('--seeds', 'is a number, or two with .. between them');
  const first = seedOf(from, '--seeds')!;
  const last = seedOf(to ?? from, '--seeds')!;
  if (last < first) return refuse('--seeds', `ends before it begins: ${text}`);
  if (last - first >= SEEDS_MOST) return refuse('--seeds', `are ${SEEDS_MOST} at most`);
  return Array.from({ length: last - first + 1 }, (_, at) => first + at);
}
