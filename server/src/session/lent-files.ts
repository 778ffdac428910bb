/**
 * Files that only the editor can reach: those of a virtual workspace, and all of
 * them for a server in a web worker. The editor lists and reads them for us.
 */
import type { Connection } from 'vscode-languageserver';
import { type DecodedFile, decodeFile } from '../project/decode.ts';
import type { FileSource } from '../project/files.ts';

export class LentFiles implements FileSource {
  readonly #connection: Connection;

  constructor(connection: Connection) {
    this.#connection = connection;
  }

  async list(folder: string): Promise<readonly string[]> {
    return (await this.#ask<readonly string[]>('linkwright/listFiles', { folder })) ?? [];
  }

  async read(uri: string): Promise<DecodedFile | undefined> {
    const bytes = await this.#ask<readonly number[]>('linkwright/readFile', { uri });
    return bytes ? decodeFile(Uint8Array.from(bytes)) : undefined;
  }

  /** An editor that does not know these questions has no such files to lend. */
  #ask<Answer>(method: string, params: object): Promise<Answer | null> {
    return this.#connection.sendRequest<Answer | null>(method, params).catch(() => null);
  }
}
