/**
 * Text to tokens, line by line. Any text has tokens: what cannot be read is
 * skipped or spoilt, and is one finding. Nothing here reaches over a line end.
 */
import {
  byteOrderMark,
  Class,
  classAt,
  composed,
  copied,
  endOfRun,
  isBinary,
  isRun,
  nextLine,
  readQuoted,
  widthAt,
} from './characters.ts';
import { Close, Comma, Item, Open, Piece } from './pieces.ts';
import { findUnit } from './quantity/index.ts';
import { minutesOfDay, type RunProblem, readRun, shortened, spoilt } from './runs.ts';
import type { Argument, Span, TextEdit } from './tree.ts';

/** The word between a range and the distance of its members. */
export const stepWord = 'step';
/** A longer line is no text of a plan; it is skipped with one finding. */
export const longestLine = 65_536;

/** One line of text. `from` to `to` (exclusive) are the places of its tokens. */
export interface TextLine {
  readonly start: number;
  /** Without the line end. */
  readonly end: number;
  /** Columns of blank before the first character; a tab goes to the next even column. */
  readonly indent: number;
  readonly from: number;
  readonly to: number;
  readonly comment: Span | undefined;
  readonly hasBrace: boolean;
  /** `blank` holds neither token nor comment; `skipped` was taken out whole. */
  readonly kind: 'blank' | 'comment' | 'text' | 'skipped';
}

/** A finding before it has its sentence: which line, which place, which mistake. */
export interface Mistake {
  readonly line: number;
  readonly name: string;
  readonly span: Span;
  readonly details?: Readonly<Record<string, string | number>>;
  readonly edits?: readonly TextEdit[];
}

export interface Tokens {
  readonly pieces: Piece[];
  readonly lines: TextLine[];
  readonly mistakes: Mistake[];
  readonly skipped: Span[];
}

/** Reads a whole text. */
export function tokenize(text: string): Tokens {
  return new Lexer(text).read();
}

class Lexer {
  readonly #text: string;
  readonly #pieces: Piece[] = [];
  readonly #lines: TextLine[] = [];
  readonly #mistakes: Mistake[] = [];
  readonly #skipped: Span[] = [];
  #lineFrom = 0;
  #hasBrace = false;
  /** Which side of a merge conflict is being read; only the first is. */
  #side: 'none' | 'first' | 'other' = 'none';

  constructor(text: string) {
    this.#text = text;
  }

  read(): Tokens {
    const text = this.#text;
    if (isBinary(text)) this.#skipAll();
    else {
      const onlyLineFeeds = !text.includes('\r');
      let start = 0;
      while (start >= 0) {
        const next = onlyLineFeeds ? text.indexOf('\n', start) + 1 || -1 : nextLine(text, start);
        this.#readLine(start, next < 0 ? text.length : lineEndBefore(text, next));
        start = next;
      }
    }
    return {
      pieces: this.#pieces,
      lines: this.#lines,
      mistakes: this.#mistakes,
      skipped: this.#skipped,
    };
  }

  #skipAll(): void {
    const span = { start: 0, end: this.#text.length };
    this.#skipped.push(span);
    this.#mistakes.push({ line: 0, name: 'binary', span: { start: 0, end: 1 } });
    this.#addLine(0, this.#text.length, 0, undefined, 'skipped');
  }

