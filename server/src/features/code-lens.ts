import type { CodeLens, CodeLensParams } from 'vscode-languageserver-protocol';
import type { LinkResult } from '../evaluate/result.ts';
import type { BlockView, DocumentView } from '../project/types.ts';
import { feature, subject } from './feature.ts';
import { type Since, sinceThen } from './since.ts';
import { verdictInWords } from './wording.ts';

/** Lenses of a file beyond this number cost more than they tell; the results view has them all. */
const MOST = 500;

/**
 * Above a link: its verdict and what is still to test, opening the results at that
 * link; where it changed since the revision that the text is looked at beside,
 * what it is and was, opening the changes there.
 */
export const codeLens = feature<CodeLensParams, CodeLens[]>({
  method: 'textDocument/codeLens',
  capabilities: { codeLensProvider: { resolveProvider: false } },
  answer(session, { textDocument }) {
    const found = subject(session, textDocument.uri);
    if (!found?.plan) return [];
    const { document, plan } = found;
    const lenses: CodeLens[] = [];
    for (const block of document.blocks()) {
      for (const result of plan.resultsIn(block.id)) {
        if (result.link.row) continue;
        const lens = lensOf(document, block, result, textDocument.uri);
        if (lenses.length >= MOST - 1) {
          lenses.push(asLast(lens));
          return lenses;
        }
        lenses.push(lens);
        const since = sinceThen(session, plan, result);
        if (since) lenses.push(changedLens(lens, since, result, textDocument.uri));
      }
    }
    return lenses;
  },
});

const changed = new WeakMap<CodeLens, { readonly since: Since; readonly lens: CodeLens }>();

/** Kept with the link's own lens. */
function changedLens(own: CodeLens, since: Since, { link }: LinkResult, uri: string): CodeLens {
  const there = changed.get(own);
  if (there?.since === since) return there.lens;
  const { words, revision } = since;
  const lens: CodeLens = {
    range: own.range,
    command: {
      title: words === 'new' ? `new since ${revision}` : `changed since ${revision}: ${words}`,
      command: 'linkwright.compareRevision',
      arguments: [uri, revision, link.name],
    },
  };
  changed.set(own, { since, lens });
  return lens;
}

interface Kept {
  readonly tree: object;
  readonly line: number;
  /** As the editor spells it. */
  readonly uri: string;
  readonly lens: CodeLens;
}

const kept = new WeakMap<LinkResult, Kept>();

/** Kept with the result, as long as its block neither changes nor moves. */
function lensOf(
  document: DocumentView,
  block: BlockView,
  result: LinkResult,
  uri: string,
): CodeLens {
  const { line } = block;
  const { tree } = block.bound();
  const there = kept.get(result);
  if (there?.tree === tree && there.line === line && there.uri === uri) return there.lens;
  const lens: CodeLens = {
    range: document.rangeOf(block, result.link.namePlace.span),
    command: {
      title: titleOf(result),
      command: 'linkwright.openResults',
      arguments: [uri, result.link.name],
    },
  };
  kept.set(result, { tree, line, uri, lens });
  return lens;
}

function asLast(lens: CodeLens): CodeLens {
  const title = `${lens.command?.title} · lenses end here, after ${MOST}; the results view has all links`;
  return { ...lens, command: { ...lens.command!, title } };
}

function titleOf(result: LinkResult): string {
  const missing = result.expected - result.present;
  const toTest = missing > 0 ? ` · ${missing} to test` : '';
  const references = result.applications.map(({ name, support }) => `${name} ${support}`);
  return [`${verdictInWords(result.verdict)}${toTest}`, ...references].join(' · ');
}
