/**
 * How one line is laid out. A line's layout depends on that line alone, a row's
 * also on its `columns` line: a changed fact is one changed line.
 */
import type { LineShape } from './braces.ts';
import { Close, Comma, Open, type Piece } from './pieces.ts';
import { findUnit } from './quantity/index.ts';
import type { Tokens } from './tokens.ts';
import type { Argument } from './tree.ts';
import { canonical, K, W } from './vocabulary/spelling.ts';

/** Columns from the start of a word inside a block to its first argument. */
const argumentColumn = 12;
const indentOf = (depth: number): number => 2 * depth;
/** Least width of a column of numbers or fibres, and of any other. */
const numberWidth = 8;
const otherWidth = 16;
/** Places from the stop of a number to its point. */
const pointPlace = 3;

/** Lays out the lines of one text. */
export class Layout {
  readonly #text: string;
  readonly #tokens: Tokens;
  readonly #shapes: readonly (LineShape | undefined)[];
  readonly #tables = new Map<number, readonly Stop[]>();
  /** Lines, all without tokens, whose comments stand in one column. */
  #comments = { from: 0, to: 0, column: 0 };

  constructor(text: string, tokens: Tokens, shapes: readonly (LineShape | undefined)[]) {
    this.#text = text;
    this.#tokens = tokens;
    this.#shapes = shapes;
  }

  /** Canonical text of a line, without its line end; empty for an empty line. */
  line(index: number): string {
    const { comment, kind } = this.#tokens.lines[index]!;
    if (kind === 'blank') return '';
    const note = comment ? this.#text.slice(comment.start, comment.end).trimEnd() : '';
    if (kind === 'comment') return ' '.repeat(this.#commentColumn(index)) + note;
    const line = this.#tokensOf(index);
    return note === '' ? line : `${line}  ${note}`;
  }

  #tokensOf(index: number): string {
    const shape = this.#shapes[index]!;
    const indent = ' '.repeat(indentOf(shape.depth));
    switch (shape.role) {
      case 'close':
        return `${indent}}`;
      case 'columns':
        return this.#columns(index, shape);
      case 'continued':
        return this.#continued(index, shape);
      case 'row':
        return this.#row(index, shape);
      default:
        return this.#entry(index, indent, shape);
    }
  }

