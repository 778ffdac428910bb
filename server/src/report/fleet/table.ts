/**
 * Tables that other programs read: columns with a name, a kind and a sentence,
 * and rows of plain values. Every way of writing one down says the same, and a
 * value that is not known is null, never 0 and never an empty text.
 */

export type FieldValue = string | number | boolean | null;

/** `minute`: of the site's clock, counted from 1970-01-01 00:00; it bears no zone. */
export type ColumnKind = 'text' | 'whole' | 'number' | 'flag' | 'minute';

export interface Heading {
  /** Unit behind it, where it has one: `loss_db`. */
  readonly name: string;
  readonly kind: ColumnKind;
  /** What it says, its unit, and what null means. */
  readonly says: string;
}

export interface Column<Row> extends Heading {
  of(row: Row): FieldValue;
}

export interface Table {
  readonly columns: readonly Heading[];
  readonly rows: readonly (readonly FieldValue[])[];
}

/** Under what it is written: the name of a sheet, of the root of a schema. */
export interface NamedTable extends Table {
  readonly name: string;
}

export function tableOf<Row>(columns: readonly Column<Row>[], rows: readonly Row[]): Table {
  return { columns, rows: rows.map((row) => columns.map((column) => column.of(row))) };
}

/** `2026-03-14T09:05`, as ISO 8601 writes a local time. */
export function writtenMinute(minute: number): string {
  return new Date(minute * 60_000).toISOString().slice(0, 16);
}

export function column<Row>(
  name: string,
  kind: ColumnKind,
  says: string,
  of: (row: Row) => FieldValue | undefined,
): Column<Row> {
  return { name, kind, says, of: (row) => of(row) ?? null };
}
