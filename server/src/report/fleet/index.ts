/**
 * Tables of one plan or of many, for programs that ask across them: which they
 * are, and the forms in which they are written.
 */
import { csvOf } from './csv.ts';
import { jointColumns, jointsTable } from './joints.ts';
import { ndjsonOf } from './ndjson.ts';
import type { FleetPlan } from './plan.ts';
import { readingColumns, readingsTable } from './readings.ts';
import { referenceColumns, referencesTable } from './references.ts';
import type { Heading, NamedTable, Table } from './table.ts';

export type { FleetPlan } from './plan.ts';

interface Maker {
  /** What a row of it is. */
  readonly row: string;
  readonly columns: readonly Heading[];
  of(from: FleetPlan): Table;
}

const makers = {
  readings: {
    row: 'a reading, in every attempt, or a reading still to make (`attempt` null)',
    columns: readingColumns,
    of: readingsTable,
  },
  joints: {
    row: 'a joint, bend or end that a trace shows, at one wavelength, both directions beside each other',
    columns: jointColumns,
    of: jointsTable,
  },
  references: {
    row: 'a reference of a set-up, taken or checked, with what it moved by since it was taken',
    columns: referenceColumns,
    of: referencesTable,
  },
} as const satisfies Record<string, Maker>;

export type TableName = keyof typeof makers;

export const tableNames = Object.keys(makers) as readonly TableName[];

export const tableFormats = ['csv', 'ndjson', 'xlsx', 'parquet'] as const;

export type TableFormat = (typeof tableFormats)[number];

/** What a table says, whatever plans it is of. */
export function saidOf(name: TableName): Pick<Maker, 'row' | 'columns'> {
  return makers[name];
}

/** One table over all plans; without any it has its columns and no rows. */
export function fleetTable(name: TableName, plans: readonly FleetPlan[]): NamedTable {
  const { columns, of } = makers[name];
  return { name, columns, rows: plans.flatMap((plan) => of(plan).rows) };
}

/** What sets a workbook or Parquet is loaded by nobody who asks for neither. */
export async function writtenTable(
  table: NamedTable,
  format: TableFormat,
  tool: string,
): Promise<string | Uint8Array> {
  switch (format) {
    case 'csv':
      return csvOf(table);
    case 'ndjson':
      return ndjsonOf(table);
    case 'xlsx':
      return (await import('./workbook.ts')).workbookOf([table]);
    case 'parquet':
      return (await import('./parquet.ts')).parquetOf(table, { tool, table: table.name });
  }
}
