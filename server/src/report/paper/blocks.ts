/**
 * A document for paper, as plain data: what a field sheet and a record are made
 * of before they become a page or a PDF. Words stand here; how they look stands
 * with whoever sets them.
 */
import type { Verdict } from '../../evaluate/result.ts';

export interface Paper {
  readonly title: string;
  /** Stands at the foot of every page, left of the page's number. */
  readonly foot: string;
  /** Stands at the head of every page, large: `Draft`. */
  readonly stamp?: string;
  /** What a program reads back from the file: in its properties, not on its pages. */
  readonly seal?: string;
  readonly blocks: readonly Block[];
}

export type Block =
  | {
      readonly kind: 'heading';
      /** 1: of the document; 2: of a part; 3: inside a part. */
      readonly level: 1 | 2 | 3;
      readonly text: string;
      /** Beside it, quiet. */
      readonly note?: string;
      /** It begins a page. */
      readonly newPage?: boolean;
    }
  | { readonly kind: 'text'; readonly runs: readonly Run[]; readonly large?: boolean }
  | {
      readonly kind: 'list';
      readonly numbered: boolean;
      readonly items: readonly (readonly Run[])[];
    }
  | { readonly kind: 'facts'; readonly rows: readonly Fact[] }
  | { readonly kind: 'box'; readonly title: string; readonly lines: readonly string[] }
  | Table
  | {
      readonly kind: 'picture';
      readonly svg: string;
      readonly width: number;
      readonly height: number;
      readonly says: string;
    }
  /** Lines to be written on by hand. */
  | { readonly kind: 'blanks'; readonly labels: readonly string[] };

/** A piece of a line. */
export type Run = string | { readonly text: string; readonly look: 'strong' | 'quiet' };

export interface Fact {
  readonly label: string;
  readonly value: string;
}

export interface Table {
  readonly kind: 'table';
  readonly caption?: string;
  /** A first line of heads, each over some columns. */
  readonly groups?: readonly { readonly text: string; readonly span: number }[];
  readonly columns: readonly Column[];
  readonly rows: readonly (readonly Cell[])[];
  /** To be written in by hand: rows 8 mm high, a heavier rule under every fourth. */
  readonly byHand?: boolean;
}

export interface Column {
  readonly head: string;
  readonly align?: 'left' | 'right';
  /** It takes what room is left. */
  readonly grows?: boolean;
}

export type Cell =
  | string
  | {
      readonly text: string;
      readonly look?: 'strong' | 'quiet';
      /** Its mark stands before the text. */
      readonly verdict?: Verdict;
      /** To be filled in by hand. */
      readonly blank?: boolean;
    }
  | {
      readonly svg: string;
      readonly width: number;
      readonly height: number;
      readonly says: string;
    };

export function strong(text: string): Run {
  return { text, look: 'strong' };
}

export function quiet(text: string): Run {
  return { text, look: 'quiet' };
}

export function heading(
  level: 1 | 2 | 3,
  text: string,
  more: { readonly note?: string; readonly newPage?: boolean } = {},
): Block {
  return { kind: 'heading', level, text, ...more };
}

export function text(...runs: Run[]): Block {
  return { kind: 'text', runs };
}

/** Labels with their values; those without a value are left out. */
export function facts(
  rows: readonly (readonly [label: string, value: string | undefined])[],
): Block {
  return {
    kind: 'facts',
    rows: rows.flatMap(([label, value]) => (value ? [{ label, value }] : [])),
  };
}

export function list(items: readonly (string | readonly Run[])[], numbered = false): Block {
  return {
    kind: 'list',
    numbered,
    items: items.map((item) => (typeof item === 'string' ? [item] : item)),
  };
}
