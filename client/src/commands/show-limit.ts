import * as vscode from 'vscode';
import type { Command } from './index.ts';

/** Opens the working of the limit at the cursor: its terms, counts, figures and sources. */
export const showLimit: Command = async () => {
  // The hover at a link's name or a reading is that working; it takes the focus so that the
  // keyboard and a screen reader can read on in it.
  await vscode.commands.executeCommand('editor.action.showHover', {
    focus: 'autoFocusImmediately',
  });
};
