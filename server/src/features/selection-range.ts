import type { SelectionRange, SelectionRangeParams } from 'vscode-languageserver-protocol';
import type { Entry, Span } from '../../../grammar/src/tree.ts';
import { feature, subject } from './feature.ts';

/** From the argument under the cursor outwards: list, line, block by block, declaration. */
export const selectionRange = feature<SelectionRangeParams, SelectionRange[] | null>({
  method: 'textDocument/selectionRange',
  capabilities: { selectionRangeProvider: true },
  answer(session, { textDocument, positions }) {
    const document = subject(session, textDocument.uri)?.document;
    if (!document) return null;
    return positions.map((position) => {
      const block = document.blockAt(position);
      const whole: SelectionRange = { range: { start: position, end: position } };
      if (!block) return whole;
      const offset = document.offsetIn(block, position);
      let result: SelectionRange | undefined;
      let last: Span | undefined;
      for (const span of spansAround(block.bound().tree.entries, offset)) {
        if (last && last.start === span.start && last.end === span.end) continue;
        result = { range: document.rangeOf(block, span), parent: result };
        last = span;
      }
      return result ?? whole;
    });
  },
});

/** Spans that hold an offset, widest first. */
function* spansAround(entries: readonly Entry[], offset: number): Iterable<Span> {
  const entry = entries.find(({ span }) => holds(span, offset));
  if (!entry) return;
  yield entry.span;
  if (entry.body && holds(entry.body.span, offset)) {
    yield entry.body.span;
    const { table } = entry.body;
    if (table && holds(table.span, offset)) {
      yield table.span;
      const row = table.rows.find(({ span }) => holds(span, offset));
      if (row) {
        yield row.span;
        const cell = row.cells.find(({ span }) => holds(span, offset));
        if (cell) yield cell.span;
      }
      return;
    }
    yield* spansAround(entry.body.entries, offset);
    return;
  }
  if (holds(entry.word.span, offset)) {
    yield entry.word.span;
    return;
  }
  for (const list of entry.lists) {
    if (!holds(list.span, offset)) continue;
    yield list.span;
    const argument = list.arguments.find(({ span }) => holds(span, offset));
    if (argument) yield argument.span;
  }
}

function holds(span: Span, offset: number): boolean {
  return span.start <= offset && offset <= span.end;
}
