/**
 * The language server in a web worker. Files of the workspace are the editor's
 * own: the client lists and reads them, and answers the same two questions
 * that a disk does.
 */
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
} from 'vscode-languageserver/browser';
import { nowOf } from './project/instant.ts';
import { LentFiles } from './session/lent-files.ts';
import { startSession } from './session/session.ts';

interface WorkerScope {
  postMessage(message: unknown): void;
}

const scope = self as unknown as WorkerScope;
const connection = createConnection(
  new BrowserMessageReader(scope as never),
  new BrowserMessageWriter(scope as never),
);

/** A message to oneself lets those that wait go first; timers would be slowed down in hidden pages. */
const { port1, port2 } = new MessageChannel();
let next: (() => void) | undefined;
port1.onmessage = () => {
  const then = next;
  next = undefined;
  then?.();
};

startSession({
  connection,
  files: new LentFiles(connection),
  now: () => performance.now(),
  yielding: (then) => {
    next = then;
    port2.postMessage(0);
  },
  clock: () => nowOf(new Date()),
});
