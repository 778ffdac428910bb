/**
 * What binding makes of a tree: every entry matched with its word in the
 * vocabulary, its arguments sorted into the word's named slots, and each value
 * read in the kind the slot wants. Nothing here knows names across files.
 */
import type { Dimension, Unit } from './quantity/index.ts';
import type { BlockTree, DateValue, NotationFinding, Span } from './tree.ts';

/** The kinds of declared names. A name slot says which kind it refers to or declares. */
export type NameKind =
  | 'fibre'
  | 'connector'
  | 'splice'
  | 'splitter'
  | 'component'
  | 'cable'
  | 'colours'
  | 'mandrel'
  | 'flux'
  | 'criterion'
  | 'limits'
  | 'application'
  | 'transceiver'
  | 'setup'
  | 'link'
  | 'channel'
  | 'ring'
  | 'pattern'
  | 'reel'
  | 'cord'
  | 'port'
  | 'finding'
  | 'object'
  | 'closure'
  | 'colour'
  | 'hole'
  | 'repair'
  | 'split';

export type Value =
  | { readonly kind: 'name'; readonly span: Span; readonly text: string }
  /** `A:01..12` written as one argument; expand with `expandNames`. */
  | {
      readonly kind: 'names';
      readonly span: Span;
      readonly prefix: string;
      readonly first: number;
      readonly last: number;
      readonly step: number;
      readonly width: number;
    }
  | { readonly kind: 'text'; readonly span: Span; readonly text: string }
  | { readonly kind: 'choice'; readonly span: Span; readonly text: string }
  | { readonly kind: 'whole'; readonly span: Span; readonly value: number }
  | {
      readonly kind: 'wholes';
      readonly span: Span;
      readonly first: number;
      readonly last: number;
      readonly step: number;
    }
  | {
      readonly kind: 'decimal';
      readonly span: Span;
      readonly value: number;
      readonly digits: string;
    }
  | {
      readonly kind: 'quantity';
      readonly span: Span;
      readonly dimension: Dimension;
      /** Integer of the dimension's base unit. */
      readonly base: number;
      /** Digits as typed, and the unit as typed: shown and kept. */
      readonly digits: string;
      readonly unit: Unit;
    }
  | { readonly kind: 'date'; readonly span: Span; readonly value: DateValue }
  | { readonly kind: 'time'; readonly span: Span; readonly minutes: number }
  | { readonly kind: 'direction'; readonly span: Span; readonly value: 'A>B' | 'B>A' }
  | { readonly kind: 'ratio'; readonly span: Span; readonly first: number; readonly second: number }
  | {
      readonly kind: 'map';
      readonly span: Span;
      readonly named?: string;
      readonly places?: readonly number[];
    }
  | { readonly kind: 'hole'; readonly span: Span; readonly name: string }
  | { readonly kind: 'absent'; readonly span: Span }
  /** `dark` in a cell of a reading. */
  | { readonly kind: 'dark'; readonly span: Span }
  /** Could not be read; reported. Whoever meets it says nothing more. */
  | { readonly kind: 'spoilt'; readonly span: Span };

export interface BoundEntry {
  /** Canonical spelling of the word (`fibre` also where `fiber` is written). Empty if unknown, and reported. */
  readonly word: string;
  readonly span: Span;
  readonly wordSpan: Span;
  /** Values by slot name; a slot that was not written is missing; a keyword alone (`direct`, `beside`) is a choice. */
  readonly slots: Readonly<Record<string, readonly Value[]>>;
  readonly body?: BoundBody;
}

export interface BoundBody {
  readonly span: Span;
  readonly entries: readonly BoundEntry[];
  readonly table?: BoundTable;
  /** True where the brace stands open: what is missing here is not asked for. */
  readonly open: boolean;
}

/** What a column of a table holds. */
export type Heading =
  | { readonly kind: 'word'; readonly span: Span; readonly word: string; readonly unit?: Unit }
  | { readonly kind: 'hole'; readonly span: Span; readonly name: string; readonly unit?: Unit }
  | {
      readonly kind: 'reading';
      readonly span: Span;
      /** Picometres. */
      readonly wavelength: number;
      readonly direction?: 'A>B' | 'B>A';
      /** `loss`, `power` or `reflectance`: the first of the block's `values` where not written. */
      readonly quantity: string;
      readonly unit: Unit;
    }
  | { readonly kind: 'spoilt'; readonly span: Span };

export interface BoundTable {
  readonly span: Span;
  readonly headings: readonly Heading[];
  readonly rows: readonly BoundRow[];
}

export interface BoundRow {
  readonly span: Span;
  /** One per heading; a missing last `remark` is absent. */
  readonly cells: readonly Value[];
}

/** One block of text, bound. */
export interface BoundBlock {
  readonly tree: BlockTree;
  readonly entries: readonly BoundEntry[];
  readonly findings: readonly NotationFinding[];
}
