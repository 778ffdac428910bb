/**
 * Text to tokens, line by line. Any text has tokens: what cannot be read is
 * skipped or spoilt, and is one finding. Nothing here reaches over a line end.
 */
import { byteOrderMark, isBinary, nextLine } from './characters.ts';
import { Collected } from './collected.ts';
import { lineEndBefore, markerAt, type Side, sideAfter } from './conflict.ts';
import { LineReader } from './line-reader.ts';
import type { Piece } from './pieces.ts';
import type { Span, TextEdit } from './tree.ts';

/** A longer line is no text of a plan; it is skipped with one finding. */
const longestLine = 65_536;

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
  readonly #lines: TextLine[] = [];
  readonly #read: Collected;
  readonly #line: LineReader;
  /** Which side of a merge conflict is being read; only the first is. */
  #side: Side = 'none';

  constructor(text: string) {
    this.#text = text;
    this.#read = new Collected(text);
    this.#line = new LineReader(text, this.#read);
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
      pieces: this.#read.pieces,
      lines: this.#lines,
      mistakes: this.#read.mistakes,
      skipped: this.#read.skipped,
    };
  }

  #skipAll(): void {
    const span = { start: 0, end: this.#text.length };
    this.#read.skipped.push(span);
    this.#read.mistakes.push({ line: 0, name: 'binary', span: { start: 0, end: 1 } });
    this.#addLine(0, this.#text.length, 0, undefined, 'skipped');
  }

  #readLine(start: number, end: number): void {
    this.#read.lineFrom = this.#read.pieces.length;
    this.#line.hasBrace = false;
    const text = this.#text;
    if (this.#readMarker(start, end) || this.#side === 'other') {
      this.#read.skip({ start, end });
      this.#addLine(start, end, 0, undefined, 'skipped');
      return;
    }
    if (end - start > longestLine) {
      this.#read.skip({ start, end });
      this.#read.report('line-too-long', { start, end: start + 1 }, { most: longestLine });
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
    const comment = this.#line.readPieces(at, end);
    const holds = this.#read.pieces.length > this.#read.lineFrom;
    this.#addLine(start, end, indent, comment, holds ? 'text' : comment ? 'comment' : 'blank');
  }

  /**
   * A marker of a merge conflict, understood alone: its declarations are blocks of their own, and
   * whoever holds all of them knows which lie in the other side.
   */
  #readMarker(start: number, end: number): boolean {
    const marker = markerAt(this.#text, start, end);
    if (marker === undefined) return false;
    const before = this.#side;
    this.#side = sideAfter(marker);
    if (before !== 'none' && marker !== '<') return true;
    if (marker === '>') this.#skipBefore(start);
    this.#read.report('merge-conflict', { start, end });
    return true;
  }

  /** Takes back what was read so far: it was the second side of a conflict. */
  #skipBefore(end: number): void {
    this.#read.pieces.length = 0;
    this.#read.mistakes.length = 0;
    this.#read.skipped.length = 0;
    if (end > 0) this.#read.skipped.push({ start: 0, end });
    this.#read.lineFrom = 0;
    for (const [index, line] of this.#lines.entries()) {
      const emptied = { from: 0, to: 0, comment: undefined, hasBrace: false };
      this.#lines[index] = { ...line, ...emptied, kind: 'skipped' };
    }
  }

  #addLine(
    start: number,
    end: number,
    indent: number,
    comment: Span | undefined,
    kind: TextLine['kind'],
  ): void {
    const from = this.#read.lineFrom;
    const to = this.#read.pieces.length;
    this.#read.line += 1;
    this.#lines.push({
      start,
      end,
      indent,
      from,
      to,
      comment,
      hasBrace: this.#line.hasBrace,
      kind,
    });
  }
}
