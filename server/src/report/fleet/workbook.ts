/** Tables as a workbook, a sheet each: numbers are numbers, texts are never formulas, the head stays while rows are scrolled. */
import writeWorkbook, { type CellObject, type Sheet } from 'write-excel-file/universal';
import {
  type FieldValue,
  type Heading,
  type NamedTable,
  type Table,
  writtenMinute,
} from './table.ts';

/** Most characters that a cell holds (ECMA-376 readers agree on 32,767). */
const mostCharacters = 32_000;
const mostWidth = 60;

/** A last sheet says what each column means. */
export async function workbookOf(tables: readonly NamedTable[]): Promise<Uint8Array> {
  const sheets = [...tables, legendOf(tables)].map(
    ({ name, columns, rows }): Sheet<Blob> => ({
      sheet: name,
      stickyRowsCount: 1,
      columns: columns.map((heading, index) => ({ width: widthOf(heading, rows, index) })),
      data: [
        columns.map(
          ({ name: value }): CellObject => ({
            value,
            type: String,
            fontWeight: 'bold',
            bottomBorderStyle: 'thin',
          }),
        ),
        ...rows.map((row) => row.map((value, index) => cell(value, columns[index]!))),
      ],
    }),
  );
  const blob = await writeWorkbook(sheets).toBlob();
  return new Uint8Array(await blob.arrayBuffer());
}

function legendOf(tables: readonly NamedTable[]): NamedTable {
  const text = (name: string): Heading => ({ name, kind: 'text', says: '' });
  return {
    name: 'columns',
    columns: [text('table'), text('column'), text('kind'), text('says')],
    rows: tables.flatMap(({ name, columns }) =>
      columns.map((each) => [name, each.name, each.kind, each.says]),
    ),
  };
}

/** Characters that XML cannot hold, and halves of characters. */
const unwritable = /(?![\t\n\r])\p{Cc}|[\uFFFE\uFFFF]|\p{Surrogate}/gu;

/** A text is told to be one, so that nothing is read as a formula. */
function cell(value: FieldValue, { kind }: Heading): CellObject | null {
  if (value === null || value === '') return null;
  switch (typeof value) {
    case 'number':
      return kind === 'minute'
        ? { value: new Date(value * 60_000), type: Date, format: 'yyyy-mm-dd hh:mm' }
        : { value, type: Number, format: Number.isInteger(value) ? '0' : '0.00####' };
    case 'boolean':
      return { value, type: Boolean };
    default:
      return {
        value: value.replaceAll(unwritable, '\uFFFD').slice(0, mostCharacters),
        type: String,
      };
  }
}

function widthOf({ name, kind }: Heading, rows: Table['rows'], index: number): number {
  const said = (value: FieldValue | undefined) =>
    kind === 'minute' && typeof value === 'number' ? writtenMinute(value) : String(value ?? '');
  const longest = rows
    .slice(0, 200)
    .reduce((most, row) => Math.max(most, said(row[index]).length), name.length);
  return Math.min(mostWidth, longest + 2);
}
