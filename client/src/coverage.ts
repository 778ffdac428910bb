/** The status bar says how far the readings at the cursor have come, and which one is next. */
import * as vscode from 'vscode';
import type { Server } from './server.ts';

/** What the server says of the readings at a place; null where there are none. */
export interface Coverage {
  /** Link or channel, or the plan where the cursor is in none. */
  readonly object: string;
  readonly present: number;
  readonly expected: number;
  readonly next: {
    /** `fibre 7 850 nm B>A`. */
    readonly what: string;
    readonly uri: string;
    readonly range: {
      readonly start: { readonly line: number; readonly character: number };
      readonly end: { readonly line: number; readonly character: number };
    };
  } | null;
}

export function askCoverage(server: Server, editor: vscode.TextEditor): Promise<Coverage | null> {
  const { line, character } = editor.selection.active;
  return server.ask<Coverage | null>('linkwright/coverage', {
    textDocument: { uri: editor.document.uri.toString() },
    position: { line, character },
  });
}

export function showCoverage(server: Server): vscode.Disposable {
  const item = vscode.window.createStatusBarItem(
    'linkwright.coverage',
    vscode.StatusBarAlignment.Left,
    10,
  );
  item.name = 'Linkwright: readings';
  item.command = 'linkwright.nextMissingReading';
  const update = newestOnly(async () => {
    const editor = vscode.window.activeTextEditor;
    const coverage =
      editor?.document.languageId === 'linkwright' ? await askCoverage(server, editor) : null;
    if (!coverage || coverage.expected === 0) {
      item.hide();
      return;
    }
    const { object, present, expected, next } = coverage;
    item.text = `${object} ${present} of ${expected}${next ? `, next ${next.what}` : ''}`;
    item.tooltip = next
      ? 'Readings made and expected. Click to go to the next missing one.'
      : 'Readings made and expected.';
    item.show();
  });
  void update();
  return vscode.Disposable.from(
    item,
    vscode.window.onDidChangeTextEditorSelection(update),
    vscode.window.onDidChangeActiveTextEditor(update),
    vscode.languages.onDidChangeDiagnostics(update),
  );
}

/** Runs the work once for any number of calls that came while it ran. */
function newestOnly(work: () => Promise<void>): () => Promise<void> {
  let running = false;
  let again = false;
  return async function call() {
    if (running) {
      again = true;
      return;
    }
    running = true;
    try {
      do {
        again = false;
        await work();
      } while (again);
    } finally {
      running = false;
    }
  };
}
