import * as vscode from 'vscode';
import { asked } from '../asked.ts';
import { testerName } from '../tester.ts';
import type { Command } from './index.ts';

interface Fitting {
  readonly object: string;
  readonly uri: string;
  readonly edits: readonly { readonly range: vscode.Range; readonly newText: string }[];
  readonly readings: number;
  readonly left: readonly string[];
  readonly doubts: readonly string[];
}

type Pasted = Fitting | { readonly because: string };

/** Brings a block copied from a spreadsheet to the rows of the link at the cursor, shown as they will stand before they are written. */
export const pasteReadings: Command = async ({ server }) => {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'linkwright') return;
  const { version } = editor.document;
  const text = await vscode.env.clipboard.readText();
  const by = await testerName();
  if (by === undefined) return;
  const question = { ...asked(editor), text, by };
  const answer = await server.ask<Pasted>('linkwright/pasteReadings', question);
  if ('because' in answer) {
    void vscode.window.showWarningMessage(answer.because);
    return;
  }
  const { uri, edits } = answer;
  if (!(await looksRight(answer))) return;
  if (editor.document.version !== version) {
    void vscode.window.showWarningMessage(
      'The text was edited meanwhile and nothing was written. Run Paste readings again.',
    );
    return;
  }
  const edit = new vscode.WorkspaceEdit();
  for (const { range, newText } of edits) {
    const { start, end } = range;
    edit.replace(
      vscode.Uri.parse(uri),
      new vscode.Range(start.line, start.character, end.line, end.character),
      newText,
    );
  }
  await vscode.workspace.applyEdit(edit);
};

/** Shows the rows as they will stand, and what is not taken; true if they are to be written. */
function looksRight({ object, edits, readings, left, doubts }: Fitting): Promise<boolean> {
  const rows = edits.flatMap(({ newText }) => newText.trim().split('\n'));
  const count = `${readings} ${readings === 1 ? 'reading' : 'readings'}`;
  const write = { label: `Write ${count}${doubts.length > 0 ? ' all the same' : ''}` };
  const list = vscode.window.createQuickPick();
  list.title = `${object}: ${readings} of the copied values find their places`;
  list.placeholder = 'Enter writes them, Escape leaves the text as it is';
  list.ignoreFocusOut = true;
  list.items = [
    write,
    ...(doubts.length > 0 ? [partOf('to look at first'), ...doubts.flatMap(linesOf)] : []),
    ...(left.length > 0 ? [partOf('not taken'), ...left.flatMap(linesOf)] : []),
    partOf('as they will stand'),
    ...rows.map((row) => ({ label: row.trim().replace(/ {2,}/gu, ' \u2003') })),
  ];
  return new Promise((resolve) => {
    list.onDidAccept(() => {
      if (list.activeItems[0] !== write) return;
      resolve(true);
      list.hide();
    });
    list.onDidHide(() => {
      resolve(false);
      list.dispose();
    });
    list.show();
  });
}

/** As many letters as fit into a line of the list, and of the smaller one below it. */
const [labelFits, detailFits] = [76, 88];

/** A sentence in as many lines as it takes: a list cuts off what is too wide for it. */
function linesOf(sentence: string): vscode.QuickPickItem[] {
  const [label, rest] = brokenAt(sentence, labelFits);
  const [detail, more] = brokenAt(rest, detailFits);
  return [{ label, ...(detail === '' ? {} : { detail }) }, ...(more === '' ? [] : linesOf(more))];
}

/** Ends with its last word that fits. */
function brokenAt(text: string, most: number): readonly [string, string] {
  if (text.length <= most) return [text, ''];
  const space = text.lastIndexOf(' ', most);
  const end = space > 0 ? space : most;
  return [text.slice(0, end), text.slice(end).trim()];
}

function partOf(label: string): vscode.QuickPickItem {
  return { label, kind: vscode.QuickPickItemKind.Separator };
}
