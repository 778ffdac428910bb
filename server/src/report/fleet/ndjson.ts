/** A table as one JSON object a line (RFC 8259), each with every column. */
import { type Table, writtenMinute } from './table.ts';

export function ndjsonOf({ columns, rows }: Table): string {
  return rows
    .map((row) => {
      const fields = columns.map(({ name, kind }, index) => {
        const value = row[index] ?? null;
        return [
          name,
          kind === 'minute' && typeof value === 'number' ? writtenMinute(value) : value,
        ];
      });
      return `${JSON.stringify(Object.fromEntries(fields))}\n`;
    })
    .join('');
}
