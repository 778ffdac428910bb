/**
 * Tables of one plan or of many, for programs that ask across them: which they
 * are, and the forms in which they are written.
 */
import { assignmentColumns, assignmentsTable } from '../assignments/fibres.ts';
import { labelColumns, labelsTable } from '../assignments/labels.ts';
import { quantitiesTable, quantityColumns } from '../quantities/table.ts';
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
  /** Its rows are of the plan as a whole: with some links only, it would say what is not so. */
  readonly whole?: true;
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
    whole: true,
    of: referencesTable,
  },
  quantities: {
    row: 'a line of the bill of quantities: pieces alike in kind and length, counted from the plan. No allowance is made for waste, and nothing that the plan does not say is guessed',
    columns: quantityColumns,
    whole: true,
    of: quantitiesTable,
  },
  assignments: {
    row: 'a fibre of a cable and what takes it, or that it is free; and a fibre of a link that names no cable',
    columns: assignmentColumns,
    whole: true,
    of: assignmentsTable,
  },
  labels: {
    row: 'the text of one label, at one end of a cable or link or at a port',
    columns: labelColumns,
    of: labelsTable,
  },
} as const satisfies Record<string, Maker>;

export type TableName = keyof typeof makers;

export const tableNames = Object.keys(makers) as readonly TableName[];

export const tableFormats = ['csv', 'ndjson', 'xlsx', 'parquet'] as const;

export type TableFormat = (typeof tableFormats)[number];

/** What a table says, whatever plans it is of. */
export function saidOf(name: TableName): Pick<Maker, 'row' | 'columns' | 'whole'> {
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
