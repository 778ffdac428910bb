import * as vscode from 'vscode';
import { chooseRevision } from '../revisions/choose.ts';
import { gitOfEditor } from '../revisions/git.ts';
import { takeRevision } from '../revisions/take.ts';
import type { Command } from './index.ts';
import { planInSight } from './open-results.ts';

/**
 * Opens the changes of a plan since a revision: the one that is asked for, or,
 * where a lens names plan, revision and object, since that one and at that object.
 */
export const compareRevision: Command = async (
  { server, changes, besideHead },
  uri,
  named,
  object,
) => {
  const plan = typeof uri === 'string' ? uri : planInSight();
  if (!plan) {
    void vscode.window.showInformationMessage(
      'Open a plan (a file ending in .lwl) first; then choose what to compare it with.',
    );
    return;
  }
  let revision = typeof named === 'string' ? named : undefined;
  const git = await gitOfEditor();
  const repository = git?.getRepository(vscode.Uri.parse(plan));
  if (revision === undefined) {
    if (!git) {
      void vscode.window.showErrorMessage(
        'To compare with a revision the editor’s Git extension and git itself are needed, and neither is here, as in an editor in a browser. On a command line, "linkwright compare OLD NEW" compares two folders.',
      );
      return;
    }
    if (!repository) {
      void vscode.window.showErrorMessage(
        'This plan lies in no git repository that the editor has opened, so there is no revision to compare it with.',
      );
      return;
    }
    revision = await chooseRevision(repository);
    if (revision === undefined) return;
    besideHead.chosen(repository, revision);
  }
  try {
    await takeRevision(server, plan, revision, true);
  } catch (error) {
    void vscode.window.showErrorMessage(error instanceof Error ? error.message : `${error}`);
    return;
  }
  changes.open(plan, revision, typeof object === 'string' ? object : undefined);
};
