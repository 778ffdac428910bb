/**
 * A server in a web worker has no disk, and no server reaches the files of a
 * virtual workspace: the editor lists and reads them for it.
 */
import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';

export function lendFiles(client: BaseLanguageClient): vscode.Disposable[] {
  return [
    client.onRequest('linkwright/listFiles', async ({ folder }: { folder: string }) =>
      (await listPlans(vscode.Uri.parse(folder))).map((uri) => uri.toString()),
    ),
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

/** Where the editor itself searches: elsewhere a search may wait for ever for somebody who can. */
const searched = ['file', 'vscode-remote'];
/** A virtual workspace may be a repository with tens of thousands of folders, each a question. */
const mostFolders = 2000;

async function listPlans(folder: vscode.Uri): Promise<vscode.Uri[]> {
  return searched.includes(folder.scheme)
    ? vscode.workspace.findFiles(new vscode.RelativePattern(folder, '**/*.lwl'))
    : walk(folder);
}

/** Level by level, so that plans near the top are found where there are too many folders. */
async function walk(top: vscode.Uri): Promise<vscode.Uri[]> {
  const plans: vscode.Uri[] = [];
  let level = [top];
  for (let seen = 0; level.length > 0 && seen < mostFolders; seen += level.length) {
    const below: vscode.Uri[] = [];
    const some = level.slice(0, mostFolders - seen);
    for (const [index, entries] of (await Promise.all(some.map(read))).entries()) {
      const folder = some[index] ?? top;
      for (const [name, type] of entries) {
        const uri = vscode.Uri.joinPath(folder, name);
        if (type === vscode.FileType.File && name.endsWith('.lwl')) plans.push(uri);
        if (type === vscode.FileType.Directory && !left(name)) below.push(uri);
      }
    }
    level = below;
  }
  return plans;
}

async function read(folder: vscode.Uri): Promise<[string, vscode.FileType][]> {
  try {
    return await vscode.workspace.fs.readDirectory(folder);
  } catch {
    return [];
  }
}

/** Folders of tools, where nobody keeps plans. */
function left(name: string): boolean {
  return name.startsWith('.') || name === 'node_modules';
}
