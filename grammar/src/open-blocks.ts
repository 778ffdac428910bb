/**
 * The blocks that are open at a line, and what the parser is handed: words with
 * their lists, rows of cells, and braces that always balance. A comma that parts
 * nothing, a block where only rows may stand and one too deep are left out here.
 */
import { Close, Columns, Comma, FirstCell, Piece, Word } from './pieces.ts';
import type { Statement } from './statements.ts';
import type { Mistake, Tokens } from './tokens.ts';
import type { Span, TextEdit } from './tree.ts';
import { W } from './vocabulary/spelling.ts';

const deepest = 32;

/** What a line is to the formatter. */
export interface LineShape {
  readonly role: 'entry' | 'continued' | 'columns' | 'row' | 'close' | 'left';
  /** Number of blocks round the line. */
  readonly depth: number;
  /** For a row, the line of its `columns`; for a continued line, the first of its statement. */
  readonly of?: number;
  readonly opens: boolean;
}

export interface Structure {
  /** Tokens for the parser, balanced. */
  readonly pieces: Piece[];
  readonly mistakes: Mistake[];
  readonly skipped: Span[];
  /** By line; empty lines, comments and lines taken out have none. */
  readonly shapes: readonly (LineShape | undefined)[];
}

export interface OpenBlock {
  readonly open: Piece;
  readonly indent: number;
  firstIndent: number | undefined;
  /** A block without a word hands its lines to the one round it; a skipped one drops them. */
  readonly mode: 'body' | 'transparent' | 'skipped';
  /** Line of its `columns`; after it all lines are rows. */
  columns: number | undefined;
}

export class OpenBlocks {
  /** From the outermost to the innermost. */
  readonly stack: OpenBlock[] = [];
  readonly mistakes: Mistake[];
  readonly skipped: Span[] = [];
  readonly #tokens: Tokens;
  readonly #out: Piece[] = [];
  readonly #shapes: (LineShape | undefined)[];
  #tooDeep = false;

  constructor(tokens: Tokens, mistakes: Mistake[]) {
    this.#tokens = tokens;
    this.mistakes = mistakes;
    this.#shapes = new Array(tokens.lines.length);
  }

  structure(): Structure {
    const mistakes = this.#tooDeep
      ? this.mistakes.filter((m) => m.name === 'nested-too-deep')
      : this.mistakes;
    return { pieces: this.#out, mistakes, skipped: this.skipped, shapes: this.#shapes };
  }

  /** Hands on an entry, row or `columns`, and opens its block. */
  line(statement: Statement): void {
    const top = this.stack.at(-1);
    if (top && top.firstIndent === undefined) top.firstIndent = statement.indent;
    const body = this.body();
    const mode = statement.open ? this.#modeOf(statement, body) : 'body';
    this.#shape(statement, body);
    if (top?.mode === 'skipped' || (mode === 'skipped' && statement.open)) this.skip(statement);
    else if (statement.to > statement.from) this.#handOn(statement, body);
    if (statement.open) {
      if (mode === 'body') this.#out.push(statement.open);
      this.stack.push({
        open: statement.open,
        indent: statement.indent,
        firstIndent: undefined,
        mode,
        columns: undefined,
      });
    }
  }

  close(statement: Statement): void {
    this.pop(statement.close!);
    this.#shapes[statement.line] = { role: 'close', depth: this.stack.length, opens: false };
  }

  pop(close: Piece | undefined): void {
    const block = this.stack.pop()!;
    if (block.mode === 'body') {
      const end = this.#out.at(-1)!.endOffset;
      this.#out.push(close ?? new Piece(Close, end, end));
    } else if (close) this.skipped.push(spanOf(close));
  }

  /** The block whose entries the next line joins. */
  body(): OpenBlock | undefined {
    for (let level = this.stack.length - 1; level >= 0; level--) {
      if (this.stack[level]!.mode !== 'transparent') return this.stack[level];
    }
    return undefined;
  }

  skip(statement: Statement): void {
    this.skipped.push({ start: this.startOf(statement), end: this.endOf(statement) });
  }

  report(
    name: string,
    line: number,
    span: Span,
    more: { details?: Record<string, string | number>; edits?: TextEdit[] | undefined } = {},
  ): void {
    this.mistakes.push({ name, line, span, ...more });
  }

  firstText(statement: Statement): string {
    const argument = this.#tokens.pieces[statement.from]?.argument;
    return statement.to > statement.from && argument?.kind === 'name' ? argument.text : '';
  }

  startOf(statement: Statement): number {
    const first = statement.close ?? this.#tokens.pieces[statement.from];
    return statement.to === statement.from && !statement.close
      ? statement.open!.startOffset
      : first!.startOffset;
  }

  endOf(statement: Statement): number {
    if (statement.close) return statement.close.endOffset;
    return statement.open?.endOffset ?? this.#tokens.pieces[statement.to - 1]!.endOffset;
  }

  lineOf(piece: Piece): number {
    return this.lineAt(piece.startOffset);
  }

  lineAt(offset: number): number {
    const lines = this.#tokens.lines;
    let low = 0;
    let high = lines.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (lines[middle]!.start <= offset) low = middle;
      else high = middle - 1;
    }
    return low;
  }

