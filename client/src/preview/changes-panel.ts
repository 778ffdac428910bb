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
import { type FromPage, readFromPage, type ToPage } from './messages.ts';

const viewType = 'linkwright.changes';

export interface ChangesPanels extends vscode.Disposable {
  /** Shows what changed in the plan of this document since a revision, at an object if one is named. */
  open(uri: string, revision: string, object?: string): void;
}

interface OpenPanel {
  readonly panel: vscode.WebviewPanel;
  readonly uri: string;
  readonly revision: string;
  /** Messages wait here until the page has asked its first question, which says that it listens. */
  waiting: ToPage[] | undefined;
}

interface Changed {
  readonly root: string;
  readonly objects: string[];
}

export function changesPanels(context: vscode.ExtensionContext, server: Server): ChangesPanels {
  const open = new Map<vscode.WebviewPanel, OpenPanel>();

  function adopt(panel: vscode.WebviewPanel, uri: string, revision: string): OpenPanel {
    const one: OpenPanel = { panel, uri, revision, waiting: [] };
    open.set(panel, one);
    panel.webview.options = framed(context.extensionUri);
    panel.onDidDispose(() => open.delete(panel));
    panel.webview.onDidReceiveMessage((raw: unknown) => receive(one, raw));
    panel.webview.html = frameOf(panel.webview, context.extensionUri, {
      bundle: 'changes',
      title: 'Changes',
      data: { plan: uri, revision },
    });
    return one;
  }

  async function receive(one: OpenPanel, raw: unknown): Promise<void> {
    const message = readFromPage(raw);
    if (!message) return;
    const waiting = one.waiting ?? [];
    one.waiting = undefined;
    for (const each of waiting) post(one, each);
    await answer(one, message);
  }

  async function answer(one: OpenPanel, message: FromPage): Promise<void> {
    switch (message.kind) {
      case 'ask':
        post(one, await askServer(one, message.id));
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

  async function askServer({ uri, revision }: OpenPanel, id: number): Promise<ToPage> {
    try {
      const params = { uri, revision };
      let result = await server.ask<unknown>('linkwright/compare', params);
      if (result === null) {
        // A window that was loaded anew, or a server that was: nobody has told it of the revision.
        await takeRevision(server, uri, revision, false);
        result = await server.ask<unknown>('linkwright/compare', params);
      }
      return { kind: 'answer', id, result };
    } catch (error) {
      return { kind: 'failed', id, because: error instanceof Error ? error.message : `${error}` };
    }
  }

  function post(one: OpenPanel, message: ToPage): void {
    if (one.waiting) one.waiting.push(message);
    else void one.panel.webview.postMessage(message);
  }

  function postToAll(message: ToPage): void {
    for (const one of open.values()) post(one, message);
  }

  const listeners = vscode.Disposable.from(
    server.hear<Changed>('linkwright/resultsChanged', ({ root, objects }) =>
      postToAll({ kind: 'changed', root, objects }),
    ),
    server.watch((running) => postToAll({ kind: 'server', running })),
    vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      // A comment moves no result, and is a change all the same.
      if (document.languageId === 'linkwright' && contentChanges.length > 0)
        postToAll({ kind: 'saved', uri: document.uri.toString() });
    }),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
      const { document, selection } = textEditor;
      if (document.languageId !== 'linkwright') return;
      const { line, character } = selection.active;
      postToAll({ kind: 'cursor', uri: document.uri.toString(), position: { line, character } });
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
      const known = [...open.values()].find(
        (each) => each.uri === uri && each.revision === revision,
      );
      const one = known ?? create(uri, revision);
      one.panel.reveal(undefined, true);
      if (object) post(one, { kind: 'select', object });
      // Another commit may be called the same now.
      else if (known) post(one, { kind: 'saved', uri });
    },
    dispose() {
      listeners.dispose();
      for (const panel of [...open.keys()]) panel.dispose();
    },
  };

  function create(uri: string, revision: string): OpenPanel {
    const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    return adopt(vscode.window.createWebviewPanel(viewType, 'Changes', column), uri, revision);
  }
}
