/**
 * The brace pass: statements to tokens whose braces always balance, so that the
 * parser never meets an error. Where the braces of a declaration balance they
 * decide; where they do not, indentation does. Blocks deeper than 32 are
 * skipped, here, so that nothing after this recurses without bound.
 */
import { innerWords } from './blocks.ts';
import { Close, Columns, Comma, FirstCell, Open, Piece, Word } from './pieces.ts';
import { innermost, readStatements, type Statement } from './statements.ts';
import type { Mistake, Tokens } from './tokens.ts';
import type { Span, TextEdit } from './tree.ts';
import { W } from './vocabulary/spelling.ts';

export const deepest = 32;

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

/** Applies the rules of lines and braces to the tokens of one text. */
export function balance(tokens: Tokens): Structure {
  return new BracePass(tokens).run();
}

interface Block {
  readonly open: Piece;
  readonly indent: number;
  firstIndent: number | undefined;
  /** A block without a word hands its lines to the one round it; a skipped one drops them. */
  readonly mode: 'body' | 'transparent' | 'skipped';
  /** Line of its `columns`; after it all lines are rows. */
  columns: number | undefined;
}

class BracePass {
  readonly #tokens: Tokens;
  readonly #statements: readonly Statement[];
  readonly #out: Piece[] = [];
  readonly #mistakes: Mistake[];
  readonly #skipped: Span[] = [];
  readonly #shapes: (LineShape | undefined)[] = [];
  readonly #stack: Block[] = [];
  #tooDeep = false;
  #anyClosed = false;
  /** True while a declaration is read that holds more closing braces than opening ones. */
  #oneTooMany = false;

  constructor(tokens: Tokens) {
    const { statements, mistakes } = readStatements(tokens);
    this.#tokens = tokens;
    this.#statements = statements;
    this.#mistakes = mistakes;
    this.#shapes = new Array(tokens.lines.length);
  }

