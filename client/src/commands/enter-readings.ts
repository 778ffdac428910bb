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

interface ToEnter {
  readonly object: string;
  readonly panel: string;
  readonly fibre: number;
  readonly wavelength: number;
  readonly direction: string;
  readonly place: string;
  readonly column: string;
  readonly ports: string;
  readonly limit: string;
}

interface ReadingsToEnter {
  readonly object: string;
  readonly title: string;
  readonly again: boolean;
  readonly present: number;
  readonly expected: number;
  readonly readings: readonly ToEnter[];
}

type Entered =
  | {
      readonly uri: string;
      readonly edit: { readonly range: vscode.Range; readonly newText: string };
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
  const chosen = await choose(there, around);
  if (chosen) await new Entering(server, editor.document.uri, by, chosen.of, chosen.readings).run();
};

interface Way extends vscode.QuickPickItem {
  readonly readings: readonly ToEnter[];
}

interface Chosen {
  readonly of: ReadingsToEnter;
  readonly readings: readonly ToEnter[];
}

const byPanel = 'Panel by panel';

/** Which readings, in which order: asked once, before the first. */
async function choose(
  there: ReadingsToEnter,
  around: () => Promise<ReadingsToEnter | null>,
): Promise<Chosen | undefined> {
  const { object, title, again, readings } = there;
  const panel = readings[0]?.panel ?? '';
  const columns = [...new Set(readings.map(({ column }) => column))];
  const ways: Way[] = [
    {
      label: 'Fibre by fibre',
      description: `every wavelength and direction of a fibre, then the next: ${readings.length} readings`,
      readings,
    },
    {
      label: 'Column by column',
      description: `one wavelength and direction of all fibres, then the next`,
      readings: columns.flatMap((column) => readings.filter((each) => each.column === column)),
    },
    ...columns.map((column) => {
      const own = readings.filter((each) => each.column === column);
      return { label: column, description: `${own.length} readings`, readings: own };
    }),
    ...(panel === ''
      ? []
      : [
          {
            label: byPanel,
            description: `of all links port by port as you walk, ${panel} first`,
            readings,
          },
        ]),
  ];
  const way = await vscode.window.showQuickPick(ways, {
    title: `${object}${title ? `, ${title}` : ''}: ${again ? 'read again' : 'readings to enter'}`,
    placeHolder: 'In which order do you read?',
  });
  if (!way) return undefined;
  const walk = way.label === byPanel ? await around() : undefined;
  const of = walk ?? there;
  const all = walk?.readings ?? way.readings;
  const fibres = new Set(all.map(placeOf)).size;
  if (fibres < 3) return { of, readings: all };
  const order = await vscode.window.showQuickPick(
    [
      { label: 'Every fibre, upwards', step: 1, back: false },
      { label: 'Every second fibre, then the others', step: 2, back: false },
      { label: 'Every fibre, downwards', step: 1, back: true },
      { label: 'Another step…', step: 0, back: false },
    ],
    { title: object, placeHolder: 'From fibre to fibre' },
  );
  if (!order) return undefined;
  const step = (order.back ? -1 : 1) * (order.step || (await askStep(object, fibres)) || 0);
  if (!step) return undefined;
  return {
    of,
    readings: panelsIn({ ...way, readings: all }, walk !== undefined).flatMap((each) =>
      inSteps(each, step),
    ),
  };
}

/** What is stepped through for itself: on a walk each panel, else all. */
function panelsIn(way: Way, apart: boolean): readonly Way[] {
  if (!apart) return [way];
  return [...new Set(way.readings.map(({ panel }) => panel))].map((panel) => ({
    ...way,
    readings: way.readings.filter((each) => each.panel === panel),
  }));
}

/** A fibre of a link. */
function placeOf({ object, fibre }: ToEnter): string {
  return `${fibre} of ${object}`;
}

async function askStep(object: string, fibres: number): Promise<number | undefined> {
  const typed = await vscode.window.showInputBox({
    title: object,
    prompt: 'How many fibres on from one to the next? A minus goes downwards.',
    validateInput: (text) =>
      /^-?[1-9]\d*$/u.test(text.trim()) && Math.abs(Number(text)) < fibres
        ? undefined
        : `A whole number from 1 to ${fibres - 1}, or the same with a minus.`,
  });
  return typed === undefined ? undefined : Number(typed);
}