  #readLine(start: number, end: number): void {
    this.#lineFrom = this.#pieces.length;
    this.#hasBrace = false;
    const text = this.#text;
    if (this.#readMarker(start, end) || this.#side === 'other') {
      this.#skip({ start, end });
      this.#addLine(start, end, 0, undefined, 'skipped');
      return;
    }
    if (end - start > longestLine) {
      this.#skip({ start, end });
      this.#report('line-too-long', { start, end: start + 1 }, { most: longestLine });
      this.#addLine(start, end, 0, undefined, 'skipped');
      return;
    }
    let at = start;
    let indent = 0;
    if (text.charCodeAt(at) === byteOrderMark) at++;
    for (; at < end; at++) {
      const code = text.charCodeAt(at);
      if (code === 32 || code === 160) indent++;
      else if (code === 9) indent += 2 - (indent % 2);
      else break;
    }
    const comment = this.#readPieces(at, end);
    const holds = this.#pieces.length > this.#lineFrom;
    this.#addLine(start, end, indent, comment, holds ? 'text' : comment ? 'comment' : 'blank');
  }

  /**
   * Seven of one sign at the margin part the sides of a merge conflict. Its
   * declarations are blocks of their own, so each marker is understood alone.
   */
  #readMarker(start: number, end: number): boolean {
    const sign = markerAt(this.#text, start, end);
    if (sign === undefined) return false;
    const before = this.#side;
    this.#side = sign === '<' ? 'first' : sign === '>' ? 'none' : 'other';
    if (before !== 'none' && sign !== '<') return true;
    if (sign === '>') this.#skipBefore(start);
    this.#report('merge-conflict', { start, end });
    return true;
  }

  /** Takes back what was read so far: it was the second side of a conflict. */
  #skipBefore(end: number): void {
    this.#pieces.length = 0;
    this.#mistakes.length = 0;
    this.#skipped.length = 0;
    if (end > 0) this.#skipped.push({ start: 0, end });
    this.#lineFrom = 0;
    for (const [index, line] of this.#lines.entries()) {
      const emptied = { from: 0, to: 0, comment: undefined, hasBrace: false };
      this.#lines[index] = { ...line, ...emptied, kind: 'skipped' };
    }
  }

  /** Reads from `at` to the end of the line; gives the comment, if there is one. */
  #readPieces(from: number, end: number): Span | undefined {
    const text = this.#text;
    let at = from;
    let afterBlank = true;
    while (at < end) {
      const kind = classAt(text, at);
      const start = at;
      switch (kind) {
        case Class.blank:
          do at++;
          while (text.charCodeAt(at) === 32);
          break;
        case Class.digit:
        case Class.letter:
        case Class.joiner:
          at = this.#readRun(at, end);
          break;
        case Class.comma:
          at++;
          this.#pieces.push(new Piece(Comma, start, at));
          break;
        case Class.open:
        case Class.close:
          at++;
          this.#hasBrace = true;
          this.#pieces.push(new Piece(kind === Class.open ? Open : Close, start, at));
          break;
        case Class.quote:
          at = this.#readText(at, end);
          break;
        case Class.hash:
          if (!afterBlank) {
            const edit = { span: { start: at, end: at }, text: ' ' };
            this.#report('comment-needs-blank', { start: at, end: at + 1 }, undefined, [edit]);
          }
          return { start: at, end };
        case Class.less:
          at = this.#readHole(at, end);
          break;
        default:
          at = this.#skipStrays(at, end);
      }
      afterBlank = kind === Class.blank;
    }
    return undefined;
  }

  #readRun(start: number, end: number): number {
    const text = this.#text;
    let commas = 0;
    let strays = 0;
    let at = start;
    for (;;) {
      at = endOfRun(text, at, end);
      if (at + 1 >= end) break;
      const kind = classAt(text, at);
      if (kind === Class.comma) {
        if (!isDigitAt(text, at - 1) || !isDigitAt(text, at + 1)) break;
        commas++;
        at++;
      } else if (joinsRuns(text, at, kind)) {
        const after = at + widthAt(text, at);
        if (after >= end || !isRun(classAt(text, after))) break;
        strays++;
        at = after;
      } else break;
    }
    const run = text.slice(start, at);
    const span = { start, end: at };
    if (strays > 0) this.#addGlued(run, span);
    else if (commas > 0) return this.#addDecimalComma(run, span, end);
    else this.#addRun(run, span);
    return at;
  }

  #addRun(run: string, span: Span): void {
    const last = this.#lastItem();
    if (last && this.#joined(last, run, span)) return;
    const { argument, problem } = readRun(run, span);
    this.#addItem(argument);
    if (problem) this.#reportRun(problem, span);
  }

  /** Adds what belongs to the argument before: its unit, its time of day, its step. */
  #joined(last: Piece, run: string, span: Span): boolean {
    const before = last.argument!;
    if (before.kind === 'number') {
      if (startsNumber(run)) return false;
      const unit = findUnit(run);
      if (!unit) return false;
      const whole = { start: before.span.start, end: span.end };
      const { digits, value } = before;
      this.#widen(last, { kind: 'quantity', span: whole, digits, value, unit, unitSpan: span });
      return true;
    }
    if (before.kind === 'date') {
      const time = /^(\d+):(\d+)$/u.exec(run);
      if (before.value.minutes !== undefined || !time) return false;
      const minutes = minutesOfDay(time[1]!, time[2]!);
      const whole = { start: before.span.start, end: span.end };
      if (minutes === undefined) {
        const written = this.#text.slice(whole.start, whole.end);
        this.#spoil(
          last,
          whole,
          written,
          { name: 'no-such-time', details: { written: run } },
          span,
        );
      } else {
        this.#widen(last, { kind: 'date', span: whole, value: { day: before.value.day, minutes } });
      }
      return true;
    }
    if (before.kind === 'name' && before.text === stepWord) return this.#joinStep(last, run, span);
    return false;
  }

  #joinStep(last: Piece, run: string, span: Span): boolean {
    const ranged = this.#pieces.at(-2);
    const range = ranged?.argument;
    if (this.#pieces.length - this.#lineFrom < 2 || !ranged || !range) return false;
    if ((range.kind !== 'range' && range.kind !== 'name-range') || !/^\d+$/u.test(run))
      return false;
    const step = Number(run);
    const whole = { start: range.span.start, end: span.end };
    this.#pieces.pop();
    if (step < 1 || (range.last - range.first) % step !== 0) {
      const written = this.#text.slice(whole.start, whole.end);
      const details = { first: range.first, last: range.last, step };
      this.#spoil(ranged, whole, written, { name: 'range-step', details }, span);
    } else {
      this.#widen(ranged, { ...range, step, span: whole });
    }
    last.argument = undefined;
    return true;
  }

  /**
   * A comma between two digits: a decimal comma and a list cannot be told apart.
   * Gives where it ends, with the unit behind it.
   */
  #addDecimalComma(run: string, span: Span, end: number): number {
    const text = this.#text;
    const list = run.replaceAll(',', ', ');
    const single = /^([-−]?\d+),(\d+)\D*$/u.exec(run);
    const point = single ? run.replace(',', '.') : undefined;
    const unit = /\D$/u.test(run) ? undefined : unitBehind(text, span.end, end);
    const isQuantity = unit !== undefined || /\d[^\d,.]+$/u.test(run);
    // Three digits may be thousands, or a number from 0 to 1 with its leading zero.
    const thousands = single && /^[-−]?[1-9]\d{0,2}$/u.test(single[1]!) && single[2]!.length === 3;
    const likely = single && (isQuantity || /^[-−]?0$/u.test(single[1]!)) ? point : list;
    const whole = { start: span.start, end: unit ?? span.end };
    const details: Record<string, string> = { written: shortened(run), list };
    if (point !== undefined) details.point = point;
    const name = 'decimal-comma';
    this.#addItem(spoilt(text.slice(whole.start, whole.end), whole, { name }).argument);
    const edits = likely === undefined || thousands ? undefined : [{ span, text: likely }];
    this.#report(name, span, details, edits);
    return whole.end;
  }

  /** A run with a character in it that no run has: `A#01`, `A->B`, `1–12`. */
  #addGlued(run: string, span: Span): void {
    const arrow = /^([AB])\s*(?:->|→|=>|>|–>)\s*([AB])$/u.exec(run);
    if (arrow && arrow[1] !== arrow[2]) {
      const direction = `${arrow[1]}>${arrow[2]}`;
      if (run === direction) {
        this.#addItem({ kind: 'direction', span, value: direction as 'A>B' | 'B>A' });
      } else {
        this.#addSpoilt(run, span, { name: 'odd-arrow', instead: direction });
      }
      return;
    }
    const dashed = run.replace(/[–—‐‑]/gu, '-');
    const range = /^(\d+)-(\d+)$/u.exec(dashed);
    const problem: RunProblem =
      dashed !== run && range
        ? { name: 'unreadable-range', instead: `${range[1]}..${range[2]}` }
        : { name: 'needs-quotes', instead: `"${run.replace(/["\\]/gu, '\\$&')}"` };
    this.#addSpoilt(run, span, problem);
  }

  #readText(start: number, end: number): number {
    const text = this.#text;
    const quoted = readQuoted(text, start, end);
    const span = { start, end: quoted.end };
    const inner = text.slice(quoted.innerStart, quoted.innerEnd);
    this.#addItem({ kind: 'text', span, text: copied(composed(unescaped(inner))) });
    if (quoted.open) {
      const edits = [{ span: { start: quoted.end, end: quoted.end }, text: '"' }];
      if (quoted.odd) edits.unshift({ span: { start, end: start + 1 }, text: '"' });
      this.#report('open-text', span, undefined, edits);
    } else if (quoted.odd) {
      const edit = { span, text: `"${inner.replace(/(?<!\\)"/gu, '\\"')}"` };
      this.#report('other-quotes', span, undefined, [edit]);
    } else {
      this.#checkEscapes(quoted.innerStart, inner);
    }
    return quoted.end;
  }

  #checkEscapes(start: number, inner: string): void {
    if (!inner.includes('\\')) return;
    const wrong = /^(?:[^\\]|\\["\\])*?\\(?!["\\])/u.exec(inner);
    if (!wrong) return;
    const at = start + wrong[0].length - 1;
    const edits = [{ span: { start: at, end: at + 1 }, text: '\\\\' }];
    this.#report('unknown-escape', { start: at, end: at + 2 }, undefined, edits);
  }

  #readHole(start: number, end: number): number {
    const nameEnd = endOfRun(this.#text, start + 1, end);
    const name = this.#text.slice(start + 1, nameEnd);
    if (nameEnd >= end || this.#text[nameEnd] !== '>' || !/\p{L}/u.test(name)) {
      return this.#skipStrays(start, end);
    }
    const span = { start, end: nameEnd + 1 };
    this.#addItem({ kind: 'hole', span, name: copied(composed(name)) });
    return span.end;
  }

  /** Skips the characters from `start` that mean nothing, as one. */
  #skipStrays(start: number, end: number): number {
    const text = this.#text;
    let at = start + widthAt(text, start);
    while (at < end) {
      const kind = classAt(text, at);
      if (kind !== Class.separator && kind !== Class.stray) break;
      at += widthAt(text, at);
    }
    const span = { start, end: at };
    this.#skip(span);
    const characters = text.slice(start, at);
    this.#report('stray-character', span, strayDetails(characters), [
      { span, text: this.#insteadOfStrays(characters, span) },
    ]);
    return at;
  }

  #insteadOfStrays(characters: string, { start, end }: Span): string {
    if (isDash(characters)) return '-';
    if (!/^[\p{Z}=;|()[\]]+$/u.test(characters)) return '';
    const text = this.#text;
    const between = start > 0 && isRun(classAt(text, start - 1));
    return between && end < text.length && isRun(classAt(text, end)) ? ' ' : '';
  }

  #lastItem(): Piece | undefined {
    if (this.#pieces.length === this.#lineFrom) return undefined;
    const last = this.#pieces[this.#pieces.length - 1]!;
    return last.argument === undefined ? undefined : last;
  }

  #addItem(argument: Argument): void {
    this.#pieces.push(new Piece(Item, argument.span.start, argument.span.end, argument));
  }

  #addSpoilt(run: string, span: Span, problem: RunProblem): void {
    const read = spoilt(run, span, problem);
    this.#addItem(read.argument);
    this.#reportRun(read.problem!, span);
  }

  #widen(piece: Piece, argument: Argument): void {
    piece.endOffset = argument.span.end;
    piece.argument = argument;
  }

  #spoil(piece: Piece, whole: Span, written: string, problem: RunProblem, span: Span): void {
    this.#widen(piece, spoilt(written, whole, problem).argument);
    this.#reportRun(problem, span);
  }

  #reportRun(problem: RunProblem, span: Span): void {
    const edits = problem.instead === undefined ? undefined : [{ span, text: problem.instead }];
    const details = { ...problem.details };
    if (problem.instead !== undefined) details.instead = problem.instead;
    this.#report(problem.name, span, details, edits);
  }

  #report(
    name: string,
    span: Span,
    details?: Record<string, string | number>,
    edits?: TextEdit[],
  ): void {
    const line = this.#lines.length;
    // The first of a line is shown, the others wait for it to be put right.
    const shown = this.#mistakes.at(-1);
    if (shown?.line === line) {
      if (shown.name === name && name === 'stray-character') this.#addEdits(shown, details, edits);
      return;
    }
    this.#mistakes.push({ line, name, span, details, edits });
  }

  /** One fix takes out all characters of a line that mean nothing. */
  #addEdits(shown: Mistake, details?: Mistake['details'], edits: readonly TextEdit[] = []): void {
    if (shown.details?.instead !== details?.instead || !shown.edits) return;
    this.#mistakes[this.#mistakes.length - 1] = { ...shown, edits: shown.edits.concat(edits) };
  }

  #skip(span: Span): void {
    this.#skipped.push(span);
  }

  #addLine(
    start: number,
    end: number,
    indent: number,
    comment: Span | undefined,
    kind: TextLine['kind'],
  ): void {
    const from = this.#lineFrom;
    const to = this.#pieces.length;
    this.#lines.push({ start, end, indent, from, to, comment, hasBrace: this.#hasBrace, kind });
  }
}

