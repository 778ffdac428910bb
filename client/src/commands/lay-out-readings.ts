import * as vscode from 'vscode';
import { asked } from '../asked.ts';
import { testerName } from '../tester.ts';
import type { Command } from './index.ts';

type LaidOut =
  | {
      readonly object: string;
      readonly uri: string;
      readonly range: vscode.Range;
      readonly newText: string;
      readonly cell: { readonly line: number; readonly character: number };
      readonly readings: number;
    }
  | { readonly because: string };

/** Writes a block with a row per fibre and a dash per missing reading, and selects the first dash. */
export const layOutReadings: Command = async ({ server }) => {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'linkwright') return;
  const by = await testerName();
  if (by === undefined) return;
  const question = { ...asked(editor), by };
  const answer = await server.ask<LaidOut>('linkwright/layOutReadings', question);
  if ('because' in answer) {
    void vscode.window.showInformationMessage(answer.because);
    return;
  }
  const { uri, range, newText, cell } = answer;
  const address = vscode.Uri.parse(uri);
  const edit = new vscode.WorkspaceEdit();
  const { start, end } = range;
  edit.replace(
    address,
    new vscode.Range(start.line, start.character, end.line, end.character),
    newText,
  );
  if (!(await vscode.workspace.applyEdit(edit))) return;
  const shown = await vscode.window.showTextDocument(address);
  shown.selection = new vscode.Selection(cell.line, cell.character, cell.line, cell.character + 1);
  shown.revealRange(shown.selection, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
};
