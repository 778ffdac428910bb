/** The two sides of a comparison: two folders or files, or revisions of a git repository and the working copy. */
import { realpath } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import {
  filesOf,
  GitError,
  isRevision,
  type Repository,
  type Revision,
  type RevisionFiles,
  repositoryAt,
  revisionOf,
} from '../git/index.ts';
import { isWithin, planEnding } from '../project/index.ts';
import type { Instant } from '../project/instant.ts';
import { CommandError } from './console.ts';
import {
  type Opened,
  onDisk,
  openAddresses,
  openPaths,
  type PlanSource,
  toAddress,
} from './open.ts';

/** Everything that was read of one state. */
export interface Side extends Opened {
  /** What a person calls it: `plans/before`, `HEAD~1`, `the working copy`. */
  readonly label: string;
  /** The commit, where it is a revision. */
  readonly commit?: string;
  /** The folder from which paths of both sides are written, so that they can be told to be the same. */
  readonly base: string;
}

export interface Sides {
  readonly before: Side;
  readonly after: Side;
}

/** Two folders, or two files. */
export async function twoPaths(old: string, now: string, asOf: Instant): Promise<Sides> {
  const [before, after] = [await onePath(old, asOf), await onePath(now, asOf)];
  return { before, after };
}

async function onePath(path: string, asOf: Instant): Promise<Side> {
  const opened = await openPaths([path], asOf);
  const address = toAddress(path);
  const folder = (await onDisk.kindOf(address)) === 'folder' ? address : folderOf(address);
  return { ...opened, label: path, base: folder };
}

/** What stood behind `--git`, and the paths beside it. */
export interface GitWords {
  readonly git: readonly string[];
  readonly paths: readonly string[];
}

/** A revision against the working copy, or two revisions; of all paths, or of the working folder. */
export async function revisions(words: GitWords, asOf: Instant): Promise<Sides> {
  try {
    const repository = await repositoryAt(await folderIn(words.paths[0] ?? '.'));
    const { old, now, paths } = await understood(repository, words);
    const addresses = await addressesIn(repository, paths);
    const base = toAddress(repository.root);
    const before = await ofRevision(repository, old, addresses, base, asOf);
    const after = now
      ? await ofRevision(repository, now, addresses, base, asOf)
      : await ofWorkingCopy(repository, addresses, base, asOf);
    refuseNone(paths, before, after);
    return { before, after };
  } catch (error) {
    throw error instanceof GitError ? new CommandError(error.message) : error;
  }
}

/** The first word is a revision; a second one too, if it is one and no path is called so. */
async function understood(
  repository: Repository,
  { git, paths }: GitWords,
): Promise<{
  readonly old: Revision;
  readonly now?: Revision;
  readonly paths: readonly string[];
}> {
  const [first = '', ...others] = git;
  const old = await revisionOf(repository, first);
  const [second, ...rest] = others;
  if (second === undefined) return { old, paths };
  const [asRevision, asPath] = [
    await isRevision(repository, second),
    await onDisk.kindOf(toAddress(second)),
  ];
  if (asRevision && asPath) {
    throw new CommandError(
      `"${second}" is a revision and a path. Write a path as "./${second}", or a revision with its full name.`,
    );
  }
  if (asPath || second.startsWith('./') || second.endsWith(planEnding)) {
    return { old, paths: [...others, ...paths] };
  }
  return { old, now: await revisionOf(repository, second), paths: [...rest, ...paths] };
}

async function ofRevision(
  repository: Repository,
  revision: Revision,
  addresses: readonly string[],
  base: string,
  asOf: Instant,
): Promise<Side> {
  const source = asSource(await filesOf(repository, revision));
  const opened = await openAddresses(source, addresses, asOf);
  return { ...opened, label: labelOf(revision), commit: revision.commit, base };
}

async function ofWorkingCopy(
  { bare }: Repository,
  addresses: readonly string[],
  base: string,
  asOf: Instant,
): Promise<Side> {
  if (bare) {
    throw new CommandError(
      'This repository has no working copy. Name two revisions: --git OLD NEW.',
    );
  }
  return { ...(await openAddresses(onDisk, addresses, asOf)), label: 'the working copy', base };
}

function asSource(files: RevisionFiles): PlanSource {
  return {
    list: (folder) => files.list(folder),
    read: (uri) => files.read(uri),
    kindOf: async (address) => files.kindOf(address),
  };
}

/** `main (1a2b3c4d)`: the name, and which commit that was then. */
function labelOf({ text, commit }: Revision): string {
  return commit.startsWith(text) ? text : `${text} (${commit.slice(0, 8)})`;
}

async function addressesIn(
  repository: Repository,
  paths: readonly string[],
): Promise<readonly string[]> {
  const top = toAddress(repository.root);
  return Promise.all(
    (paths.length > 0 ? paths : ['.']).map(async (path) => {
      const address = toAddress(await followed(resolve(path)));
      if (address === top || isWithin(address, top)) return address;
      throw new CommandError(`"${path}" lies outside the repository ${repository.root}.`);
    }),
  );
}

function refuseNone(paths: readonly string[], before: Side, after: Side): void {
  if (before.files.length > 0 || after.files.length > 0) return;
  const where = paths.length > 0 ? paths.join(', ') : 'this folder';
  throw new CommandError(
    `There is no plan (a file ending in ${planEnding}) in ${where}, neither in ${before.label} nor in ${after.label}.`,
  );
}

/** A folder that is there, to ask git in: the path, or the nearest above it. */
async function folderIn(path: string): Promise<string> {
  const whole = await followed(resolve(path));
  const kind = await onDisk.kindOf(toAddress(whole));
  if (kind === 'folder') return whole;
  return folderIn(dirname(whole));
}

/** The path with its links followed, as far as it is there: a plan that is gone has a path too. The file itself may be a link of the repository. */
async function followed(path: string): Promise<string> {
  const folder = dirname(path);
  if (folder === path) return path;
  if ((await onDisk.kindOf(toAddress(path))) === 'folder') return realpath(path);
  return join(await followed(folder), basename(path));
}

function folderOf(address: string): string {
  return address.slice(0, address.lastIndexOf('/'));
}
