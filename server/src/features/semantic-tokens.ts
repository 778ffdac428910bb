import type { SemanticTokens, SemanticTokensRangeParams } from 'vscode-languageserver-protocol';
import type { BoundBody, BoundEntry, NameKind, Value } from '../../../grammar/src/bound.ts';
import type { Span } from '../../../grammar/src/tree.ts';
import type { BlockView } from '../project/types.ts';
import { feature, type Session, subject } from './feature.ts';

/** Token types in the order of the legend. Standard ones, so that every theme colours them. */
const types = [
  'keyword',
  'class',
  'function',
  'variable',
  'number',
  'string',
  'enumMember',
  'property',
  'type',
  'event',
  'macro',
] as const;
const modifiers = ['declaration', 'defaultLibrary'] as const;

type TokenType = (typeof types)[number];

const nameTypes: Partial<Record<NameKind, TokenType>> = {
  link: 'function',
  channel: 'function',
  ring: 'function',
  object: 'function',
  pattern: 'macro',
  setup: 'class',
  cable: 'class',
  limits: 'type',
  application: 'type',
  fibre: 'type',
  connector: 'type',
  splice: 'type',
  splitter: 'type',
  component: 'type',
};

interface Token extends Span {
  readonly type: TokenType;
  readonly modifier: number;
}

/** By range only: an editor asks for what it shows, and a file of 20,000 lines costs no more than a screen. */
export const semanticTokensRange = feature<SemanticTokensRangeParams, SemanticTokens>({
  method: 'textDocument/semanticTokens/range',
  capabilities: {
    semanticTokensProvider: {
      legend: { tokenTypes: [...types], tokenModifiers: [...modifiers] },
      range: true,
      full: false,
    },
  },
  answer: (session, { textDocument, range }) =>
    tokensIn(session, textDocument.uri, range.start.line, range.end.line),
});

function tokensIn(session: Session, uri: string, from: number, to: number): SemanticTokens {
  const found = subject(session, uri);
  const data: number[] = [];
  if (!found) return { data };
  const { document, plan } = found;
  let lastLine = 0;
  let lastCharacter = 0;
  for (const block of document.blocks(from, to)) {
    const names = new Map<number, ReturnType<NonNullable<typeof plan>['namesIn']>[number]>();
    for (const name of plan?.namesIn(block.id) ?? []) {
      const { start } = name.place.span;
      if (!names.has(start) || plan?.find(name.kind, name.name)) names.set(start, name);
    }
    for (const token of tokensOf(block)) {
      const { start, end } = document.rangeOf(block, token);
      if (start.line < from || start.line > to || start.line !== end.line) continue;
      const name = names.get(token.start);
      const type = (name && nameTypes[name.kind]) ?? token.type;
      const library = name && plan?.find(name.kind, name.name)?.origin === 'library' ? 2 : 0;
      const modifier = token.modifier | (name?.declares ? 1 : 0) | library;
      const line = start.line - lastLine;
      data.push(
        line,
        line === 0 ? start.character - lastCharacter : start.character,
        end.character - start.character,
        types.indexOf(type),
        modifier,
      );
      lastLine = start.line;
      lastCharacter = start.character;
    }
  }
  return { data };
}

/** Tokens of a block in order of the text; none overlaps another. */
function tokensOf(block: BlockView): readonly Token[] {
  const tokens: Token[] = [];
  const add = (span: Span, type: TokenType) => {
    if (span.end > span.start) tokens.push({ start: span.start, end: span.end, type, modifier: 0 });
  };
  const visit = (entry: BoundEntry) => {
    if (entry.word) add(entry.wordSpan, 'keyword');
    for (const values of Object.values(entry.slots))
      for (const value of values) addValue(value, add);
    if (entry.body) visitBody(entry.body);
  };
  const visitBody = (body: BoundBody) => {
    for (const entry of body.entries) visit(entry);
    if (!body.table) return;
    for (const heading of body.table.headings)
      if (heading.kind !== 'spoilt') add(heading.span, 'property');
    for (const row of body.table.rows) for (const cell of row.cells) addValue(cell, add);
  };
  for (const entry of block.bound().entries) visit(entry);
  tokens.sort((a, b) => a.start - b.start || b.end - a.end);
  return tokens.filter(
    (token, index) => index === 0 || token.start >= (tokens[index - 1]?.end ?? 0),
  );
}

const valueTypes: Readonly<Record<Value['kind'], TokenType | undefined>> = {
  name: 'variable',
  names: 'variable',
  text: 'string',
  choice: 'enumMember',
  whole: 'number',
  wholes: 'number',
  decimal: 'number',
  quantity: 'number',
  date: 'number',
  time: 'number',
  direction: 'enumMember',
  ratio: 'number',
  map: 'enumMember',
  hole: 'macro',
  absent: undefined,
  dark: 'event',
  spoilt: undefined,
};

function addValue(value: Value, add: (span: Span, type: TokenType) => void): void {
  const type = valueTypes[value.kind];
  if (type) add(value.span, type);
}
