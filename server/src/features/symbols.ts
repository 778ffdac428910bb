import {
  type DocumentSymbol,
  type DocumentSymbolParams,
  SymbolKind,
  type WorkspaceSymbol,
  type WorkspaceSymbolParams,
} from 'vscode-languageserver-protocol';
import type { NameKind } from '../../../grammar/src/bound.ts';
import type { Entry } from '../../../grammar/src/tree.ts';
import { W } from '../../../grammar/src/vocabulary/index.ts';
import type { BlockView, DocumentView } from '../project/types.ts';
import { feature, subject } from './feature.ts';
import { keptByBlock } from './kept.ts';

/**
 * An editor asks for the outline twice after each key. Of a file with more
 * symbols than this, evidence is left out and what it is about stays;
 * what is still beyond it is too, and the last symbol says so.
 */
const MOST = 1000;
/** Answers to a search across the plans. */
const MOST_FOUND = 500;

const kinds: Readonly<Record<string, SymbolKind>> = {
  [W.plan]: SymbolKind.Module,
  [W.link]: SymbolKind.Interface,
  [W.channel]: SymbolKind.Interface,
  [W.ring]: SymbolKind.Interface,
  [W.links]: SymbolKind.Array,
  [W.channels]: SymbolKind.Array,
  [W.pattern]: SymbolKind.Class,
  [W.cable]: SymbolKind.Struct,
  [W.setup]: SymbolKind.Object,
  [W.readings]: SymbolKind.Event,
  [W.events]: SymbolKind.Event,
  [W.inspection]: SymbolKind.Event,
  [W.work]: SymbolKind.Event,
  [W.withdraw]: SymbolKind.Event,
  [W.concession]: SymbolKind.Event,
  [W.limits]: SymbolKind.Constant,
  [W.application]: SymbolKind.Constant,
};

/** Declarations and evidence of a file in order: `link KQ-OPS-B3`, `readings KQ-OPS-B3`. */
export const documentSymbols = feature<DocumentSymbolParams, readonly DocumentSymbol[]>({
  method: 'textDocument/documentSymbol',
  capabilities: { documentSymbolProvider: { label: 'Linkwright' } },
  answer(session, { textDocument }) {
    const document = subject(session, textDocument.uri)?.document;
    if (!document) return [];
    const symbols = symbolsOf(document);
    return symbols.length > MOST ? shortened(symbols) : symbols;
  },
});

const symbolsOf = keptByBlock(
  (document, block) =>
    block
      .bound()
      .tree.entries.filter(({ body }) => body)
      .map((entry) => movedBy(symbolOf(document, block, entry), -block.line)),
  movedBy,
);

const short = new WeakMap<readonly DocumentSymbol[], readonly DocumentSymbol[]>();

function shortened(symbols: readonly DocumentSymbol[]): readonly DocumentSymbol[] {
  const known = short.get(symbols);
  if (known) return known;
  const declared = symbols.filter(({ kind }) => kind !== SymbolKind.Event);
  const shown = declared.slice(0, MOST);
  const last = shown.pop();
  const detail =
    declared.length > MOST
      ? `the outline ends here, after ${MOST}`
      : `readings and other evidence are left out: the file has ${symbols.length} entries`;
  if (last) shown.push({ ...last, detail });
  short.set(symbols, shown);
  return shown;
}

function movedBy(symbol: DocumentSymbol, lines: number): DocumentSymbol {
  const move = ({ start, end }: DocumentSymbol['range']) => ({
    start: { line: start.line + lines, character: start.character },
    end: { line: end.line + lines, character: end.character },
  });
  return { ...symbol, range: move(symbol.range), selectionRange: move(symbol.selectionRange) };
}

function symbolOf(document: DocumentView, block: BlockView, entry: Entry): DocumentSymbol {
  const named = entry.lists[0]?.arguments[0];
  const title = entry.lists[0]?.arguments.slice(1).find((argument) => argument.kind === 'text');
  const name =
    named && named.kind !== 'spoilt' ? block.text.slice(named.span.start, named.span.end) : '';
  return {
    name: name ? `${entry.word.text} ${name}` : entry.word.text || '(no word)',
    detail: title?.kind === 'text' ? title.text : undefined,
    kind: kinds[entry.word.text] ?? SymbolKind.Field,
    range: document.rangeOf(block, entry.span),
    selectionRange: document.rangeOf(block, named?.span ?? entry.word.span),
  };
}

const searched: readonly NameKind[] = [
  'link',
  'channel',
  'cable',
  'setup',
  'pattern',
  'limits',
  'application',
  'fibre',
  'connector',
  'splice',
];

const searchedKinds: Partial<Record<NameKind, SymbolKind>> = {
  link: SymbolKind.Interface,
  channel: SymbolKind.Interface,
  cable: SymbolKind.Struct,
  setup: SymbolKind.Object,
  pattern: SymbolKind.Class,
};

/** Names of all plans that hold the letters asked for, in order. */
export const workspaceSymbols = feature<WorkspaceSymbolParams, WorkspaceSymbol[]>({
  method: 'workspace/symbol',
  capabilities: { workspaceSymbolProvider: true },
  answer({ project }, { query }) {
    const letters = [...query.toLocaleLowerCase('en')];
    const found: WorkspaceSymbol[] = [];
    for (const plan of project.plans) {
      for (const kind of searched) {
        for (const thing of plan.named(kind)) {
          if (
            thing.origin === 'library' ||
            !holdsInOrder(`${thing.name} ${thing.title ?? ''}`, letters)
          )
            continue;
          const located = plan.locate(thing.namePlace);
          if (!located) continue;
          found.push({
            name: thing.name,
            kind: searchedKinds[kind] ?? SymbolKind.Constant,
            location: located,
            containerName: thing.title,
          });
          if (found.length >= MOST_FOUND) return found;
        }
      }
    }
    return found;
  },
});

function holdsInOrder(text: string, letters: readonly string[]): boolean {
  const lower = text.toLocaleLowerCase('en');
  let from = 0;
  for (const letter of letters) {
    const at = lower.indexOf(letter, from);
    if (at < 0) return false;
    from = at + 1;
  }
  return true;
}
