import {
  type DocumentHighlight,
  DocumentHighlightKind,
  type DocumentHighlightParams,
} from 'vscode-languageserver-protocol';
import { feature } from './feature.ts';
import { nameAt, placesOf } from './names.ts';

/** The other places of a name in the same file. */
export const documentHighlight = feature<DocumentHighlightParams, DocumentHighlight[] | null>({
  method: 'textDocument/documentHighlight',
  capabilities: { documentHighlightProvider: true },
  answer(session, { textDocument, position }) {
    const at = nameAt(session, textDocument.uri, position);
    if (!at) return null;
    return placesOf(at, true).flatMap((place) => {
      const located = at.plan.locate(place);
      if (located?.uri !== textDocument.uri) return [];
      const kind =
        place === at.thing?.namePlace ? DocumentHighlightKind.Write : DocumentHighlightKind.Read;
      return [{ range: located.range, kind }];
    });
  },
});
