/** A session in a process of Node: over standard input and output, or the channel its editor chose. */
import { type Connection, createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { DiskFiles } from '../project/disk.ts';
import type { FileSource } from '../project/files.ts';
import { nowOf } from '../project/instant.ts';
import { beginThread } from '../workbook/begin.ts';
import { gitHistory } from './git-history.ts';
import { LentFiles } from './lent-files.ts';
import { startSession } from './session.ts';
import { TextWriter } from './writer.ts';

/** Serves until the editor is gone. The channel follows from the arguments: `--stdio`, `--node-ipc`. */
export function serve(): void {
  const connection = connect();
  startSession({
    connection,
    files: byScheme(new DiskFiles(), new LentFiles(connection)),
    now: () => performance.now(),
    yielding: (then) => setImmediate(then),
    clock: () => nowOf(new Date()),
    history: gitHistory,
    beginThread,
  });
}

function connect(): Connection {
  if (!process.argv.includes('--stdio')) return createConnection(ProposedFeatures.all);
  // Standard output belongs to the protocol: a stray word in it would end the session.
  for (const method of ['log', 'info', 'debug', 'dir'] as const) console[method] = console.error;
  // A stream to read from beside a writer of one's own is understood, though the types know either two
  // streams or neither; with the stream, the library also ends the process when the editor is gone.
  const writer = new TextWriter(process.stdout) as unknown as NodeJS.WritableStream;
  return createConnection(ProposedFeatures.all, process.stdin, writer);
}

/** What lies on a disk we read ourselves; a virtual workspace only the editor can. */
function byScheme(disk: FileSource, lent: FileSource): FileSource {
  const source = (uri: string) => (uri.startsWith('file:') ? disk : lent);
  return {
    list: (folder) => source(folder).list(folder),
    read: (uri) => source(uri).read(uri),
  };
}
