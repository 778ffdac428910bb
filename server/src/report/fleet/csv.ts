/** A table as comma-separated values (RFC 4180), with a line of names first. */
import { type FieldValue, type Heading, type Table, writtenMinute } from './table.ts';

export function csvOf({ columns, rows }: Table): string {
  const lines = [
    columns.map(({ name }) => name),
    ...rows.map((row) => row.map((value, index) => csvCell(plain(value, columns[index]!)))),
  ];
  return lines.map((cells) => `${cells.join(',')}\r\n`).join('');
}

function plain(value: FieldValue, { kind }: Heading): FieldValue {
  return kind === 'minute' && typeof value === 'number' ? writtenMinute(value) : value;
}

/** Signs with which a spreadsheet begins a formula, the full-width ones too; blanks before them do not hinder it. */
const formula = /^\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r\n]/u;

/** A text that a spreadsheet would run is led by an apostrophe; numbers stay numbers. */
export function csvCell(value: FieldValue): string {
  if (value === null) return '';
  const text = typeof value === 'string' && formula.test(value) ? `'${value}` : String(value);
  return /[",\r\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
