/**
 * The workbench as tests see it: a page to look at and type into, and the
 * extension host to ask. Nothing here waits for a time; everything polls for a
 * state and fails with what it saw last.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { type Browser, chromium, type Dialog, type Frame, type Page } from 'playwright-core';
import { afterAll, beforeAll, expect, inject } from 'vitest';
import type * as Vscode from 'vscode';
import { addressOfDoor } from './door.ts';

export type Vs = typeof Vscode;

export interface Workbench {
  /** The workbench in Chromium. */
  readonly page: Page;
  /** Runs a function in the extension host. It sees its two arguments and nothing around it. */
  host<A, R>(work: (vscode: Vs, argument: A) => R | PromiseLike<R>, argument: A): Promise<R>;
  host<R>(work: (vscode: Vs) => R | PromiseLike<R>): Promise<R>;
  /** Runs a command as a key binding would. */
  command(id: string, ...words: readonly unknown[]): Promise<unknown>;
  /** Makes a fresh folder in the workspace and opens the first of its files. */
  open(name: string, files: Readonly<Record<string, string | Uint8Array>>): Promise<string>;
  /** Opens a file of the workspace, by its path in it. */
  show(path: string): Promise<void>;
  /** Findings of a file as the Problems panel has them, once they satisfy the question. */
  findings(path: string, until: (names: readonly string[]) => boolean): Promise<readonly Finding[]>;
  /** The page inside a webview, once it is ready. */
  webview(): Promise<Frame>;
  /** Light and dark pictures in the ignored artefacts folder. */
  pictures(name: string): Promise<void>;
  /** Loads the window anew: the page and the extension host both begin again, one after the other. */
  reload(): Promise<void>;
  /** Closes every editor without saving, and every overlay. */
  clear(): Promise<void>;
}

export interface Finding {
  readonly name: string;
  readonly message: string;
  readonly severity: number;
  readonly line: number;
  readonly from: number;
  readonly to: number;
}

/** Connects this test file to the running workbench. */
export function useWorkbench(): Workbench {
  const place = inject('workbench');
  let browser: Browser | undefined;
  let page: Page | undefined;

  beforeAll(async () => {
    browser = await chromium.connectOverCDP(place.debugging);
    page = browser
      .contexts()
      .flatMap((context) => context.pages())
      .find((each) => !each.url().startsWith('devtools:'));
    await clear();
  });
  afterAll(async () => {
    await clear();
    await browser?.close();
  });

  async function host<A, R>(
    work: (vscode: Vs, argument: A) => R | PromiseLike<R>,
    argument?: A,
  ): Promise<R> {
    const response = await fetch(await addressOfDoor(place.doorFile), {
      method: 'POST',
      headers: { authorization: place.key },
      body: JSON.stringify({ source: work.toString(), argument }),
    });
    const { answer, error } = (await response.json()) as { answer: R; error?: string };
    if (error) throw new Error(`In the extension host: ${error}`);
    return answer;
  }

  function thePage(): Page {
    if (!page) throw new Error('The workbench is not connected yet.');
    return page;
  }

  async function command(id: string, ...words: readonly unknown[]): Promise<unknown> {
    // Answers such as editors and ranges hold cycles or handles: only plain ones come back.
    return host(
      async (vscode, { id, words }) => {
        const answer = await vscode.commands.executeCommand(id, ...words);
        const plain = ['string', 'number', 'boolean'].includes(typeof answer);
        return plain ? answer : undefined;
      },
      { id, words },
    );
  }

  async function show(path: string): Promise<void> {
    await host(
      async (vscode, file) => {
        const document = await vscode.workspace.openTextDocument(vscode.Uri.file(file));
        await vscode.window.showTextDocument(document, { preview: false });
      },
      join(place.workspace, path),
    );
    await thePage().locator('.editor-instance .monaco-editor .view-line').first().waitFor();
  }

  async function clear(): Promise<void> {
    await command('workbench.action.closeQuickOpen');
    await host(async (vscode) => {
      for (const document of vscode.workspace.textDocuments) {
        // The editor itself writes its settings, and saves them.
        const ours =
          document.isUntitled || vscode.workspace.getWorkspaceFolder(document.uri) !== undefined;
        if (!document.isDirty || !ours) continue;
        await vscode.window.showTextDocument(document);
        await vscode.commands.executeCommand('workbench.action.revertAndCloseActiveEditor');
      }
      await vscode.commands.executeCommand('workbench.action.closeAllEditors');
      await vscode.commands.executeCommand('notifications.clearAll');
      await vscode.commands.executeCommand('workbench.action.closePanel');
    });
  }

  async function theme(name: string, base: string): Promise<void> {
    await host(async (vscode, name) => {
      await vscode.workspace
        .getConfiguration('workbench')
        .update('colorTheme', name, vscode.ConfigurationTarget.Global);
    }, name);
    await thePage().locator(`.monaco-workbench.${base}`).waitFor();
  }

  return {
    get page() {
      return thePage();
    },
    host: host as Workbench['host'],
    command,
    show,
    clear,
    async reload() {
      rmSync(place.doorFile);
      const accept = (dialog: Dialog) => void dialog.accept().catch(() => undefined);
      thePage().on('dialog', accept);
      await thePage().reload({ waitUntil: 'commit', timeout: 120_000 });
      thePage().off('dialog', accept);
    },
    async open(name, files) {
      for (const [file, content] of Object.entries(files)) {
        const path = join(place.workspace, name, file);
        mkdirSync(dirname(path), { recursive: true });
        writeFileSync(path, content);
      }
      const first = Object.keys(files)[0];
      if (first) await show(`${name}/${first}`);
      return join(place.workspace, name);
    },
    async findings(path, until) {
      let last: readonly Finding[] = [];
      await expect
        .poll(
          async () => {
            last = await host(
              (vscode, file) => {
                const code = (each: Vscode.Diagnostic) =>
                  typeof each.code === 'object' ? each.code.value : each.code;
                return vscode.languages.getDiagnostics(vscode.Uri.file(file)).map((each) => ({
                  name: String(code(each) ?? ''),
                  message: each.message,
                  severity: each.severity as number,
                  line: each.range.start.line,
                  from: each.range.start.character,
                  to: each.range.end.character,
                }));
              },
              join(place.workspace, path),
            );
            const names = last.map((each) => each.name);
            return until(names) ? 'as wanted' : names;
          },
          { timeout: 30_000 },
        )
        .toBe('as wanted');
      return last;
    },
    async webview() {
      const outer = await thePage().locator('iframe.webview.ready').first().elementHandle();
      const outerFrame = await outer?.contentFrame();
      const inner = await outerFrame?.waitForSelector('iframe#active-frame');
      const frame = await inner?.contentFrame();
      if (!frame) throw new Error('The webview has no page.');
      return frame;
    },
    async pictures(name) {
      for (const [kind, label, base] of [
        ['light', 'Default Light Modern', 'vs'],
        ['dark', 'Default Dark Modern', 'vs-dark'],
      ] as const) {
        await theme(label, base);
        await thePage().screenshot({ path: join(place.artefacts, `${name}-${kind}.png`) });
      }
    },
  };
}
