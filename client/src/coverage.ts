/** The status bar says how far the readings at the cursor have come, and which one is next. */
import * as vscode from 'vscode';
import { newestOnly } from './newest-only.ts';
import type { Server } from './server.ts';

/** What the server says of the readings at a place; null where there are none. */
export interface Coverage {
  /** Link or channel, or the plan where the cursor is in none. */
  readonly object: string;
  readonly present: number;
  readonly expected: number;
  /** `+0.42 dB`, of a plan with the link; null where no reading is judged. */
  readonly margin: string | null;
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

/** `go`: the next place is gone to, and so looked for with more care. */
export function askCoverage(
  server: Server,
  editor: vscode.TextEditor,
  go = false,
): Promise<Coverage | null> {
  const { line, character } = editor.selection.active;
  return server.ask<Coverage | null>('linkwright/coverage', {
    textDocument: { uri: editor.document.uri.toString() },
    position: { line, character },
    go,
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
    const { object, present, expected, margin, next } = coverage;
    item.text = [
      `${object} ${present} of ${expected}`,
      margin === null ? '' : `worst margin ${margin}`,
      next ? `next ${next.what}` : '',
    ]
      .filter(Boolean)
      .join(', ');
    item.tooltip = next
      ? 'Readings made and expected, and what is left to the limit at the worst of them. Click to go to the next missing one.'
      : 'Readings made and expected, and what is left to the limit at the worst of them.';
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
