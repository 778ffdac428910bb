/**
 * What has to be worked out again. A task is dirty or clean; dirty tasks wait
 * in stages (a later stage reads what an earlier one made), and within a stage
 * those of open files come first.
 */
import type { Place } from '../model/types.ts';

export interface Task {
  /** Where a fault in it is said. */
  readonly place?: Place;
  /** Tasks of lower stages run first. */
  readonly stage: number;
  /** Name of what it judges, if it judges anything. */
  readonly object?: string;
  /** Whether someone is looking at the file it belongs to. */
  urgent(): boolean;
  run(): void;
}

export const stages = { models: 0, judgements: 1, channels: 2, rest: 3 } as const;

const stageCount = 4;

export class Agenda {
  readonly #urgent: Set<Task>[] = Array.from({ length: stageCount }, () => new Set<Task>());
  readonly #later: Set<Task>[] = Array.from({ length: stageCount }, () => new Set<Task>());

  /** Marks a task as dirty; it runs once, however often it is marked. */
  add(task: Task): void {
    const sets = task.urgent() ? this.#urgent : this.#later;
    sets[task.stage]!.add(task);
  }

  /** Takes a task out: it is clean, or its subject is gone. Says whether it was in. */
  remove(task: Task): boolean {
    const urgent = this.#urgent[task.stage]!.delete(task);
    return this.#later[task.stage]!.delete(task) || urgent;
  }

  has(task: Task): boolean {
    return this.#urgent[task.stage]!.has(task) || this.#later[task.stage]!.has(task);
  }

  get size(): number {
    let size = 0;
    for (let stage = 0; stage < stageCount; stage++) {
      size += this.#urgent[stage]!.size + this.#later[stage]!.size;
    }
    return size;
  }

  get hasUrgent(): boolean {
    return this.#urgent.some((set) => set.size > 0);
  }

  /** Looks again at who is urgent: a file was opened or closed. */
  sortAgain(): void {
    for (let stage = 0; stage < stageCount; stage++) {
      const waiting = [...this.#urgent[stage]!, ...this.#later[stage]!];
      this.#urgent[stage]!.clear();
      this.#later[stage]!.clear();
      for (const task of waiting) this.add(task);
    }
  }

  /** All that wait in a stage, those of open files first. */
  *in(stage: number): Iterable<Task> {
    yield* this.#urgent[stage]!;
    yield* this.#later[stage]!;
  }

  /** What is to run next: models, then what open files wait for, then the rest. */
  next(): Task | undefined {
    const first = this.#later[stages.models]!;
    for (const set of [this.#urgent[stages.models]!, first, ...this.#urgent, ...this.#later]) {
      for (const task of set) return task;
    }
    return undefined;
  }
}
