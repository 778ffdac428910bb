import type {
  DocumentFormattingParams,
  DocumentOnTypeFormattingParams,
  DocumentRangeFormattingParams,
  TextEdit,
} from 'vscode-languageserver-protocol';
import { formatEdits, formatLine } from '../../../grammar/src/format.ts';
import { feature, subject } from './feature.ts';

/** A line's layout depends on that line alone (a row's also on its columns line), so each changed line is its own edit. */
export const formatting = feature<DocumentFormattingParams, TextEdit[]>({
  method: 'textDocument/formatting',
  capabilities: { documentFormattingProvider: true },
  answer(session, { textDocument }) {
    const document = subject(session, textDocument.uri)?.document;
    return document ? formatEdits(document.text()) : [];
  },
});

export const rangeFormatting = feature<DocumentRangeFormattingParams, TextEdit[]>({
  method: 'textDocument/rangeFormatting',
  capabilities: { documentRangeFormattingProvider: true },
  answer(session, { textDocument, range }) {
    const document = subject(session, textDocument.uri)?.document;
    return document ? formatEdits(document.text(), range) : [];
  },
});

/** After a line end the line just left is put in order; after a brace, the line it closes. */
export const onTypeFormatting = feature<DocumentOnTypeFormattingParams, TextEdit[]>({
  method: 'textDocument/onTypeFormatting',
  capabilities: {
    documentOnTypeFormattingProvider: { firstTriggerCharacter: '\n', moreTriggerCharacter: ['}'] },
  },
  answer(session, { textDocument, position, ch }) {
    const document = subject(session, textDocument.uri)?.document;
    const line = ch === '\n' ? position.line - 1 : position.line;
    const block = line < 0 ? undefined : document?.blockAt({ line, character: 0 });
    if (!document || !block) return [];
    const newText = formatLine(block.text, line - block.line);
    if (newText === undefined) return [];
    const range = {
      start: { line, character: 0 },
      end: { line, character: document.line(line).length },
    };
    return [{ range, newText }];
  },
});
