/** What a question to the server about a place says: the cursor, and the minute on the tester's clock. */
import type * as vscode from 'vscode';

export function asked(editor: vscode.TextEditor): {
  readonly textDocument: { readonly uri: string };
  readonly position: { readonly line: number; readonly character: number };
  readonly now: string;
} {
  const { line, character } = editor.selection.active;
  return {
    textDocument: { uri: editor.document.uri.toString() },
    position: { line, character },
    now: minute(new Date()),
  };
}

/** `2026-03-14 09:05`, as a clock on the wall shows it. */
export function minute(at: Date): string {
  const two = (value: number) => String(value).padStart(2, '0');
  const day = `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
  return `${day} ${two(at.getHours())}:${two(at.getMinutes())}`;
}
