/**
 * Runs inside the web worker beside the extension: fills the workspace in memory
 * with the test's files and opens the first one. The rest is done on the page, but
 * for commands that begin with a dialog of the machine, which no page can answer.
 */
import * as vscode from 'vscode';

/** Never settles: the page is closed when the test is over. */
export async function run(): Promise<never> {
  const extension = vscode.extensions.getExtension('linkwright.linkwright')?.extensionUri;
  const folder = vscode.workspace.workspaceFolders?.[0]?.uri;
  if (!extension || !folder) throw new Error('No extension, or no workspace folder');
  const served = vscode.Uri.joinPath(extension, 'workspace.json').toString(true);
  const files = (await (await fetch(served)).json()) as Readonly<Record<string, string>>;
  for (const [name, base64] of Object.entries(files)) {
    const file = vscode.Uri.joinPath(folder, name);
    const bytes = Uint8Array.from(atob(base64), (each) => each.charCodeAt(0));
    await vscode.workspace.fs.writeFile(file, bytes);
  }
  const first = vscode.Uri.joinPath(folder, Object.keys(files)[0] ?? '');
  await vscode.window.showTextDocument(first, { preview: false });
  for (;;) {
    const told = vscode.Uri.joinPath(extension, 'told.json').toString(true);
    const commands = (await (await fetch(told)).json()) as readonly Told[];
    for (const { command, file } of commands) {
      // A dialog may wait for the page for as long as it likes.
      void vscode.commands.executeCommand(command, vscode.Uri.joinPath(folder, file).toString());
    }
    await new Promise((done) => setTimeout(done, 200));
  }
}

/** A command to run on a file of the workspace: what a dialog of the machine would have chosen. */
interface Told {
  readonly command: string;
  readonly file: string;
}
