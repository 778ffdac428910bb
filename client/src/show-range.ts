import * as vscode from 'vscode';

interface PlainRange {
  readonly start: { readonly line: number; readonly character: number };
  readonly end: { readonly line: number; readonly character: number };
}

/** Shows a place of a text in an editor that is open already, else in the first column. */
export async function showRange(uri: string, range: PlainRange): Promise<void> {
  const target = vscode.Uri.parse(uri);
  const open = vscode.window.visibleTextEditors.find(
    (editor) => editor.document.uri.toString() === target.toString(),
  );
  await vscode.window.showTextDocument(target, {
    viewColumn: open?.viewColumn ?? vscode.ViewColumn.One,
    selection: new vscode.Range(
      range.start.line,
      range.start.character,
      range.end.line,
      range.end.character,
    ),
  });
}