/** End of the line whose line end stops before `next`. */
function lineEndBefore(text: string, next: number): number {
  const before = next - 1;
  return text.charCodeAt(before) === 10 && text.charCodeAt(before - 1) === 13 ? before - 1 : before;
}

/** The sign of a merge marker that is the line, or undefined. */
function markerAt(text: string, start: number, end: number): string | undefined {
  const sign = text[start];
  if (sign === undefined || end - start < 7 || !'<=>|'.includes(sign)) return undefined;
  for (let at = start + 1; at < start + 7; at++) if (text[at] !== sign) return undefined;
  return start + 7 === end || classAt(text, start + 7) === Class.blank ? sign : undefined;
}

/** End of the unit that stands behind a number, if one does. */
function unitBehind(text: string, from: number, end: number): number | undefined {
  let at = from;
  while (at < end && classAt(text, at) === Class.blank) at++;
  const unitEnd = endOfRun(text, at, end);
  return unitEnd > at && findUnit(text.slice(at, unitEnd)) ? unitEnd : undefined;
}

/** Characters that spoil a run they stand in; separators and braces part runs instead. */
function joinsRuns(text: string, at: number, kind: number): boolean {
  return (
    (kind === Class.stray && isShown(String.fromCodePoint(text.codePointAt(at)!))) ||
    kind === Class.hash ||
    (kind === Class.quote && text.charCodeAt(at) !== 34)
  );
}

/** True for a run that cannot be a unit: it begins like a number. */
function startsNumber(run: string): boolean {
  const code = run.charCodeAt(0);
  return (code >= 45 && code <= 57) || code === 58;
}

function isDigitAt(text: string, at: number): boolean {
  const code = text.charCodeAt(at);
  return code >= 48 && code <= 57;
}

/** The text between quotes: `\"` and `\\` are the only escapes. */
function unescaped(inner: string): string {
  return inner.includes('\\') ? inner.replace(/\\(["\\])/gu, '$1') : inner;
}

function isDash(characters: string): boolean {
  return characters === '–' || characters === '—';
}

function strayDetails(characters: string): Record<string, string> {
  if (isDash(characters)) return { written: characters, instead: '-' };
  if (isShown(characters)) return { written: shortened(characters) };
  const code = characters.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0');
  return { written: `U+${code}`, unseen: 'yes' };
}

/** True where the characters can be shown in a sentence as they are. */
function isShown(characters: string): boolean {
  return !/[\p{C}\p{Z}]/u.test(characters);
}
