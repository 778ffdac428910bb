/**
 * Where the text of files comes from. A disk, an editor's own file system in
 * the web, or memory: all answer the same two questions, ahead of time, so that
 * everything after them is synchronous.
 */
import type { DecodedFile } from './decode.ts';

export interface FileSource {
  /** Addresses of all plan files in a folder and below it, in order of name. */
  list(folder: string): Promise<readonly string[]>;
  /** Undefined: there is no such file, or it cannot be read. */
  read(uri: string): Promise<DecodedFile | undefined>;
}

/** The ending of a plan file. */
export const planEnding = '.lwl';

/** Folders in which nobody keeps plans, and tools keep thousands of files. */
export const skippedFolders: ReadonlySet<string> = new Set(['node_modules', '.git', '.hg', '.svn']);
