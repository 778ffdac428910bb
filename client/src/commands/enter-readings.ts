/**
 * Asks for one reading after the other. Each is written into its row at once,
 * as an edit like any other, so that undo, saving and the editor's own backup
 * hold it; where it goes is asked of the server every time, so that the text
 * may be edited by hand meanwhile.
 */
import * as vscode from 'vscode';
import { asked, minute } from '../asked.ts';
import type { Server } from '../server.ts';
import { testerName } from '../tester.ts';
import type { Command } from './index.ts';
import { chooseOrder, type ReadingsToEnter, type ToEnter } from './reading-order.ts';

type Entered =
  | {
      readonly uri: string;
      readonly edit: { readonly range: vscode.Range; readonly newText: string };
      readonly written: string;
      readonly cell: vscode.Range;
      readonly verdict: string;
      readonly said: string;
      readonly doubts: readonly string[];
    }
  | { readonly problem: string };

export const enterReadings: Command = async ({ server }) => {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'linkwright') return;
  const there = await server.ask<ReadingsToEnter | null>(
    'linkwright/readingsToEnter',
    asked(editor),
  );
  if (!there || there.readings.length === 0) {
    const none = there
      ? `${there.object}: no reading is missing and none asks to be read again.`
      : 'No reading of this plan is missing.';
    void vscode.window.showInformationMessage(none);
    return;
  }
  const by = await testerName();
  if (by === undefined) return;
  const around = () =>
    server.ask<ReadingsToEnter | null>('linkwright/readingsByPanel', asked(editor));
  const chosen = await chooseOrder(there, around);
  if (chosen) await new Entering(server, editor.document.uri, by, chosen.of, chosen.readings).run();
};

/** Has the editor's own key for going back. */
const back = vscode.QuickInputButtons.Back;
/** Typed in place of a reading, goes back to the one before. */
const backWord = 'back';
/** Stands where nothing is read; in place of what was typed, takes it out again. */
const none = '-';
const skip: vscode.QuickInputButton = {
  iconPath: new vscode.ThemeIcon('arrow-right'),
  tooltip: 'Skip this reading for now',
};

class Entering {
  readonly #server: Server;
  readonly #uri: vscode.Uri;
  readonly #by: string;
  readonly #of: ReadingsToEnter;
  readonly #readings: readonly ToEnter[];
  readonly #box = vscode.window.createInputBox();
  /** As each reading that is written stands in its cell. */
  readonly #typed = new Map<ToEnter, string>();
  /** What stands in the text and was not typed here. */
  #byHand: ReadonlySet<ToEnter> = new Set();
  /** In the order in which they were come to; the last is the one before this. */
  readonly #before: number[] = [];
  #at = 0;
  /** What was said of the reading before. */
  #said = '';
  /** A text that was questioned once: typed again, it is kept. */
  #questioned: string | undefined;
  #busy = false;
  /** Accepted and not yet dealt with. */
  readonly #ahead: string[] = [];

  constructor(
    server: Server,
    uri: vscode.Uri,
    by: string,
    of: ReadingsToEnter,
    readings: readonly ToEnter[],
  ) {
    this.#server = server;
    this.#uri = uri;
    this.#by = by;
    this.#of = of;
    this.#readings = readings;
  }

  /** Ends when all are typed, or when the box is closed. */
  run(): Promise<void> {
    const box = this.#box;
    box.ignoreFocusOut = true;
    box.buttons = [back, skip];
    return new Promise((resolve) => {
      box.onDidTriggerButton((button) => {
        box.value = '';
        void this.#alone(async () => (button === back ? this.#goBack() : this.#go()));
      });
      box.onDidChangeValue((value) => {
        // What was questioned is put back by ourselves.
        if (value === '' || value === this.#questioned) return;
        this.#questioned = undefined;
        box.validationMessage = undefined;
      });
      box.onDidAccept(() => void this.#accept());
      box.onDidHide(() => {
        box.dispose();
        resolve();
      });
      this.#ask();
      box.show();
    });
  }

  #ask(): void {
    const { again, present, expected } = this.#of;
    const { object, place, column, ports, limit } = this.#readings[this.#at]!;
    const box = this.#box;
    const read = again
      ? ''
      : ` (${present + this.#typed.size + this.#byHand.size} of ${expected} read)`;
    box.title = `${object} · ${place} · ${column}${read}`;
    box.step = this.#at + 1;
    box.totalSteps = this.#readings.length;
    const what = [ports, limit && `limit ${limit}`].filter(Boolean).join(', ');
    const before = this.#said ? `${this.#said}. ` : '';
    const typed = this.#typed.get(this.#readings[this.#at]!);
    const now = typed === undefined ? 'Now' : `Written as ${typed}, to be put right:`;
    const more =
      typed === undefined ? 'nothing skips it' : `nothing leaves it, ${none} takes it out`;
    box.prompt = `${before}${now} ${place} at ${column}${what ? `: ${what}` : ''}. A number, or dark; ${more}, ${backWord} goes to the one before.`;
    box.placeholder = typed ?? 'Reading';
    box.validationMessage = undefined;
    this.#questioned = undefined;
  }

  /** On, round the list, past what is written, here or by hand meanwhile, until nothing is left. */
  async #go(): Promise<void> {
    await this.#lookByHand();
    const { length } = this.#readings;
    for (let step = 1; step <= length; step++) {
      const at = (this.#at + step) % length;
      if (this.#isDone(this.#readings[at]!)) continue;
      this.#before.push(this.#at);
      this.#at = at;
      this.#ask();
      return;
    }
    this.#finish();
  }

  #isDone(reading: ToEnter): boolean {
    return this.#typed.has(reading) || this.#byHand.has(reading);
  }

  /** What somebody else wrote is not asked for; what is read again stands already. */
  async #lookByHand(): Promise<void> {
    if (this.#of.again) return;
    const open = this.#readings.filter((each) => !this.#typed.has(each));
    const stand = await this.#server.ask<readonly boolean[]>('linkwright/readingsStanding', {
      textDocument: { uri: this.#uri.toString() },
      readings: open.map(({ object, fibre, wavelength, direction }) => ({
        object,
        fibre,
        wavelength,
        direction,
      })),
    });
    this.#byHand = new Set(open.filter((_, index) => stand[index]));
  }