  #entry(index: number, indent: string, shape: LineShape): string {
    const { from, to } = this.#tokens.lines[index]!;
    const word = this.#source(this.#tokens.pieces[from]!);
    const rest = this.#joined(from + 1, to);
    if (rest === '') return indent + word;
    if (rest.startsWith(',')) return indent + word + rest;
    const gap = shape.depth === 0 || shape.opens ? 1 : argumentColumn - word.length;
    return indent + word + ' '.repeat(Math.max(1, gap)) + rest;
  }

  /** Column of the first argument of an entry, where its continued lines stand too. */
  #argumentStart(index: number): number {
    const shape = this.#shapes[index]!;
    const indent = indentOf(shape.depth);
    const word = this.#source(this.#tokens.pieces[this.#tokens.lines[index]!.from]!);
    const single = shape.depth === 0 || shape.opens || shape.role === 'columns';
    return indent + (single ? word.length + 1 : Math.max(argumentColumn, word.length + 1));
  }

  #continued(index: number, shape: LineShape): string {
    const first = shape.of ?? index;
    const column = this.#argumentStart(first);
    const { from, to } = this.#tokens.lines[index]!;
    if (this.#shapes[first]!.role !== 'columns') return ' '.repeat(column) + this.#joined(from, to);
    return this.#headings(' '.repeat(column), this.#headingsOf(from, to));
  }

  /** Comments before one line stand alike: a long run of them is walked through once. */
  #commentColumn(index: number): number {
    const { from, to, column } = this.#comments;
    if (from <= index && index < to) return column;
    let at = index + 1;
    while (at < this.#tokens.lines.length && !this.#holds(at)) at++;
    const found = at < this.#tokens.lines.length ? this.#columnBefore(at) : undefined;
    const own = found ?? indentOf(this.#depthAtEnd(index));
    this.#comments = { from: index, to: at, column: own };
    return own;
  }

  #holds(index: number): boolean {
    const shape = this.#shapes[index];
    return shape !== undefined && shape.role !== 'left';
  }

  /** Column of a comment that stands before a line with tokens. */
  #columnBefore(index: number): number {
    const { role, depth, of } = this.#shapes[index]!;
    if (role === 'continued') return this.#argumentStart(of ?? index);
    return indentOf(role === 'close' ? depth + 1 : depth);
  }

  /** Number of blocks still open behind a line that nothing follows. */
  #depthAtEnd(index: number): number {
    for (let at = index - 1; at >= 0; at--) {
      const shape = this.#shapes[at];
      if (shape && shape.role !== 'left') return shape.opens ? shape.depth + 1 : shape.depth;
    }
    return 0;
  }

  #columns(index: number, shape: LineShape): string {
    const { from, to } = this.#tokens.lines[index]!;
    const word = `${this.#source(this.#tokens.pieces[from]!)} `;
    const start = ' '.repeat(indentOf(shape.depth)) + word;
    const headings = this.#headingsOf(from + 1, to);
    return headings.length === 0 ? start.trimEnd() : this.#headings(start, headings, word.length);
  }

  /** Headings at their stops, the first behind `start`, of which `taken` columns are its own. */
  #headings(start: string, headings: readonly Heading[], taken = 0): string {
    let line = start;
    let stop = start.length - taken;
    for (const [place, heading] of headings.entries()) {
      line = place === 0 ? start : line.padEnd(stop);
      line += heading.text + (heading.comma ? ',' : '');
      stop += widthOf(heading, place === 0 ? taken : 0);
    }
    return line;
  }

  #headingsOf(from: number, to: number): Heading[] {
    const headings: Heading[] = [];
    let start = from;
    for (let at = from; at <= to; at++) {
      const isComma = at < to && this.#tokens.pieces[at]!.tokenType === Comma;
      if (at < to && !isComma) continue;
      if (isComma || at > start) {
        const isNumber = headsNumbers(this.#tokens.pieces, start, at);
        headings.push({ text: this.#joined(start, at), comma: isComma, isNumber });
      }
      start = at + 1;
    }
    return headings;
  }

  #row(index: number, shape: LineShape): string {
    const stops = this.#stopsOf(shape.of!, indentOf(shape.depth));
    const { from, to } = this.#tokens.lines[index]!;
    let line = '';
    let place = 0;
    for (let at = from; at < to; at++) {
      const piece = this.#tokens.pieces[at]!;
      if (piece.tokenType === Comma) {
        line += ',';
        continue;
      }
      const cell = this.#spelt(at, from);
      const column = this.#cellColumn(cell, piece.argument, stops[place], place);
      line = line.padEnd(place === 0 ? column : Math.max(column, line.length + 2)) + cell;
      place++;
    }
    return line;
  }

  #cellColumn(
    cell: string,
    argument: Argument | undefined,
    stop: Stop | undefined,
    place: number,
  ): number {
    if (!stop) return 0;
    if (place === 0) return stop.column;
    const kind = argument?.kind;
    if (kind === 'absent') return stop.isNumber ? stop.column + pointPlace - 1 : stop.column;
    if (kind !== 'number' && kind !== 'quantity') return stop.column;
    const whole = /^-?\d*/u.exec(cell)![0].length;
    return stop.column + Math.max(0, pointPlace - whole);
  }

  /** The stops of a table, from all lines of its `columns`. */
  #stopsOf(columns: number, indent: number): readonly Stop[] {
    const known = this.#tables.get(columns);
    if (known) return known;
    const { from } = this.#tokens.lines[columns]!;
    let last = columns;
    for (let at = columns + 1; at < this.#shapes.length; at++) {
      const shape = this.#shapes[at];
      if (shape?.role === 'continued' && shape.of === columns) last = at;
      else if (shape) break;
    }
    const taken = this.#source(this.#tokens.pieces[from]!).length + 1;
    const stops: Stop[] = [];
    let column = indent;
    const headings = this.#headingsOf(from + 1, this.#tokens.lines[last]!.to);
    for (const [place, heading] of headings.entries()) {
      stops.push({ column, isNumber: heading.isNumber });
      column += widthOf(heading, place === 0 ? taken : 0);
    }
    this.#tables.set(columns, stops);
    return stops;
  }

  /** Tokens with one blank between, none before a comma. */
  #joined(from: number, to: number): string {
    let joined = '';
    for (let at = from; at < to; at++) {
      const isComma = this.#tokens.pieces[at]!.tokenType === Comma;
      joined += (isComma || joined === '' ? '' : ' ') + this.#spelt(at, from);
    }
    return joined;
  }

  /** Canonical spelling of a token. */
  #spelt(at: number, from: number): string {
    const piece = this.#tokens.pieces[at]!;
    if (piece.tokenType === Comma) return ',';
    if (piece.tokenType === Open) return '{';
    if (piece.tokenType === Close) return '}';
    const before = at > from ? this.#tokens.pieces[at - 1]!.argument : undefined;
    return spell(piece.argument!, this.#source(piece), before);
  }

  #source(piece: Piece): string {
    return this.#text.slice(piece.startOffset, piece.endOffset);
  }
}

interface Heading {
  readonly text: string;
  readonly comma: boolean;
  readonly isNumber: boolean;
}

interface Stop {
  readonly column: number;
  readonly isNumber: boolean;
}

function widthOf(heading: Heading, taken: number): number {
  return Math.max(taken + heading.text.length + 2, heading.isNumber ? numberWidth : otherWidth);
}

/** True for a reading, a name in a unit, and the fibre: cells of those are numbers. */
function headsNumbers(pieces: readonly Piece[], from: number, to: number): boolean {
  const first = from < to ? pieces[from]!.argument : undefined;
  if (first?.kind === 'quantity') return true;
  if (first?.kind !== 'name') return false;
  const second = from + 1 < to ? pieces[from + 1]!.argument : undefined;
  return canonical(first.text) === W.fibre || (second?.kind === 'name' && second.text === K.in);
}

/**
 * Canonical spelling of an argument that was written as `source`: number, one
 * blank, unit in its ASCII spelling; a zero before a leading point; the ASCII
 * minus. Digits stay. `before` is the argument in front of it.
 */
export function spell(argument: Argument, source: string, before?: Argument): string {
  switch (argument.kind) {
    case 'number':
      return source.startsWith('+') ? source : spellNumber(argument.digits);
    case 'quantity': {
      const sign = source.startsWith('+') ? '+' : '';
      return `${sign}${spellNumber(argument.digits)} ${argument.unit.name}`;
    }
    case 'absent':
      return '-';
    case 'range':
    case 'name-range':
    case 'date':
      return source.replace(/[ \t\u00a0]+/gu, ' ');
    case 'name':
      if (before?.kind === 'name' && before.text === K.in) return findUnit(source)?.name ?? source;
      return source;
    default:
      return source;
  }
}

function spellNumber(digits: string): string {
  const ascii = digits.replace('−', '-');
  return ascii.startsWith('.') || ascii.startsWith('-.') ? ascii.replace('.', '0.') : ascii;
}
