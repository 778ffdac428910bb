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
import type { FromPage, ToPage } from './messages.ts';
import { answered, type OpenPanel, OpenPanels } from './open-panels.ts';

const viewType = 'linkwright.results';

export interface ResultsPanels extends vscode.Disposable {
  /** Shows the results of the plan that this document belongs to, at a link or channel if one is named. */
  open(uri: string, object?: string): void;
}

type Asked = Extract<FromPage, { readonly kind: 'ask' }>;

export function resultsPanels(context: vscode.ExtensionContext, server: Server): ResultsPanels {
  const open = new OpenPanels<OpenPanel>(server);

  function adopt(panel: vscode.WebviewPanel, uri: string): OpenPanel {
    const one: OpenPanel = { panel, uri };
    open.add(one, (message) => answer(one, message));
    panel.webview.options = framed(context.extensionUri);
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

  async function answer(one: OpenPanel, message: FromPage): Promise<void> {
    switch (message.kind) {
      case 'ask':
        open.post(one, await askServer(one, message));
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

  function askServer({ uri }: OpenPanel, { id, question }: Asked): Promise<ToPage> {
    return answered(id, () => server.ask('linkwright/results', { uri, question }));
  }

  const listeners = vscode.Disposable.from(
    open,
    vscode.workspace.onDidSaveTextDocument(({ languageId, uri }) => {
      if (languageId === 'linkwright') open.postToAll({ kind: 'saved', uri: uri.toString() });
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
      const one = open.find((each) => each.uri === uri) ?? create(uri);
      one.panel.reveal(undefined, true);
      if (object) open.post(one, { kind: 'select', object });
    },
    dispose: () => listeners.dispose(),
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
