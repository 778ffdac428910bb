/**
 * The formatter. It never joins, breaks, orders or removes: it moves blanks,
 * spells units, and keeps at most one empty line. A declaration whose braces or
 * characters are in doubt stays as it is, and so does one where a token or a
 * comment would be lost.
 */

import { splitBlocks } from './blocks.ts';
import { balance, type LineShape } from './braces.ts';
import { countLineEnds } from './characters.ts';
import { inRows, toFindings } from './findings.ts';
import { Layout, spell } from './layout.ts';
import { Close, Open, type Piece } from './pieces.ts';
import { findUnit } from './quantity/index.ts';
import { sentenceOf } from './sentences.ts';
import { type Range, Source } from './source.ts';
import { type Mistake, type TextLine, type Tokens, tokenize } from './tokens.ts';
import type { Span } from './tree.ts';

/** A declaration that was left as it is, with the line and the reason. */
export interface Refusal {
  /** Zero-based line of the document. */
  readonly line: number;
  readonly because: string;
}

/** A replacement in a document, as editors take it. */
export interface FormatEdit {
  readonly range: Range;
  readonly newText: string;
}

/** Findings after which the lines and depths of a declaration are not certain. */
const uncertain: ReadonlySet<string> = new Set([
  'block-left-open',
  'stray-close',
  'missing-open',
  'brace-apart',
  'brace-without-word',
  'block-on-one-line',
  'nested-too-deep',
  'lines-outside',
  'block-without-head',
  'block-in-rows',
  'columns-again',
  'merge-conflict',
  'stray-character',
  'line-too-long',
  'binary',
]);

/**
 * Canonical form of one block. `followed` says that another block comes behind,
 * so that the empty line before it is kept or set.
 */
export function formatBlock(text: string, followed = false): string {
  return formatOne(text, followed).text;
}

/** Canonical form of a whole text with the line ends it has, and what was left as it is. */
export function formatText(text: string): { text: string; refused: Refusal[] } {
  const parts = splitBlocks(text);
  const lineEnd = lineEndOf(text);
  const refused: Refusal[] = [];
  let formatted = '';
  let line = 0;
  for (const [index, part] of parts.entries()) {
    const one = formatOne(part, index + 1 < parts.length, lineEnd);
    if (one.refusal) refused.push({ ...one.refusal, line: line + one.refusal.line });
    formatted += one.text;
    line += countLineEnds(part);
  }
  return { text: formatted, refused };
}

/**
 * The edits that bring a text, or the lines of a range, into canonical form:
 * each within one line, or of the empty lines between two. Line ends stay, and
 * new ones are like the first.
 */
export function formatEdits(text: string | Source, range?: Range): FormatEdit[] {
  const source = typeof text === 'string' ? Source.of(text) : text;
  const first = range ? source.blockAtLine(range.start.line).index : 0;
  const last = range ? source.blockAtLine(range.end.line).index : source.blockCount - 1;
  const edits: FormatEdit[] = [];
  const lineEnd = lineEndOf(source.block(0).text);
  let line = source.firstLine(first);
  for (let index = first; index <= last; index++) {
    const block = source.block(index);
    edits.push(...blockEdits(block.text, line, index + 1 < source.blockCount, lineEnd));
    line += block.lines;
  }
  return range ? edits.filter((edit) => touches(edit.range, range)) : edits;
}

/**
 * Canonical form of one line of a block, for formatting while typing; undefined
 * where the line is right, or not certain. In a row a decimal comma becomes a
 * point, as the key pads of many countries type one.
 */
export function formatLine(blockText: string, line: number): string | undefined {
  const text = withPoints(blockText, line);
  const tokens = tokenize(text);
  const at = tokens.lines[line];
  const { shapes } = balance(tokens);
  const role = shapes[line]?.role;
  if (!at || at.kind === 'skipped' || role === 'left') return undefined;
  if (at.kind === 'text' && (!role || !isOneStatement(tokens, line))) return undefined;
  if (tokens.skipped.some(({ start }) => start >= at.start && start <= at.end)) return undefined;
  const formatted = new Layout(text, tokens, shapes).line(line);
  const { start, end } = tokenize(blockText).lines[line]!;
  return formatted === blockText.slice(start, end) ? undefined : formatted;
}

/** A checkout may have made CRLF of every line end, and a formatter must not fight it: the first one decides for all. */
function lineEndOf(text: string): '\n' | '\r\n' {
  return /^[^\r\n]*\r\n/u.test(text) ? '\r\n' : '\n';
}

