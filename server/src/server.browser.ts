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
import { decodeFile } from './project/decode.ts';
import type { FileSource } from './project/files.ts';
import { endOfToday } from './project/instant.ts';
import { startSession } from './session/session.ts';

interface WorkerScope {
  postMessage(message: unknown): void;
}

const scope = self as unknown as WorkerScope;
const connection = createConnection(
  new BrowserMessageReader(scope as never),
  new BrowserMessageWriter(scope as never),
);

const files: FileSource = {
  async list(folder) {
    const found = await connection.sendRequest<readonly string[] | null>('linkwright/listFiles', {
      folder,
    });
    return found ?? [];
  },
  async read(uri) {
    const bytes = await connection.sendRequest<readonly number[] | null>('linkwright/readFile', {
      uri,
    });
    return bytes ? decodeFile(Uint8Array.from(bytes)) : undefined;
  },
};

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
  files,
  now: () => performance.now(),
  yielding: (then) => {
    next = then;
    port2.postMessage(0);
  },
  clock: () => endOfToday(new Date()),
});
