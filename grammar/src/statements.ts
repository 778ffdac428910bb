/**
 * Lines to statements: a line that goes on after a comma is joined with the
 * next, a brace on a line of its own belongs to the line above, and a block
 * written on one line is taken apart. A statement is one entry, row or `}`.
 */
import { Close, Comma, Open, type Piece } from './pieces.ts';
import type { Mistake, TextLine, Tokens } from './tokens.ts';
import type { TextEdit } from './tree.ts';
import { W } from './vocabulary/spelling.ts';

/** Indentation of a `}` that ends a line of something else: it closes what is innermost. */
export const innermost = -1;

export interface Statement {
  /** First and last line, as indexes. */
  readonly line: number;
  lastLine: number;
  readonly indent: number;
  /** Places of its tokens, without braces. */
  readonly from: number;
  to: number;
  open: Piece | undefined;
  readonly close: Piece | undefined;
  /** True if an empty line stands directly before. */
  readonly afterBlank: boolean;
}

export interface Statements {
  readonly statements: Statement[];
  readonly mistakes: Mistake[];
}

/** Parts the tokens of a text into statements. */
export function readStatements(tokens: Tokens): Statements {
  return new StatementReader(tokens).read();
}

class StatementReader {
  readonly #pieces: readonly Piece[];
  readonly #lines: readonly TextLine[];
  readonly #statements: Statement[] = [];
  readonly #mistakes: Mistake[] = [];
  #inTable = false;
  #afterBlank = false;

  constructor(tokens: Tokens) {
    this.#pieces = tokens.pieces;
    this.#lines = tokens.lines;
  }

