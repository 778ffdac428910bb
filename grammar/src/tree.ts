/**
 * The tree of one block of text. One shape: an entry is a word, its arguments
 * and perhaps a block; a block may end in a table of rows.
 *
 * Spans are UTF-16 offsets relative to the text of the block, so that a block
 * that moves keeps its tree. Any child may be missing; lists never are. Text
 * that could not be read stands in `skipped`.
 */
import type { Decimal, Unit } from './quantity/index.ts';

export interface Span {
  readonly start: number;
  readonly end: number;
}

/** Calendar date, with a time of day if one was written: `2026-03-14`, `2026-03-14 09:05`. */
export interface DateValue {
  /** `2026-03-14` */
  readonly day: string;
  /** Minutes after midnight of the site's clock. */
  readonly minutes?: number;
}

export type Argument =
  /** A run that is a name: `OPS/R2`, `10GBASE-SR`. NFC, case kept. */
  | { readonly kind: 'name'; readonly span: Span; readonly text: string }
  /** `"…"`: a text, or a name where a name is wanted. `text` is unescaped, NFC. */
  | { readonly kind: 'text'; readonly span: Span; readonly text: string }
  | {
      readonly kind: 'number';
      readonly span: Span;
      readonly digits: string;
      readonly value: Decimal;
    }
  | {
      readonly kind: 'quantity';
      readonly span: Span;
      readonly digits: string;
      readonly value: Decimal;
      readonly unit: Unit;
      readonly unitSpan: Span;
    }
  /** `1..24`, `1..23 step 2`. */
  | {
      readonly kind: 'range';
      readonly span: Span;
      readonly first: number;
      readonly last: number;
      readonly step: number;
    }
  /** `OPS/R2/A:01..12`: a name that ends in a range, `width` digits (0: no leading zeros). */
  | {
      readonly kind: 'name-range';
      readonly span: Span;
      readonly prefix: string;
      readonly first: number;
      readonly last: number;
      readonly step: number;
      readonly width: number;
    }
  /** `1:8` or `09:05`. */
  | { readonly kind: 'pair'; readonly span: Span; readonly first: string; readonly second: string }
  | { readonly kind: 'date'; readonly span: Span; readonly value: DateValue }
  | { readonly kind: 'direction'; readonly span: Span; readonly value: 'A>B' | 'B>A' }
  /** `<length>`, only in a pattern. */
  | { readonly kind: 'hole'; readonly span: Span; readonly name: string }
  /** `-`: not there. */
  | { readonly kind: 'absent'; readonly span: Span }
  /** A spoilt token, already reported; fits any argument. */
  | { readonly kind: 'spoilt'; readonly span: Span; readonly text: string };

/** Arguments between commas. `firsts` of an entry: `lists[0]` holds everything before the first comma. */
export interface ArgumentList {
  readonly span: Span;
  readonly arguments: readonly Argument[];
}

export interface Entry {
  /** From the word to the end of the line or of the closing brace. */
  readonly span: Span;
  readonly word: { readonly text: string; readonly span: Span };
  readonly lists: readonly ArgumentList[];
  readonly body?: Body;
}

export interface Body {
  readonly span: Span;
  readonly open: Span;
  /** Missing where the brace was left open: already reported. */
  readonly close?: Span;
  readonly entries: readonly Entry[];
  readonly table?: Table;
}

export interface Table {
  readonly span: Span;
  readonly word: Span;
  readonly headings: readonly ArgumentList[];
  readonly rows: readonly Row[];
}

export interface Row {
  readonly span: Span;
  readonly cells: readonly Argument[];
}

export interface Comment {
  readonly span: Span;
}

/** Result of parsing one block of text: usually one entry, or `include` lines, comments and blanks. */
export interface BlockTree {
  readonly entries: readonly Entry[];
  readonly comments: readonly Comment[];
  readonly skipped: readonly Span[];
  readonly findings: readonly NotationFinding[];
}

export type Severity = 'error' | 'warning' | 'note';

/** A replacement within the block's text. */
export interface TextEdit {
  readonly span: Span;
  readonly text: string;
}

export interface Fix {
  readonly title: string;
  readonly edits: readonly TextEdit[];
}

/** What the notation alone can say about a text: data, its sentence is made from `name` and `details`. */
export interface NotationFinding {
  readonly name: string;
  readonly severity: Severity;
  readonly span: Span;
  readonly message: string;
  readonly details?: Readonly<Record<string, string | number>>;
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
  readonly fix?: Fix;
}
