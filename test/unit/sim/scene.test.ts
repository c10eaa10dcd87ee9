// What is seen is made part by part, of the few volumes that are looked at. It has to be what the
// whole weighing of a world would show, to the bit, by day and by night.
import { describe, expect, it } from 'vitest';
import { isAway } from '../../../sim/night.ts';
import { readInstruments } from '../../../sim/instrument.ts';
import { parseRecord } from '../../../sim/record-schema.ts';
import { Glance, sceneOf } from '../../../sim/scene.ts';
import { look, snapshot, timeOf, xray } from '../../../sim/see.ts';
import { advance, startRun, type Run } from '../../../sim/run.ts';
import { isOver, loadState, saveState } from '../../../sim/world.ts';
import { LEVELS, readJson, scenarioOf } from '../../tools/golden.ts';

const SHORT = ['01-heron-lane', '03-kestrel-yard'];
const DAY = '05-curlew-rise';
/** Ticks from one comparison to the next. */
const EVERY = 97;

/** The solution's commands, as they were kept, given to a run that `seen` looks at. */
function replayedWith(folder: string, ends: number, seen: (run: Run) => void): void {
  const scenario = scenarioOf(folder);
  const record = parseRecord(readJson(LEVELS, folder, 'solution.record.json'), scenario);
  const run = startRun(scenario, record.seed);
  let next = 0;
  for (let due = 0; timeOf(run.world) < ends && !isOver(run.world);) {
    const tick = run.world.state.counter[0]!;
    if (tick >= due) {
      seen(run);
      due = tick + EVERY;
    }
    const now = record.commands.slice(next).filter(([at]) => at <= tick);
    const commands = now.map(([, command]) => command);
    next += now.length;
    advance(run, commands);
  }
}

/** Panel and gas as a look at everything has them, of a copy that nobody has looked at. */
function wholly({ world, scenario, seed }: Run) {
  const copy = loadState(scenario, seed, saveState(world), world.start);
  look(copy);
  const readings = readInstruments(copy.plan, copy.state, copy.scratch.alpha);
  return { readings, gas: new Map(xray(copy).links.map(({ id, gas }) => [id, gas])) };
}

function expectAlike(run: Run): number {
  const { readings, gas } = wholly(run);
  const { panel, scene } = snapshot(run.world);
  const tick = `tick ${run.world.state.counter[0]}`;
  expect(panel.readings, tick).toEqual(readings);
  for (const clear of scene.clear) expect(clear.gas, tick).toEqual(gas.get(clear.id));
  return scene.clear.reduce((sum, clear) => sum + clear.gas.filter((x) => x > 0).length, 0);
}

describe('what is seen', () => {
  it.each(SHORT)('is what all of %s weighed would show', (folder) => {
    let gassy = 0;
    replayedWith(folder, 1200, (run) => {
      gassy += expectAlike(run);
    });
    expect(gassy).toBeGreaterThan(20);
  });

  it('is so on a day too, in warmth and in walls that creep, and at night', () => {
    let gassy = 0;
    replayedWith(DAY, 900, (run) => {
      gassy += expectAlike(run);
    });
    expect(gassy).toBeGreaterThan(20);
    const run = startRun(scenarioOf(DAY), 1);
    advance(run, [{ kind: 'leave', hours: 2 }]);
    let steps = 0;
    for (; isAway(run.world.state); steps++) {
      expect(expectAlike(run)).toBeGreaterThan(0);
      for (let k = 0; k < 20 && isAway(run.world.state); k++) advance(run, []);
    }
    expect(steps).toBeGreaterThan(10);
    for (let k = 0; k < 5; k++, advance(run, [])) expectAlike(run);
  });

  it('is the same part by part, in any order', () => {
    replayedWith('03-kestrel-yard', 200, ({ world }) => {
      const glance = new Glance(world);
      const { scene, panel } = snapshot(world);
      expect(glance.outlets).toEqual(scene.outlets);
      expect(glance.hands).toEqual(scene.hands);
      expect(glance.panel).toEqual(panel);
      expect(sceneOf(glance)).toEqual(scene);
    });
  });
});
