import {
  type InlayHint,
  InlayHintKind,
  type InlayHintParams,
} from 'vscode-languageserver-protocol';
import type { LinkResult, ReadingResult } from '../evaluate/result.ts';
import type { Place } from '../model/types.ts';
import type { BlockView, DocumentView, Plan } from '../project/types.ts';
import { reelsInWords } from './cable-fibres.ts';
import { eventRows } from './event-wording.ts';
import { feature, type Session, subject } from './feature.ts';
import { portsInWords } from './fibre-ports.ts';
import { sinceThen } from './since.ts';
import { limitsInWords, linkInWords, rowInWords } from './wording.ts';

/**
 * What stands beside the text: limit and margin at the end of a link's line, and
 * what its verdict was where it is another since the revision compared with,
 * the length of a cable of reels at the end of its own,
 * the limits at a `columns` line, the verdict at the end of a row of readings,
 * with the ports of its fibre where they bear other numbers.
 * Words only, so that a figure is never taken for one more reading.
 */
export const inlayHints = feature<InlayHintParams, InlayHint[]>({
  method: 'textDocument/inlayHint',
  capabilities: { inlayHintProvider: { resolveProvider: false } },
  answer(session, { textDocument, range }) {
    const found = subject(session, textDocument.uri);
    if (!found?.plan || !session.settings.hints.enabled) return [];
    const { document, plan } = found;
    const hints: InlayHint[] = [];
    for (const block of document.blocks(range.start.line, range.end.line)) {
      const ofBlock = [...hintsOf(session, document, plan, block)];
      ofBlock.sort((a, b) => a.position.line - b.position.line);
      for (const hint of ofBlock) {
        if (hint.position.line < range.start.line || hint.position.line > range.end.line) continue;
        hints.push(hint);
        if (hints.length >= session.settings.hints.most) return hints;
      }
    }
    return hints;
  },
});

function* hintsOf(
  session: Session,
  document: DocumentView,
  plan: Plan,
  block: BlockView,
): Iterable<InlayHint> {
  const places = session.settings.precision;
  for (const { kind, name, place, declares } of plan.namesIn(block.id)) {
    const cable = declares && kind === 'cable' ? plan.cable(name) : undefined;
    if (cable && cable.reels.length > 0)
      yield atLineEnd(document, block, place, reelsInWords(cable));
  }
  const columns = new Map<number, Set<string>>();
  for (const name of plan.objectsIn(block.id)) {
    const result = plan.result.link(name);
    if (!result) continue;
    const { link } = result;
    const declared = link.row ?? link.namePlace;
    if (declared.block === block.id) {
      const words = [linkInWords(result, places), sinceThen(session, plan, result)?.verdict]
        .filter(Boolean)
        .join(' · ');
      if (words) yield atLineEnd(document, block, declared, words);
    }
    for (const [row, readings] of rowsIn(block, result)) {
      const fibre = readings[0]?.fibre;
      const words = [
        rowInWords(readings, places),
        fibre === undefined ? undefined : portsInWords(result, fibre),
      ].filter(Boolean);
      if (words.length > 0) yield atLineEnd(document, block, row, words.join(' · '));
    }
    for (const [row, words] of eventRows(block.id, result, places)) {
      yield atLineEnd(document, block, row, words);
    }
    const limits = limitsInWords(result, places);
    if (!limits) continue;
    for (const table of tablesIn(block)) {
      if (
        !result.readings.some(
          ({ reading }) => reading?.place.block === block.id && inside(table, reading.place),
        )
      )
        continue;
      const known = columns.get(table.word.start) ?? new Set();
      columns.set(table.word.start, known.add(limits));
    }
  }
  // One object has one row of limits; a table of many links has as many, and they stand at the links.
  for (const [start, limits] of columns) {
    const [only] = limits;
    if (limits.size === 1 && only)
      yield atLineEnd(document, block, { block: block.id, span: { start, end: start } }, only);
  }
}

function tablesIn(block: BlockView) {
  return block.bound().tree.entries.flatMap(({ body }) => body?.table ?? []);
}

function inside(table: { span: { start: number; end: number } }, place: Place): boolean {
  return table.span.start <= place.span.start && place.span.end <= table.span.end;
}

/** Readings of an object that are typed in this block, by row. */
function rowsIn(
  block: BlockView,
  result: LinkResult,
): Iterable<readonly [Place, readonly ReadingResult[]]> {
  const rows = new Map<number, [Place, ReadingResult[]]>();
  for (const reading of result.readings) {
    const row = reading.reading?.row;
    if (row?.block !== block.id) continue;
    const known = rows.get(row.span.start);
    if (known) known[1].push(reading);
    else rows.set(row.span.start, [row, [reading]]);
  }
  return rows.values();
}

function atLineEnd(
  document: DocumentView,
  block: BlockView,
  place: Place,
  words: string,
): InlayHint {
  const { line } = document.rangeOf(block, place.span).start;
  return {
    position: { line, character: document.line(line).length },
    // Held off from the last cell, so that it is never read as one more of them.
    label: `\u00a0\u00a0${words}`,
    kind: InlayHintKind.Type,
    paddingLeft: true,
  };
}
