/** Write field sheet, write acceptance record: asked where to, made by the server, written whole. */
import * as vscode from 'vscode';
import { nameOf, writeWhole } from '../write-whole.ts';
import type { Command, Surroundings } from './index.ts';

type Kind = 'sheet' | 'record';

interface Missing {
  readonly of: string;
  readonly what: string;
}

type Answer =
  | { readonly text: string }
  | { readonly base64: string }
  | { readonly missing: readonly Missing[] }
  | { readonly because: string };

const endings: Readonly<Record<Kind, Readonly<Record<string, string[]>>>> = {
  sheet: { 'Web page': ['html'], PDF: ['pdf'] },
  record: {
    'Web page': ['html'],
    PDF: ['pdf'],
    Workbook: ['xlsx'],
    'Comma-separated values': ['csv'],
    JSON: ['json'],
  },
};

const names = { sheet: 'field sheet', record: 'acceptance record' } as const;

/** Of the plan that `plan` belongs to, else the active editor's; to the file `target`, else to one that is asked for. */
export const writeFieldSheet: Command = (around, plan, target) =>
  write(around, 'sheet', { plan, target });

/** The same; `issue` says whether it is to be issued, else that is asked. */
export const writeAcceptanceRecord: Command = (around, plan, target, issue) =>
  write(around, 'record', { plan, target, issue });

interface Words {
  readonly plan: unknown;
  readonly target: unknown;
  readonly issue?: unknown;
}

async function write(around: Surroundings, kind: Kind, words: Words): Promise<void> {
  const uri = planOf(words.plan);
  if (!uri) {
    void vscode.window.showInformationMessage(
      `Open a plan (a file ending in .lwl) first; the ${names[kind]} is then about it.`,
    );
    return;
  }
  const issue = kind === 'record' ? await issueOf(words.issue) : false;
  if (issue === undefined) return;
  const target = await targetOf(kind, uri, words.target);
  const format = target && formatOf(kind, target);
  if (!target || !format) return;
  const { packageJSON } = around.context.extension;
  const answer = await vscode.window.withProgress(
    { location: vscode.ProgressLocation.Window, title: `Writing the ${names[kind]}` },
    () =>
      around.server.ask<Answer>('linkwright/paper', {
        uri: uri.toString(),
        document: kind === 'sheet' ? { kind, format } : { kind, format, issue },
        page: vscode.env.language.toLowerCase() === 'en-us' ? 'Letter' : 'A4',
        tool: `${packageJSON.name} ${packageJSON.version}`,
      }),
  );
  if ('missing' in answer) {
    void tellMissing(answer.missing, uri);
    return;
  }
  if ('because' in answer) {
    void vscode.window.showErrorMessage(answer.because);
    return;
  }
  await save(target, 'text' in answer ? new TextEncoder().encode(answer.text) : bytesOf(answer));
}

function planOf(word: unknown): vscode.Uri | undefined {
  if (typeof word === 'string') return vscode.Uri.parse(word);
  const editors = [vscode.window.activeTextEditor, ...vscode.window.visibleTextEditors];
  return editors.find((editor) => editor?.document.languageId === 'linkwright')?.document.uri;
}

/** Undefined: the user turned away. */
async function issueOf(word: unknown): Promise<boolean | undefined> {
  if (typeof word === 'boolean') return word;
  const draft = { label: 'Draft', detail: 'Says draft on every page, and what is missing' };
  const issued = { label: 'Issue', detail: 'Refused while something that is required is missing' };
  const chosen = await vscode.window.showQuickPick([draft, issued], {
    title: 'Acceptance record',
  });
  return chosen && chosen === issued;
}

async function targetOf(
  kind: Kind,
  plan: vscode.Uri,
  word: unknown,
): Promise<vscode.Uri | undefined> {
  if (typeof word === 'string') return vscode.Uri.parse(word);
  const name = plan.path.replace(/^.*\//u, '').replace(/\.lwl$/u, '');
  const file = `${name || 'plan'}-${kind}.html`;
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  const place =
    plan.scheme === 'untitled'
      ? folder && vscode.Uri.joinPath(folder.uri, file)
      : vscode.Uri.joinPath(plan, '..', file);
  return vscode.window.showSaveDialog({
    title: `Write ${names[kind]}`,
    filters: endings[kind] as Record<string, string[]>,
    ...(place ? { defaultUri: place } : {}),
  });
}

/** The form follows the ending of the file. */
function formatOf(kind: Kind, target: vscode.Uri): string | undefined {
  const ending = target.path.slice(target.path.lastIndexOf('.') + 1).toLowerCase();
  const known = Object.values(endings[kind]).flat();
  if (known.includes(ending)) return ending;
  void vscode.window.showErrorMessage(
    `The ${names[kind]} can be written as ${known.map((each) => `.${each}`).join(', ')}: end the name of the file in one of these.`,
  );
  return undefined;
}

/** Lists them; what is chosen is gone to, where it is declared. */
async function tellMissing(missing: readonly Missing[], plan: vscode.Uri): Promise<void> {
  const count = `${missing.length} ${missing.length === 1 ? 'thing is' : 'things are'} missing`;
  const chosen = await vscode.window.showQuickPick(
    missing.map(({ of, what }) => ({ label: of, detail: what })),
    {
      title: `The record is not issued: ${count}. Nothing was written.`,
      placeHolder: 'Choose one to go to what it is about',
      matchOnDetail: true,
    },
  );
  if (!chosen) return;
  const symbols = await vscode.commands.executeCommand<readonly vscode.SymbolInformation[]>(
    'vscode.executeWorkspaceSymbolProvider',
    chosen.label,
  );
  const found = symbols.find(({ name }) => name === chosen.label)?.location;
  // What is missing of the plan as a whole is said in its own file.
  await vscode.window.showTextDocument(
    found?.uri ?? plan,
    found ? { selection: new vscode.Range(found.range.start, found.range.start) } : {},
  );
}

async function save(target: vscode.Uri, content: Uint8Array): Promise<void> {
  if (await writeWhole(target, content)) void tellWritten(target, nameOf(target));
}

async function tellWritten(target: vscode.Uri, name: string): Promise<void> {
  const open = 'Open';
  const chosen = await vscode.window.showInformationMessage(`${name} is written.`, open);
  if (chosen === open) await vscode.env.openExternal(target);
}

function bytesOf({ base64 }: { readonly base64: string }): Uint8Array {
  return Uint8Array.from(atob(base64), (each) => each.charCodeAt(0));
}
