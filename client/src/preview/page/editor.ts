/** The page's one line to the editor: questions with numbered answers, and what the editor says by itself. */
import type { Answers } from '../../../../server/src/report/answer.ts';
import type { Question } from '../../../../server/src/report/question.ts';
import { type FromPage, readToPage, type ToPage } from '../messages.ts';

interface EditorWindow {
  postMessage(message: FromPage): void;
  setState(state: unknown): void;
  getState(): unknown;
}

declare function acquireVsCodeApi(): EditorWindow;

export interface Line {
  /** Null: the server could not answer. */
  ask(question: object): Promise<unknown>;
  tell(message: FromPage): void;
  /** The function that it hands back stops listening. */
  hear(listener: (message: ToPage) => void): () => void;
  /** What a restored page must know. */
  keep(state: object): void;
  kept(): unknown;
}

/** The line of the results, whose questions have answers of known types. */
export interface Editor extends Omit<Line, 'ask'> {
  ask<Q extends Question>(question: Q): Promise<Answers[Q['ask']] | null>;
}

export function connect(): Editor {
  return line() as Editor;
}

export function line(): Line {
  const host = acquireVsCodeApi();
  const waiting = new Map<number, { done(result: unknown): void; failed(error: Error): void }>();
  const listeners: ((message: ToPage) => void)[] = [];
  let next = 1;
  window.addEventListener('message', ({ data }) => {
    const message = readToPage(data);
    if (!message) return;
    if (message.kind === 'answer' || message.kind === 'failed') {
      const asked = waiting.get(message.id);
      waiting.delete(message.id);
      if (message.kind === 'answer') asked?.done(message.result);
      else asked?.failed(new Error(message.because));
      return;
    }
    for (const listener of listeners) listener(message);
  });
  return {
    ask(question) {
      const id = next;
      next += 1;
      return new Promise((done, failed) => {
        waiting.set(id, { done: done as (result: unknown) => void, failed });
        host.postMessage({ kind: 'ask', id, question });
      });
    },
    tell: (message) => host.postMessage(message),
    hear(listener) {
      listeners.push(listener);
      return () => void listeners.splice(listeners.indexOf(listener), 1);
    },
    keep: (state) => host.setState(state),
    kept: () => host.getState(),
  };
}
