/**
 * The brace pass: statements to tokens whose braces always balance, so that the
 * parser never meets an error. Where the braces of a declaration balance they
 * decide; where they do not, indentation does. Blocks deeper than 32 are
 * skipped, here, so that nothing after this recurses without bound.
 */
import { innerWords } from './blocks.ts';
import { type OpenBlock, OpenBlocks, type Structure, spanOf } from './open-blocks.ts';
import { Open, Piece } from './pieces.ts';
import { innermost, readStatements, type Statement } from './statements.ts';
import type { Tokens } from './tokens.ts';
import type { TextEdit } from './tree.ts';

export type { LineShape, Structure } from './open-blocks.ts';

/** Applies the rules of lines and braces to the tokens of one text. */
export function balance(tokens: Tokens): Structure {
  return new BracePass(tokens).run();
}

class BracePass {
  readonly #tokens: Tokens;
  readonly #statements: readonly Statement[];
  readonly #blocks: OpenBlocks;
  #anyClosed = false;
  /** True while a declaration is read that holds more closing braces than opening ones. */
  #oneTooMany = false;

  constructor(tokens: Tokens) {
    const { statements, mistakes } = readStatements(tokens);
    this.#tokens = tokens;
    this.#statements = statements;
    this.#blocks = new OpenBlocks(tokens, mistakes);
  }

  run(): Structure {
    let at = 0;
    while (at < this.#statements.length) at = this.#topLevel(at);
    return this.#blocks.structure();
  }

  /** Reads one declaration, entry or stretch of stray lines; gives where the next begins. */
  #topLevel(at: number): number {
    const statement = this.#statements[at]!;
    if (statement.close) return this.#strayClose(statement, at);
    if (!statement.open && this.#lacksOpen(at)) this.#addOpen(statement);
    if (!statement.open) {
      const end = this.#endOfStray(at);
      const name = this.#anyClosed ? 'lines-outside' : 'block-without-head';
      if (end > at) return this.#dropLines(at, end, name);
      this.#blocks.line(statement);
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
      this.#blocks.body()?.columns === undefined &&
      innerWords.has(this.#blocks.firstText(statement)) &&
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
    this.#blocks.report('missing-open', statement.line, spanOf(word), {
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
    return !innerWords.has(this.#blocks.firstText(statement));
  }

  #byBraces(at: number, end: number): number {
    for (let index = at; index <= end; index++) {
      const statement = this.#statements[index]!;
      if (statement.close) this.#blocks.close(statement);
      else this.#blocks.line(statement);
    }
    return end + 1;
  }

  #byIndentation(at: number): number {
    const statements = this.#statements;
    this.#blocks.line(statements[at]!);
    for (let index = at + 1; index < statements.length; index++) {
      const statement = statements[index]!;
      const headless = this.#oneTooMany ? this.#endOfHeadless(index) : index;
      if (headless > index) {
        index = this.#dropLines(index, headless, 'block-without-head') - 1;
      } else if (statement.close) {
        if (this.#closeByIndentation(statement, index)) return index + 1;
      } else {
        if (this.#endBefore(statement)) return index;
        if (!statement.open && this.#innerLacksOpen(index)) this.#addOpen(statement);
        this.#blocks.line(statement);
      }
      if (this.#blocks.stack.length === 0) return index + 1;
    }
    this.#leaveOpen(0, undefined);
    return statements.length;
  }

  /** End of the lines from `at` that stand deeper than their block's and close with a `}` nobody opened; `at` if they do not. */
  #endOfHeadless(at: number): number {
    const { indent } = this.#statements[at]!;
    const { indent: outer, firstIndent = outer + 1 } = this.#blocks.stack.at(-1)!;
    if (indent <= firstIndent || this.#statements[at]!.close) return at;
    let depth = 0;
    for (let index = at; index < this.#statements.length; index++) {
      const statement = this.#statements[index]!;
      if (statement.open) depth++;
      else if (statement.close) depth--;
      const heads = statement.indent < indent;
      if (depth < 0) return heads && statement.indent >= firstIndent ? index + 1 : at;
      if (heads) return at;
    }
    return at;
  }

  /** Closes what a `}` closes by where it stands; true if that ends the declaration. */
  #closeByIndentation(statement: Statement, index: number): boolean {
    const stack = this.#blocks.stack;
    if (this.#oneTooMany && !this.#standsAlone(statement)) {
      this.#reportStray(statement);
    } else if (statement.indent === 0) {
      if (this.#goesOnAfter(index)) this.#reportStray(statement);
      else {
        this.#leaveOpen(1, statement);
        this.#blocks.close(statement);
      }
    } else if (statement.indent === innermost) {
      this.#blocks.close(statement);
    } else {
      let level = stack.length - 1;
      while (level >= 0 && stack[level]!.indent !== statement.indent) level--;
      if (level < 0) this.#reportStray(statement);
      else {
        this.#leaveOpen(level + 1, statement);
        this.#blocks.close(statement);
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
    const stack = this.#blocks.stack;
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
    const stack = this.#blocks.stack;
    if (stack.length <= level) return;
    const innermostBlock = stack.at(-1)!;
    if (innermostBlock.open.endOffset > innermostBlock.open.startOffset) {
      const edits = [this.#closeAt(innermostBlock, before)];
      this.#blocks.report(
        'block-left-open',
        this.#blocks.lineOf(innermostBlock.open),
        spanOf(innermostBlock.open),
        {
          edits: stack.length - level === 1 ? edits : undefined,
        },
      );
    }
    while (stack.length > level) this.#blocks.pop(undefined);
  }

  /** The edit that closes a block before a statement, or after the last token. */
  #closeAt(block: OpenBlock, before: Statement | undefined): TextEdit {
    const last = before
      ? this.#tokens.lines[before.line]!.from - 1
      : this.#tokens.pieces.length - 1;
    const end = this.#lineHolding(Math.max(0, last));
    return { span: { start: end, end }, text: `\n${' '.repeat(Math.max(0, block.indent))}}` };
  }

  /** End of the line that holds a token. */
  #lineHolding(piece: number): number {
    const lines = this.#tokens.lines;
    return lines[this.#blocks.lineAt(this.#tokens.pieces[piece]!.startOffset)]!.end;
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
    this.#blocks.skipped.push(span);
    this.#blocks.leave(statement.line);
    const line = this.#tokens.lines[statement.line]!;
    const alone = this.#standsAlone(statement) && !line.comment;
    const next = this.#tokens.lines[statement.line + 1];
    const whole = alone && next ? { start: line.start, end: next.start } : span;
    this.#blocks.report('stray-close', statement.line, span, {
      edits: [{ span: whole, text: '' }],
    });
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
        if (!innerWords.has(this.#blocks.firstText(statement))) break;
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
    return closes || (this.#anyClosed && first.indent > 0) ? end : at;
  }

  #dropLines(from: number, to: number, name: string): number {
    const first = this.#statements[from]!;
    const last = this.#statements[to - 1]!;
    const start = this.#blocks.startOf(first);
    const end = this.#blocks.endOf(last);
    for (let index = from; index < to; index++) {
      const { line, lastLine } = this.#statements[index]!;
      for (let at = line; at <= lastLine; at++) this.#blocks.leave(at);
      this.#blocks.skip(this.#statements[index]!);
    }
    this.#blocks.report(name, first.line, { start, end });
    return to;
  }
}
