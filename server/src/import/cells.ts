/** Single cells: readings, wavelengths, dates and times, as a mapping says they are written. */
import { findUnit, readDecimal, toBase } from '../../../grammar/src/quantity/index.ts';
import { C, K, W } from '../../../grammar/src/vocabulary/index.ts';
import { fits, type Mapping, type Quantity } from './mapping.ts';
import type { Cell } from './table.ts';

/** Why a cell is not what its column says. */
export interface Refused {
  readonly because: string;
}

export interface ReadValue {
  /** As it is written into the plan: `-0.97`, `dark`, `1.2 uW`. */
  readonly text: string;
  /** What it says, for comparing: integer of a micro-decibel, sign convention applied. */
  readonly micro: number | 'dark';
}

/** Undefined: no reading was made. */
export function readValue(
  cell: Cell | undefined,
  unitCell: Cell | undefined,
  mapping: Mapping,
  column: { readonly what: Quantity; readonly unit: string; readonly declared: string },
): ReadValue | Refused | undefined {
  const text = plainText(cell);
  const lower = text.toLowerCase();
  if (text === '' || text === '-' || text === '–' || isListed(lower, mapping.untested)) {
    return undefined;
  }
  if (lower === K.dark || isListed(lower, mapping.dark)) return { text: K.dark, micro: 'dark' };
  const match = /^([-+−]?)\s*([\d.,]+)\s*(\S*)$/u.exec(text);
  const number = match && decimalOf(match[2]!, mapping.decimal);
  const spelling = match?.[3] || plainText(unitCell) || column.unit;
  const unit = findUnit(spelling);
  if (!match || number === undefined || (match[3] && !unit)) {
    return { because: `"${shown(text)}" is no reading` };
  }
  if (!unit || !fits(column.what, unit.name)) {
    return { because: `"${shown(spelling)}" is no unit of ${column.what}` };
  }
  const digits = `${match[1] === '-' || match[1] === '−' ? '-' : ''}${number}`;
  const base = toBase(readDecimal(digits)!, unit);
  if (typeof base !== 'number') {
    return {
      because: `"${shown(text)}" cannot be held: ${base === 'too-fine' ? 'more decimals than a millionth of a decibel' : 'out of every range'}`,
    };
  }
  const negative = column.what === C.loss && mapping.values.sign === 'negative';
  return {
    text: unit.name === column.declared ? digits : `${digits} ${unit.name}`,
    micro: negative && base !== 0 ? -base : base,
  };
}

/** A measured length as it is written into a column of that unit, and what it says in micrometres. Undefined: none was measured. */
export function readLength(
  cell: Cell | undefined,
  { decimal, lengths = 'm' }: Mapping,
): { readonly text: string; readonly micro: number } | Refused | undefined {
  const text = plainText(cell);
  if (text === '' || text === '-' || text === '–') return undefined;
  const match = /^([\d.,]+)\s*(\S*)$/u.exec(text);
  const number = match && decimalOf(match[1]!, decimal);
  const unit = findUnit(match?.[2] || lengths);
  if (!match || !number || unit?.dimension !== W.length) {
    return { because: `"${shown(text)}" is no length` };
  }
  const base = toBase(readDecimal(number)!, unit);
  if (typeof base !== 'number')
    return { because: `"${shown(text)}" is no length that can be held` };
  return { text: unit.name === lengths ? number : `${number} ${unit.name}`, micro: base };
}

/** `1.5` of `1,5`; undefined where point or comma stands as this mapping does not write it. */
function decimalOf(text: string, sign: Mapping['decimal']): string | undefined {
  const point = sign === ',' ? text.replace(',', '.') : text;
  if (sign === ',' && text.includes('.')) return undefined;
  if (!/^(?:\d+(?:\.\d+)?|\.\d+)$/u.test(point)) return undefined;
  return point.startsWith('.') ? `0${point}` : point;
}

/** In nanometres as written, `850`; with the unit `um` too. */
export function wavelengthOf(
  cell: Cell | undefined,
  decimal: Mapping['decimal'],
): string | Refused {
  const text = plainText(cell);
  const match = /^([\d.,]+)\s*(nm|[uµμ]m)?$/iu.exec(text);
  const number = match && decimalOf(match[1]!, decimal);
  const value = Number(number) * (match?.[2] && !/nm/iu.test(match[2]) ? 1000 : 1);
  if (!number || !(value >= 100 && value < 100_000)) {
    return { because: text === '' ? 'no wavelength' : `"${shown(text)}" is no wavelength` };
  }
  return String(Number(value.toFixed(3)));
}

