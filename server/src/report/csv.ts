/** Readings of some links as comma-separated values (RFC 4180): the first columns of the table of readings, those that need no plan. */
import type { LinkResult } from '../evaluate/result.ts';
import { csvOf } from './fleet/csv.ts';
import { judgedColumns } from './fleet/readings.ts';
import { tableOf } from './fleet/table.ts';
import { readingJson } from './json.ts';

export function toCsv(results: readonly LinkResult[]): string {
  const rows = results.flatMap(({ link, readings, reflectances }) =>
    [...readings, ...reflectances].map((reading) => ({ json: readingJson(link.name, reading) })),
  );
  return csvOf(tableOf(judgedColumns, rows));
}
