/**
 * The place of the changes in the editor: a webview beside the text, as the
 * results have. It asks the server for the comparison again whenever results are
 * others, and shows in the text, or in the text as it was, what was clicked.
 */
import * as vscode from 'vscode';
import { takeRevision } from '../revisions/take.ts';
import { showEarlier } from '../revisions/was.ts';
import type { Server } from '../server.ts';
import { showRange } from '../show-range.ts';
import { framed, frameOf } from './frame.ts';
import type { FromPage } from './messages.ts';
import { answered, type OpenPanel, OpenPanels } from './open-panels.ts';

const viewType = 'linkwright.changes';

export interface ChangesPanels extends vscode.Disposable {
  /** Shows what changed in the plan of this document since a revision, at an object if one is named. */
  open(uri: string, revision: string, object?: string): void;
}

interface ChangesPanel extends OpenPanel {
  readonly revision: string;
}

export function changesPanels(context: vscode.ExtensionContext, server: Server): ChangesPanels {
  const open = new OpenPanels<ChangesPanel>(server);

  function adopt(panel: vscode.WebviewPanel, uri: string, revision: string): ChangesPanel {
    const one: ChangesPanel = { panel, uri, revision };
    open.add(one, (message) => answer(one, message));
    panel.webview.options = framed(context.extensionUri);
    panel.webview.html = frameOf(panel.webview, context.extensionUri, {
      bundle: 'changes',
      title: 'Changes',
      data: { plan: uri, revision },
    });
    return one;
  }

  async function answer(one: ChangesPanel, message: FromPage): Promise<void> {
    switch (message.kind) {
      case 'ask':
        open.post(one, await answered(message.id, () => compared(one)));
        return;
      case 'show':
        await showRange(message.uri, message.range);
        return;
      case 'was':
        await showEarlier(message, one.revision);
        return;
      case 'command':
        await vscode.commands.executeCommand(message.command);
        return;
      default:
        return;
    }
  }

  async function compared({ uri, revision }: ChangesPanel): Promise<unknown> {
    const params = { uri, revision };
    const result = await server.ask<unknown>('linkwright/compare', params);
    if (result !== null) return result;
    // A window that was loaded anew, or a server that was: nobody has told it of the revision.
    await takeRevision(server, uri, revision, false);
    return server.ask('linkwright/compare', params);
  }

  const listeners = vscode.Disposable.from(
    open,
    vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      // A comment moves no result, and is a change all the same.
      if (document.languageId === 'linkwright' && contentChanges.length > 0)
        open.postToAll({ kind: 'saved', uri: document.uri.toString() });
    }),
    vscode.window.registerWebviewPanelSerializer(viewType, {
      async deserializeWebviewPanel(panel, state: unknown) {
        const { uri, revision } = (state ?? {}) as { uri?: unknown; revision?: unknown };
        if (typeof uri === 'string' && typeof revision === 'string') adopt(panel, uri, revision);
        else panel.dispose();
      },
    }),
  );

  return {
    open(uri, revision, object) {
      const known = open.find((each) => each.uri === uri && each.revision === revision);
      const one = known ?? create(uri, revision);
      one.panel.reveal(undefined, true);
      if (object) open.post(one, { kind: 'select', object });
      // Another commit may be called the same now.
      else if (known) open.post(one, { kind: 'saved', uri });
    },
    dispose: () => listeners.dispose(),
  };

  function create(uri: string, revision: string): ChangesPanel {
    const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    return adopt(vscode.window.createWebviewPanel(viewType, 'Changes', column), uri, revision);
  }
}