  #modeOf(statement: Statement, body: OpenBlock | undefined): OpenBlock['mode'] {
    if (this.stack.at(-1)?.mode === 'skipped') return 'skipped';
    const open = statement.open!;
    if (this.stack.length >= deepest) {
      if (!this.#tooDeep) {
        const details = { most: deepest };
        this.report('nested-too-deep', this.lineOf(open), spanOf(open), { details });
      }
      this.#tooDeep = true;
      return 'skipped';
    }
    if (!this.#holdsWord(statement)) {
      this.skipped.push(spanOf(open));
      return 'transparent';
    }
    if (body && (body.columns !== undefined || this.firstText(statement) === W.columns)) {
      // Where the brace stands on a line of its own, the finding is that line's.
      this.report('block-in-rows', this.lineOf(open), spanOf(open));
      return 'skipped';
    }
    return 'body';
  }

  #handOn(statement: Statement, body: OpenBlock | undefined): void {
    const first = this.#tokens.pieces[statement.from]!;
    if (body?.columns !== undefined) {
      if (this.#isWord(first, W.columns) && this.#holdsComma(statement)) {
        this.skip(statement);
        this.report('columns-again', statement.line, spanOf(first));
      } else this.#row(statement);
    } else if (body && this.#isWord(first, W.columns)) {
      body.columns = statement.line;
      this.#entry(statement, Columns);
      if (this.#out.at(-1)!.tokenType === Columns) {
        this.report('columns-empty', statement.line, spanOf(first));
      }
    } else this.#entry(statement, Word);
  }

  /** Hands on a word and its lists, without the commas that part nothing. */
  #entry(statement: Statement, type: typeof Word): void {
    const pieces = this.#tokens.pieces;
    let from = statement.from;
    while (from < statement.to && pieces[from]!.tokenType === Comma) {
      this.#reportComma(pieces[from]!, 'comma-alone');
      from++;
    }
    if (from === statement.to) return;
    pieces[from]!.become(type);
    this.#out.push(pieces[from]!);
    for (let at = from + 1; at < statement.to; at++) {
      const piece = pieces[at]!;
      const before = pieces[at - 1]!;
      if (piece.tokenType === Comma) {
        if (at + 1 === statement.to) {
          this.#reportComma(piece, statement.open ? 'comma-alone' : 'comma-at-end');
          continue;
        }
        const follows =
          this.#out.at(-1)!.argument !== undefined && this.#out.at(-1) !== pieces[from];
        if (!follows || pieces[at + 1]!.tokenType === Comma) {
          this.#reportComma(piece, 'comma-alone');
          continue;
        }
      } else if (before.argument?.kind === 'absent' && isNumber(piece) && at > from + 1) {
        const gap = { start: before.endOffset, end: piece.startOffset };
        const span = { start: before.startOffset, end: piece.endOffset };
        const edits = [{ span: gap, text: '' }];
        this.report('minus-apart', this.lineOf(piece), span, { edits });
      } else if (statement.lastLine > statement.line && before.tokenType !== Comma) {
        this.#putComma(before, piece);
      }
      this.#out.push(piece);
    }
  }

  /** Puts the comma that nobody typed between two lines of one list. */
  #putComma(before: Piece, piece: Piece): void {
    const line = this.lineOf(before);
    if (line === this.lineOf(piece)) return;
    const end = before.endOffset;
    const edits = [{ span: { start: end, end }, text: ',' }];
    this.report('comma-missing', line, spanOf(before), { edits });
    this.#out.push(new Piece(Comma, end, end));
  }

  #row(statement: Statement): void {
    const pieces = this.#tokens.pieces;
    let isFirst = true;
    let comma: Piece | undefined;
    const edits: TextEdit[] = [];
    for (let at = statement.from; at < statement.to; at++) {
      const piece = pieces[at]!;
      if (piece.tokenType === Comma) {
        comma ??= piece;
        edits.push({ span: spanOf(piece), text: ' ' });
        this.skipped.push(spanOf(piece));
        continue;
      }
      if (isFirst) piece.become(FirstCell);
      isFirst = false;
      this.#out.push(piece);
    }
    if (comma) this.report('comma-in-row', statement.line, spanOf(comma), { edits });
  }

  #shape(statement: Statement, body: OpenBlock | undefined): void {
    const { line, lastLine } = statement;
    const depth = this.stack.length;
    const opens = statement.open !== undefined;
    if (body?.columns !== undefined) {
      this.#shapes[line] = { role: 'row', depth, of: body.columns, opens };
    } else if (body && this.firstText(statement) === W.columns) {
      this.#shapes[line] = { role: 'columns', depth, opens };
    } else {
      this.#shapes[line] = { role: 'entry', depth, opens };
    }
    for (let at = line + 1; at <= lastLine; at++) {
      this.#shapes[at] = { role: 'continued', depth, opens, of: line };
    }
  }

  #holdsComma(statement: Statement): boolean {
    const pieces = this.#tokens.pieces;
    for (let at = statement.from; at < statement.to; at++) {
      if (pieces[at]!.tokenType === Comma) return true;
    }
    return false;
  }

  /** False where nothing but commas stands before a brace. */
  #holdsWord(statement: Statement): boolean {
    const pieces = this.#tokens.pieces;
    for (let at = statement.from; at < statement.to; at++) {
      if (pieces[at]!.tokenType !== Comma) return true;
    }
    return false;
  }

  #isWord(piece: Piece, word: string): boolean {
    return piece.argument?.kind === 'name' && piece.argument.text === word;
  }

  #reportComma(piece: Piece, name: string): void {
    const span = spanOf(piece);
    this.skipped.push(span);
    this.report(name, this.lineOf(piece), span, { edits: [{ span, text: '' }] });
  }

  /** Says that a line is part of nothing. */
  leave(line: number): void {
    this.#shapes[line] = { role: 'left', depth: this.stack.length, opens: false };
  }
}

export function spanOf(piece: Piece): Span {
  return { start: piece.startOffset, end: piece.endOffset };
}

function isNumber(piece: Piece): boolean {
  return piece.argument?.kind === 'number' || piece.argument?.kind === 'quantity';
}
