/** The full table as comma-separated values (RFC 4180). */

import type { Recorded, RecordState } from './recorded.ts';
import { type FieldValue, recordColumns, recordRows } from './rows.ts';

export function recordCsv(recorded: Recorded, state: RecordState): string {
  const lines = [
    recordColumns.join(','),
    ...recordRows(recorded, state).map((row) =>
      recordColumns.map((column) => cell(row[column])).join(','),
    ),
  ];
  return `${lines.join('\r\n')}\r\n`;
}

/** Signs with which a spreadsheet begins a formula, the full-width ones too; blanks before them do not hinder it. */
const formula = /^\s*[=+\-@\uFF1D\uFF0B\uFF0D\uFF20]|^[\t\r\n]/u;

/** A text that a spreadsheet would run is led by an apostrophe; numbers stay numbers. */
function cell(value: FieldValue): string {
  if (value === null) return '';
  const text = typeof value === 'string' && formula.test(value) ? `'${value}` : String(value);
  return /[",\r\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
