// The verb `steady`: flows and pressures that stand still, controls where they are asked to be.
import { InputFaults, type Fault } from '../fault.ts';
import { AS_WRITTEN, formOf } from '../form.ts';
import { POSITIONS } from '../scenario-job.ts';
import { parseScenario, scenarioHash, type Scenario } from '../scenario.ts';
import { steadyState, type Steady } from '../steady.ts';
import { liquidWorld, NoSteadyFlow, type Overrides } from '../steady-net.ts';
import { ENGINE } from '../version.ts';
import { digits, type Answer } from './answer.ts';
import { read, seedOf, together, type Options } from './files.ts';

type Words = Readonly<Record<string, number>>;

/** What a control's states are called, by the kind of its link. */
const WORDS: Readonly<Record<string, Words>> = {
  filter: {},
  fixed_flow: {},
  ...POSITIONS,
};

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)(e[+-]?\d+)?$/i;

/** Value of a setting, or null where it is neither a number nor a word of that control. */
function valueOf(text: string, words: Words): number | null {
  if (Object.hasOwn(words, text)) return words[text]!;
  return NUMBER.test(text) ? Number(text) : null;
}

/** `id=value` by id; the last of one id stands. @throws InputFaults with each that cannot be. */
export function settingsOf(texts: readonly string[], scenario: Scenario): Overrides {
  const settings = new Map<string, number>();
  const faults: Fault[] = [];
  for (const text of texts) {
    const [, id = '', value = ''] = /^([^=]+)=(.*)$/.exec(text) ?? [];
    const kind = scenario.links.find((link) => link.id === id)?.kind;
    const words = kind === undefined ? undefined : WORDS[kind];
    const number = valueOf(value, words ?? {});
    if (id === '') faults.push({ path: `--set ${text}`, message: 'must be ID=VALUE' });
    else if (number !== null) settings.set(id, number);
    else if (words === undefined) {
      settings.set(id, NaN); // No such control: the check of ranges says so, whatever its value.
    } else {
      const names = Object.keys(words).map((word) => ` or ${word}`);
      const message = `must be a number${names.join('')}, not "${value}"`;
      faults.push({ path: `--set ${id}`, message });
    }
  }
  together(
    () => {
      if (faults.length > 0) throw new InputFaults(faults);
    },
    () => checkRanges(scenario, settings),
  );
  return settings;
}

/** @throws InputFaults with each setting of what has no control, or beyond its range. */
function checkRanges(scenario: Scenario, settings: Overrides): void {
  try {
    liquidWorld(scenario, settings);
  } catch (error) {
    if (!(error instanceof InputFaults)) throw error;
    throw new InputFaults(error.faults.map((one) => ({ ...one, path: `--set ${one.path}` })));
  }
}

function told({ links, nodes, notes, ...rest }: Steady): object {
  return {
    iterations: rest.iterations,
    imbalance_kPa: rest.error_pressure / 1000,
    imbalance_L_s: 1000 * rest.error_flow,
    notes,
    links: links.map(({ id, flow, velocity, loss, rise, shut }) => ({
      id,
      flow_L_s: digits(1000 * flow),
      velocity_m_s: digits(velocity),
      loss_kPa: digits(loss / 1000),
      ...(rise === 0 ? {} : { rise_kPa: digits(rise / 1000) }),
      ...(shut ? { shut } : {}),
    })),
    nodes: nodes.map(({ id, pressure, elevation }) => ({
      id,
      elevation_m: digits(elevation),
      pressure_kPa: pressure === null ? null : digits(pressure / 1000),
    })),
  };
}

export function steadyVerb(file: string, options: Options): Answer {
  const [base, seed] = together(
    () => read(file, parseScenario),
    () => seedOf(options.seed) ?? AS_WRITTEN,
  );
  const scenario = formOf(base, seed);
  const settings = settingsOf(options.set ?? [], scenario);
  const head = {
    engine: ENGINE,
    scenario: base.id,
    scenario_hash: scenarioHash(base),
    seed,
    settings: Object.fromEntries(settings),
  };
  try {
    return { code: 0, json: { ...head, ...told(steadyState(scenario, settings)) } };
  } catch (error) {
    if (!(error instanceof NoSteadyFlow)) throw error;
    return { code: 1, json: { ...head, no_steady_flow: error.message } };
  }
}
