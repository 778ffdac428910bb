/**
 * Import readings: a table is chosen, what its columns mean is guessed and
 * looked at, all rows are read, and what they come to is shown before it is
 * written: into the open document, as an edit like any other.
 */
import * as vscode from 'vscode';
import type { Server } from '../server.ts';
import { writeWhole } from '../write-whole.ts';
import type { Command } from './index.ts';
import { type Draft, sayColumns, type TableLook } from './table-columns.ts';
import { watched } from './watched.ts';

interface Counted {
  readonly count: number;
  readonly first: readonly { readonly row: number; readonly what: string }[];
}

interface Found {
  readonly edit: { readonly range: vscode.Range; readonly newText: string };
  readonly readings: number;
  readonly blocks: number;
  readonly rows: number;
  readonly left: Counted;
  readonly duplicates: Counted;
}

type Answer = Found | { readonly problems: readonly string[] };

interface Table {
  readonly uri: vscode.Uri;
  readonly name: string;
  readonly base64: string;
}

/** Into the active plan file; from the file `table`, else one that is asked for. */
export const importReadings: Command = async ({ server }, table) => {
  const editor = vscode.window.activeTextEditor;
  if (editor?.document.languageId !== 'linkwright') return;
  const { document } = editor;
  const from = await tableOf(document.uri, table);
  if (!from) return;
  let mapping = await mappingFor(server, document, from);
  while (mapping !== undefined) {
    const { version } = document;
    const answer = await readAll(server, document, from, mapping.text);
    if ('problems' in answer) {
      await tellProblems(answer.problems);
      if (!mapping.draft) return;
    } else {
      const chosen = await showFound(answer, from, mapping);
      if (chosen === 'write') {
        await write(document, version, answer);
        return;
      }
      if (chosen === undefined || !mapping.draft) return;
    }
    mapping = await asDraft(server, document, from, mapping.draft);
  }
};

async function tableOf(plan: vscode.Uri, word: unknown): Promise<Table | undefined> {
  const uri =
    typeof word === 'string'
      ? vscode.Uri.parse(word)
      : (
          await vscode.window.showOpenDialog({
            title: 'Table of readings',
            openLabel: 'Import',
            filters: { 'Tables of readings': ['csv', 'txt', 'xlsx'] },
            ...(plan.scheme === 'untitled' ? {} : { defaultUri: vscode.Uri.joinPath(plan, '..') }),
          })
        )?.[0];
  if (!uri) return undefined;
  const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
  try {
    return { uri, name, base64: base64Of(await vscode.workspace.fs.readFile(uri)) };
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void vscode.window.showErrorMessage(`${name} could not be read: ${why}`);
    return undefined;
  }
}

interface Said {
  readonly text: string;
  /** Where it was said in the dialog: what can be said anew. */
  readonly draft?: Draft;
}

/** The mapping that stands beside the table, if it is to be used; else what is said in the dialog. */
async function mappingFor(
  server: Server,
  { uri }: vscode.TextDocument,
  table: Table,
): Promise<Said | undefined> {
  const beside = besideOf(table);
  const text = await textAt(beside.uri);
  if (text !== undefined) {
    const use = {
      label: `Read it as ${beside.name} says`,
      detail: 'The file stands beside the table',
    };
    const guess = { label: 'Say anew what the columns mean' };
    const chosen = await vscode.window.showQuickPick([use, guess], {
      title: `Import ${table.name}`,
      ignoreFocusOut: true,
    });
    if (!chosen) return undefined;
    if (chosen === use) return { text };
  }
  return asDraft(server, { uri } as vscode.TextDocument, table, undefined);
}

async function asDraft(
  server: Server,
  { uri }: vscode.TextDocument,
  table: Table,
  draft: Draft | undefined,
): Promise<Said | undefined> {
  const lookAt = (sheet: string | undefined) =>
    watched<TableLook>(server, `Looking at ${table.name}`, 'linkwright/lookAtTable', {
      uri: uri.toString(),
      base64: table.base64,
      ...(sheet === undefined ? {} : { sheet }),
    });
  const said = await sayColumns(table.name, lookAt, draft);
  return said && { text: `${JSON.stringify(said, null, 2)}\n`, draft: said };
}

/** All rows, until somebody stops it. */
async function readAll(
  server: Server,
  { uri }: vscode.TextDocument,
  { name, base64 }: Table,
  mapping: string,
): Promise<Answer> {
  const params = { uri: uri.toString(), name, base64, mapping };
  const method = 'linkwright/importReadings';
  const answer = await watched<Answer>(server, `Reading ${name}`, method, params);
  return answer ?? { problems: ['Stopped; nothing was written.'] };
}

async function tellProblems(problems: readonly string[]): Promise<void> {
  await vscode.window.showQuickPick(
    problems.map((label) => ({ label })),
    { title: 'The table was not read', ignoreFocusOut: true },
  );
}

