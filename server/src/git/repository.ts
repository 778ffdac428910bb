/** The repository that a folder lies in, and what a revision of it is called. */
import { realpath } from 'node:fs/promises';
import { ask, GitError, type Said } from './run.ts';

export interface Repository {
  /** Its top folder, links followed; of one without a working copy the folder that it is. */
  readonly root: string;
  /** It has no working copy: only two of its revisions can be compared. */
  readonly bare: boolean;
}

export interface Revision {
  /** As it was asked for: `main`, `HEAD~2`. */
  readonly text: string;
  /** The commit that it means, in full. */
  readonly commit: string;
}

/** @throws GitError where the folder lies in no repository, or in one that git does not trust. */
export async function repositoryAt(folder: string): Promise<Repository> {
  const said = await ask(folder, ['rev-parse', '--is-bare-repository', '--absolute-git-dir']);
  if (said.code !== 0) throw new GitError(whyNone(folder, said));
  const [bare, own = ''] = said.out.toString('utf8').split('\n');
  if (bare === 'true') return { root: await realpath(own), bare: true };
  const top = await ask(folder, ['rev-parse', '--show-toplevel']);
  if (top.code !== 0) {
    throw new GitError(`${folder} is git’s own folder. Compare from the folder of the plans.`);
  }
  return { root: await realpath(lineOf(top)), bare: false };
}

/** @throws GitError where there is no such commit here. */
export async function revisionOf({ root }: Repository, text: string): Promise<Revision> {
  if (text === '' || text.startsWith('-') || /[\0\n\r]/u.test(text)) {
    throw new GitError(`"${text}" is no revision. Name a branch, a tag or a commit.`);
  }
  if (text.includes('..')) {
    throw new GitError(`"${text}" is two revisions. Write them apart: --git OLD NEW.`);
  }
  const said = await ask(root, [
    'rev-parse',
    '--verify',
    '--quiet',
    '--end-of-options',
    `${text}^{commit}`,
  ]);
  const commit = said.out.toString('utf8').trim().split('\n').at(-1) ?? '';
  if (said.code === 0 && /^[0-9a-f]{40,64}$/u.test(commit)) return { text, commit };
  throw new GitError(`There is no revision "${text}" in this repository.${await whyMissing(root)}`);
}

/** Whether a word means a commit here. */
export async function isRevision(repository: Repository, text: string): Promise<boolean> {
  return revisionOf(repository, text).then(
    () => true,
    () => false,
  );
}

async function whyMissing(root: string): Promise<string> {
  const any = await ask(root, ['rev-list', '--all', '--max-count=1']);
  if (any.code === 0 && any.out.length === 0) return ' It has no commits yet.';
  const shallow = await ask(root, ['rev-parse', '--is-shallow-repository']);
  if (lineOf(shallow) !== 'true') return ' Look at the spelling, or fetch it first.';
  return ' This is a shallow clone, which holds the newest commits only: fetch the revision first, such as by "git fetch --unshallow".';
}

function whyNone(folder: string, { error }: Said): string {
  if (/dubious ownership/u.test(error)) {
    return `git does not trust the repository of ${folder}, since another user owns it. If you do, say so once: git config --global --add safe.directory FOLDER.`;
  }
  if (/not a git repository/u.test(error)) {
    return `${folder} lies in no git repository. Compare two folders instead: compare OLD NEW.`;
  }
  return `git cannot read the repository of ${folder}: ${firstOf(error)}`;
}

function lineOf({ out }: Said): string {
  return out.toString('utf8').replace(/\n$/u, '');
}

function firstOf(error: string): string {
  return error.split('\n')[0] || 'it gave no reason.';
}
