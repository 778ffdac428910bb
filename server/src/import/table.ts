/** From the bytes of a CSV file or a workbook to rows of cells. Cells are texts and dates; nothing is ever computed. */
import { type UnzipFileFilter, unzipSync, zipSync } from 'fflate';
import { decodeFile } from '../project/decode.ts';
import type { Mapping } from './mapping.ts';
import { Cancelled, pause, type Work } from './work.ts';

export type Cell = string | Date;

export interface TableRow {
  /** As a spreadsheet counts it, from 1; of a CSV file its line. */
  readonly number: number;
  readonly cells: readonly Cell[];
}

/** Why a file cannot be read, in a sentence. */
export class UnreadableTable extends Error {
  /** Of the mapping, where it is what names something that is not there. */
  readonly path: readonly string[] | undefined;

  constructor(message: string, path?: readonly string[]) {
    super(message);
    this.path = path;
  }
}

/** More than this is not read at once: cells take some twenty times the room of their text. */
const mostBytes = 64 * 1024 * 1024;
const mostUnpacked = 256 * 1024 * 1024;
/** Rows between two looks at whether to stop. */
export const rowsAtOnce = 2000;
/** As every workbook begins. */
const zipped = [0x50, 0x4b, 0x03, 0x04] as const;
const charactersAtOnce = 1 << 18;

/** Rows that hold something. Throws {@link UnreadableTable}, or `Cancelled`. */
export async function readTable(
  bytes: Uint8Array,
  { sheet, separator, decimal }: Pick<Mapping, 'sheet' | 'separator' | 'decimal'>,
  work: Work,
): Promise<readonly TableRow[]> {
  if (bytes.length > mostBytes) {
    throw new UnreadableTable(
      `The file holds ${Math.round(bytes.length / 1048576)} MB, more than the ${mostBytes / 1048576} MB that are read at once: split it.`,
    );
  }
  const rows = startsWith(bytes, ...zipped)
    ? await workbookRows(bytes, sheet, decimal, work)
    : await textRows(textOf(bytes), separator, work);
  return rows.filter(isFilled);
}

/** All sheets of a workbook by name; undefined: the file is none. Throws {@link UnreadableTable}. */
export async function readSheets(
  bytes: Uint8Array,
): Promise<readonly { readonly name: string; readonly rows: readonly TableRow[] }[] | undefined> {
  if (!startsWith(bytes, ...zipped)) return undefined;
  const buffer = unpacked(bytes);
  const { default: readWorkbook } = await import('read-excel-file/universal');
  try {
    const sheets = await readWorkbook(buffer);
    return sheets.map(({ sheet, data }) => ({
      name: sheet,
      rows: data.map((cells, index) => asRow(cells, index)).filter(isFilled),
    }));
  } catch (error) {
    throw new UnreadableTable(`The workbook cannot be read: ${whyOf(error)}.`);
  }
}

function textOf(bytes: Uint8Array): string {
  if (startsWith(bytes, 0xd0, 0xcf, 0x11, 0xe0)) {
    throw new UnreadableTable(
      'This is a workbook in an older form, or one with a password. Save it as .xlsx without one, or as CSV.',
    );
  }
  const { text, problem } = decodeFile(bytes);
  if (problem) {
    const is = {
      'utf-16': 'is a text in UTF-16',
      'not-utf-8': 'is a text in another encoding than UTF-8',
      binary: 'is neither a text nor a workbook',
    }[problem.kind];
    throw new UnreadableTable(`The file ${is}. Save it as CSV in UTF-8, or as .xlsx.`);
  }
  // Lines are counted alike, whatever ends them.
  return text.replaceAll(/\r\n?/gu, '\n');
}

async function textRows(
  text: string,
  separator: Mapping['separator'],
  work: Work,
): Promise<TableRow[]> {
  const { parse } = await import('csv-parse');
  const parser = parse({
    bom: true,
    delimiter: separator === 'tab' ? '\t' : (separator ?? ','),
    info: true,
    relax_column_count: true,
    skip_empty_lines: true,
    trim: true,
    max_record_size: 1 << 20,
  });
  const rows: TableRow[] = [];
  let failed: Error | undefined;
  parser.on('readable', () => {
    for (let read = parser.read(); read !== null; read = parser.read()) {
      const { record, info } = read as { record: string[]; info: { lines: number } };
      rows.push({ number: info.lines, cells: record });
    }
  });
  const ended = new Promise<void>((done) => {
    parser.on('end', done);
    parser.on('error', (error) => {
      failed = error;
      done();
    });
  });
  for (let at = 0; at < text.length && !failed; at += charactersAtOnce) {
    await new Promise<void>((done) => {
      parser.write(text.slice(at, at + charactersAtOnce), () => done());
    });
    work.report(at, text.length);
    await pause(work);
  }
  if (!failed) parser.end();
  await ended;
  if (failed)
    throw new UnreadableTable(`The file is no CSV as the mapping says: ${failed.message}.`);
  return rows;
}

async function workbookRows(
  bytes: Uint8Array,
  sheet: Mapping['sheet'],
  decimal: Mapping['decimal'],
  work: Work,
): Promise<TableRow[]> {
  const { default: readWorkbook, readSheet } = await import('read-excel-file/universal');
  const buffer = unpacked(bytes);
  work.report(1, 10);
  await pause(work);
  try {
    // The reader of a sheet cannot be stopped midway.
    const cells = await readSheet(buffer, sheet ?? 1);
    work.report(8, 10);
    await pause(work);
    return await rowsOf(cells, decimal, work);
  } catch (error) {
    if (error instanceof Cancelled) throw error;
    const sheets = await readWorkbook(buffer).catch(() => []);
    const names = sheets.map((each) => each.sheet);
    const known = typeof sheet === 'number' ? sheet <= names.length : names.includes(sheet ?? '');
    if (sheet !== undefined && names.length > 0 && !known) {
      throw new UnreadableTable(
        `there is no sheet ${sheet} in this workbook; it has ${names.join(', ')}.`,
        ['sheet'],
      );
    }
    throw new UnreadableTable(`The workbook cannot be read: ${whyOf(error)}.`);
  }
}

async function rowsOf(
  cells: readonly (readonly unknown[])[],
  decimal: Mapping['decimal'],
  work: Work,
): Promise<TableRow[]> {
  const rows: TableRow[] = [];
  for (const [index, row] of cells.entries()) {
    if (index % rowsAtOnce === 0) await pause(work);
    rows.push(asRow(row, index, decimal));
  }
  return rows;
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
    throw new UnreadableTable(`The workbook cannot be read: ${whyOf(error)}.`);
  }
  throw new UnreadableTable(
    `The workbook holds more than ${mostUnpacked / 1048576} MB unpacked, which is not read at once: split it, or save it as CSV.`,
  );
}

function asRow(
  cells: readonly unknown[],
  index: number,
  decimal: Mapping['decimal'] = '.',
): TableRow {
  return { number: index + 1, cells: cells.map((value) => cellOf(value, decimal)) };
}

function isFilled({ cells }: TableRow): boolean {
  return cells.some((cell) => cell !== '');
}

function whyOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
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

function startsWith(bytes: Uint8Array, ...first: readonly number[]): boolean {
  return first.every((byte, index) => bytes[index] === byte);
}
