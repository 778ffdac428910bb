/**
 * Values of slots in the kind that is wanted; undefined where there is none of
 * that kind, which binding has reported. A value that filled a hole was read as
 * it was written, so that a name may come as a text and the other way round.
 */
import type { BoundEntry, Value } from '../../../grammar/src/bound.ts';
import {
  type MicroDb,
  type MicroDbm,
  type Micrometres,
  microDb,
  microDbm,
  micrometres,
  type PartsPerMillion,
  type Picometres,
  partsPerMillion,
  picometres,
  type RatePerKm,
  ratePerKm,
} from '../../../grammar/src/quantity/index.ts';
import type { DateValue, Span } from '../../../grammar/src/tree.ts';
import type { PlacedEntry } from './scope.ts';
import type { BlockId, Place, When } from './types.ts';

type Values = readonly Value[] | undefined;

/** Picoseconds in a minute. */
const PS_PER_MINUTE = 60e12;

/** Whole entry. */
export function placeOf(line: PlacedEntry): Place {
  return { block: line.block, span: line.entry.span };
}

/** One value of an entry; one that filled a hole stands where it was written. */
export function valuePlace(line: PlacedEntry, value: Value): Place {
  return { block: line.filled?.get(value) ?? line.block, span: value.span };
}

export function placeIn(block: BlockId, span: Span): Place {
  return { block, span };
}

export function has(entry: BoundEntry, slot: string): boolean {
  return entry.slots[slot] !== undefined;
}

export function nameOf(values: Values): string | undefined {
  const value = values?.[0];
  return value && nameOfValue(value);
}

export function nameOfValue(value: Value): string | undefined {
  if (value.kind === 'name' || value.kind === 'text' || value.kind === 'choice') return value.text;
  return value.kind === 'whole' ? String(value.value) : undefined;
}

/** Names of a list, ranges such as `A:01..12` expanded. */
export function namesOf(values: Values): string[] {
  return (values ?? []).flatMap((value) => {
    if (value.kind === 'names') return expandNames(value);
    const name = nameOfValue(value);
    return name === undefined ? [] : [name];
  });
}

function expandNames(value: Extract<Value, { kind: 'names' }>): string[] {
  return expand(value.first, value.last, value.step).map(
    (number) => `${value.prefix}${String(number).padStart(value.width, '0')}`,
  );
}

function expand(first: number, last: number, step: number): number[] {
  const numbers: number[] = [];
  for (let number = first; number <= last; number += step) numbers.push(number);
  return numbers;
}

export function wholeOf(values: Values): number | undefined {
  const value = values?.[0];
  return value?.kind === 'whole' ? value.value : undefined;
}

/** Whole numbers of a list, ranges expanded, in the order written. Undefined where the slot is missing. */
export function wholesOf(values: Values): readonly number[] | undefined {
  return values?.flatMap((value) => {
    if (value.kind === 'whole') return [value.value];
    return value.kind === 'wholes' ? expand(value.first, value.last, value.step) : [];
  });
}

export function decimalOf(values: Values): number | undefined {
  const value = values?.[0];
  if (value?.kind === 'whole') return value.value;
  return value?.kind === 'decimal' ? value.value : undefined;
}

export function directionOf(values: Values): 'A>B' | 'B>A' | undefined {
  const value = values?.[0];
  return value?.kind === 'direction' ? value.value : undefined;
}

type QuantityValue = Extract<Value, { kind: 'quantity' }>;

function base(value: Value | undefined, dimension: QuantityValue['dimension']): number | undefined {
  return value?.kind === 'quantity' && value.dimension === dimension ? value.base : undefined;
}

function as<Q>(number: number | undefined, make: (value: number) => Q): Q | undefined {
  return number === undefined ? undefined : make(number);
}

export function lossOf(values: Values): MicroDb | undefined {
  return as(base(values?.[0], 'loss'), microDb);
}

export function powerOf(values: Values): MicroDbm | undefined {
  return as(base(values?.[0], 'power'), microDbm);
}

export function lengthOf(values: Values): Micrometres | undefined {
  return as(base(values?.[0], 'length'), micrometres);
}

export function lengthsOf(values: Values): Micrometres[] {
  return (values ?? []).flatMap((value) => lengthOf([value]) ?? []);
}

export function rateOf(values: Values): RatePerKm | undefined {
  return as(base(values?.[0], 'rate'), ratePerKm);
}

export function wavelengthOf(values: Values): Picometres | undefined {
  return as(base(values?.[0], 'wavelength'), picometres);
}

export function wavelengthsOf(values: Values): Picometres[] {
  return (values ?? []).flatMap((value) => wavelengthOf([value]) ?? []);
}

export function sizeOf(values: Values): Picometres | undefined {
  return as(base(values?.[0], 'size'), picometres);
}

export function shareOf(values: Values): PartsPerMillion | undefined {
  return as(base(values?.[0], 'share'), partsPerMillion);
}

/** Bandwidth in MHz·km. */
export function bandwidthOf(values: Values): number | undefined {
  const held = base(values?.[0], 'bandwidth');
  return held === undefined ? undefined : held / 1000;
}

/** The base unit of a quantity of some dimension, for those that have no number of their own. */
export function baseOf(values: Values, dimension: QuantityValue['dimension']): number | undefined {
  return base(values?.[0], dimension);
}

/** Two whole numbers with a colon between them: `1:8`. */
export function ratioOf(values: Values): readonly [number, number] | undefined {
  const value = values?.[0];
  return value?.kind === 'ratio' ? [value.first, value.second] : undefined;
}

/** A span of time in minutes. */
export function minutesOf(values: Values): number | undefined {
  const held = base(values?.[0], 'time');
  return held === undefined ? undefined : Math.floor(held / PS_PER_MINUTE);
}

/** Where something lies, in words: a text, a name, or a length as written. */
export function locationOf(values: Values): string | undefined {
  const value = values?.[0];
  if (value?.kind === 'quantity') return `${value.digits} ${value.unit.name}`;
  return nameOf(values);
}

export function dayOf(values: Values): string | undefined {
  const value = values?.[0];
  return value?.kind === 'date' ? value.value.day : undefined;
}

/** Minute of the site's clock at which a day begins, since 1970-01-01 00:00. */
function dayStart(day: string): number {
  const [year = 1970, month = 1, date = 1] = day.split('-').map(Number);
  return Date.UTC(year, month - 1, date) / 60_000;
}

export const MINUTES_PER_DAY = 1440;

/** The instant that a date means: its minute, or any minute of its day. */
export function whenOf(line: PlacedEntry, values: Values): When | undefined {
  const value = values?.[0];
  return value?.kind === 'date' ? whenOfDate(value.value, valuePlace(line, value)) : undefined;
}

export function whenOfDate(date: DateValue, place: Place): When {
  const start = dayStart(date.day);
  return date.minutes === undefined
    ? { from: start, to: start + MINUTES_PER_DAY - 1, text: date.day, place }
    : {
        from: start + date.minutes,
        to: start + date.minutes,
        text: `${date.day} ${clock(date.minutes)}`,
        place,
      };
}

/** Minutes after midnight as `09:05`. */
export function clock(minutes: number): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
