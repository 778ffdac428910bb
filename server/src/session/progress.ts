/** Long work shown as a bar that fills: a large plan read for the first time, a figure that all links use. */
import type { Connection, WorkDoneProgressReporter } from 'vscode-languageserver';

/** Fewer tasks than this are done before anybody could read a word about them. */
const worthShowing = 400;

interface Bar extends WorkDoneProgressReporter {
  done(): void;
}

export class Progress {
  readonly #connection: Connection;
  readonly #can: () => boolean;
  /** Tasks that waited when the bar was asked for; 0: there is none. */
  #all = 0;
  #bar: Bar | undefined;
  #shown = 0;

  /** `can` says whether the editor shows such bars. */
  constructor(connection: Connection, can: () => boolean) {
    this.#connection = connection;
    this.#can = can;
  }

  /** Called after each slice of work with what is left. */
  show(waiting: number): void {
    if (this.#all === 0) {
      if (waiting >= worthShowing && this.#can()) this.#begin(waiting);
      return;
    }
    if (waiting === 0) {
      this.#bar?.done();
      this.#bar = undefined;
      this.#all = 0;
      return;
    }
    const percent = Math.floor((100 * (this.#all - waiting)) / this.#all);
    if (percent > this.#shown) this.#bar?.report(percent);
    this.#shown = Math.max(percent, this.#shown);
  }

  #begin(waiting: number): void {
    this.#all = waiting;
    this.#shown = 0;
    this.#connection.window
      .createWorkDoneProgress()
      .then((bar) => {
        bar.begin('Linkwright: judging links', 0, undefined, false);
        if (this.#all === 0) bar.done();
        else this.#bar = bar;
      })
      // An editor that refuses a bar goes without.
      .catch(() => {});
  }
}
