/**
 * Rows of evidence, held small: a plan has hundreds of thousands of readings.
 * A reading in the unit of its column is one number and its digits; a span is
 * made when it is asked for, and follows the text when the rows have moved.
 */
import type { BoundRow, Heading, Value } from '../../../grammar/src/bound.ts';
import type { Span } from '../../../grammar/src/tree.ts';
import { sameValue } from './moved.ts';

/** What a cell under a reading says. */
export type Measured =
  | {
      readonly kind: 'quantity';
      readonly dimension: string;
      /** Integer of the dimension's base unit. */
      readonly base: number;
      readonly digits: string;
      readonly unit: string;
    }
  | { readonly kind: 'dark' }
  | { readonly kind: 'absent' };

/** A quantity in its column's unit or a whole number; a name, text or choice; anything else as it was bound. */
type Held = number | string | Value;

/** Where cells start and end, by row, then column, and where rows do. */
export interface RowPlaces {
  readonly starts: readonly number[];
  readonly ends: readonly number[];
  readonly rowStarts: readonly number[];
  readonly rowEnds: readonly number[];
}

export class EvidenceRows {
  readonly count: number;
  readonly #headings: readonly Heading[];
  /** By row, then column. */
  readonly #held: readonly Held[];
  /** Digits of quantities in their column's unit. */
  readonly #digits: readonly (string | undefined)[];
  #starts: readonly number[];
  #ends: readonly number[];
  #rowStarts: readonly number[];
  #rowEnds: readonly number[];

  constructor(rows: readonly BoundRow[], headings: readonly Heading[]) {
    this.count = rows.length;
    this.#headings = headings;
    const held: Held[] = [];
    const digits: (string | undefined)[] = [];
    const starts: number[] = [];
    const ends: number[] = [];
    for (const row of rows) {
      for (const [column, heading] of headings.entries()) {
        const cell = row.cells[column] ?? missing;
        held.push(holdCell(cell, heading));
        digits.push(isInUnit(cell, heading) ? shared(cell.digits) : undefined);
        starts.push(cell.span.start);
        ends.push(cell.span.end);
      }
    }
    // A list that grew keeps room to grow: copied, it is as long as it is.
    this.#held = held.slice();
    this.#digits = digits.slice();
    this.#starts = starts.slice();
    this.#ends = ends.slice();
    this.#rowStarts = rows.map(({ span }) => span.start);
    this.#rowEnds = rows.map(({ span }) => span.end);
  }

  /** A whole number. */
  number(row: number, column: number): number | undefined {
    const index = this.#at(row, column);
    const held = this.#held[index];
    return typeof held === 'number' && this.#digits[index] === undefined ? held : undefined;
  }

  /** A name, a text or a choice. */
  words(row: number, column: number): string | undefined {
    const held = this.#held[this.#at(row, column)];
    return typeof held === 'string' ? held : undefined;
  }

  /** A time of day or a date, as bound; where it stands now is asked of `span`. */
  time(row: number, column: number): Extract<Value, { kind: 'time' | 'date' }> | undefined {
    const held = this.#held[this.#at(row, column)];
    if (typeof held !== 'object') return undefined;
    return held.kind === 'time' || held.kind === 'date' ? held : undefined;
  }

  /** A reading, or a quantity such as a length. */
  measured(row: number, column: number): Measured | undefined {
    const index = this.#at(row, column);
    const held = this.#held[index];
    const digits = this.#digits[index];
    const heading = this.#headings[column];
    const unit = heading && unitOf(heading);
    if (typeof held === 'number' && digits !== undefined && unit) {
      return { kind: 'quantity', dimension: unit.dimension, base: held, digits, unit: unit.name };
    }
    if (typeof held !== 'object') return undefined;
    if (held.kind === 'quantity') {
      const { dimension, base, unit } = held;
      return { kind: 'quantity', dimension, base, digits: held.digits, unit: unit.name };
    }
    return held.kind === 'dark' || held.kind === 'absent' ? held : undefined;
  }

  /** `-`, or a last remark that was left out. */
  isAbsent(row: number, column: number): boolean {
    return this.#held[this.#at(row, column)] === absent;
  }

