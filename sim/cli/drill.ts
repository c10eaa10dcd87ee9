// `--phase`: a scenario cut down to one phase of its day, by the `phases.json` that stands beside
// it, and a script of the whole day cut down to the same.
import { dirname, join } from 'node:path';
import { InputFaults } from '../fault.ts';
import { drillOf, drillScript, PHASES, phasesOf, type Phase } from '../phases.ts';
import { parseScenario, type Scenario } from '../scenario.ts';
import { memberOf, read, refuse, type Options } from './files.ts';

/** @throws InputFaults where it is none. */
function phaseIn(text: string): Phase {
  return PHASES.find((phase) => phase === text) ?? refuse('--phase', `is one of ${PHASES.join()}`);
}

/** The scenario of a file, or its drill of the phase that is asked for. */
export function scenarioIn(file: string, { phase: named }: Options): Scenario {
  if (named === undefined) return read(file, parseScenario);
  const phase = phaseIn(named);
  const beside = join(dirname(file), 'phases.json');
  const patch = read(beside, phasesOf)[phase];
  if (patch === undefined) return refuse('--phase', `${beside} has no drill of "${phase}"`);
  return read(file, (json) => parseScenario(drillOf(json, phase, patch.scenario)));
}

/** A script as it stands, or its part of the phase; one written for the drill stays whole. */
export function cutScript(json: unknown, scenario: Scenario, { phase: named }: Options): unknown {
  if (named === undefined || memberOf(json, 'level') === scenario.id) return json;
  const lines = scenario.record.map(({ id }) => id);
  const cut = drillScript(json, phaseIn(named), lines);
  if (cut !== null) return cut;
  const message = `has no step {"phase": "${named}"}`;
  throw new InputFaults([{ path: 'steps', message }]);
}
