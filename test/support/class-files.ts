// Twelve files of a class at the first job, made by scripts: nine as they should be, one with
// edited marks, one cut short, one of another build.
import { HERON } from './player.ts';
import { seedOf, type Ticket } from '../../game/assign/ticket.ts';
import { attemptFile, type AttemptFile } from '../../game/records/attempt.ts';
import { Session } from '../../game/session.ts';
import { ENGINE, scenarioHash, type Command } from '../../sim/index.ts';

export const TICKET: Ticket = {
  format: 1, kind: 'assignment', id: 'aabbccddeeff0011', name: 'Week 3', job: HERON.id, phase: null,
  mode: 'assess', seed: null, attempts: null, scenario_hash: scenarioHash(HERON.scenario),
  engine: ENGINE,
};
/** The class. */
export const ROSTER = [
  'Ann', 'Bo', 'Cy', 'Di', 'Ed', 'Flo', 'Gus', 'Hal', 'Ida', 'Jo', 'Kay', 'Lee',
];
const VALVES = ['suction_valve', 'return_valve', 'discharge_valve', 'fill_valve'] as const;

export const clone = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

/** An attempt at the first job: valves and pump at times of its own, handed over too early. */
export function attemptOf(who: string, at: number): AttemptFile {
  const session = Session.start(HERON, 'assess', seedOf(TICKET, who, 1));
  const commands = new Map<number, Command>(VALVES.map((valve, k) =>
    [3 + (7 + at) * k, { kind: 'valve', valve, target_deg: 90 - 5 * at }]));
  if (at % 3 === 0) commands.set(60, { kind: 'switch', pump: 'pump', on: true });
  for (let tick = 0; tick < 90 + 2 * at; tick++) {
    const command = commands.get(tick);
    if (command !== undefined) session.act(command);
    session.advance();
  }
  session.act({ kind: 'done' });
  session.advance();
  const began = '2026-03-04T08:00:00.000Z';
  const kept = {
    format: 1, mode: 'assess', saved: session.save(), speed: 1, began, at: began, away: [],
  } as const;
  const id = `${at}`.padStart(16, '0');
  return clone(attemptFile({
    kept, marks: session.score(), id, assigned: { ticket: TICKET, label: who, nth: 1 }, who,
  }));
}

export interface ClassFiles {
  /** What each would have handed in, and what is handed in. */
  readonly good: ReadonlyMap<string, AttemptFile>;
  readonly texts: ReadonlyMap<string, string>;
}

export function classFiles(): ClassFiles {
  const good = new Map(ROSTER.map((who, at) => [who, attemptOf(who, at)] as const));
  const texts = new Map([...good].map(([who, file]) => [who, JSON.stringify(file)] as const));
  const [hal, jo] = [good.get('Hal')!, good.get('Jo')!];
  const marks = { ...hal.marks, total: 96, passed: true };
  texts.set('Hal', JSON.stringify({ ...hal, marks }));
  texts.set('Ida', (texts.get('Ida') ?? '').slice(0, 2000));
  texts.set('Jo', JSON.stringify({ ...jo, record: { ...jo.record, engine: '2.9' } }));
  return { good, texts };
}
