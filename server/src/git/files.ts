/**
 * Plan files of a revision, under the addresses that they have in the working
 * copy: includes, paths and places then read the same on both sides.
 */
import { relative, sep } from 'node:path';
import { URI } from 'vscode-uri';
import { type DecodedFile, decodeFile } from '../project/decode.ts';
import { type FileSource, planEnding, skippedFolders } from '../project/files.ts';
import { contentsOf, mostBytes, type Read } from './contents.ts';
import type { Repository, Revision } from './repository.ts';
import { GitError } from './run.ts';
import { followed, type Tree, type TreeEntry, treeOf } from './tree.ts';

export class RevisionFiles implements FileSource {
  readonly #repository: Repository;
  readonly #revision: Revision;
  readonly #tree: Tree;
  /** Asked for and not read yet: all that is asked for in one turn is read at once. */
  #waiting = new Map<string, ((read: Read | GitError) => void)[]>();

  constructor(repository: Repository, revision: Revision, tree: Tree) {
    this.#repository = repository;
    this.#revision = revision;
    this.#tree = tree;
  }

  async list(folder: string): Promise<readonly string[]> {
    const within = this.#pathOf(folder);
    if (within === undefined) return [];
    const before = within === '' ? '' : `${within}/`;
    return [...this.#tree.keys()]
      .filter((path) => path.startsWith(before) && path.endsWith(planEnding))
      .filter((path) => !path.split('/').some((part) => skippedFolders.has(part)))
      .map((path) => this.#addressOf(path))
      .sort();
  }

  /** @throws GitError for a file that is too large, or not in this clone. */
  async read(uri: string): Promise<DecodedFile | undefined> {
    const path = this.#pathOf(uri);
    if (path === undefined) return undefined;
    const entry = await followed(this.#tree, path, async (link) => {
      const { bytes } = await this.#content(link);
      return bytes?.toString('utf8');
    });
    if (!entry) return undefined;
    const read = await this.#content(entry);
    if (read.bytes) return decodeFile(read.bytes);
    throw new GitError(
      `${path} of "${this.#revision.text}" has ${Math.ceil(read.size / 1e6)} MB. At most ${Math.floor(mostBytes / 1e6)} MB are read: split it.`,
    );
  }

  /** What stands at an address in this revision. */
  kindOf(uri: string): 'folder' | 'file' | undefined {
    const path = this.#pathOf(uri);
    if (path === undefined) return undefined;
    if (this.#tree.has(path)) return 'file';
    if (path === '') return 'folder';
    for (const each of this.#tree.keys()) if (each.startsWith(`${path}/`)) return 'folder';
    return undefined;
  }

  #content({ object }: TreeEntry): Promise<Read> {
    return new Promise((done, failed) => {
      if (this.#waiting.size === 0) setImmediate(() => void this.#readWaiting());
      const answer = (read: Read | GitError): void =>
        read instanceof GitError ? failed(read) : done(read);
      this.#waiting.set(object, [...(this.#waiting.get(object) ?? []), answer]);
    });
  }

  async #readWaiting(): Promise<void> {
    const waiting = this.#waiting;
    this.#waiting = new Map();
    try {
      const read = await contentsOf(this.#repository, [...waiting.keys()]);
      for (const [object, answers] of waiting) {
        for (const answer of answers) answer(read.get(object)!);
      }
    } catch (error) {
      const said = error instanceof GitError ? error : new GitError(String(error));
      for (const answer of [...waiting.values()].flat()) answer(said);
    }
  }

  /** From the top of the repository; undefined outside it. */
  #pathOf(uri: string): string | undefined {
    const address = URI.parse(uri);
    if (address.scheme !== 'file') return undefined;
    const path = relative(this.#repository.root, address.fsPath).split(sep).join('/');
    return path === '..' || path.startsWith('../') || /^[A-Za-z]:/u.test(path) ? undefined : path;
  }

  #addressOf(path: string): string {
    return URI.file(`${this.#repository.root}/${path}`).toString();
  }
}

export async function filesOf(repository: Repository, revision: Revision): Promise<RevisionFiles> {
  return new RevisionFiles(repository, revision, await treeOf(repository, revision));
}
