// Ways to break what a job asks for on the way and at the end. The first level asks for neither,
// so each row brings its own.
import type { Planted } from './scenario-faults-kit.ts';

const base = { id: 'one', phase: 'purge', points: 4, dimension: 'safety' };
const held = { ...base, kind: 'held', node: 'stub_supply', from_kPa: 350, to_kPa: 500, for_s: 600 };
const ran = { ...base, kind: 'ran', link: 'circuit', above_L_s: 0.3, for_s: 120 };
const shut_in = { ...base, kind: 'shut_in', pump: 'pump', valve: 'return_valve', for_s: 20 };
const stood = { ...base, kind: 'stood', control: 'pump', at: 1 };
const noted = { ...base, kind: 'noted', entry: 'nowhere' };
const air = { kind: 'air', share: 1 };

/** A row whose milestones, or outcomes, stand in the job; `named` is what follows the list. */
const inJob =
  (list: 'milestones' | 'outcomes') =>
  (
    name: string,
    named: string,
    value: readonly unknown[],
    ...needs: readonly string[]
  ): Planted => ({
    ...{ name, path: `job.${list}`, value, named: `job.${list}${named}` },
    ...(needs.length === 0 ? {} : { needs }),
  });
const way = inJob('milestones');
const end = inJob('outcomes');

export const PLANTED_GOALS: readonly Planted[] = [
  way('a pressure held at a tank', '[0].node', [{ ...held, node: 'tank' }], 'nodes.tank'),
  way('a band upside down', '[0].to_kPa', [{ ...held, to_kPa: 300 }]),
  way('a milestone for nothing', '[0].points', [{ ...held, points: 0 }]),
  way('a milestone of a phase that no day has', '[0].phase', [{ ...held, phase: 'lunch' }]),
  way('a milestone of the losses', '[0].dimension', [{ ...held, dimension: 'losses' }]),
  way('a milestone of no kind', '[0].kind', [{ ...base, kind: 'hoped' }]),
  way('flow through a pipe that is not there', '[0].link', [{ ...ran, link: 'circuit_9' }]),
  way('flow that is still', '[0].still[0]', [{ ...ran, still: ['circuit'] }]),
  way('stillness of nothing', '[0].still[0]', [{ ...ran, still: ['nothing'] }]),
  way('litres through a node', '[0].link', [
    { ...base, kind: 'passed', link: 'casing', litres: 5 },
  ]),
  way('a pump that is a pipe', '[0].pump', [{ ...shut_in, pump: 'riser' }], 'links.riser'),
  way('a pump shut in by a pipe', '[0].valve', [{ ...shut_in, valve: 'riser' }], 'links.riser'),
  way('a note of a line that is not there', '[0].entry', [
    { ...base, kind: 'noted', entry: 'nowhere' },
  ]),
  way('a note during nothing', '[0].during', [{ ...noted, during: 'two' }]),
  way('a note during a stand', '[1].during', [stood, { ...noted, id: 'two', during: 'one' }]),
  way('a search for what is not there', '[0].found', [{ ...ran, found: 'kink' }]),
  way('a stand of nothing', '[0].control', [{ ...stood, control: 'nothing' }]),
  way('a stand of a pipe', '[0].control', [{ ...stood, control: 'riser' }], 'links.riser'),
  way('a pump that stands at two', '[0].at', [{ ...stood, at: 2 }], 'links.pump'),
  way('a night without end', '[0].hours', [{ ...base, kind: 'left', hours: 100 }]),
  way('two milestones of one name', '[1].id', [held, ran]),
  way('a milestone after one that is not there', '[0].after[0]', [{ ...held, after: ['two'] }]),
  way('a milestone after itself', '[0].after[0]', [{ ...held, after: ['one'] }]),
  way('milestones in a ring', '[1].after[0]', [
    { ...held, after: ['two'] },
    { ...ran, id: 'two', after: ['one'] },
  ]),
  way('one milestone named twice before another', '[1].after[1]', [
    held,
    { ...ran, id: 'two', after: ['one', 'one'] },
  ]),
  way(
    'more milestones than a job may have',
    '',
    Array.from({ length: 41 }, (_, n) => ({ ...stood, id: `m_${n}` })),
  ),
  way(
    'milestones that leave nothing to the outcomes',
    '',
    ['one', 'two'].map((id) => ({ ...stood, id, points: 11, dimension: 'outcome' })),
  ),
  end('shares that do not make a whole', '', [{ ...air, share: 0.5 }]),
  end('air asked for twice', '[1]', [
    { ...air, share: 0.5 },
    { ...air, share: 0.5 },
  ]),
  end(
    'a freeze point of water',
    '[0].kind',
    [{ kind: 'freeze', aim_C: -12, within_C: 1, links: 'loop', share: 1 }],
    'antifreeze',
  ),
  end('debris where there is none', '[0].kind', [{ kind: 'debris', most_g: 5, share: 1 }]),
  end(
    'a pressure left in a tank',
    '[0].node',
    [{ kind: 'pressure', node: 'tank', aim_kPa: 200, within_kPa: 40, share: 1 }],
    'nodes.tank',
  ),
  end('a flow through nothing', '[0].link', [
    { kind: 'flow', link: 'nothing', least_L_s: 0.5, share: 1 },
  ]),
];
