import * as vscode from 'vscode';
import type { Command } from './index.ts';

/**
 * Opens the results beside the text: of the plan that `uri` belongs to, else of
 * the active editor's. With `object` they open at that link or channel.
 */
export const openResults: Command = ({ panels }, uri, object) => {
  const plan = typeof uri === 'string' ? uri : planInSight();
  if (plan) {
    panels.open(plan, typeof object === 'string' ? object : undefined);
    return;
  }
  void vscode.window.showInformationMessage(
    'Open a plan (a file ending in .lwl) first; its results then stand beside it.',
  );
};

export function planInSight(): string | undefined {
  const seen = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors];
  const documents = [...seen.map((editor) => editor?.document), ...vscode.workspace.textDocuments];
  return documents.find((each) => each?.languageId === 'linkwright')?.uri.toString();
}
