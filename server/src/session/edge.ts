/** What a session takes from the place it runs in: a process or a web worker. */
import type { Connection } from 'vscode-languageserver';
import type { FileSource } from '../project/files.ts';
import type { Now } from '../project/instant.ts';

export interface Edge {
  readonly connection: Connection;
  /** How files are read that no editor has open. */
  readonly files: FileSource;
  /** Milliseconds, for slices of work; any origin. */
  now(): number;
  /** Calls back after whatever waits in the message queue has been looked at. */
  yielding(then: () => void): void;
  /** Now, by the machine's clock. */
  clock(): Now;
}
