import * as vscode from 'vscode';
import type { Command } from './index.ts';

/** Opens an untitled plan with a first link in it, to be typed over. */
export const newPlan: Command = async ({ context }) => {
  const starter = vscode.Uri.joinPath(context.extensionUri, 'examples/first-link/first-link.lwl');
  const content = new TextDecoder().decode(await vscode.workspace.fs.readFile(starter));
  const document = await vscode.workspace.openTextDocument({ language: 'linkwright', content });
  await vscode.window.showTextDocument(document);
};
