/**
 * The characters of one line to tokens. What cannot be read is skipped or spoilt,
 * and is one finding.
 */
import {
  Class,
  classAt,
  composed,
  copied,
  endOfRun,
  isRun,
  readQuoted,
  widthAt,
} from './characters.ts';
import type { Collected } from './collected.ts';
import { Close, Comma, Open, Piece } from './pieces.ts';
import { findUnit } from './quantity/index.ts';
import { type RunProblem, readRun, shortened, spoilt } from './runs.ts';
import type { Span } from './tree.ts';

export class LineReader {
  readonly #text: string;
  readonly #read: Collected;
  /** Whether the line that was read last holds a brace. */
  hasBrace = false;

  constructor(text: string, read: Collected) {
    this.#text = text;
    this.#read = read;
  }

  /** Reads from `at` to the end of the line; gives the comment, if there is one. */
  readPieces(from: number, end: number): Span | undefined {
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
          this.#read.pieces.push(new Piece(Comma, start, at));
          break;
        case Class.open:
        case Class.close:
          at++;
          this.hasBrace = true;
          this.#read.pieces.push(new Piece(kind === Class.open ? Open : Close, start, at));
          break;
        case Class.quote:
          at = this.#readText(at, end);
          break;
        case Class.hash:
          if (!afterBlank) {
            const edit = { span: { start: at, end: at }, text: ' ' };
            this.#read.report('comment-needs-blank', { start: at, end: at + 1 }, undefined, [edit]);
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
    const last = this.#read.lastItem();
    if (last && this.#read.joined(last, run, span)) return;
    const { argument, problem } = readRun(run, span);
    this.#read.addItem(argument);
    if (problem) this.#read.reportRun(problem, span);
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
    this.#read.addItem(spoilt(text.slice(whole.start, whole.end), whole, { name }).argument);
    const edits = likely === undefined || thousands ? undefined : [{ span, text: likely }];
    this.#read.report(name, span, details, edits);
    return whole.end;
  }

  /** A run with a character in it that no run has: `A#01`, `A->B`, `1–12`. */
  #addGlued(run: string, span: Span): void {
    const arrow = /^([AB])\s*(?:->|→|=>|>|–>)\s*([AB])$/u.exec(run);
    if (arrow && arrow[1] !== arrow[2]) {
      const direction = `${arrow[1]}>${arrow[2]}`;
      if (run === direction) {
        this.#read.addItem({ kind: 'direction', span, value: direction as 'A>B' | 'B>A' });
      } else {
        this.#read.addSpoilt(run, span, { name: 'odd-arrow', instead: direction });
      }
      return;
    }
    const dashed = run.replace(/[–—‐‑]/gu, '-');
    const range = /^(\d+)-(\d+)$/u.exec(dashed);
    const problem: RunProblem =
      dashed !== run && range
        ? { name: 'unreadable-range', instead: `${range[1]}..${range[2]}` }
        : { name: 'needs-quotes', instead: `"${run.replace(/["\\]/gu, '\\$&')}"` };
    this.#read.addSpoilt(run, span, problem);
  }

  #readText(start: number, end: number): number {
    const text = this.#text;
    const quoted = readQuoted(text, start, end);
    const span = { start, end: quoted.end };
    const inner = text.slice(quoted.innerStart, quoted.innerEnd);
    this.#read.addItem({ kind: 'text', span, text: copied(composed(unescaped(inner))) });
    if (quoted.open) {
      const edits = [{ span: { start: quoted.end, end: quoted.end }, text: '"' }];
      if (quoted.odd) edits.unshift({ span: { start, end: start + 1 }, text: '"' });
      this.#read.report('open-text', span, undefined, edits);
    } else if (quoted.odd) {
      const edit = { span, text: `"${inner.replace(/(?<!\\)"/gu, '\\"')}"` };
      this.#read.report('other-quotes', span, undefined, [edit]);
    } else {
      this.#checkEscapes(quoted.innerStart, inner);
      this.#checkUnseen(quoted.innerStart, inner);
    }
    return quoted.end;
  }

  #checkEscapes(start: number, inner: string): void {
    if (!inner.includes('\\')) return;
    const wrong = /^(?:[^\\]|\\["\\])*?\\(?!["\\])/u.exec(inner);
    if (!wrong) return;
    const at = start + wrong[0].length - 1;
    const edits = [{ span: { start: at, end: at + 1 }, text: '\\\\' }];
    this.#read.report('unknown-escape', { start: at, end: at + 2 }, undefined, edits);
  }

  /** A control character in a text is a slip of some program; nobody typed it, and nobody sees it. */
  #checkUnseen(start: number, inner: string): void {
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is looked for
    const found = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f]+/u.exec(inner);
    if (!found) return;
    const at = start + found.index;
    const span = { start: at, end: at + found[0].length };
    const edits = [{ span, text: '' }];
    this.#read.report('unseen-in-text', span, strayDetails(found[0]), edits);
  }

  #readHole(start: number, end: number): number {
    const nameEnd = endOfRun(this.#text, start + 1, end);
    const name = this.#text.slice(start + 1, nameEnd);
    if (nameEnd >= end || this.#text[nameEnd] !== '>' || !/\p{L}/u.test(name)) {
      return this.#skipStrays(start, end);
    }
    const span = { start, end: nameEnd + 1 };
    this.#read.addItem({ kind: 'hole', span, name: copied(composed(name)) });
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
    this.#read.skip(span);
    const characters = text.slice(start, at);
    this.#read.report('stray-character', span, strayDetails(characters), [
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
