/**
 * One finding a line: what the lexer or the brace pass said comes first, and of
 * what binding says the first in the line; the others wait. The same finding on
 * neighbouring lines of a table is one finding over them, with one fix for all.
 */
import type { NotationFinding, Span } from '../tree.ts';

/** Offsets at which the lines of a text begin: LF, CRLF and CR end a line. */
export function lines(text: string): number[] {
  const starts = [0];
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    if (code === 10 || (code === 13 && text.charCodeAt(i + 1) !== 10)) starts.push(i + 1);
  }
  return starts;
}

/** The line, from 0, that an offset lies in. */
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

export function oneFindingALine(
  earlier: readonly NotationFinding[],
  later: readonly NotationFinding[],
  ofRows: ReadonlySet<NotationFinding>,
  starts: readonly number[],
): NotationFinding[] {
  const taken = new Set<number>();
  for (const { span } of earlier) {
    const last = lineOf(starts, Math.max(span.start, span.end - 1));
    for (let line = lineOf(starts, span.start); line <= last; line++) taken.add(line);
  }
  const kept: NotationFinding[] = [];
  const ordered = [...later].sort((a, b) => a.span.start - b.span.start);
  let folded: Run | undefined;
  for (const found of ordered) {
    const line = lineOf(starts, found.span.start);
    if (taken.has(line)) continue;
    taken.add(line);
    if (
      folded &&
      line === folded.lastLine + 1 &&
      ofRows.has(found) &&
      ofRows.has(folded.last) &&
      isSame(folded.found, found)
    ) {
      folded = {
        found: join(folded, found),
        first: folded.first,
        last: found,
        lastLine: line,
        count: folded.count + 1,
      };
      kept[kept.length - 1] = folded.found;
    } else {
      folded = { found, first: found, last: found, lastLine: line, count: 1 };
      kept.push(found);
    }
  }
  return [...earlier, ...kept].sort((a, b) => a.span.start - b.span.start);
}

interface Run {
  readonly found: NotationFinding;
  readonly first: NotationFinding;
  readonly last: NotationFinding;
  readonly lastLine: number;
  readonly count: number;
}

function isSame(a: NotationFinding, b: NotationFinding): boolean {
  if (a.name !== b.name) return false;
  const keys: readonly string[] = ['want', 'is', 'unit', 'cells', 'headings', 'heading'];
  return keys.every((key) => a.details?.[key] === b.details?.[key]);
}

function join(run: Run, next: NotationFinding): NotationFinding {
  const { found, first } = run;
  const span: Span = { start: found.span.start, end: next.span.end };
  const both = found.fix && next.fix;
  return {
    ...found,
    span,
    message: `${first.message} (${run.count + 1} rows)`,
    details: { ...found.details, rows: run.count + 1 },
    ...(both
      ? { fix: { title: found.fix.title, edits: [...found.fix.edits, ...next.fix.edits] } }
      : {}),
  };
}
