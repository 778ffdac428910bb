/** Activation and wiring only. */
import * as vscode from 'vscode';

export function activate(context: vscode.ExtensionContext): void {
  context.subscriptions.push(
    vscode.commands.registerCommand('linkwright.newPlan', async () => {
      const document = await vscode.workspace.openTextDocument({ language: 'linkwright' });
      await vscode.window.showTextDocument(document);
    }),
  );
}
