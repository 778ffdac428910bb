/**
 * A table as Apache Parquet: a column is of one type whatever rows there are,
 * so that files of many plans read as one table. A minute is a timestamp
 * without a zone.
 */
import { ByteWriter } from 'hyparquet-writer/src/bytewriter.js';
import { parquetWrite } from 'hyparquet-writer/src/write.js';
import type { ColumnKind, FieldValue, NamedTable } from './table.ts';

/** `about`: what every row of the file shares, kept beside the rows. */
export function parquetOf(
  { name, columns, rows }: NamedTable,
  about: Readonly<Record<string, string>>,
): Uint8Array {
  const writer = new ByteWriter();
  parquetWrite({
    writer,
    columnData: columns.map((heading, index) => ({
      name: heading.name,
      data: rows.map((row) => stored(row[index] ?? null, heading.kind)),
    })),
    schema: [
      { name, num_children: columns.length },
      ...columns.map((heading) => ({
        name: heading.name,
        repetition_type: 'OPTIONAL' as const,
        ...types[heading.kind],
      })),
    ],
    kvMetadata: Object.entries(about).map(([key, value]) => ({ key, value })),
  });
  return new Uint8Array(writer.getBuffer());
}

/** Physical and logical types by their names in the format's own definition (parquet.thrift). */
const types = {
  text: { type: 'BYTE_ARRAY', converted_type: 'UTF8' },
  whole: { type: 'INT32' },
  number: { type: 'DOUBLE' },
  flag: { type: 'BOOLEAN' },
  minute: {
    type: 'INT64',
    logical_type: { type: 'TIMESTAMP', isAdjustedToUTC: false, unit: 'MILLIS' },
  },
} as const satisfies Record<ColumnKind, object>;

function stored(value: FieldValue, kind: ColumnKind): FieldValue | Date {
  return kind === 'minute' && typeof value === 'number' ? new Date(value * 60_000) : value;
}
