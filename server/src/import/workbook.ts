/** From the bytes of a workbook to rows of cells. What parses a sheet cannot be stopped midway: see {@link Workbooks}. */
import { type UnzipFileFilter, unzipSync, zipSync } from 'fflate';
import readWorkbook, { readSheet } from 'read-excel-file/universal';
import {
  type Cell,
  isFilled,
  rowsAtOnce,
  type Sheet,
  type SheetWanted,
  type TableRow,
  UnreadableTable,
  type Workbooks,
} from './table.ts';
import { Cancelled, pause, type Work } from './work.ts';

/** In the thread that asks. Sheets are parsed in one go, and nothing else is heard meanwhile. */
export const workbooksHere: Workbooks = { sheets, rows };

const mostUnpacked = 256 * 1024 * 1024;

async function sheets(bytes: Uint8Array, first: number, work: Work): Promise<readonly Sheet[]> {
  const buffer = unpacked(bytes);
  work.report(1, 10);
  await pause(work);
  try {
    const read = await readWorkbook(buffer);
    work.report(9, 10);
    await pause(work);
    return read.map(({ sheet, data }) => {
      const filled = data.map((cells, index) => asRow(cells, index)).filter(isFilled);
      return { name: sheet, count: filled.length, rows: filled.slice(0, first) };
    });
  } catch (error) {
    throw unreadable(error);
  }
}

async function rows(
  bytes: Uint8Array,
  { sheet, decimal }: SheetWanted,
  work: Work,
): Promise<readonly TableRow[]> {
  const buffer = unpacked(bytes);
  work.report(1, 10);
  await pause(work);
  try {
    const cells = await readSheet(buffer, sheet ?? 1);
    work.report(8, 10);
    const all: TableRow[] = [];
    for (const [index, row] of cells.entries()) {
      if (index % rowsAtOnce === 0) await pause(work);
      all.push(asRow(row, index, decimal));
    }
    return all.filter(isFilled);
  } catch (error) {
    if (error instanceof Cancelled || sheet === undefined) throw unreadable(error);
    const names = (await readWorkbook(buffer).catch(() => [])).map((each) => each.sheet);
    const known = typeof sheet === 'number' ? sheet <= names.length : names.includes(sheet);
    if (names.length === 0 || known) throw unreadable(error);
    throw new UnreadableTable(
      `there is no sheet ${sheet} in this workbook; it has ${names.join(', ')}.`,
      ['sheet'],
    );
  }
}

/**
 * The workbook as it is read: unpacked here, so that no reader begins a thread of its own, which
 * not every editor lets it. A small file may hold more than any memory once it is unpacked.
 */
function unpacked(bytes: Uint8Array): ArrayBuffer {
  let size = 0;
  const look: UnzipFileFilter = ({ originalSize }) => {
    size += originalSize;
    return size <= mostUnpacked;
  };
  try {
    const files = unzipSync(bytes, { filter: look });
    if (size <= mostUnpacked) return zipSync(files, { level: 0 }).slice().buffer as ArrayBuffer;
  } catch (error) {
    throw unreadable(error);
  }
  throw new UnreadableTable(
    `The workbook holds more than ${mostUnpacked / 1048576} MB unpacked, which is not read at once: split it, or save it as CSV.`,
  );
}

function unreadable(error: unknown): Error {
  if (error instanceof Cancelled || error instanceof UnreadableTable) return error;
  if (
    error instanceof RangeError ||
    (error instanceof Error && error.cause instanceof RangeError)
  ) {
    return new UnreadableTable(
      'The workbook has more rows than can be read at once: split it, or save it as CSV.',
    );
  }
  const why = error instanceof Error ? error.message : String(error);
  return new UnreadableTable(`The workbook cannot be read: ${why}.`);
}

function asRow(
  cells: readonly unknown[],
  index: number,
  decimal: SheetWanted['decimal'] = '.',
): TableRow {
  return { number: index + 1, cells: cells.map((value) => cellOf(value, decimal)) };
}

/** A number as a spreadsheet shows it: 15 digits, of which it is sure, with the decimal sign of the texts beside it. */
function cellOf(value: unknown, decimal: string): Cell {
  if (value === null || value === undefined) return '';
  if (typeof value === 'number') return plain(Number(value.toPrecision(15))).replace('.', decimal);
  if (value instanceof Date) return new Date(Math.round(value.getTime() / 1000) * 1000);
  return String(value).trim();
}

function plain(value: number): string {
  const text = String(value);
  return text.includes('e') ? value.toFixed(12).replace(/\.?0+$/u, '') : text;
}
