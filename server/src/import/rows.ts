/** From a row of a table to readings of the plan, or why it says none. */
import { C, W } from '../../../grammar/src/vocabulary/index.ts';
import type { LinkModel } from '../model/types.ts';
import { isTree } from '../model/ways.ts';
import {
  directionOf,
  momentOf,
  plainText,
  readLength,
  readValue,
  shown,
  wavelengthOf,
} from './cells.ts';
import type { Columns } from './columns.ts';
import type { Mapping, Quantity } from './mapping.ts';
import { beside, type Objects, placeIn, readingKey, type Standing } from './objects.ts';
import type { TableRow } from './table.ts';

export interface FoundReading {
  readonly what: Quantity;
  /** In nanometres, as it is written. */
  readonly wavelength: string;
  readonly direction: 'A>B' | 'B>A';
  readonly text: string;
}

/** Readings of one fibre at one time, as they go into one row of a block. */
export interface FoundRow {
  readonly number: number;
  readonly link: LinkModel;
  readonly kind: 'fibre' | 'end';
  /** `7`, or the port of an end. */
  readonly place: string;
  readonly setup: string;
  readonly day: string;
  readonly time: string | undefined;
  readonly by: string;
  readonly remark: string;
  readonly readings: readonly FoundReading[];
  /** As it goes into a column of lengths. */
  readonly length: string | undefined;
  /** Port at which light was seen: at A where the row tells of light from B alone. */
  readonly seen: { readonly port: string; readonly side: 'A' | 'B' } | undefined;
}

/** What a row comes to. */
export interface RowOutcome {
  readonly found: FoundRow | undefined;
  /** Why something of it was not taken. */
  readonly left: readonly string[];
  /** Readings that stand already. */
  readonly duplicates: readonly string[];
}

interface Read {
  readonly what: Quantity;
  readonly wavelength: string;
  readonly direction: 'A>B' | 'B>A';
  readonly text: string;
  readonly micro: number | 'dark';
}

/** Reads one row; what it brings is known to the rows after it. */
export function readRow(
  row: TableRow,
  mapping: Mapping,
  columns: Columns,
  objects: Objects,
): RowOutcome {
  const said = whereAndWhen(row, mapping, columns, objects);
  if ('because' in said) return nothing(said.because);
  const left: string[] = [];
  const duplicates: string[] = [];
  const readings: FoundReading[] = [];
  for (const read of readingsIn(row, mapping, columns)) {
    if ('because' in read) {
      left.push(`${read.because}.`);
      continue;
    }
    const { what, wavelength, direction, text, micro } = read;
    const standing = objects.standing(
      said.link,
      readingKey(said.fibre, what, Math.round(Number(wavelength) * 1000), direction),
    );
    const now = { from: said.from, to: said.to, micro, row: row.number };
    const other = standing.find((each) => concerns(each, now));
    const name = `${said.link.name} ${said.kind === 'fibre' ? `fibre ${said.place}` : said.place} at ${wavelength} nm ${direction}`;
    if (!other) {
      standing.push(now);
      readings.push({ what, wavelength, direction, text });
    } else if (other.micro === micro) {
      duplicates.push(`${name}, ${text}, stands ${whereOf(other)} already.`);
    } else {
      left.push(
        `${name}: another value of the same time stands ${whereOf(other)}. A second attempt needs its own time of day.`,
      );
    }
  }
  const aside = besideReadings(row, said, readings, mapping, columns, objects);
  left.push(...aside.left);
  const { length, seen } = aside;
  const found =
    readings.length > 0 || aside.isLengthNew
      ? { ...said, number: row.number, readings, length, seen }
      : undefined;
  if (!found && left.length === 0 && duplicates.length === 0) {
    return nothing('no cell of it holds a reading');
  }
  return { found, left, duplicates };
}

function nothing(because: string): RowOutcome {
  return { found: undefined, left: [`${because}.`], duplicates: [] };
}

type Said = Omit<FoundRow, 'number' | 'readings' | 'length' | 'seen'> & {
  readonly fibre: number;
  readonly from: number;
  readonly to: number;
};

