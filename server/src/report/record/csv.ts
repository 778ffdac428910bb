/** The full table as comma-separated values (RFC 4180). */

import { csvCell } from '../fleet/csv.ts';
import type { Recorded, RecordState } from './recorded.ts';
import { recordColumns, recordRows } from './rows.ts';

export function recordCsv(recorded: Recorded, state: RecordState): string {
  const lines = [
    recordColumns.join(','),
    ...recordRows(recorded, state).map((row) =>
      recordColumns.map((column) => csvCell(row[column])).join(','),
    ),
  ];
  return `${lines.join('\r\n')}\r\n`;
}