/** Shows what would be written and what was not taken. `back`: the columns are to be said anew. */
function showFound(
  found: Found,
  table: Table,
  { text, draft }: Said,
): Promise<'write' | 'back' | undefined> {
  const { readings, blocks, rows, left, duplicates, edit } = found;
  const write = {
    label: `$(check) Write ${counted(readings, 'reading')} in ${counted(blocks, 'block')}`,
    detail: 'An edit of the open file: undo takes it back',
  };
  const keep = {
    label: `$(save) Save what the columns mean as ${besideOf(table).name}`,
    detail: 'Used for the next table of the same name, and by the command line',
  };
  const back = { label: '$(arrow-left) Say anew what the columns mean' };
  const list = vscode.window.createQuickPick();
  list.title = `${table.name}: ${counted(readings, 'new reading')} in ${counted(rows, 'row')}`;
  list.placeholder = 'Enter does the marked line, Escape leaves the text as it is';
  list.ignoreFocusOut = true;
  list.items = [
    ...(readings > 0 ? [write] : []),
    ...(draft ? [keep, back] : []),
    ...listed(`not taken: ${left.count.toLocaleString('en')}`, left),
    ...listed(`there already: ${duplicates.count.toLocaleString('en')}`, duplicates),
    ...(readings > 0 ? [partOf('as it will stand')] : []),
    ...edit.newText
      .trim()
      .split(/\r?\n/u, 30)
      .map((line) => ({ label: line.replace(/ {2,}/gu, ' \u2003') || ' ' })),
  ];
  return new Promise((resolve) => {
    list.onDidAccept(async () => {
      const [chosen] = list.activeItems;
      if (chosen === keep) {
        await save(besideOf(table), text);
        list.items = list.items.filter((each) => each !== keep);
        list.activeItems = list.items.slice(0, 1);
        return;
      }
      if (chosen !== write && chosen !== back) return;
      resolve(chosen === write ? 'write' : 'back');
      list.hide();
    });
    list.onDidHide(() => {
      resolve(undefined);
      list.dispose();
    });
    list.show();
  });
}

function listed(title: string, { count, first }: Counted): vscode.QuickPickItem[] {
  if (count === 0) return [];
  const more = count - first.length;
  return [
    partOf(title),
    ...first.map(({ row, what }) => ({ label: `Row ${row}`, description: what })),
    ...(more > 0 ? [{ label: `and ${more.toLocaleString('en')} more` }] : []),
  ];
}

async function write(
  document: vscode.TextDocument,
  version: number,
  { edit: { range, newText }, readings }: Found,
): Promise<void> {
  if (document.version !== version) {
    void vscode.window.showWarningMessage(
      'The text was edited meanwhile and nothing was written. Run Import readings again.',
    );
    return;
  }
  const { start, end } = range;
  const edit = new vscode.WorkspaceEdit();
  edit.replace(
    document.uri,
    new vscode.Range(start.line, start.character, end.line, end.character),
    newText,
  );
  if (!(await vscode.workspace.applyEdit(edit))) return;
  const shown = await vscode.window.showTextDocument(document.uri);
  const at = new vscode.Position(Math.min(start.line + 2, document.lineCount - 1), 0);
  shown.selection = new vscode.Selection(at, at);
  shown.revealRange(shown.selection, vscode.TextEditorRevealType.AtTop);
  vscode.window.setStatusBarMessage(`${counted(readings, 'reading')} written`, 10_000);
}

interface Beside {
  readonly uri: vscode.Uri;
  readonly name: string;
}

/** `berths.columns.json` beside `berths.csv`. */
function besideOf({ uri, name }: Table): Beside {
  const own = `${name.replace(/\.[^.]*$/u, '')}.columns.json`;
  return { uri: vscode.Uri.joinPath(uri, '..', own), name: own };
}

async function textAt(uri: vscode.Uri): Promise<string | undefined> {
  try {
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
  } catch {
    return undefined;
  }
}

async function save({ uri, name }: Beside, text: string): Promise<void> {
  if (await writeWhole(uri, new TextEncoder().encode(text))) {
    vscode.window.setStatusBarMessage(`${name} is written`, 10_000);
  }
}

function counted(number: number, what: string): string {
  return `${number.toLocaleString('en')} ${what}${number === 1 ? '' : 's'}`;
}

function partOf(label: string): vscode.QuickPickItem {
  return { label, kind: vscode.QuickPickItemKind.Separator };
}

function base64Of(bytes: Uint8Array): string {
  const parts: string[] = [];
  // A call takes only so many arguments.
  for (let at = 0; at < bytes.length; at += 32_768) {
    parts.push(String.fromCharCode(...bytes.subarray(at, at + 32_768)));
  }
  return btoa(parts.join(''));
}
