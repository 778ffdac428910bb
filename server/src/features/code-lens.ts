import type { CodeLens, CodeLensParams } from 'vscode-languageserver-protocol';
import type { LinkResult } from '../evaluate/result.ts';
import { feature, subject } from './feature.ts';
import { verdictInWords } from './wording.ts';

/** Lenses of a file beyond this number cost more than they tell; the results view has them all. */
const MOST = 500;

/** Above a link: its verdict and what is still to test, opening the results at that link. */
export const codeLens = feature<CodeLensParams, CodeLens[]>({
  method: 'textDocument/codeLens',
  capabilities: { codeLensProvider: { resolveProvider: false } },
  answer(session, { textDocument }) {
    const found = subject(session, textDocument.uri);
    if (!found?.plan) return [];
    const { document, plan } = found;
    const lenses: CodeLens[] = [];
    for (const block of document.blocks()) {
      for (const name of plan.objectsIn(block.id)) {
        const result = plan.result.link(name);
        if (!result || result.link.row || result.link.namePlace.block !== block.id) continue;
        lenses.push({
          range: document.rangeOf(block, result.link.namePlace.span),
          command: {
            title: titleOf(result),
            command: 'linkwright.openResults',
            arguments: [textDocument.uri, name],
          },
        });
        if (lenses.length >= MOST) {
          const last = lenses[MOST - 1];
          if (last?.command)
            last.command.title += ` · lenses end here, after ${MOST}; the results view has all links`;
          return lenses;
        }
      }
    }
    return lenses;
  },
});

function titleOf(result: LinkResult): string {
  const missing = result.expected - result.present;
  const toTest = missing > 0 ? ` · ${missing} to test` : '';
  const references = result.applications.map(({ name, support }) => `${name} ${support}`);
  return [`${verdictInWords(result.verdict)}${toTest}`, ...references].join(' · ');
}