  /** To the reading before, written or skipped: one that was mistyped is put right there. */
  #goBack(): void {
    const at = this.#before.pop();
    if (at === undefined) {
      this.#show('This is the first reading.', vscode.InputBoxValidationSeverity.Info);
      return;
    }
    this.#said = '';
    this.#at = at;
    this.#ask();
  }

  #finish(): void {
    const { object } = this.#of;
    const count = this.#typed.size;
    this.#box.hide();
    const last = this.#said === '' ? '' : ` Last, ${this.#said}.`;
    void vscode.window.showInformationMessage(
      `${object}: ${count} ${count === 1 ? 'reading' : 'readings'} entered.${last}`,
    );
  }

  /** The box is empty again at once: who types faster than the server answers loses nothing. */
  async #accept(): Promise<void> {
    this.#ahead.push(this.#box.value.trim());
    this.#box.value = '';
    await this.#alone(async () => {
      for (;;) {
        const text = this.#ahead.shift();
        if (text === undefined) return;
        const isSkip = text === none && !this.#typed.has(this.#readings[this.#at]!);
        if (text === '' || isSkip) await this.#go();
        else if (text.toLowerCase() === backWord) this.#goBack();
        else await this.#enter(text);
      }
    });
  }

  /** One thing at a time: a key pressed meanwhile does nothing. */
  async #alone(work: () => Promise<void>): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    this.#box.busy = true;
    try {
      await work();
    } finally {
      this.#busy = false;
      this.#box.busy = false;
    }
  }

  async #enter(text: string): Promise<void> {
    const reading = this.#readings[this.#at]!;
    const answer = await this.#answerTo(reading, text);
    if ('problem' in answer) {
      this.#putBack(text, answer.problem, vscode.InputBoxValidationSeverity.Error);
      return;
    }
    const [doubt, ...more] = answer.doubts;
    if (doubt !== undefined && this.#questioned !== text) {
      const others = more.length > 0 ? ` And ${more.length} more to look at.` : '';
      const sentence = `${doubt}${others} Enter writes it all the same.`;
      this.#putBack(text, sentence, vscode.InputBoxValidationSeverity.Warning);
      return;
    }
    const { range, newText } = answer.edit;
    const { start, end } = range;
    const edit = new vscode.WorkspaceEdit();
    edit.replace(
      vscode.Uri.parse(answer.uri),
      new vscode.Range(start.line, start.character, end.line, end.character),
      newText,
    );
    if (!(await vscode.workspace.applyEdit(edit))) {
      const again = 'The text changed at this moment and nothing was written. Press Enter again.';
      this.#putBack(text, again, vscode.InputBoxValidationSeverity.Error);
      return;
    }
    if (text === none) this.#typed.delete(reading);
    else this.#typed.set(reading, answer.written);
    this.#said = answer.said;
    vscode.window.setStatusBarMessage(answer.said, 10_000);
    await showWritten(vscode.Uri.parse(answer.uri), answer.cell);
    await this.#go();
  }

  /** As the text is now: asked again where somebody edited it while the server answered. */
  async #answerTo(reading: ToEnter, text: string): Promise<Entered> {
    const { object, fibre, wavelength, direction } = reading;
    for (;;) {
      let edited = false;
      const listener = vscode.workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
        edited ||= document.languageId === 'linkwright' && contentChanges.length > 0;
      });
      try {
        const answer = await this.#server.ask<Entered>('linkwright/enterReading', {
          textDocument: { uri: this.#uri.toString() },
          object,
          key: { fibre, wavelength, direction },
          text,
          now: minute(new Date()),
          by: this.#by,
          instead: this.#typed.get(reading),
        });
        if (!edited) return answer;
      } finally {
        listener.dispose();
      }
    }
  }

  /** Stands in the box again, with what is said of it; what was typed after it waits for an answer no longer. */
  #putBack(text: string, message: string, severity: vscode.InputBoxValidationSeverity): void {
    this.#ahead.length = 0;
    this.#questioned = text;
    this.#box.value = text;
    this.#show(message, severity);
  }

  #show(message: string, severity: vscode.InputBoxValidationSeverity): void {
    this.#box.validationMessage = { message, severity };
  }
}

/** The box covers so many lines of the editor. */
const covered = 9;

/** Puts the cursor behind what was written, where its row is seen: hint and results say how it is judged. */
async function showWritten(uri: vscode.Uri, { end }: vscode.Range): Promise<void> {
  const shown = vscode.window.visibleTextEditors.find(
    ({ document }) => document.uri.toString() === uri.toString(),
  );
  const editor =
    shown ??
    (await vscode.window.showTextDocument(uri, {
      viewColumn: vscode.ViewColumn.One,
      preserveFocus: true,
      preview: false,
    }));
  const at = new vscode.Position(end.line, end.character);
  editor.selection = new vscode.Selection(at, at);
  const [first] = editor.visibleRanges;
  const isCovered = first !== undefined && at.line < first.start.line + covered;
  editor.revealRange(
    editor.selection,
    isCovered
      ? vscode.TextEditorRevealType.InCenter
      : vscode.TextEditorRevealType.InCenterIfOutsideViewport,
  );
}
