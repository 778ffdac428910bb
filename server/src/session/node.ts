/** A session in a process of Node: over standard input and output, or the channel its editor chose. */
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { DiskFiles } from '../project/disk.ts';
import type { FileSource } from '../project/files.ts';
import { endOfToday } from '../project/instant.ts';
import { LentFiles } from './lent-files.ts';
import { startSession } from './session.ts';

/** Serves until the editor is gone. The channel follows from the arguments: `--stdio`, `--node-ipc`. */
export function serve(): void {
  const connection = createConnection(ProposedFeatures.all);
  startSession({
    connection,
    files: byScheme(new DiskFiles(), new LentFiles(connection)),
    now: () => performance.now(),
    yielding: (then) => setImmediate(then),
    clock: () => endOfToday(new Date()),
  });
}

/** What lies on a disk we read ourselves; a virtual workspace only the editor can. */
function byScheme(disk: FileSource, lent: FileSource): FileSource {
  const source = (uri: string) => (uri.startsWith('file:') ? disk : lent);
  return {
    list: (folder) => source(folder).list(folder),
    read: (uri) => source(uri).read(uri),
  };
}
