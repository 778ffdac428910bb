/**
 * Pages of one kind that stand open in the editor: what any page is told (results
 * that are others, a server that stops, the cursor of the text), and messages that
 * wait until a page listens.
 */
import * as vscode from 'vscode';
import type { Server } from '../server.ts';
import { type FromPage, readFromPage, type ToPage } from './messages.ts';

export interface OpenPanel {
  readonly panel: vscode.WebviewPanel;
  /** Document whose plan it shows. */
  readonly uri: string;
}

interface Changed {
  readonly root: string;
  readonly objects: string[];
}

export class OpenPanels<One extends OpenPanel> implements vscode.Disposable {
  /** With what waits until the page has asked its first question, which says that it listens. */
  readonly #open = new Map<One, ToPage[] | undefined>();
  readonly #listeners: vscode.Disposable;

  constructor(server: Server) {
    this.#listeners = vscode.Disposable.from(
      server.hear<Changed>('linkwright/resultsChanged', ({ root, objects }) =>
        this.postToAll({ kind: 'changed', root, objects }),
      ),
      server.watch((running) => this.postToAll({ kind: 'server', running })),
      vscode.window.onDidChangeTextEditorSelection(({ textEditor, kind }) => {
        const { document, selection } = textEditor;
        if (document.languageId !== 'linkwright') return;
        const { line, character } = selection.active;
        this.postToAll({
          kind: 'cursor',
          uri: document.uri.toString(),
          position: { line, character },
          whole: kind !== vscode.TextEditorSelectionChangeKind.Keyboard,
        });
      }),
    );
  }

  /** Keeps a page until it is closed; `answer` hears what it says. */
  add(one: One, answer: (message: FromPage) => Promise<void>): void {
    this.#open.set(one, []);
    one.panel.onDidDispose(() => this.#open.delete(one));
    one.panel.webview.onDidReceiveMessage(async (raw: unknown) => {
      const message = readFromPage(raw);
      if (!message) return;
      const waiting = this.#open.get(one) ?? [];
      this.#open.set(one, undefined);
      for (const each of waiting) this.post(one, each);
      await answer(message);
    });
  }

  find(fits: (one: One) => boolean): One | undefined {
    return [...this.#open.keys()].find(fits);
  }

  post(one: One, message: ToPage): void {
    const waiting = this.#open.get(one);
    if (waiting) waiting.push(message);
    else void one.panel.webview.postMessage(message);
  }

  postToAll(message: ToPage): void {
    for (const one of this.#open.keys()) this.post(one, message);
  }

  dispose(): void {
    this.#listeners.dispose();
    for (const { panel } of [...this.#open.keys()]) panel.dispose();
  }
}

/** The answer to a question of a page, or why there is none. */
export async function answered(id: number, ask: () => Promise<unknown>): Promise<ToPage> {
  try {
    return { kind: 'answer', id, result: await ask() };
  } catch (error) {
    return { kind: 'failed', id, because: error instanceof Error ? error.message : `${error}` };
  }
}
