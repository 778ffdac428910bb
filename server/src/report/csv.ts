/** Readings as comma-separated values (RFC 4180): one row per reading, made or to make. */
import type { LinkResult } from '../evaluate/result.ts';
import { readingJson } from './json.ts';
import type { ReadingJson } from './schema.ts';

const columns = [
  'object',
  'fibre',
  'wavelength_nm',
  'direction',
  'attempt',
  'setup',
  'time',
  'reference_dbm',
  'power_dbm',
  'loss_db',
  'limit_db',
  'margin_db',
  'uncertainty_db',
  'verdict',
  'current',
  'limit_kind',
  'limit_name',
  'limit_trust',
  'reason',
  'because',
  'quantity',
  'reflectance_db',
] as const satisfies readonly (keyof ReadingJson)[];

export function toCsv(results: readonly LinkResult[]): string {
  const lines = [columns.join(',')];
  for (const result of results) {
    for (const reading of [...result.readings, ...result.reflectances]) {
      const row = readingJson(result.link.name, reading);
      lines.push(columns.map((column) => cell(row[column])).join(','));
    }
  }
  return `${lines.join('\r\n')}\r\n`;
}

/** A text that a spreadsheet would run as a formula is led by an apostrophe; numbers stay numbers. */
function cell(value: string | number | boolean | null): string {
  if (value === null) return '';
  const text =
    typeof value === 'string' && /^[=+\-@\t\r]/u.test(value) ? `'${value}` : String(value);
  return /[",\r\n]/u.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
