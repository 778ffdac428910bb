/** Who measures: written into each new block of readings, since a record names the tester. */
import * as vscode from 'vscode';

/** The name from the settings; asked for where there is none, and kept there. Undefined: the question was left. */
export async function testerName(): Promise<string | undefined> {
  const settings = vscode.workspace.getConfiguration('linkwright');
  const known = settings.get<string>('tester', '').trim();
  if (known !== '') return known;
  const typed = await vscode.window.showInputBox({
    title: 'Who measures?',
    prompt:
      'Your name as it stands in the record. It is kept in your settings; empty leaves it out.',
    ignoreFocusOut: true,
  });
  const name = typed?.trim();
  if (name) await settings.update('tester', name, vscode.ConfigurationTarget.Global);
  return name;
}
