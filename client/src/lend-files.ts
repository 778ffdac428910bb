/**
 * A server in a web worker has no disk, and no server reaches the files of a
 * virtual workspace: the editor lists and reads them for it.
 */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

export function lendFiles(client: BaseLanguageClient): vscode.Disposable[] {
  return [
    client.onRequest('linkwright/listFiles', async ({ folder }: { folder: string }) => {
      const pattern = new vscode.RelativePattern(vscode.Uri.parse(folder), '**/*.lwl');
      return (await vscode.workspace.findFiles(pattern)).map((uri) => uri.toString());
    }),
    client.onRequest('linkwright/readFile', async ({ uri }: { uri: string }) => {
      try {
        return [...(await vscode.workspace.fs.readFile(vscode.Uri.parse(uri)))];
      } catch {
        // Gone or never there: the server says so at the line that includes it.
        return null;
      }
    }),
  ];
}
