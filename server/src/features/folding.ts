import {
  type FoldingRange,
  FoldingRangeKind,
  type FoldingRangeParams,
} from 'vscode-languageserver-protocol';
import type { Entry } from '../../../grammar/src/tree.ts';
import type { BlockView, DocumentView } from '../project/types.ts';
import { feature, subject } from './feature.ts';
import { keptByBlock } from './kept.ts';

/** Most ranges a file is asked for; beyond it an editor folds nothing at all. */
const MOST = 5000;

/** Blocks fold from their opening line to the line before the closing brace; runs of comment lines fold as comments. */
export const folding = feature<FoldingRangeParams, readonly FoldingRange[]>({
  method: 'textDocument/foldingRange',
  capabilities: { foldingRangeProvider: true },
  answer(session, { textDocument }) {
    const document = subject(session, textDocument.uri)?.document;
    if (!document) return [];
    const ranges = rangesOf(document);
    return ranges.length > MOST ? ranges.slice(0, MOST) : ranges;
  },
});

const rangesOf = keptByBlock(foldsOf, (range, lines) => ({
  ...range,
  startLine: range.startLine + lines,
  endLine: range.endLine + lines,
}));

/** Folds of one block in its own lines. */
function foldsOf(_document: DocumentView, block: BlockView): readonly FoldingRange[] {
  const { tree } = block.bound();
  const folds: FoldingRange[] = [];
  const starts = lineStarts(block.text);
  const visit = (entries: readonly Entry[]) => {
    for (const { body, span } of entries) {
      if (!body) continue;
      const startLine = lineOf(starts, span.start);
      const endLine = lineOf(starts, body.close?.start ?? body.span.end) - (body.close ? 1 : 0);
      if (endLine > startLine) folds.push({ startLine, endLine });
      visit(body.entries);
    }
  };
  visit(tree.entries);
  const comments = tree.comments
    .filter(({ span }) => isAlone(block.text, span.start))
    .map(({ span }) => lineOf(starts, span.start));
  for (let first = 0; first < comments.length; ) {
    let last = first;
    while (comments[last + 1] === (comments[last] ?? 0) + 1) last += 1;
    if (last > first) {
      folds.push({
        startLine: comments[first] ?? 0,
        endLine: comments[last] ?? 0,
        kind: FoldingRangeKind.Comment,
      });
    }
    first = last + 1;
  }
  return folds;
}

function isAlone(text: string, offset: number): boolean {
  return /(?:^|[\r\n])[ \t]*$/u.test(text.slice(Math.max(0, offset - 200), offset));
}

function lineStarts(text: string): readonly number[] {
  const starts = [0];
  for (const match of text.matchAll(/\r\n|\n|\r/gu)) starts.push(match.index + match[0].length);
  return starts;
}

function lineOf(starts: readonly number[], offset: number): number {
  let low = 0;
  let high = starts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((starts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
