/**
 * Runs inside the web worker beside the extension: fills the workspace in memory
 * with the test's files and opens the first one. The rest is done on the page.
 */
import * as vscode from 'vscode';

/** Never settles: the page is closed when the test is over. */
export async function run(): Promise<void> {
  const extension = vscode.extensions.getExtension('linkwright.linkwright')?.extensionUri;
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (!extension || !folder) throw new Error('No extension, or no workspace folder');
  const served = vscode.Uri.joinPath(extension, 'workspace.json').toString(true);
  const files = (await (await fetch(served)).json()) as Readonly<Record<string, string>>;
  for (const [name, text] of Object.entries(files)) {
    const file = vscode.Uri.joinPath(folder, name);
    await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(text));
  }
  const first = vscode.Uri.joinPath(folder, Object.keys(files)[0] ?? '');
  await vscode.window.showTextDocument(first, { preview: false });
  return new Promise(() => undefined);
}