export function directionOf(
  cell: Cell | undefined,
  known: Mapping['directions'],
): 'A>B' | 'B>A' | Refused {
  const text = plainText(cell);
  const said = Object.entries(known ?? {}).find(
    ([each]) => each.trim().toLowerCase() === text.toLowerCase(),
  );
  if (said) return said[1];
  const match = /^([AB])\s*(?:>|-+>?|–|→|to)\s*([AB])$/iu.exec(text);
  if (match && match[1]!.toUpperCase() !== match[2]!.toUpperCase()) {
    return match[1]!.toUpperCase() === 'A' ? 'A>B' : 'B>A';
  }
  return { because: text === '' ? 'no direction' : `"${shown(text)}" is no direction` };
}

export interface Moment {
  /** `2026-03-14` */
  readonly day: string;
  /** `09:05`; undefined: not said. */
  readonly time: string | undefined;
}

/** Day and time of day; seconds are left out, as the notation has none. */
export function momentOf(
  tested: Cell | undefined,
  time: Cell | undefined,
  order: Mapping['dates'],
): Moment | Refused {
  const said =
    tested instanceof Date ? momentOfDate(tested) : momentOfText(plainText(tested), order);
  if ('because' in said || time === undefined || time === '') return said;
  const own = time instanceof Date ? momentOfDate(time, true).time : clockOf(plainText(time));
  return own === undefined
    ? { because: `"${shown(plainText(time))}" is no time of day` }
    : { day: said.day, time: own };
}

/** A date of a workbook is the clock on the wall, kept as if it were that of UTC. */
function momentOfDate(date: Date, alone = false): Moment {
  const text = date.toISOString();
  const time = text.slice(11, 16);
  return { day: text.slice(0, 10), time: time === '00:00' && !alone ? undefined : time };
}

function momentOfText(text: string, order: Mapping['dates'] = 'year-month-day'): Moment | Refused {
  const match = /^(\d{1,4})[-./](\d{1,2})[-./](\d{1,4})(?:[T\s]+(\S.*))?$/u.exec(text);
  if (!match) return { because: text === '' ? 'no date' : `"${shown(text)}" is no date` };
  const parts = order.split('-');
  const [year, month, day] = ['year', 'month', 'day'].map(
    (each) => match[parts.indexOf(each) + 1]!,
  );
  const written = `${year}-${month!.padStart(2, '0')}-${day!.padStart(2, '0')}`;
  const date = new Date(`${written}T00:00:00Z`);
  const real = year!.length === 4 && !Number.isNaN(date.getTime());
  if (!real || date.toISOString().slice(0, 10) !== written) {
    return { because: `"${shown(text)}" is no date in the order ${order}` };
  }
  if (match[4] === undefined) return { day: written, time: undefined };
  const time = clockOf(match[4]);
  return time === undefined
    ? { because: `"${shown(match[4])}" is no time of day` }
    : { day: written, time };
}

/** `09:05` of `9:05`, `09:05:31`, `9:05 am`. */
function clockOf(text: string): string | undefined {
  const match = /^(\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?\s*(?:([ap])\.?m\.?)?$/iu.exec(text);
  if (!match) return undefined;
  const half = match[3]?.toLowerCase();
  const twelve = Number(match[1]);
  if (half && (twelve < 1 || twelve > 12)) return undefined;
  const hour = half ? (twelve % 12) + (half === 'p' ? 12 : 0) : twelve;
  if (hour > 23 || Number(match[2]) > 59) return undefined;
  return `${String(hour).padStart(2, '0')}:${match[2]}`;
}

/** Text of a cell on one line. */
export function plainText(cell: Cell | undefined): string {
  if (cell instanceof Date) return cell.toISOString().slice(0, 16).replace('T', ' ');
  return (cell ?? '').trim();
}

/** As much of a cell as a sentence can hold. */
export function shown(text: string): string {
  const line = text.replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ');
  return line.length > 60 ? `${line.slice(0, 60)}…` : line;
}

function isListed(lower: string, list: readonly string[] | undefined): boolean {
  return list?.some((each) => each.trim().toLowerCase() === lower) ?? false;
}
