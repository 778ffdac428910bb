import * as vscode from 'vscode';
import type { Command } from './index.ts';

interface Example extends vscode.QuickPickItem {
  readonly source: vscode.Uri;
}

/**
 * Copies an example into a folder of the user's choice and opens it, so that
 * what they type is theirs and stays.
 */
export const openExample: Command = async ({ context }) => {
  const examples = await listExamples(vscode.Uri.joinPath(context.extensionUri, 'examples'));
  const picked = await vscode.window.showQuickPick(examples, { title: 'Open example' });
  if (!picked) return;
  const folder = await vscode.window.showOpenDialog({
    title: 'Choose a folder for the copy',
    openLabel: 'Copy here',
    canSelectFolders: true,
    canSelectFiles: false,
  });
  const parent = folder?.[0];
  if (!parent) return;
  const target = await freeName(parent, picked.label);
  await vscode.workspace.fs.copy(picked.source, target);
  const main = await mainFile(picked.source);
  if (main) await vscode.window.showTextDocument(vscode.Uri.joinPath(target, main));
};

async function listExamples(folder: vscode.Uri): Promise<Example[]> {
  const entries = await vscode.workspace.fs.readDirectory(folder);
  return entries
    .filter(([, type]) => type === vscode.FileType.Directory)
    .map(([name]) => name)
    .sort()
    .map((label) => ({ label, source: vscode.Uri.joinPath(folder, label) }));
}

/** Never copies over what is there: `mistakes`, then `mistakes-2`, `mistakes-3`. */
async function freeName(parent: vscode.Uri, name: string): Promise<vscode.Uri> {
  const taken = new Set((await vscode.workspace.fs.readDirectory(parent)).map(([each]) => each));
  let candidate = name;
  for (let count = 2; taken.has(candidate); count += 1) candidate = `${name}-${count}`;
  return vscode.Uri.joinPath(parent, candidate);
}

/** The file that is named like the folder, as `terminal.lwl` in `kestrel-quay-terminal`. */
async function mainFile(source: vscode.Uri): Promise<string | undefined> {
  const folder = source.path.slice(source.path.lastIndexOf('/') + 1);
  const plans = (await vscode.workspace.fs.readDirectory(source))
    .map(([name]) => name)
    .filter((name) => name.endsWith('.lwl'));
  return plans.find((name) => folder.endsWith(name.slice(0, -'.lwl'.length))) ?? plans[0];
}
