/**
 * The results view's place in the editor: a webview beside the text. It passes
 * messages between the page and the server, tells the page where the cursor
 * stands, and shows in the text what was clicked in the page. It understands
 * only the messages that are the editor's own business.
 */
import * as vscode from 'vscode';
import type { Server } from '../server.ts';
import { showRange } from '../show-range.ts';
import { writeWhole } from '../write-whole.ts';
import { framed, frameOf } from './frame.ts';
import { type FromPage, readFromPage, type ToPage } from './messages.ts';

const viewType = 'linkwright.results';

export interface ResultsPanels extends vscode.Disposable {
  /** Shows the results of the plan that this document belongs to, at a link or channel if one is named. */
  open(uri: string, object?: string): void;
}

interface OpenPanel {
  readonly panel: vscode.WebviewPanel;
  readonly uri: string;
  /** Messages wait here until the page has asked its first question, which says that it listens. */
  waiting: ToPage[] | undefined;
}

type Asked = Extract<FromPage, { readonly kind: 'ask' }>;

interface Changed {
  readonly root: string;
  readonly objects: string[];
}

export function resultsPanels(context: vscode.ExtensionContext, server: Server): ResultsPanels {
  const open = new Map<vscode.WebviewPanel, OpenPanel>();

  function adopt(panel: vscode.WebviewPanel, uri: string): OpenPanel {
    const one: OpenPanel = { panel, uri, waiting: [] };
    open.set(panel, one);
    panel.webview.options = framed(context.extensionUri);
    panel.onDidDispose(() => open.delete(panel));
    panel.webview.onDidReceiveMessage((raw: unknown) => receive(one, raw));
    panel.webview.html = frameOf(panel.webview, context.extensionUri, {
      bundle: 'preview',
      title: 'Results',
      data: { plan: uri },
    });
    return one;
  }

  function create(uri: string): OpenPanel {
    const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
    return adopt(vscode.window.createWebviewPanel(viewType, 'Results', column), uri);
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
        post(one, await askServer(one, message));
        return;
      case 'show':
        await showRange(message.uri, message.range);
        return;
      case 'was':
        return;
      case 'edit':
        await applyEdits(message.edits);
        return;
      case 'copy':
        await vscode.env.clipboard.writeText(message.text);
        return;
      case 'save':
        await saveText(one.uri, message);
        return;
      case 'command':
        await vscode.commands.executeCommand(message.command);
        return;
    }
  }

  async function askServer(one: OpenPanel, { id, question }: Asked): Promise<ToPage> {
    try {
      const result = await server.ask<unknown>('linkwright/results', { uri: one.uri, question });
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
    server.hear<Changed>('linkwright/resultsChanged', ({ root, objects }) => {
      postToAll({ kind: 'changed', root, objects });
    }),
    server.watch((running) => postToAll({ kind: 'server', running })),
    vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => {
      if (textEditor.document.languageId !== 'linkwright') return;
      const { line, character } = textEditor.selection.active;
      postToAll({
        kind: 'cursor',
        uri: textEditor.document.uri.toString(),
        position: { line, character },
      });
    }),
    vscode.workspace.onDidSaveTextDocument(({ languageId, uri }) => {
      if (languageId === 'linkwright') postToAll({ kind: 'saved', uri: uri.toString() });
    }),
    vscode.window.registerWebviewPanelSerializer(viewType, {
      async deserializeWebviewPanel(panel, state: unknown) {
        const uri = (state as { uri?: unknown } | null)?.uri;
        if (typeof uri === 'string') adopt(panel, uri);
        else panel.dispose();
      },
    }),
  );

  return {
    open(uri, object) {
      const one = [...open.values()].find((each) => each.uri === uri) ?? create(uri);
      one.panel.reveal(undefined, true);
      if (object) post(one, { kind: 'select', object });
    },
    dispose() {
      listeners.dispose();
      for (const panel of [...open.keys()]) panel.dispose();
    },
  };
}

type TextEdits = Extract<FromPage, { readonly kind: 'edit' }>['edits'];

/** A fix that was chosen in the page, as one step that can be undone. */
async function applyEdits(edits: TextEdits): Promise<void> {
  const all = new vscode.WorkspaceEdit();
  for (const { uri, range, text } of edits) {
    const { start, end } = range;
    const place = new vscode.Range(start.line, start.character, end.line, end.character);
    all.replace(vscode.Uri.parse(uri), place, text);
  }
  await vscode.workspace.applyEdit(all);
}

/** Asks where to, beside the plan at first, and writes it. */
async function saveText(
  plan: string,
  { name, text }: Extract<FromPage, { kind: 'save' }>,
): Promise<void> {
  const target = await vscode.window.showSaveDialog({
    defaultUri: vscode.Uri.joinPath(vscode.Uri.parse(plan), '..', name),
    filters: { 'Comma-separated values': ['csv'] },
    title: 'Export readings',
  });
  if (target) await writeWhole(target, new TextEncoder().encode(text));
}
