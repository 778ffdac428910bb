import * as vscode from 'vscode';
import type { Command } from './index.ts';

/** Opens the working of the limit at the cursor: its terms, counts, figures and sources. */
export const showLimit: Command = async () => {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId === 'linkwright') await goToName(editor);
  // The hover at a link's name or a reading is that working; it takes the focus so that the
  // keyboard and a screen reader can read on in it.
  await vscode.commands.executeCommand('editor.action.showHover', {
    focus: 'autoFocusImmediately',
  });
};

/** On a line inside a link, channel or ring the working is that of its name. */
async function goToName(editor: vscode.TextEditor): Promise<void> {
  const at = editor.selection.active;
  const symbols = await vscode.commands.executeCommand<
    readonly vscode.DocumentSymbol[] | undefined
  >('vscode.executeDocumentSymbolProvider', editor.document.uri);
  const around = symbols?.find(({ range }) => range.contains(at));
  const isLink = around?.kind === vscode.SymbolKind.Interface;
  if (!isLink || around.selectionRange.start.line === at.line) return;
  const { start } = around.selectionRange;
  editor.selection = new vscode.Selection(start, start);
  editor.revealRange(around.selectionRange);
}
