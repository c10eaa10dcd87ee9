// Ways to break what may differ between the forms of the first level, each with ranges of its own.
import type { Planted } from './scenario-faults-kit.ts';

const mains = 'nodes.mains.pressure_kPa';
const supply = { id: 'supply', min: 240, max: 320, step: 20, touches: [{ at: mains }] };
const choices = [
  { id: 'as_found', puts: [] },
  { id: 'shallow', puts: [{ at: 'links.circuit.profile', value: [] }] },
];

const row = (name: string, named: string, range: object, ...needs: readonly string[]): Planted => ({
  ...{ name, path: 'ranges', value: [range], named: `ranges[0]${named}` },
  ...(needs.length === 0 ? {} : { needs }),
});
const touching = (...touches: readonly object[]) => ({ ...supply, touches });
const putting = (at: string) => ({
  id: 'which',
  choices: [choices[0], { id: 'other', puts: [{ at, value: 1 }] }],
});
const [first, second] = ['.touches[0].at', '.touches[1].at'];

export const PLANTED_RANGES: readonly Planted[] = [
  row('a range upside down', '.max', { ...supply, max: 200 }),
  row('a range without steps', '.step', { ...supply, step: 0 }),
  row('a range that steps backwards', '.step', { ...supply, step: -20 }),
  row('steps that miss the end', '.step', { ...supply, step: 30 }),
  row('a range of nothing', '.touches', touching()),
  row('a range of a part that is not there', first, touching({ at: 'nodes.attic.pressure_kPa' })),
  row('a range of a key that is not there', first, touching({ at: 'nodes.mains.colour' })),
  row('a range of a text', first, touching({ at: 'nodes.waste.goes_to' })),
  row('a range that begins above what is written', first, { ...supply, min: 300 }, mains),
  row('a range led by many', first, touching({ at: 'nodes.*.elevation_m' }), 'nodes'),
  row('a first place with a factor', '.touches[0].factor', touching({ at: mains, factor: 2 })),
  row('a range of what is asked', first, touching({ at: 'job.air_allowed_L' })),
  row('a range of how it is computed', first, touching({ at: 'solver.cell_m' })),
  row('a range of an id', first, touching({ at: 'nodes.mains.id' })),
  row('a path of no form', first, touching({ at: 'nodes..pressure_kPa' })),
  row('a group with a stranger', second, touching({ at: mains }, { at: 'links.x.loss_k' }), mains),
  row(
    'a place with a factor and a proportion',
    '.touches[1].factor',
    touching({ at: mains }, { at: 'links.circuit.length_m', scaled: true, factor: 2 }),
    ...[mains, 'links.circuit.length_m'],
  ),
  row('a single choice', '.choices', { id: 'which', choices: choices.slice(0, 1) }),
  row('a choice put nowhere', '.choices[1].puts[0].at', putting('links.attic.gas')),
  row('a choice of the kind of a part', '.choices[1].puts[0].at', putting('links.circuit.kind')),
  { ...row('two ranges of one name', '', supply), value: [supply, supply], named: 'ranges[1].id' },
];

/** Sound as they stand, but not at their ends; the first level is otherwise whole. */
export const PLANTED_ENDS: ReadonlyArray<readonly [name: string, range: object, says: RegExp]> = [
  [
    'a pipe too short for its profile',
    {
      ...{ id: 'short', min: 100, max: 190, step: 2 },
      touches: [{ at: 'links.circuit.length_m' }],
    },
    /^at 100: links\[9\]/,
  ],
  [
    'a tank that is fuller than it is high',
    {
      ...{ id: 'full', min: 400, max: 700, step: 20 },
      touches: [{ at: 'nodes.tank.start_level_mm' }],
    },
    /^at 700: nodes\[2\]\.start_level_mm/,
  ],
  [
    'a number out of the schema',
    { ...{ id: 'hot', min: 10, max: 70, step: 2 }, touches: [{ at: 'temperature_C' }] },
    /^at 70: temperature_C must be at most 60/,
  ],
  [
    'a choice that breaks a part',
    {
      id: 'which',
      choices: [choices[0], { id: 'bad', puts: [{ at: 'links.circuit.gas', value: 3 }] }],
    },
    /^with "bad": links\[9\]\.gas/,
  ],
  [
    'a choice that leaves a default to be guessed',
    {
      id: 'which',
      choices: [
        choices[0],
        {
          id: 'port',
          puts: [
            { at: 'nodes.loop_end', value: { id: 'loop_end', kind: 'junction', elevation_m: 0.3 } },
          ],
        },
      ],
    },
    /^with "port": .whole. rests on a default/,
  ],
];