interface Formatted {
  readonly text: string;
  readonly refusal?: Refusal;
}

function formatOne(text: string, followed: boolean, lineEnd = '\n'): Formatted {
  const placed = place(text, followed);
  if ('because' in placed) return { text, refusal: placed };
  let formatted = '';
  for (const line of placed.lines) {
    formatted += `${lineEnd.repeat(line.emptyBefore)}${line.text}${lineEnd}`;
  }
  if (placed.lines.length > 0) formatted += lineEnd.repeat(placed.emptyAtEnd);
  return { text: formatted };
}

/** A line of the result, and where in the text it comes from. */
interface PlacedLine {
  readonly index: number;
  readonly text: string;
  /** Empty lines before it: 0 or 1. */
  readonly emptyBefore: number;
}

interface Placed {
  readonly tokens: Tokens;
  readonly lines: readonly PlacedLine[];
  readonly emptyAtEnd: number;
}

/** Lays out all lines of a block, or says why it stays as it is. */
function place(text: string, followed: boolean): Placed | Refusal {
  const tokens = tokenize(text);
  const { shapes, mistakes } = balance(tokens);
  const doubt = doubtIn(tokens, shapes, mistakes);
  if (doubt) return doubt;
  const layout = new Layout(text, tokens, shapes);
  const lines: PlacedLine[] = [];
  let before: Neighbour | undefined;
  let empty = false;
  for (const [index, { kind, start }] of tokens.lines.entries()) {
    if (kind === 'blank') {
      // Behind the last line end there is no line: a comment stays with what follows it.
      if (start < text.length) empty = true;
      continue;
    }
    const line = { shape: shapes[index], isComment: kind === 'comment' };
    const emptyBefore = emptyLines(before, line, empty);
    lines.push({ index, text: layout.line(index), emptyBefore });
    before = line;
    empty = false;
  }
  const next = { shape: declaration, isComment: false };
  const emptyAtEnd = followed ? emptyLines(before, next, empty) : 0;
  if (!sameTokens(text, tokens, lines.map((line) => line.text).join('\n'))) {
    return { line: 0, because: sentenceOf('format-loses').message };
  }
  return { tokens, lines, emptyAtEnd };
}

/** The first reason in a block not to move anything. */
function doubtIn(
  tokens: Tokens,
  shapes: readonly (LineShape | undefined)[],
  mistakes: readonly Mistake[],
): Refusal | undefined {
  const all = [...tokens.mistakes, ...mistakes].filter(({ name }) => uncertain.has(name));
  const first = all.sort((a, b) => a.line - b.line)[0];
  if (first) return { line: first.line, because: sentenceOf(first.name, first.details).message };
  // A line shows one mistake; a skipped character may stand behind another.
  if (tokens.skipped.length === 0) return undefined;
  const at = tokens.skipped[0]!.start;
  const line = tokens.lines.findIndex(({ start, end }) => at >= start && at <= end);
  const waiting = toFindings(tokens.mistakes, tokens.lines, shapes);
  return { line, because: waiting[0]?.message ?? sentenceOf('format-loses').message };
}

interface Neighbour {
  readonly shape: LineShape | undefined;
  readonly isComment: boolean;
}

const declaration: LineShape = { role: 'entry', depth: 0, opens: true };

/** Empty lines between two lines: one between declarations, none next to a brace. */
function emptyLines(before: Neighbour | undefined, line: Neighbour, empty: boolean): number {
  if (!before) return 0;
  const [above, below] = [before.shape, line.shape];
  if (above?.opens || below?.role === 'close') return 0;
  if (above?.role === 'close') return above.depth === 0 ? 1 : 0;
  if (below?.role === 'entry' && below.opens && below.depth === 0 && !before.isComment) return 1;
  return empty ? 1 : 0;
}

/** True if a formatted text holds the tokens and comments of `text`, on the same lines. */
function sameTokens(text: string, tokens: Tokens, formatted: string): boolean {
  const after = tokenize(formatted);
  const lines = tokens.lines.filter(({ kind }) => kind !== 'blank');
  if (after.pieces.length !== tokens.pieces.length || after.skipped.length > 0) return false;
  return lines.every(({ from, to, comment }, index) => {
    const line = after.lines[index];
    if (!line || line.from !== from || line.to !== to) return false;
    for (let at = from; at < to; at++) {
      if (!sameToken(text, tokens.pieces[at]!, formatted, after.pieces[at]!)) return false;
    }
    return commentOf(text, comment) === commentOf(formatted, line.comment);
  });
}

