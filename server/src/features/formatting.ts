import type { DocumentFormattingParams, DocumentOnTypeFormattingParams, DocumentRangeFormattingParams, TextEdit } from 'vscode-languageserver-protocol';
import { formatBlock } from '../../../grammar/src/format.ts';
import type { DocumentView } from '../project/types.ts';
import { feature, type Session, subject } from './feature.ts';

/** A line's layout depends on that line alone (a row's also on its columns line), so each changed line is its own edit. */
export const formatting = feature<DocumentFormattingParams, TextEdit[]>({
  method: 'textDocument/formatting',
  capabilities: { documentFormattingProvider: true },
  answer: (session, { textDocument }) => editsIn(session, textDocument.uri, 0, Number.POSITIVE_INFINITY),
});

export const rangeFormatting = feature<DocumentRangeFormattingParams, TextEdit[]>({
  method: 'textDocument/rangeFormatting',
  capabilities: { documentRangeFormattingProvider: true },
  answer: (session, { textDocument, range }) => editsIn(session, textDocument.uri, range.start.line, range.end.line),
});

/** After a line end the line just left is put in order; after a brace, the line it closes. */
export const onTypeFormatting = feature<DocumentOnTypeFormattingParams, TextEdit[]>({
  method: 'textDocument/onTypeFormatting',
  capabilities: { documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}'] } },
  answer(session, { textDocument, position, ch }) {
    const line = ch === '\n' ? position.line - 1 : position.line;
    return line < 0 ? [] : editsIn(session, textDocument.uri, line, line);
  },
});

function editsIn(session: Session, uri: string, from: number, to: number): TextEdit[] {
  const document = subject(session, uri)?.document;
  if (!document) return [];
  const last = Math.min(to, document.lineCount - 1);
  return document.blocks(from, last).flatMap((block) => lineEdits(document, block.text, block.line, from, last));
}

/** Edits line by line where formatting keeps the lines; as one edit of the block where empty lines come or go. */
function lineEdits(document: DocumentView, text: string, first: number, from: number, to: number): TextEdit[] {
  const formatted = formatBlock(text);
  if (formatted === text) return [];
  const before = text.split(/\r\n|\n|\r/u);
  const after = formatted.split('\n');
  if (before.length === after.length) {
    return before.flatMap((old, index) => {
      const line = first + index;
      const now = after[index] ?? '';
      return old === now || line < from || line > to
        ? []
        : [{ range: { start: { line, character: 0 }, end: { line, character: document.line(line).length } }, newText: now }];
    });
  }
  const end = first + before.length - 1;
  if (from > first || to < end - 1) return [];
  return [
    { range: { start: { line: first, character: 0 }, end: { line: end, character: before.at(-1)?.length ?? 0 } }, newText: formatted },
  ];
}
