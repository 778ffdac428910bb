/** Contents of files by their object names, many at a time. */
import type { Repository } from './repository.ts';
import { ask, GitError } from './run.ts';

/** A plan of this size would be refused by people long before. */
export const mostBytes = 64 * 1024 * 1024;

export interface Content {
  readonly bytes: Buffer;
}

/** Nothing of a file over the limit is read but its size. */
export type Read = Content | { readonly bytes?: undefined; readonly size: number };

/**
 * What some objects hold, by name.
 * @throws GitError where one is not in this clone.
 */
export async function contentsOf(
  repository: Repository,
  objects: readonly string[],
): Promise<ReadonlyMap<string, Read>> {
  const read = new Map<string, Read>();
  const small: string[] = [];
  for (const { object, size } of await sizesOf(repository, objects)) {
    if (size > mostBytes) read.set(object, { size });
    else small.push(object);
  }
  const out = await batch(repository, '--batch', small);
  let at = 0;
  while (at < out.length) {
    const end = out.indexOf(0x0a, at);
    const { object, size } = headOf(out.toString('latin1', at, end));
    read.set(object, { bytes: out.subarray(end + 1, end + 1 + size) });
    at = end + 1 + size + 1;
  }
  return read;
}

interface Head {
  readonly object: string;
  readonly size: number;
}

async function sizesOf(
  repository: Repository,
  objects: readonly string[],
): Promise<readonly Head[]> {
  const out = await batch(repository, '--batch-check', objects);
  return out.toString('latin1').split('\n').filter(Boolean).map(headOf);
}

async function batch(
  { root }: Repository,
  how: string,
  objects: readonly string[],
): Promise<Buffer> {
  if (objects.length === 0) return Buffer.alloc(0);
  const said = await ask(root, ['cat-file', how], objects.map((each) => `${each}\n`).join(''));
  if (said.code !== 0) throw new GitError(notHere);
  return said.out;
}

function headOf(line: string): Head {
  const [object = '', kind, size] = line.split(' ');
  if (kind !== 'blob') throw new GitError(notHere);
  return { object, size: Number(size) };
}

const notHere =
  'This clone does not hold all files of the revision. Fetch them first: nothing is fetched for a comparison.';