  read(): Statements {
    for (let index = 0; index < this.#lines.length; index++) {
      const line = this.#lines[index]!;
      if (line.kind === 'text') {
        this.#readLine(line, index);
        this.#afterBlank = false;
      } else if (line.kind !== 'comment') {
        this.#afterBlank = true;
      }
    }
    return { statements: this.#statements, mistakes: this.#mistakes };
  }

  #readLine(line: TextLine, index: number): void {
    if (this.#continues(line, index)) return;
    if (line.hasBrace) {
      this.#takeApart(line, index);
      return;
    }
    this.#add(index, line.indent, line.from, line.to);
    const first = this.#pieces[line.from]!.argument;
    if (first?.kind === 'name' && first.text === W.columns) this.#inTable = true;
  }

  /** Joins a line with the one before, if that list goes on in it and it stands deeper. */
  #continues(line: TextLine, index: number): boolean {
    const before = this.#statements.at(-1);
    if (!before || before.open || before.close || this.#afterBlank) return false;
    if (before.to === before.from) return false;
    const ended = this.#pieces[before.to - 1]!.tokenType === Comma;
    if (!ended && !this.#lacksComma(before, line)) return false;
    if (line.indent <= before.indent || (this.#inTable && !this.#isColumns(before))) return false;
    if (line.hasBrace) {
      const brace = this.#onlyOpenAtEnd(line);
      if (!brace || line.to - line.from < 2) return false;
      before.open = brace;
      this.#inTable = false;
    }
    before.to = before.open ? line.to - 1 : line.to;
    before.lastLine = index;
    return true;
  }

  /**
   * True where an entry holds a list and the line below goes on with it, though no
   * comma ends the line above: no entry has a comma for its second token.
   */
  #lacksComma(before: Statement, line: TextLine): boolean {
    if (this.#inTable || line.to - line.from < 2) return false;
    if (this.#pieces[line.from]!.argument === undefined) return false;
    if (this.#pieces[line.from + 1]!.tokenType !== Comma) return false;
    for (let at = before.from + 2; at < before.to; at++) {
      if (this.#pieces[at]!.tokenType === Comma) return true;
    }
    return false;
  }

  #isColumns(statement: Statement): boolean {
    const first = this.#pieces[statement.from]!.argument;
    return first?.kind === 'name' && first.text === W.columns;
  }

  /** The brace of a line that holds one brace, a `{` at its end. */
  #onlyOpenAtEnd(line: TextLine): Piece | undefined {
    for (let at = line.from; at < line.to; at++) {
      const type = this.#pieces[at]!.tokenType;
      if (type === Close || (type === Open && at < line.to - 1)) return undefined;
    }
    return this.#pieces[line.to - 1]!;
  }

  #takeApart(line: TextLine, index: number): void {
    this.#inTable = false;
    const brace = this.#onlyOpenAtEnd(line);
    if (brace && line.to - line.from > 1) {
      this.#add(index, line.indent, line.from, line.to - 1, brace);
      return;
    }
    const first = this.#pieces[line.from]!;
    if (first.tokenType === Close && line.to - line.from === 1) {
      this.#add(index, line.indent, line.from, line.from, undefined, first);
      return;
    }
    this.#reportShape(line, index, brace);
    let from = line.from;
    let opened = 0;
    for (let at = line.from; at < line.to; at++) {
      const piece = this.#pieces[at]!;
      const indent = line.indent + 2 * opened;
      if (piece.tokenType === Open) {
        if (at > from || !this.#giveToLast(piece, index)) this.#add(index, indent, from, at, piece);
        opened++;
        from = at + 1;
      } else if (piece.tokenType === Close) {
        if (at > from) this.#add(index, indent, from, at);
        const own = at === line.from ? line.indent : innermost;
        this.#add(index, own, at, at, undefined, piece);
        opened = Math.max(0, opened - 1);
        from = at + 1;
      }
    }
    if (from < line.to) this.#add(index, line.indent + 2 * opened, from, line.to);
  }

  /** Gives a `{` that has nothing before it to the statement above, if that can take it. */
  #giveToLast(piece: Piece, index: number): boolean {
    const last = this.#statements.at(-1);
    if (!last || last.open || last.close || this.#afterBlank || last.line === index) return false;
    last.open = piece;
    return true;
  }

  #reportShape(line: TextLine, index: number, brace: Piece | undefined): void {
    const first = this.#pieces[line.from]!;
    if (first.tokenType === Open) {
      const last = this.#statements.at(-1);
      const above = last && !last.open && !last.close && !this.#afterBlank ? last : undefined;
      const name = above ? 'brace-apart' : 'brace-without-word';
      const edits = above && brace ? this.#moveUp(above, index) : undefined;
      this.#report(index, name, first, edits);
      return;
    }
    const odd = this.#firstOddBrace(line);
    this.#report(index, 'block-on-one-line', odd, this.#breakApart(line));
  }

  #firstOddBrace(line: TextLine): Piece {
    for (let at = line.from; at < line.to; at++) {
      const type = this.#pieces[at]!.tokenType;
      if (type === Open ? at < line.to - 1 : type === Close) return this.#pieces[at]!;
    }
    return this.#pieces[line.from]!;
  }

  #moveUp(above: Statement, index: number): TextEdit[] {
    const end = this.#pieces[above.to - 1]!.endOffset;
    const { start, end: lineEnd, comment } = this.#lines[index]!;
    const next = comment ? comment.start : (this.#lines[index + 1]?.start ?? lineEnd);
    return [
      { span: { start: end, end }, text: ' {' },
      { span: { start, end: next }, text: '' },
    ];
  }

  /** Line breaks after each `{` and round each `}`. */
  #breakApart(line: TextLine): TextEdit[] {
    const edits: TextEdit[] = [];
    let depth = line.indent;
    for (let at = line.from; at < line.to; at++) {
      const piece = this.#pieces[at]!;
      const next = this.#pieces[at + 1];
      if (piece.tokenType === Open) depth += 2;
      const closesNext = at + 1 < line.to && next!.tokenType === Close;
      if (closesNext) depth = Math.max(0, depth - 2);
      const breaks = piece.tokenType === Open || piece.tokenType === Close || closesNext;
      if (!breaks || at + 1 >= line.to || next!.tokenType === Open) continue;
      const span = { start: piece.endOffset, end: next!.startOffset };
      edits.push({ span, text: `\n${' '.repeat(depth)}` });
    }
    return edits;
  }

  #report(line: number, name: string, piece: Piece, edits?: TextEdit[]): void {
    const span = { start: piece.startOffset, end: piece.endOffset };
    this.#mistakes.push({ line, name, span, edits: edits?.length ? edits : undefined });
  }

  #add(line: number, indent: number, from: number, to: number, open?: Piece, close?: Piece): void {
    const afterBlank = this.#afterBlank;
    this.#statements.push({ line, lastLine: line, indent, from, to, open, close, afterBlank });
    this.#afterBlank = false;
  }
}
