/** What the columns of a table may mean, guessed from their headings and first rows, to be looked at by a person. */
import { C } from '../../../../grammar/src/vocabulary/index.ts';
import type { Mapping, Source } from '../../import/index.ts';
import { headed } from '../entry/clipboard.ts';

/** A table as its first rows show it, cells as texts. */
export interface Seen {
  readonly headings: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** What of a plan helps to tell columns apart. */
export interface Known {
  readonly objects: ReadonlySet<string>;
  readonly setups: readonly string[];
}

type Draft = {
  -readonly [Key in keyof Mapping['columns']]?: Mapping['columns'][Key];
};

/** A mapping that may lack what nothing in the table tells. */
export interface Guess extends Omit<Mapping, 'columns'> {
  readonly columns: Draft;
}

/** By what people write over such columns. The first that fits a heading counts. */
const headings: readonly (readonly [keyof Draft, RegExp])[] = [
  ['setup', /\bset-?up\b/iu],
  ['remark', /\b(?:remark|note|comment)s?\b/iu],
  ['by', /\b(?:tester|tested by|measured by|by|who|person)\b/iu],
  ['time', /^time\b/iu],
  ['tested', /\b(?:date|day|tested|measured|when|time)\b/iu],
  ['direction', /\b(?:direction|dir|way)\b/iu],
  ['wavelength', /wave|lambda|λ|^\W*nm\W*$/iu],
  ['unit', /\bunits?\b/iu],
  ['value', /\b(?:loss|attenuation|power|reading|value|reflectance|dbm?)\b/iu],
  ['length', /\blength\b/iu],
  ['seen', /\b(?:seen|arrives|arrived)\b/iu],
  ['link', /\b(?:link|channel|cable|line|name)\b/iu],
  ['fibre', /\b(?:fib(?:re|er)|core|strand|no|nr)\b|^#/iu],
  ['end', /\b(?:end|port)\b/iu],
];

export function guessMapping({ headings: heads, rows }: Seen, known: Known): Guess {
  const columns: Draft = {};
  const readings: NonNullable<Mapping['columns']['readings']> = [];
  const at = (index: number): string | { readonly at: number } =>
    heads.indexOf(heads[index]!) === index && heads.lastIndexOf(heads[index]!) === index
      ? heads[index]!
      : { at: index + 1 };
  const named = heads.findIndex((_, index) =>
    rows.some((row) => known.objects.has(row[index] ?? '')),
  );
  if (named >= 0) columns.link = at(named);
  for (const [index, heading] of heads.entries()) {
    if (heading === '' || index === named) continue;
    const reading = headed(heading);
    if (reading.kind === 'reading' && reading.nanometres >= 600) {
      const direction = reading.direction ?? 'A>B';
      readings.push({ column: at(index), wavelength: reading.nanometres, direction });
      continue;
    }
    const [meaning] = headings.find(([, pattern]) => pattern.test(heading)) ?? [];
    if (meaning && columns[meaning] === undefined) {
      Object.assign(columns, { [meaning]: at(index) });
    }
  }
  if (readings.length > 0) {
    columns.readings = readings;
    for (const each of ['value', 'wavelength', 'direction'] as const) delete columns[each];
  }
  const lengths = lengthUnitIn(columns.length, heads);
  // In which unit it is has to be said by somebody.
  if (lengths === undefined) delete columns.length;
  if (columns.fibre !== undefined) delete columns.end;
  const setup = known.setups.at(-1);
  if (columns.setup === undefined && setup !== undefined) columns.setup = { always: setup };
  const [only, ...others] = known.objects;
  if (columns.link === undefined && only !== undefined && others.length === 0) {
    columns.link = { always: only };
  }
  const values = valuesIn(heads, rows, columns);
  const dates = textsOf(columns.tested, heads, rows);
  const kind = kindOf(heads, columns);
  const negative = values.filter((text) => /^[-−]/u.test(text)).length * 2 > values.length;
  return {
    ...(values.some((text) => /^[-+−]?\d*,\d+/u.test(text)) && { decimal: ',' as const }),
    ...orderOf(dates),
    ...(lengths && { lengths }),
    values: { ...kind, sign: kind.what === C.loss && negative ? 'negative' : 'positive' },
    columns,
  };
}

/** `m` of `Length (m)`. */
function lengthUnitIn(column: Draft['length'], heads: readonly string[]): Mapping['lengths'] {
  const heading = typeof column === 'object' ? heads[column.at - 1] : column;
  const said = /\b(?:in\s+)?(m|km|cm|ft|kft)\W*$/u.exec(heading ?? '')?.[1];
  return said as Mapping['lengths'];
}

function valuesIn(
  heads: readonly string[],
  rows: Seen['rows'],
  { readings, value }: Draft,
): readonly string[] {
  const sources = readings ? readings.map(({ column }) => column) : [value];
  return sources
    .flatMap((source) => textsOf(source, heads, rows))
    .filter((text) => /^[-+−]?[\d.,]+/u.test(text));
}

function kindOf(
  heads: readonly string[],
  { readings, value }: Draft,
): Pick<Mapping['values'], 'what' | 'unit'> {
  const sources = readings ? readings.map(({ column }) => column) : [value];
  const said = sources
    .map((source) => (typeof source === 'object' ? heads[source.at - 1] : source))
    .join(' ');
  if (/dBm|power/iu.test(said)) return { what: C.power, unit: 'dBm' };
  return { what: /reflectance/iu.test(said) ? C.reflectance : C.loss, unit: 'dB' };
}

/** Texts of a column, empty ones left out. */
export function textsOf(
  source: Source | undefined,
  heads: readonly string[],
  rows: Seen['rows'],
): readonly string[] {
  if (source === undefined || (typeof source === 'object' && 'always' in source)) return [];
  const index = typeof source === 'object' ? source.at - 1 : heads.indexOf(source);
  return rows.flatMap((row) => row[index] || []);
}

/** Which part of a date is which, where one of them can be only one. */
function orderOf(dates: readonly string[]): Pick<Mapping, 'dates'> {
  const parts = dates.flatMap((text) => {
    const match = /^(\d{1,2})[-./](\d{1,2})[-./]\d{4}/u.exec(text);
    return match ? [[Number(match[1]), Number(match[2])] as const] : [];
  });
  if (parts.length === 0) return {};
  return {
    dates: parts.some(([, second]) => second > 12) ? 'month-day-year' : 'day-month-year',
  };
}
