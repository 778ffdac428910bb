import type { DocumentLink, DocumentLinkParams } from 'vscode-languageserver-protocol';
import { feature, subject } from './feature.ts';

/** Include lines open the file they name. */
export const documentLinks = feature<DocumentLinkParams, DocumentLink[]>({
  method: 'textDocument/documentLink',
  capabilities: { documentLinkProvider: { resolveProvider: false } },
  answer(session, { textDocument }) {
    const found = subject(session, textDocument.uri);
    const { plan } = found ?? {};
    if (!plan) return [];
    return plan.includes(textDocument.uri).flatMap(({ place, target, text }) => {
      const located = target ? plan.locate(place) : undefined;
      return located ? [{ range: located.range, target, tooltip: `Open ${text}` }] : [];
    });
  },
});
