/** A session in a process of Node: over standard input and output, or the channel its editor chose. */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { DiskFiles } from '../project/disk.ts';
import { endOfToday } from '../project/instant.ts';
import { startSession } from './session.ts';

/** Serves until the editor is gone. The channel follows from the arguments: `--stdio`, `--node-ipc`. */
export function serve(): void {
  startSession({
    connection: createConnection(ProposedFeatures.all),
    files: new DiskFiles(),
    now: () => performance.now(),
    yielding: (then) => setImmediate(then),
    clock: () => endOfToday(new Date()),
  });
}
