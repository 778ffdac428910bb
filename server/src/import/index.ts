/** Readings from a CSV file or a workbook, by a stated mapping, for a plan. Nothing is written here: what comes back is text. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';
import type { Plan } from '../project/types.ts';
import type { BeginThread } from './apart.ts';
import { Blocks } from './blocks.ts';
import { plainText } from './cells.ts';
import { findColumns } from './columns.ts';
import { type Mapping, type MappingProblem, placed, readMapping } from './mapping.ts';
import { Objects } from './objects.ts';
import { readRow } from './rows.ts';
import { readTable, rowsAtOnce, type TableRow, UnreadableTable } from './table.ts';
import { part, pause, type Work } from './work.ts';

export type { BeginThread } from './apart.ts';
export { plainText } from './cells.ts';
export type { Mapping, Source } from './mapping.ts';
export { readSheets, readTable, type Sheet, type TableRow, UnreadableTable } from './table.ts';
export { Cancelled, unwatched, type Work } from './work.ts';

/** A sentence about a row of the table. */
export interface AboutRow {
  /** As a spreadsheet counts it, from 1. */
  readonly row: number;
  readonly what: string;
}

export interface Imported {
  /** Blocks of readings with an empty line between; empty: there is nothing new. */
  readonly text: string;
  readonly blocks: number;
  readonly readings: number;
  /** Rows below the headings that hold something. */
  readonly rows: number;
  /** What matched nothing, and why. */
  readonly left: readonly AboutRow[];
  /** What stands already. */
  readonly duplicates: readonly AboutRow[];
}

export interface ToImport {
  readonly plan: Plan;
  /** Name of the table's file, without folders. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Text of the mapping. */
  readonly mapping: string;
  /** Begins the thread that reads a workbook; absent: this one reads it. */
  readonly begin?: BeginThread | undefined;
}

/** Sentences that say why nothing could be read, and of which of the two files their places are. */
export interface Unreadable {
  readonly problems: readonly string[];
  readonly of: 'mapping' | 'table';
}

/** What was found, or why nothing could be. Throws `Cancelled`. */
export async function importReadings(
  { plan, name, bytes, mapping: text, begin }: ToImport,
  work: Work,
): Promise<Imported | Unreadable> {
  const mapping = readMapping(text);
  if ('problems' in mapping) return { ...mapping, of: 'mapping' };
  const inMapping = (problem: MappingProblem) => placed(text, problem);
  let rows: readonly TableRow[];
  try {
    rows = await readTable(bytes, mapping, part(work, 0, 30), begin);
  } catch (error) {
    if (!(error instanceof UnreadableTable)) throw error;
    const { message, path } = error;
    return path
      ? { problems: [inMapping({ path, message })], of: 'mapping' }
      : { problems: [message], of: 'table' };
  }
  const { headings, data } = parted(rows, mapping);
  if (data.length === 0)
    return { problems: ['The table has no rows below its headings.'], of: 'table' };
  const width = rows.reduce((most, { cells }) => Math.max(most, cells.length), 0);
  const columns = findColumns(mapping, headings, width);
  if ('problems' in columns) return { problems: columns.problems.map(inMapping), of: 'mapping' };
  const objects = new Objects(plan);
  const blocks = new Blocks();
  const left: AboutRow[] = [];
  const duplicates: AboutRow[] = [];
  const matching = part(work, 30, 90);
  const laying = part(work, 90, 100);
  let readings = 0;
  for (const [index, row] of data.entries()) {
    if (index % rowsAtOnce === 0) {
      matching.report(index, data.length);
      await pause(work);
    }
    const outcome = readRow(row, mapping, columns, objects);
    for (const what of outcome.left) left.push({ row: row.number, what });
    for (const what of outcome.duplicates) duplicates.push({ row: row.number, what });
    if (outcome.found) {
      blocks.add(outcome.found);
      readings += outcome.found.readings.length;
    }
  }
  const texts: string[] = [];
  const original = { name, fingerprint: bytesToHex(sha256(bytes)) };
  for (const each of blocks.texts(mapping, original)) {
    texts.push(each);
    laying.report(texts.length, blocks.count);
    await pause(work);
  }
  return {
    text: texts.join('\n\n'),
    blocks: texts.length,
    readings,
    rows: data.length,
    left,
    duplicates,
  };
}

/** The text of a file with blocks behind what stands in it, with the line ends it has. */
export function appended(before: string, blocks: string): string {
  if (blocks === '') return before;
  const end = before.includes('\r\n') ? '\r\n' : '\n';
  const kept = before.replace(/[ \t\r\n]+$/u, '');
  const between = /^\uFEFF?$/u.test(kept) ? '' : `${end}${end}`;
  return `${kept}${between}${blocks.replaceAll('\n', end)}${end}`;
}

function parted(
  rows: readonly TableRow[],
  { heading = 1 }: Mapping,
): { readonly headings: readonly string[] | undefined; readonly data: readonly TableRow[] } {
  const head = heading === 0 ? undefined : rows.find(({ number }) => number === heading);
  return {
    headings: heading === 0 ? undefined : (head?.cells.map(plainText) ?? []),
    data: rows.filter(({ number }) => number > heading),
  };
}