  /** Of a cell; it moves with the rows. */
  span(row: number, column: number): Span {
    return new RidingSpan(this, row, this.#at(row, column));
  }

  /** Of a row; it moves with the rows. */
  rowSpan(row: number): Span {
    return new RidingSpan(this, row, undefined);
  }

  /** Where a cell stands now, or its whole row. */
  start(row: number, cell: number | undefined): number {
    return (cell === undefined ? this.#rowStarts[row] : this.#starts[cell]) ?? 0;
  }

  end(row: number, cell: number | undefined): number {
    return (cell === undefined ? this.#rowEnds[row] : this.#ends[cell]) ?? 0;
  }

  /** Equal content, wherever it stands. */
  equals(other: EvidenceRows): boolean {
    if (this.count !== other.count || this.#held.length !== other.#held.length) return false;
    for (let index = 0; index < this.#held.length; index++) {
      const held = this.#held[index]!;
      const now = other.#held[index]!;
      if (this.#digits[index] !== other.#digits[index]) return false;
      if (held === now) continue;
      if (typeof held !== 'object' || typeof now !== 'object' || !sameValue(held, now))
        return false;
    }
    return true;
  }

  /** Where everything stands now: lists that no move of the rows changes. */
  get places(): RowPlaces {
    return {
      starts: this.#starts,
      ends: this.#ends,
      rowStarts: this.#rowStarts,
      rowEnds: this.#rowEnds,
    };
  }

  /** Takes the places of rows that have equal content. */
  moveTo(now: EvidenceRows): void {
    this.#starts = now.#starts;
    this.#ends = now.#ends;
    this.#rowStarts = now.#rowStarts;
    this.#rowEnds = now.#rowEnds;
  }

  #at(row: number, column: number): number {
    return column < 0 ? -1 : row * this.#headings.length + column;
  }
}

/** A span that asks its rows where it stands. */
class RidingSpan implements Span {
  readonly #rows: EvidenceRows;
  readonly #row: number;
  readonly #cell: number | undefined;

  constructor(rows: EvidenceRows, row: number, cell: number | undefined) {
    this.#rows = rows;
    this.#row = row;
    this.#cell = cell;
  }

  get start(): number {
    return this.#rows.start(this.#row, this.#cell);
  }

  get end(): number {
    return this.#rows.end(this.#row, this.#cell);
  }

  /** Where it lay when the places of its rows were kept; undefined where they were not. */
  among(kept: ReadonlyMap<EvidenceRows, RowPlaces>): Span | undefined {
    const places = kept.get(this.#rows);
    if (!places) return undefined;
    const [starts, ends, index] =
      this.#cell === undefined
        ? [places.rowStarts, places.rowEnds, this.#row]
        : [places.starts, places.ends, this.#cell];
    return { start: starts[index] ?? 0, end: ends[index] ?? 0 };
  }

  toJSON(): Span {
    return { start: this.start, end: this.end };
  }
}

/** Where a span of rows lay when their places were kept; undefined of any other span. */
export function spanAmong(
  span: Span,
  kept: ReadonlyMap<EvidenceRows, RowPlaces>,
): Span | undefined {
  return span instanceof RidingSpan ? span.among(kept) : undefined;
}

const nowhere: Span = { start: 0, end: 0 };
const missing: Value = { kind: 'spoilt', span: nowhere };
const absent: Value = { kind: 'absent', span: nowhere };
const dark: Value = { kind: 'dark', span: nowhere };

type Quantity = Extract<Value, { kind: 'quantity' }>;

const unitOf = (heading: Heading) => (heading.kind === 'spoilt' ? undefined : heading.unit);

function isInUnit(cell: Value, heading: Heading): cell is Quantity {
  return cell.kind === 'quantity' && cell.unit === unitOf(heading);
}

function holdCell(cell: Value, heading: Heading): Held {
  if (isInUnit(cell, heading)) return cell.base;
  switch (cell.kind) {
    case 'whole':
      return cell.value;
    case 'name':
    case 'text':
    case 'choice':
      return cell.text;
    case 'absent':
      return absent;
    case 'dark':
      return dark;
    default:
      return cell;
  }
}

/** The same few digits are typed many times: each is kept once. */
const digitsTyped = new Map<string, string>();

function shared(digits: string): string {
  const known = digitsTyped.get(digits);
  if (known !== undefined) return known;
  digitsTyped.set(digits, digits);
  return digits;
}