/** Length and port of a row, left out where they stand in the plan already. Several rows of a fibre may say them. */
function besideReadings(
  row: TableRow,
  said: Said,
  readings: readonly FoundReading[],
  mapping: Mapping,
  columns: Columns,
  objects: Objects,
): Pick<FoundRow, 'length' | 'seen'> & {
  readonly isLengthNew: boolean;
  readonly left: readonly string[];
} {
  const left: string[] = [];
  /** Where it stands already; if nowhere, it does from now on. */
  const known = (what: typeof W.length | typeof W.seen, micro: number | string) => {
    const standing = objects.standing(said.link, beside(said.fibre, what));
    const now = { from: said.from, to: said.to, micro, row: row.number };
    const found = standing.find((each) => each.micro === micro && concerns(each, now));
    if (!found) standing.push(now);
    return found && (found.row === undefined ? 'plan' : 'row');
  };
  const read = readLength(columns.length?.(row), mapping);
  if (read && 'because' in read) left.push(`${read.because}.`);
  const lengthIn = read && 'text' in read ? known(W.length, read.micro) : 'plan';
  const length = read && 'text' in read && lengthIn !== 'plan' ? read.text : undefined;
  const isLengthNew = lengthIn === undefined;
  const nothingSeen = { length, isLengthNew, seen: undefined, left };
  const port = plainText(columns.seen?.(row));
  if (port === '' || port === '-' || port === '–' || readings.length === 0) {
    return nothingSeen;
  }
  const ways = mapping.columns.readings ?? readings;
  const side = ways.every(({ direction }) => direction === 'B>A') ? 'A' : 'B';
  if (side === 'B' && !readings.some(({ direction }) => direction === 'A>B')) {
    left.push(
      `the port "${shown(port)}" is not taken, since the row brings no reading from A to B.`,
    );
    return nothingSeen;
  }
  return known(W.seen, port) === 'plan' ? nothingSeen : { ...nothingSeen, seen: { port, side } };
}

function whereAndWhen(
  row: TableRow,
  mapping: Mapping,
  columns: Columns,
  objects: Objects,
): Said | { readonly because: string } {
  const name = plainText(columns.link(row));
  const link = objects.find(name);
  if (!link) {
    return {
      because: name === '' ? 'no link is named' : `the plan has no link "${shown(name)}"`,
    };
  }
  const kind = columns.end ? 'end' : 'fibre';
  const place = plainText((columns.end ?? columns.fibre!)(row));
  const found = placeIn(link, kind, place);
  if (!found) return { because: noPlace(link, kind, place) };
  const setup = plainText(columns.setup(row));
  if (!objects.hasSetup(setup)) {
    return {
      because: setup === '' ? 'no set-up is named' : `the plan has no set-up "${shown(setup)}"`,
    };
  }
  const moment = momentOf(columns.tested(row), columns.time?.(row), mapping.dates);
  if ('because' in moment) return moment;
  const { day, time } = moment;
  const start = Date.parse(`${day}T${time ?? '00:00'}Z`) / 60_000;
  return {
    link,
    kind,
    place: found.written,
    fibre: found.fibre,
    setup,
    day,
    time,
    from: start,
    to: time === undefined ? start + 24 * 60 - 1 : start,
    by: plainText(columns.by?.(row)),
    remark: plainText(columns.remark?.(row)),
  };
}

function noPlace(link: LinkModel, kind: 'fibre' | 'end', place: string): string {
  if (place === '') return `no ${kind} is named`;
  if (kind === 'fibre' && isTree(link)) {
    return `${link.name} is a tree: its ends are named by their ports, not by numbers`;
  }
  return `${link.name} has no ${kind} "${shown(place)}"`;
}

function* readingsIn(
  row: TableRow,
  mapping: Mapping,
  columns: Columns,
): Iterable<Read | { readonly because: string }> {
  const { values } = mapping;
  if (!mapping.columns.readings) {
    const value = readValue(columns.value!(row), columns.unit?.(row), mapping, {
      ...values,
      declared: values.unit,
    });
    if (value === undefined) return;
    const wavelength = wavelengthOf(columns.wavelength!(row), mapping.decimal);
    const direction = directionOf(columns.direction!(row), mapping.directions);
    if ('because' in value) yield value;
    else if (typeof wavelength !== 'string') yield wavelength;
    else if (typeof direction !== 'string') yield direction;
    else yield { ...value, what: values.what, wavelength, direction };
    return;
  }
  for (const [index, { wavelength, direction, ...own }] of mapping.columns.readings.entries()) {
    const what = own.what ?? values.what;
    const unit = own.unit ?? unitOf(what, mapping);
    const declared = unitOf(what, mapping);
    const value = readValue(columns.readings[index]!(row), columns.unit?.(row), mapping, {
      what,
      unit,
      declared,
    });
    if (value === undefined) continue;
    if ('because' in value) yield { because: `${wavelength} nm ${direction}: ${value.because}` };
    else yield { ...value, what, wavelength: String(wavelength), direction };
  }
}

/** The unit that a block of this mapping declares for a quantity. */
export function unitOf(what: Quantity, { values }: Mapping): string {
  if (what === values.what) return values.unit;
  return what === C.power ? 'dBm' : 'dB';
}

/** The same moment, or the same value within what is known of the moment. */
function concerns(standing: Standing, now: Standing): boolean {
  if (standing.from === now.from && standing.to === now.to) return true;
  const meet = standing.from <= now.to && now.from <= standing.to;
  return meet && standing.micro === now.micro;
}

function whereOf({ row }: Standing): string {
  return row === undefined ? 'in the plan' : `in row ${row}`;
}
