// What one's own job sheet says of what an instrument shows, to stand beside its reading.
import type { Scenario } from '../sim/index.ts';
import { t } from './i18n/index.ts';
import { answerText } from './jobsheet.ts';

/** Text by instrument; only of lines that have a number. */
export function besideReadings(
  scenario: Scenario,
  answers: ReadonlyMap<string, number | null>,
): ReadonlyMap<string, string> {
  const { job, instruments } = scenario;
  const found = new Map<string, string>();
  const lines = job?.sheet?.lines ?? [];
  const say = (instrument: string | undefined, text: string): void => {
    if (instrument === undefined) return;
    const before = found.get(instrument);
    const both = before === undefined ? text : t('jobsheet.beside_both', { before, text });
    found.set(instrument, both);
  };
  const whole = lines.find(({ kind }) => kind === 'total') ?? lines.find(isFlow);
  for (const line of lines) {
    const value = answers.get(line.id);
    if (value === undefined || value === null) continue;
    const text = { value: answerText(line.kind, value) };
    if (line === whole) {
      const meter = instruments.find(({ kind }) => kind === 'flow');
      say(meter?.id, t('jobsheet.beside_flow', text));
    } else if (line.kind === 'drop') {
      const tube = instruments.find((one) => one.kind === 'level' && one.tank === line.tank);
      say(tube?.id, t('jobsheet.beside_drop', text));
    } else if (line.kind === 'test' || line.kind === 'leave') {
      const gauge = gaugeAt(scenario, pressedAt(scenario, line.kind));
      say(gauge, t(line.kind === 'test' ? 'jobsheet.beside_test' : 'jobsheet.beside_leave', text));
    }
  }
  return found;
}

const isFlow = ({ kind }: { readonly kind: string }): boolean => kind === 'flow';

/** Node that the line's pressure is of. */
function pressedAt({ job }: Scenario, kind: 'test' | 'leave'): string | undefined {
  if (kind === 'leave') {
    const asked = job?.outcomes?.find((one) => one.kind === 'pressure');
    return asked?.kind === 'pressure' ? asked.node : undefined;
  }
  const held = job?.milestones?.find((one) => one.kind === 'held' && one.phase === 'leak_test');
  return held?.kind === 'held' ? held.node : undefined;
}

function gaugeAt({ instruments }: Scenario, node: string | undefined): string | undefined {
  return instruments.find((one) => one.kind === 'pressure' && one.node === node)?.id;
}
