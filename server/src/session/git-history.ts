/** Revisions of a folder on a disk, through the git that is installed. */
import { realpath } from 'node:fs/promises';
import { relative, sep } from 'node:path';
import { URI } from 'vscode-uri';
import { filesOf, type Repository, repositoryAt, revisionOf } from '../git/index.ts';
import type { DecodedFile } from '../project/decode.ts';
import { sameAddress } from '../project/index.ts';
import type { History } from './edge.ts';

export const gitHistory: History = {
  async folder(own, around) {
    const { repository, path } = await placeOf(own);
    // A workspace may hold several repositories, and a repository several workspaces.
    const below = relative(repository.root, path).split(sep).filter(Boolean).length;
    const top = own
      .split('/')
      .slice(0, below === 0 ? undefined : -below)
      .join('/');
    return around.length > top.length ? around : top;
  },
  async commit(folder, revision) {
    const { repository } = await placeOf(folder);
    return (await revisionOf(repository, revision)).commit;
  },
  async files(folder, commit) {
    const { repository, top } = await placeOf(folder);
    const source = await filesOf(repository, await revisionOf(repository, commit));
    const there = await source.list(top);
    const read = await Promise.all(there.map((uri) => source.read(uri)));
    const files = new Map<string, DecodedFile>();
    for (const [index, uri] of there.entries()) {
      const file = read[index];
      // A folder may be reached through a link: git knows where it leads, the editor how it is called.
      if (file) files.set(sameAddress(`${folder}${uri.slice(top.length)}`), file);
    }
    return files;
  },
};

async function placeOf(
  folder: string,
): Promise<{ readonly repository: Repository; readonly path: string; readonly top: string }> {
  const address = URI.parse(folder);
  if (address.scheme !== 'file')
    throw new Error('These files are not on a disk of this machine, so git cannot be asked.');
  const path = await realpath(address.fsPath).catch(() => {
    throw new Error(
      `There is no git repository to ask: ${address.fsPath} is no folder on the disk.`,
    );
  });
  return { repository: await repositoryAt(path), path, top: URI.file(path).toString() };
}