/** With a step of 12: fibres 1, 13, 25 …, then 2, 14, 26 …; within one column, or one fibre, the order stays. */
function inSteps(way: Way, step: number): readonly ToEnter[] {
  const upwards = [...new Set(way.readings.map(placeOf))];
  const fibres = step < 0 ? upwards.toReversed() : upwards;
  const size = Math.abs(step);
  const order = new Map<string, number>();
  for (let start = 0; start < size; start++) {
    for (let at = start; at < fibres.length; at += size) order.set(fibres[at]!, order.size);
  }
  const byColumn = way.label === 'Column by column';
  const columns = new Map(
    [...new Set(way.readings.map(({ column }) => column))].map((column, index) => [column, index]),
  );
  return [...way.readings].sort((a, b) => {
    const fibre = order.get(placeOf(a))! - order.get(placeOf(b))!;
    const column = columns.get(a.column)! - columns.get(b.column)!;
    return byColumn ? column || fibre : fibre || column;
  });
}

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
  /** What was typed of each reading that is written. */
  readonly #typed = new Map<ToEnter, string>();
  /** In the order in which they were come to; the last is the one before this. */
  readonly #before: number[] = [];
  #at = 0;
  /** What was said of the reading before. */
  #said = '';
  /** A text that was questioned once: typed again, it is kept. */
  #questioned: string | undefined;
  #busy = false;

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
      box.onDidTriggerButton((button) => (button === back ? this.#goBack() : this.#go()));
      box.onDidChangeValue(() => {
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
    const read = again ? '' : ` (${present + this.#typed.size} of ${expected} read)`;
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
    box.value = '';
    box.validationMessage = undefined;
    this.#questioned = undefined;
  }

  /** On, round the list, past what is written, until nothing is left. */
  #go(): void {
    const { length } = this.#readings;
    for (let step = 1; step <= length; step++) {
      const at = (this.#at + step) % length;
      if (this.#typed.has(this.#readings[at]!)) continue;
      this.#before.push(this.#at);
      this.#at = at;
      this.#ask();
      return;
    }
    this.#finish();
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
    this.#box.hide();
    void vscode.window.showInformationMessage(
      `${object}: ${this.#readings.length} readings entered. Last, ${this.#said}.`,
    );
  }

  async #accept(): Promise<void> {
    if (this.#busy) return;
    const text = this.#box.value.trim();
    const here = this.#readings[this.#at]!;
    if (text === '' || (text === none && !this.#typed.has(here))) {
      this.#go();
      return;
    }
    if (text.toLowerCase() === backWord) {
      this.#goBack();
      return;
    }
    this.#busy = true;
    this.#box.busy = true;
    try {
      await this.#enter(text);
    } finally {
      this.#busy = false;
      this.#box.busy = false;
    }
  }

  async #enter(text: string): Promise<void> {
    const reading = this.#readings[this.#at]!;
    const answer = await this.#answerTo(reading, text);
    if ('problem' in answer) {
      this.#show(answer.problem, vscode.InputBoxValidationSeverity.Error);
      return;
    }
    const [doubt, ...more] = answer.doubts;
    if (doubt !== undefined && this.#questioned !== text) {
      const others = more.length > 0 ? ` And ${more.length} more to look at.` : '';
      this.#show(
        `${doubt}${others} Enter writes it all the same.`,
        vscode.InputBoxValidationSeverity.Warning,
      );
      this.#questioned = text;
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
      this.#show(
        'The text changed at this moment and nothing was written. Press Enter again.',
        vscode.InputBoxValidationSeverity.Error,
      );
      return;
    }
    if (text === none) this.#typed.delete(reading);
    else this.#typed.set(reading, text);
    this.#said = answer.said;
    vscode.window.setStatusBarMessage(answer.said, 10_000);
    this.#go();
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

  #show(message: string, severity: vscode.InputBoxValidationSeverity): void {
    this.#box.validationMessage = { message, severity };
  }
}
