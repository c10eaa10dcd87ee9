// Learning the controls: ten small things to do, each ticked by what the engine says happened or by
// what was pressed on the page. Nothing is marked, and any of them can be left out.
import { signal, type Signal } from '@preact/signals';
import type { Command } from '../sim/index.ts';
import type { Speed } from './loop.ts';
import type { Told } from './session.ts';

export const TASKS = [
  'handle', 'row', 'gauge', 'freeze', 'faster', 'lens', 'note', 'helper', 'undo', 'done',
] as const;
export type Task = (typeof TASKS)[number];

export type Where = 'drawing' | 'list' | 'elsewhere';

export type Doing =
  | { readonly kind: 'act'; readonly command: Command; readonly helped: boolean }
  | { readonly kind: 'fact'; readonly fact: Told }
  | { readonly kind: 'speed'; readonly speed: Speed }
  | { readonly kind: 'look'; readonly on: boolean }
  | { readonly kind: 'done' };

/** Times real time: from here on it is faster. */
const FASTER = 5;
/** A valve is shut below this, degrees. */
const SHUT_DEG = 0.5;

export class Lesson {
  /** Place in `TASKS`; as long as the list when all are through. */
  readonly at: Signal<number> = signal(0);
  readonly ticked: Signal<ReadonlySet<Task>> = signal(new Set());
  /** Where on the page the last press was; kept by the panel. */
  where: Where = 'elsewhere';
  /** Valves asked for, by where they were asked for. */
  private readonly asked = new Map<string, Where>();

  get task(): Task | null { return TASKS[this.at.value] ?? null; }
  get all(): boolean { return TASKS.every((task) => this.ticked.value.has(task)); }

  heed(doing: Doing): void {
    if (doing.kind === 'act' && doing.command.kind === 'valve') {
      this.asked.set(doing.command.valve, this.where);
    }
    const { task } = this;
    if (task === null || !this.ticks(task, doing)) return;
    this.ticked.value = new Set([...this.ticked.value, task]);
    this.at.value += 1;
  }

  skip(): void {
    if (this.task !== null) this.at.value += 1;
  }

  private ticks(task: Task, doing: Doing): boolean {
    switch (task) {
      case 'handle': return this.movedFrom(doing) === 'drawing';
      case 'row': return this.movedFrom(doing) === 'list';
      case 'gauge': return doing.kind === 'act' && doing.command.kind === 'tap';
      case 'freeze': return doing.kind === 'speed' && doing.speed === 0;
      case 'faster': return doing.kind === 'speed' && doing.speed >= FASTER;
      case 'lens': return doing.kind === 'look' && doing.on;
      case 'note': return doing.kind === 'fact' && doing.fact.kind === 'noted';
      case 'helper': return doing.kind === 'act' && doing.helped;
      case 'undo':
        return this.movedFrom(doing) !== null && doing.kind === 'fact'
          && doing.fact.kind === 'moved' && doing.fact.value < SHUT_DEG;
      case 'done': return doing.kind === 'done';
    }
  }

  /** Where the valve was asked for that has just come to rest; null of anything else. */
  private movedFrom(doing: Doing): Where | null {
    if (doing.kind !== 'fact' || doing.fact.kind !== 'moved') return null;
    return this.asked.get(doing.fact.control) ?? null;
  }
}
