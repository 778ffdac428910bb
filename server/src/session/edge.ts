/** What a session takes from the place it runs in: a process or a web worker. */
import type { Connection } from 'vscode-languageserver';
import type { BeginThread } from '../import/index.ts';
import type { FileSource } from '../project/files.ts';
import type { Now } from '../project/instant.ts';
import type { FilesThen } from './earlier.ts';

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
  /**
   * A revision of what lies in a folder; left out where there is no git to ask.
   * What goes wrong is said in a sentence for people.
   */
  readonly history?: History;
  /** Begins the thread that reads a workbook; left out where none can be begun. */
  readonly beginThread?: BeginThread;
}

export interface History {
  /** Of the folder around and the top of the repository that the own folder lies in the nearer. */
  folder(own: string, around: string): Promise<string>;
  /** The commit that a revision means now. */
  commit(folder: string, revision: string): Promise<string>;
  /** Every plan file of the folder then, under the address that it has now. */
  files(folder: string, commit: string): Promise<FilesThen['files']>;
}
