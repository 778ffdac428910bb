/** From the bytes of a CSV file or a workbook to rows of cells. Cells are texts and dates; nothing is ever computed. */
import { decodeFile } from '../project/decode.ts';
import type { BeginThread } from './apart.ts';
import type { Mapping } from './mapping.ts';
import { pause, type Work } from './work.ts';

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
/** Rows between two looks at whether to stop. */
export const rowsAtOnce = 2000;
/** As every workbook begins. */
const zipped = [0x50, 0x4b, 0x03, 0x04] as const;
const charactersAtOnce = 1 << 18;

export interface Sheet {
  readonly name: string;
  /** Rows that hold something. */
  readonly count: number;
  /** The first of them. */
  readonly rows: readonly TableRow[];
}

/** Which sheet is read, by its name or its number from 1, the first by itself; and the decimal sign of its texts. */
export type SheetWanted = Pick<Mapping, 'sheet' | 'decimal'>;

/**
 * Reads workbooks. Parsing a sheet of them cannot be stopped midway, so that
 * whoever has something to do meanwhile lets a thread of its own do it.
 * All throw {@link UnreadableTable}, or `Cancelled`.
 */
export interface Workbooks {
  /** Every sheet with its first rows. */
  sheets(bytes: Uint8Array, first: number, work: Work): Promise<readonly Sheet[]>;
  /** All rows of one sheet that hold something. */
  rows(bytes: Uint8Array, wanted: SheetWanted, work: Work): Promise<readonly TableRow[]>;
}

/** Rows that hold something. Throws {@link UnreadableTable}, or `Cancelled`. */
export async function readTable(
  bytes: Uint8Array,
  { sheet, separator, decimal }: SheetWanted & Pick<Mapping, 'separator'>,
  work: Work,
  begin: BeginThread | undefined,
): Promise<readonly TableRow[]> {
  refuseLarge(bytes);
  if (isWorkbook(bytes)) {
    return (await workbooks(begin)).rows(bytes, { sheet, decimal }, work);
  }
  return (await textRows(textOf(bytes), separator, work)).filter(isFilled);
}

/** All sheets of a workbook; undefined: the file is none. Throws {@link UnreadableTable}, or `Cancelled`. */
export async function readSheets(
  bytes: Uint8Array,
  first: number,
  work: Work,
  begin: BeginThread | undefined,
): Promise<readonly Sheet[] | undefined> {
  if (!isWorkbook(bytes)) return undefined;
  refuseLarge(bytes);
  return (await workbooks(begin)).sheets(bytes, first, work);
}

export function isFilled({ cells }: TableRow): boolean {
  return cells.some((cell) => cell !== '');
}

function isWorkbook(bytes: Uint8Array): boolean {
  return startsWith(bytes, ...zipped);
}

async function workbooks(begin: BeginThread | undefined): Promise<Workbooks> {
  if (begin) return (await import('./apart.ts')).workbooksApart(begin);
  return (await import('../import/workbook.ts')).workbooksHere;
}

function refuseLarge({ length }: Uint8Array): void {
  if (length <= mostBytes) return;
  throw new UnreadableTable(
    `The file holds ${Math.round(length / 1048576)} MB, more than the ${mostBytes / 1048576} MB that are read at once: split it.`,
  );
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

function startsWith(bytes: Uint8Array, ...first: readonly number[]): boolean {
  return first.every((byte, index) => bytes[index] === byte);
}
