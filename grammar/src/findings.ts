/**
 * Mistakes to findings: one a line, what is lexical before what is of braces;
 * the same mistake on neighbouring rows is one finding over them, with one fix.
 */
import type { LineShape } from './braces.ts';
import type { Piece } from './pieces.ts';
import { lexicalFindings, sentenceOf } from './sentences.ts';
import type { Mistake, TextLine, Tokens } from './tokens.ts';
import type { NotationFinding, TextEdit } from './tree.ts';

/** Mistakes without a fix for each that may be joined over any neighbouring lines. */
const joinedAnywhere: ReadonlySet<string> = new Set([
  'stray-character',
  'stray-close',
  'brace-without-word',
  'line-too-long',
]);

/** Orders, chooses and joins the mistakes of a text, and gives each its sentence. */
export function toFindings(
  mistakes: readonly Mistake[],
  lines: readonly TextLine[],
  shapes: readonly (LineShape | undefined)[],
): NotationFinding[] {
  const chosen = onePerLine(oneStrayClose(mistakes));
  const findings: NotationFinding[] = [];
  for (let at = 0; at < chosen.length; ) {
    let end = at + 1;
    while (end < chosen.length && areJoined(chosen[end - 1]!, chosen[end]!, lines, shapes)) end++;
    findings.push(toFinding(chosen.slice(at, end)));
    at = end;
  }
  return findings;
}

/** In a row a comma between digits is always a decimal one, and all of a line are put right at once. */
export function inRows(
  tokens: Tokens,
  shapes: readonly (LineShape | undefined)[],
  text: string,
): Mistake[] {
  return tokens.mistakes.map((mistake) => {
    if (mistake.name !== 'decimal-comma' || shapes[mistake.line]?.role !== 'row') return mistake;
    const { from, to } = tokens.lines[mistake.line]!;
    const edits = tokens.pieces
      .slice(from, to)
      .filter((piece) => piece.argument?.kind === 'spoilt')
      .flatMap((piece) => pointsIn(text, piece));
    const point = mistake.details?.point ?? mistake.details?.written;
    const details = { point: String(point).replaceAll(',', '.') };
    return { ...mistake, name: 'decimal-comma-in-row', details, edits };
  });
}

function pointsIn(text: string, piece: Piece): TextEdit[] {
  const start = piece.startOffset;
  return [...text.slice(start, piece.endOffset).matchAll(/(?<=\d),(?=\d)/gu)].map(({ index }) => ({
    span: { start: start + index, end: start + index + 1 },
    text: '.',
  }));
}

/**
 * One brace too many often makes those behind it look so too: the first is
 * shown, and the others wait for it to be put right. Neighbours are joined.
 */
function oneStrayClose(mistakes: readonly Mistake[]): Mistake[] {
  let line: number | undefined;
  return mistakes.filter((mistake) => {
    if (mistake.name !== 'stray-close') return true;
    if (line !== undefined && mistake.line > line + 1) return false;
    line = mistake.line;
    return true;
  });
}

function onePerLine(mistakes: readonly Mistake[]): Mistake[] {
  const byLine = new Map<number, Mistake>();
  for (const mistake of mistakes) {
    const shown = byLine.get(mistake.line);
    if (!shown || goesBefore(mistake, shown)) byLine.set(mistake.line, mistake);
  }
  return [...byLine.values()].sort((a, b) => a.line - b.line);
}

function goesBefore(a: Mistake, b: Mistake): boolean {
  const stage = (mistake: Mistake) => (lexicalFindings.has(mistake.name) ? 0 : 1);
  return stage(a) - stage(b) < 0 || (stage(a) === stage(b) && a.span.start < b.span.start);
}

function areJoined(
  a: Mistake,
  b: Mistake,
  lines: readonly TextLine[],
  shapes: readonly (LineShape | undefined)[],
): boolean {
  if (a.name !== b.name) return false;
  for (let line = a.line + 1; line < b.line; line++) {
    if (lines[line]!.kind === 'text') return false;
  }
  const [first, second] = [shapes[a.line], shapes[b.line]];
  if (first?.role === 'row' && second?.role === 'row') return first.of === second.of;
  return joinedAnywhere.has(a.name) && b.line === a.line + 1;
}

function toFinding(mistakes: readonly Mistake[]): NotationFinding {
  const first = mistakes[0]!;
  const last = mistakes.at(-1)!;
  const { name, span } = first;
  const details = mistakes.length > 1 ? { ...first.details, rows: mistakes.length } : first.details;
  const { severity, message, fixTitle } = sentenceOf(name, details);
  const finding: NotationFinding = {
    name,
    severity,
    span: { start: span.start, end: last.span.end },
    message,
    ...(details && { details }),
  };
  const edits = mistakes.every((mistake) => mistake.edits) ? allEdits(mistakes) : undefined;
  return edits && fixTitle !== undefined
    ? { ...finding, fix: { title: fixTitle, edits } }
    : finding;
}

function allEdits(mistakes: readonly Mistake[]): TextEdit[] {
  return mistakes.flatMap((mistake) => mistake.edits ?? []);
}