function sameToken(text: string, piece: Piece, formatted: string, other: Piece): boolean {
  const source = text.slice(piece.startOffset, piece.endOffset);
  const printed = formatted.slice(other.startOffset, other.endOffset);
  if (source === printed) return true;
  const [before, after] = [piece.argument, other.argument];
  if (!before || !after) return false;
  // A unit after the word `in` is a name to the tokens, so its spelling is compared.
  const spelt = spell(before, source);
  return spelt === spell(after, printed) || findUnit(spelt)?.name === printed;
}

function commentOf(text: string, comment: Span | undefined): string {
  return comment ? text.slice(comment.start, comment.end).trimEnd() : '';
}

/** The edits of one block whose first line in the document is `firstLine`. */
function blockEdits(
  text: string,
  firstLine: number,
  followed: boolean,
  lineEnd: string,
): FormatEdit[] {
  const placed = place(text, followed);
  if ('because' in placed) return [];
  const edits: FormatEdit[] = [];
  const all = placed.tokens.lines;
  let above = -1;
  for (const { index, text: wanted, emptyBefore } of placed.lines) {
    const breaks = above < 0 ? 0 : emptyBefore + 1;
    edits.push(...gapEdits(text, all, above, index, breaks, firstLine, lineEnd));
    edits.push(...lineEdits(lineAt(text, all, index), wanted, firstLine + index));
    above = index;
  }
  const breaks = above < 0 ? 0 : 1 + placed.emptyAtEnd;
  edits.push(...gapEdits(text, all, above, all.length, breaks, firstLine, lineEnd));
  return edits;
}

function lineAt(text: string, lines: readonly TextLine[], index: number): string {
  const { start, end } = lines[index]!;
  return text.slice(start, end);
}

/** Sets the line ends between two lines; above -1 is the start of the text, below the last its end. */
function gapEdits(
  text: string,
  lines: readonly TextLine[],
  above: number,
  below: number,
  breaks: number,
  firstLine: number,
  lineEnd: string,
): FormatEdit[] {
  const start = above < 0 ? 0 : lines[above]!.end;
  const end = below < lines.length ? lines[below]!.start : text.length;
  const gap = text.slice(start, end);
  if (/^[\r\n]*$/u.test(gap) && countLineEnds(gap) === breaks) return [];
  const last = Math.min(below, lines.length - 1);
  const to = below < lines.length ? 0 : text.length - lines[last]!.start;
  const from = Math.max(above, 0);
  const range = {
    start: { line: firstLine + from, character: above < 0 ? 0 : start - lines[from]!.start },
    end: { line: firstLine + last, character: to },
  };
  return [{ range, newText: lineEnd.repeat(breaks) }];
}

/** The change within one line, without what stays at its start and end. */
function lineEdits(before: string, after: string, line: number): FormatEdit[] {
  if (before === after) return [];
  const shorter = Math.min(before.length, after.length);
  let head = 0;
  while (head < shorter && before[head] === after[head]) head++;
  let tail = 0;
  while (tail < shorter - head && before.at(-1 - tail) === after.at(-1 - tail)) tail++;
  const range = {
    start: { line, character: head },
    end: { line, character: before.length - tail },
  };
  return [{ range, newText: after.slice(head, after.length - tail) }];
}

function touches(edit: Range, range: Range): boolean {
  return edit.start.line <= range.end.line && edit.end.line >= range.start.line;
}

/** True where a line is one statement or part of one, so that it has one layout. */
function isOneStatement({ pieces, lines }: Tokens, line: number): boolean {
  const { from, to, hasBrace } = lines[line]!;
  if (!hasBrace) return true;
  const braces = pieces
    .slice(from, to)
    .filter(({ tokenType }) => tokenType === Open || tokenType === Close);
  if (braces.length !== 1) return false;
  return braces[0]!.tokenType === Close
    ? to - from === 1
    : to - from > 1 && pieces[to - 1] === braces[0];
}

/** The text with decimal points in the row of a line, where commas were typed. */
function withPoints(text: string, line: number): string {
  const tokens = tokenize(text);
  const { shapes } = balance(tokens);
  const inRow = inRows(tokens, shapes, text).find(
    (mistake) => mistake.line === line && mistake.name === 'decimal-comma-in-row',
  );
  let pointed = text;
  for (const { span, text: point } of inRow?.edits?.toReversed() ?? []) {
    pointed = pointed.slice(0, span.start) + point + pointed.slice(span.end);
  }
  return pointed;
}
