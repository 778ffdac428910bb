/**
 * What is used of the editor's own Git extension: which repository a file lies
 * in, what its revisions are called, and when its newest commit is another. Plans
 * of a revision are read by the server, which asks git once for all of them.
 */
import * as vscode from 'vscode';

export interface GitRepository {
  readonly rootUri: vscode.Uri;
  readonly state: {
    readonly HEAD: { readonly name?: string; readonly commit?: string } | undefined;
    readonly onDidChange: vscode.Event<void>;
  };
  getRefs(query: { readonly sort?: 'committerdate' }): Promise<readonly GitRef[]>;
  log(options: { readonly maxEntries: number }): Promise<readonly GitCommit[]>;
}

/** 0 a branch, 1 a branch of a remote, 2 a tag. */
export interface GitRef {
  readonly type: 0 | 1 | 2;
  readonly name?: string;
  readonly commit?: string;
}

export interface GitCommit {
  readonly hash: string;
  readonly message: string;
  readonly authorName?: string;
  readonly commitDate?: Date;
}

export interface Git {
  readonly repositories: readonly GitRepository[];
  readonly onDidOpenRepository: vscode.Event<GitRepository>;
  getRepository(uri: vscode.Uri): GitRepository | null;
}

interface GitExtension {
  readonly enabled: boolean;
  getAPI(version: 1): Git;
}

/** Undefined where the editor has no Git extension, or somebody has switched it off. */
export async function gitOfEditor(): Promise<Git | undefined> {
  const extension = vscode.extensions.getExtension<GitExtension>('vscode.git');
  if (!extension) return undefined;
  try {
    const exports = extension.isActive ? extension.exports : await extension.activate();
    return exports.enabled ? exports.getAPI(1) : undefined;
  } catch {
    // It has no model where no git is installed.
    return undefined;
  }
}