  run(): Structure {
    let at = 0;
    while (at < this.#statements.length) at = this.#topLevel(at);
    const mistakes = this.#tooDeep
      ? this.#mistakes.filter((m) => m.name === 'nested-too-deep')
      : this.#mistakes;
    return { pieces: this.#out, mistakes, skipped: this.#skipped, shapes: this.#shapes };
  }

  /** Reads one declaration, entry or stretch of stray lines; gives where the next begins. */
  #topLevel(at: number): number {
    const statement = this.#statements[at]!;
    if (statement.close) return this.#strayClose(statement, at);
    if (!statement.open && this.#lacksOpen(at)) this.#addOpen(statement);
    if (!statement.open) {
      const end = this.#anyClosed ? this.#endOfStray(at) : at;
      if (end > at) return this.#dropLines(at, end);
      this.#line(statement);
      return at + 1;
    }
    const end = this.#balancedEnd(at);
    const next = end === undefined ? this.#byIndentation(at) : this.#byBraces(at, end);
    this.#anyClosed = true;
    return next;
  }

  /** A word at the margin with deeper lines below it lacks its `{`. */
  #lacksOpen(at: number): boolean {
    const statement = this.#statements[at]!;
    const next = this.#statements[at + 1];
    return (
      statement.indent === 0 &&
      next !== undefined &&
      !next.close &&
      !next.afterBlank &&
      next.indent > 0 &&
      next.line > statement.line
    );
  }

  /** The same inside a declaration whose braces do not balance, for the words that open blocks there. */
  #innerLacksOpen(at: number): boolean {
    const statement = this.#statements[at]!;
    const next = this.#statements[at + 1];
    return (
      this.#body()?.columns === undefined &&
      innerWords.has(this.#firstText(statement)) &&
      next !== undefined &&
      !next.close &&
      !next.afterBlank &&
      next.indent > statement.indent
    );
  }

  #addOpen(statement: Statement): void {
    const end = this.#tokens.pieces[statement.to - 1]!.endOffset;
    statement.open = new Piece(Open, end, end);
    const word = this.#tokens.pieces[statement.from]!;
    const name = word.argument && 'text' in word.argument ? word.argument.text : 'this word';
    this.#report('missing-open', statement.line, spanOf(word), {
      details: { word: name },
      edits: [{ span: { start: end, end }, text: ' {' }],
    });
  }

  /** Where the declaration that opens at `at` closes by its braces, if all of them balance. */
  #balancedEnd(at: number): number | undefined {
    const statements = this.#statements;
    const indent = statements[at]!.indent;
    this.#oneTooMany = false;
    let depth = 0;
    let end = -1;
    for (let index = at; index < statements.length; index++) {
      const statement = statements[index]!;
      if (end >= 0 && depth === 0 && this.#beginsAnother(index, indent)) break;
      if (statement.open) depth++;
      else if (statement.close) depth--;
      if (end < 0 && depth === 0) end = index;
      if (depth < 0) {
        this.#oneTooMany = true;
        return undefined;
      }
    }
    return end < 0 ? undefined : end;
  }

  /** True for a line that opens the next declaration, or would if its `{` were not missing. */
  #beginsAnother(at: number, indent: number): boolean {
    const statement = this.#statements[at]!;
    if (!statement.open) return this.#lacksOpen(at);
    if (statement.indent > indent || statement.to === statement.from) return false;
    return !innerWords.has(this.#firstText(statement));
  }

  #byBraces(at: number, end: number): number {
    for (let index = at; index <= end; index++) {
      const statement = this.#statements[index]!;
      if (statement.close) this.#close(statement);
      else this.#line(statement);
    }
    return end + 1;
  }

  #byIndentation(at: number): number {
    const statements = this.#statements;
    this.#line(statements[at]!);
    for (let index = at + 1; index < statements.length; index++) {
      const statement = statements[index]!;
      if (statement.close) {
        if (this.#closeByIndentation(statement, index)) return index + 1;
      } else {
        if (this.#endBefore(statement)) return index;
        if (!statement.open && this.#innerLacksOpen(index)) this.#addOpen(statement);
        this.#line(statement);
      }
      if (this.#stack.length === 0) return index + 1;
    }
    this.#leaveOpen(0, undefined);
    return statements.length;
  }

  /** Closes what a `}` closes by where it stands; true if that ends the declaration. */
  #closeByIndentation(statement: Statement, index: number): boolean {
    const stack = this.#stack;
    if (this.#oneTooMany && !this.#standsAlone(statement)) {
      this.#reportStray(statement);
    } else if (statement.indent === 0) {
      if (this.#goesOnAfter(index)) this.#reportStray(statement);
      else {
        this.#leaveOpen(1, statement);
        this.#close(statement);
      }
    } else if (statement.indent === innermost) {
      this.#close(statement);
    } else {
      let level = stack.length - 1;
      while (level >= 0 && stack[level]!.indent !== statement.indent) level--;
      if (level < 0) this.#reportStray(statement);
      else {
        this.#leaveOpen(level + 1, statement);
        this.#close(statement);
      }
    }
    return stack.length === 0;
  }

  /** True if lines follow a `}` without an empty line and end in another one too many. */
  #goesOnAfter(at: number): boolean {
    let depth = 0;
    for (let index = at + 1; index < this.#statements.length; index++) {
      const statement = this.#statements[index]!;
      if (statement.afterBlank || (depth === 0 && this.#lacksOpen(index))) return false;
      if (statement.open) depth++;
      else if (statement.close) depth--;
      if (depth < 0) return index > at + 1;
    }
    return false;
  }

  /** Ends the blocks that began deeper than they opened and whose line this cannot be. */
  #endBefore(statement: Statement): boolean {
    const stack = this.#stack;
    let level = stack.length;
    while (level > 0) {
      const { indent, firstIndent } = stack[level - 1]!;
      if (firstIndent === undefined || firstIndent <= indent || statement.indent > indent) break;
      level--;
    }
    if (level < stack.length) this.#leaveOpen(level, statement);
    return stack.length === 0;
  }

  /** Closes all blocks above `level` that nobody closed: one finding, on the innermost. */
  #leaveOpen(level: number, before: Statement | undefined): void {
    const stack = this.#stack;
    if (stack.length <= level) return;
    const innermostBlock = stack.at(-1)!;
    if (innermostBlock.open.endOffset > innermostBlock.open.startOffset) {
      const edits = [this.#closeAt(innermostBlock, before)];
      this.#report(
        'block-left-open',
        this.#lineOf(innermostBlock.open),
        spanOf(innermostBlock.open),
        {
          edits: stack.length - level === 1 ? edits : undefined,
        },
      );
    }
    while (stack.length > level) this.#popBlock(undefined);
  }

  /** The edit that closes a block before a statement, or after the last token. */
  #closeAt(block: Block, before: Statement | undefined): TextEdit {
    const last = before
      ? this.#tokens.lines[before.line]!.from - 1
      : this.#tokens.pieces.length - 1;
    const end = this.#lineHolding(Math.max(0, last));
    return { span: { start: end, end }, text: `\n${' '.repeat(Math.max(0, block.indent))}}` };
  }

  /** End of the line that holds a token. */
  #lineHolding(piece: number): number {
    const lines = this.#tokens.lines;
    return lines[this.#lineIndex(this.#tokens.pieces[piece]!.startOffset)]!.end;
  }

  #lineOf(piece: Piece): number {
    return this.#lineIndex(piece.startOffset);
  }

  #lineIndex(offset: number): number {
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

  #strayClose(statement: Statement, at: number): number {
    this.#reportStray(statement);
    return at + 1;
  }

  #standsAlone({ line }: Statement): boolean {
    const { from, to } = this.#tokens.lines[line]!;
    return to - from === 1;
  }

  #reportStray(statement: Statement): void {
    const span = spanOf(statement.close!);
    this.#skipped.push(span);
    this.#shapes[statement.line] = { role: 'left', depth: this.#stack.length, opens: false };
    const line = this.#tokens.lines[statement.line]!;
    const alone = this.#standsAlone(statement) && !line.comment;
    const next = this.#tokens.lines[statement.line + 1];
    const whole = alone && next ? { start: line.start, end: next.start } : span;
    this.#report('stray-close', statement.line, span, { edits: [{ span: whole, text: '' }] });
  }

  /** Last of the lines from `at` that belong to no declaration, or `at` itself if it may stand. */
  #endOfStray(at: number): number {
    const statements = this.#statements;
    const first = statements[at]!;
    let end = at;
    let closes = false;
    let depth = 0;
    for (let index = at; index < statements.length; index++) {
      const statement = statements[index]!;
      if (index > at && statement.afterBlank) break;
      if (statement.open) {
        if (!innerWords.has(this.#firstText(statement))) break;
        depth++;
      } else if (statement.close) {
        depth--;
        closes ||= depth < 0;
      } else if (statement.indent === 0 && first.indent > 0) {
        break;
      }
      end = index + 1;
      if (depth < 0) break;
    }
    return first.indent > 0 || closes ? end : at;
  }

  #dropLines(from: number, to: number): number {
    const first = this.#statements[from]!;
    const last = this.#statements[to - 1]!;
    const start = this.#startOf(first);
    const end = this.#endOf(last);
    for (let index = from; index < to; index++) {
      const { line, lastLine } = this.#statements[index]!;
      for (let at = line; at <= lastLine; at++) {
        this.#shapes[at] = { role: 'left', depth: 0, opens: false };
      }
      this.#skip(this.#statements[index]!);
    }
    this.#report('lines-outside', first.line, { start, end });
    return to;
  }

  /** Hands on an entry, row or `columns`, and opens its block. */
  #line(statement: Statement): void {
    const top = this.#stack.at(-1);
    if (top && top.firstIndent === undefined) top.firstIndent = statement.indent;
    const body = this.#body();
    const mode = statement.open ? this.#modeOf(statement, body) : 'body';
    this.#shape(statement, body);
    if (top?.mode === 'skipped' || (mode === 'skipped' && statement.open)) this.#skip(statement);
    else if (statement.to > statement.from) this.#handOn(statement, body);
    if (statement.open) {
      if (mode === 'body') this.#out.push(statement.open);
      this.#stack.push({
        open: statement.open,
        indent: statement.indent,
        firstIndent: undefined,
        mode,
        columns: undefined,
      });
    }
  }

  #modeOf(statement: Statement, body: Block | undefined): Block['mode'] {
    if (this.#stack.at(-1)?.mode === 'skipped') return 'skipped';
    const open = statement.open!;
    if (this.#stack.length >= deepest) {
      if (!this.#tooDeep) {
        const details = { most: deepest };
        this.#report('nested-too-deep', statement.line, spanOf(open), { details });
      }
      this.#tooDeep = true;
      return 'skipped';
    }
    if (statement.to === statement.from) {
      this.#skipped.push(spanOf(open));
      return 'transparent';
    }
    if (body && (body.columns !== undefined || this.#firstText(statement) === W.columns)) {
      this.#report('block-in-rows', statement.line, spanOf(open));
      return 'skipped';
    }
    return 'body';
  }

  /** The block whose entries the next line joins. */
  #body(): Block | undefined {
    for (let level = this.#stack.length - 1; level >= 0; level--) {
      if (this.#stack[level]!.mode !== 'transparent') return this.#stack[level];
    }
    return undefined;
  }

  #handOn(statement: Statement, body: Block | undefined): void {
    const first = this.#tokens.pieces[statement.from]!;
    if (body?.columns !== undefined) {
      if (this.#isWord(first, W.columns) && this.#holdsComma(statement)) {
        this.#skip(statement);
        this.#report('columns-again', statement.line, spanOf(first));
      } else this.#row(statement);
    } else if (body && this.#isWord(first, W.columns)) {
      body.columns = statement.line;
      this.#entry(statement, Columns);
      if (this.#out.at(-1)!.tokenType === Columns) {
        this.#report('columns-empty', statement.line, spanOf(first));
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
        this.#report('minus-apart', this.#lineOf(piece), span, { edits });
      }
      this.#out.push(piece);
    }
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
        this.#skipped.push(spanOf(piece));
        continue;
      }
      if (isFirst) piece.become(FirstCell);
      isFirst = false;
      this.#out.push(piece);
    }
    if (comma) this.#report('comma-in-row', statement.line, spanOf(comma), { edits });
  }

  #close(statement: Statement): void {
    this.#popBlock(statement.close!);
    this.#shapes[statement.line] = { role: 'close', depth: this.#stack.length, opens: false };
  }

  #popBlock(close: Piece | undefined): void {
    const block = this.#stack.pop()!;
    if (block.mode === 'body') {
      const end = this.#out.at(-1)!.endOffset;
      this.#out.push(close ?? new Piece(Close, end, end));
    } else if (close) this.#skipped.push(spanOf(close));
  }

  #shape(statement: Statement, body: Block | undefined): void {
    const { line, lastLine } = statement;
    const depth = this.#stack.length;
    const opens = statement.open !== undefined;
    if (body?.columns !== undefined) {
      this.#shapes[line] = { role: 'row', depth, of: body.columns, opens };
    } else if (body && this.#firstText(statement) === W.columns) {
      this.#shapes[line] = { role: 'columns', depth, opens };
    } else {
      this.#shapes[line] = { role: 'entry', depth, opens };
    }
    for (let at = line + 1; at <= lastLine; at++) {
      this.#shapes[at] = { role: 'continued', depth, opens, of: line };
    }
  }

  #skip(statement: Statement): void {
    this.#skipped.push({ start: this.#startOf(statement), end: this.#endOf(statement) });
  }

  #startOf(statement: Statement): number {
    const first = statement.close ?? this.#tokens.pieces[statement.from];
    return statement.to === statement.from && !statement.close
      ? statement.open!.startOffset
      : first!.startOffset;
  }

  #endOf(statement: Statement): number {
    if (statement.close) return statement.close.endOffset;
    return statement.open?.endOffset ?? this.#tokens.pieces[statement.to - 1]!.endOffset;
  }

  #firstText(statement: Statement): string {
    const argument = this.#tokens.pieces[statement.from]?.argument;
    return statement.to > statement.from && argument?.kind === 'name' ? argument.text : '';
  }

  #isWord(piece: Piece, word: string): boolean {
    return piece.argument?.kind === 'name' && piece.argument.text === word;
  }

  #holdsComma(statement: Statement): boolean {
    const pieces = this.#tokens.pieces;
    for (let at = statement.from; at < statement.to; at++) {
      if (pieces[at]!.tokenType === Comma) return true;
    }
    return false;
  }

  #reportComma(piece: Piece, name: string): void {
    const span = spanOf(piece);
    this.#skipped.push(span);
    this.#report(name, this.#lineOf(piece), span, { edits: [{ span, text: '' }] });
  }

  #report(
    name: string,
    line: number,
    span: Span,
    more: { details?: Record<string, string | number>; edits?: TextEdit[] | undefined } = {},
  ): void {
    this.#mistakes.push({ name, line, span, ...more });
  }
}

function spanOf(piece: Piece): Span {
  return { start: piece.startOffset, end: piece.endOffset };
}

function isNumber(piece: Piece): boolean {
  return piece.argument?.kind === 'number' || piece.argument?.kind === 'quantity';
}
