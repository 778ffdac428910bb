/** What lies where in a revision: the names of its files, and what symbolic links among them lead to. */
import type { Repository, Revision } from './repository.ts';
import { ask, GitError } from './run.ts';

export interface TreeEntry {
  readonly kind: 'file' | 'link';
  /** Of its content. */
  readonly object: string;
}

/** Files and symbolic links by their path from the top, with `/`. What belongs to another repository is left out. */
export type Tree = ReadonlyMap<string, TreeEntry>;

export async function treeOf({ root }: Repository, { commit, text }: Revision): Promise<Tree> {
  const said = await ask(root, ['ls-tree', '-r', '-z', '--full-tree', '--end-of-options', commit]);
  if (said.code !== 0) {
    throw new GitError(`The files of "${text}" are not all in this clone. Fetch them first.`);
  }
  return new Map(
    said.out
      .toString('utf8')
      .split('\0')
      .flatMap((line): (readonly [string, TreeEntry])[] => {
        const [, mode = '', object = '', path = ''] =
          /^(\d{6}) \w+ ([0-9a-f]+)\t(.*)$/su.exec(line) ?? [];
        const kind = kindOf(mode);
        return kind ? [[path, { kind, object }]] : [];
      }),
  );
}

/** The first three digits of a mode say what it is of. */
function kindOf(mode: string): TreeEntry['kind'] | undefined {
  if (mode.startsWith('100')) return 'file';
  return mode.startsWith('120') ? 'link' : undefined;
}

/** Links may lead to links, and in a circle. */
const mostLinks = 32;

/**
 * The file that a path leads to, through symbolic links of files and folders;
 * undefined where it leads nowhere, or out of the repository. `targetOf` is what
 * is written in a link.
 */
export async function followed(
  tree: Tree,
  path: string,
  targetOf: (link: TreeEntry) => Promise<string | undefined>,
): Promise<TreeEntry | undefined> {
  let parts = path.split('/');
  for (let links = 0; links <= mostLinks; links += 1) {
    const there = tree.get(parts.join('/'));
    if (there?.kind === 'file') return there;
    const length = parts.findIndex(
      (_, index) => tree.get(parts.slice(0, index + 1).join('/'))?.kind === 'link',
    );
    if (length === -1) return undefined;
    const target = await targetOf(tree.get(parts.slice(0, length + 1).join('/'))!);
    if (target === undefined || target.startsWith('/')) return undefined;
    const next = joined(parts.slice(0, length), [...target.split('/'), ...parts.slice(length + 1)]);
    if (!next) return undefined;
    parts = next;
  }
  return undefined;
}

/** Undefined where `..` leads above the top. */
function joined(folder: readonly string[], words: readonly string[]): string[] | undefined {
  const parts = [...folder];
  for (const word of words) {
    if (word === '..') {
      if (parts.pop() === undefined) return undefined;
    } else if (word !== '.' && word !== '') {
      parts.push(word);
    }
  }
  return parts;
}
