/**
 * Files as they were at a revision, read-only, behind a scheme of their own: the
 * left side of a diff editor. The server has them, since it compares with them.
 */
import * as vscode from 'vscode';
import type { Server } from '../server.ts';

const scheme = 'linkwright-was';

export function serveEarlierTexts(server: Server): vscode.Disposable {
  return vscode.workspace.registerTextDocumentContentProvider(scheme, {
    async provideTextDocumentContent(uri, token) {
      const { uri: file, revision } = readAddress(uri);
      const answer = await server.ask<{ text: string } | null>(
        'linkwright/earlierText',
        { uri: file, revision },
        token,
      );
      return answer?.text ?? '';
    },
  });
}

interface Shown {
  readonly uri: string;
  readonly range: {
    readonly start: { readonly line: number; readonly character: number };
    readonly end: { readonly line: number; readonly character: number };
  };
}

/** Opens the file as it was beside the file as it is, at a place of the file as it was. */
export async function showEarlier({ uri, range }: Shown, revision: string): Promise<void> {
  const now = vscode.Uri.parse(uri);
  const then = addressOf(now, revision);
  const name = now.path.split('/').at(-1) ?? '';
  const there = await exists(now);
  const column = { viewColumn: vscode.ViewColumn.One, preserveFocus: false };
  if (there) {
    const title = `${name}: ${revision} and now`;
    await vscode.commands.executeCommand('vscode.diff', then, now, title, column);
  } else {
    await vscode.window.showTextDocument(then, column);
  }
  const place = new vscode.Range(
    range.start.line,
    range.start.character,
    range.end.line,
    range.end.character,
  );
  const editor = vscode.window.visibleTextEditors.find(
    ({ document }) => document.uri.toString() === then.toString(),
  );
  if (!editor) return;
  editor.selection = new vscode.Selection(place.start, place.end);
  editor.revealRange(place, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
}

/** The path stays, so that the tab is named after the file and its language is known. */
function addressOf(file: vscode.Uri, revision: string): vscode.Uri {
  return file.with({ scheme, authority: '', query: JSON.stringify([file.toString(), revision]) });
}

function readAddress({ query }: vscode.Uri): { readonly uri: string; readonly revision: string } {
  const [uri, revision]: readonly unknown[] = JSON.parse(query) as unknown[];
  return { uri: String(uri), revision: String(revision) };
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return vscode.workspace.textDocuments.some(
      (document) => document.uri.toString() === uri.toString(),
    );
  }
}
