/**
 * The library's files behind a read-only scheme, so that going to the definition
 * of a fibre type works wherever the plan lies.
 */
import * as vscode from 'vscode';
import type { Server } from './server.ts';

const libraryScheme = 'linkwright-library';

export function serveLibrary(server: Server): vscode.Disposable {
  return vscode.workspace.registerTextDocumentContentProvider(libraryScheme, {
    async provideTextDocumentContent(uri, token) {
      const answer = await server.ask<{ text: string } | null>(
        'linkwright/libraryText',
        { uri: uri.toString() },
        token,
      );
      if (!answer) throw new Error(`The library has no file ${uri.path}.`);
      return answer.text;
    },
  });
}
