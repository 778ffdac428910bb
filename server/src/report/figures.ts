/**
 * Numbers as people read them: rounded half away from zero to the precision of
 * the user's choice, with more digits where rounding would contradict the
 * verdict; a true minus; a unit once.
 */
import {
  type ExactDb,
  exactDb,
  type MicroDb,
  type Micrometres,
  microToNumber,
  type Picometres,
  printExactDb,
  printMicro,
  printRounded,
  toMetres,
  toNanometres,
} from '../../../grammar/src/quantity/index.ts';
import type { Limit, ReadingResult } from '../evaluate/result.ts';

export interface Display {
  /** Decimals of a decibel. */
  readonly precision: number;
  readonly lengthUnit: 'm' | 'ft';
}

export const plainDisplay: Display = { precision: 2, lengthUnit: 'm' };

/** U+2212 in place of the hyphen. */
export function trueMinus(text: string): string {
  return text.replace('-', '−');
}

/** A limit or loss; digits are added where it would show as zero and is not. */
export function decibels(value: ExactDb, places: number): string {
  return trueMinus(roundedApart(value, 0n as ExactDb, places));
}

/** A margin with its sign; zero has none. */
export function margin(value: ExactDb, places: number): string {
  const text = decibels(value, places);
  return value > 0n ? `+${text}` : text;
}

/** How much more or less: the size of a margin without its sign. */
export function size(value: ExactDb, places: number): string {
  return decibels((value < 0n ? -value : value) as ExactDb, places);
}

/** Rounded, with the digits that keep it apart from another value that it does not equal. */
export function roundedApart(value: ExactDb, other: ExactDb, places: number): string {
  for (let digits = places; digits < 6; digits += 1) {
    const text = printRounded(value, digits);
    if (value === other || text !== printRounded(other, digits)) return text;
  }
  return printExactDb(value);
}

/** A reading's loss beside the limit it is judged by: `2.805` where the limit is 2.81. */
export function lossBeside(loss: MicroDb, limit: ExactDb | undefined, places: number): string {
  const value = exactDb(loss);
  return trueMinus(
    limit === undefined ? printRounded(value, places) : roundedApart(value, limit, places),
  );
}

/** A limit with the digits that keep it apart from every loss judged by it. */
export function limitBeside(limit: ExactDb, losses: Iterable<MicroDb>, places: number): string {
  let longest = printRounded(limit, places);
  for (const loss of losses) {
    const text = roundedApart(limit, exactDb(loss), places);
    if (text.length > longest.length) longest = text;
  }
  return trueMinus(longest);
}

/** `limit 2.04 dB (components)`; one that rests on a figure from memory says so. Empty where it has no figure. */
export function limitWords(limit: Limit | undefined, places: number): string {
  if (limit?.value === undefined) return '';
  const words = limit.recalled ? `${limit.kind}, recalled` : limit.kind;
  return `limit ${decibels(limit.value, places)} dB (${words})`;
}

/** Decibels as a number for places on an axis. */
export function toDb(value: ExactDb): number {
  return Number(value) / 1e15;
}

export function microToDb(value: number): number {
  return microToNumber(value);
}

/** As typed: no digit lost, no zero at the end. */
export function micro(value: number): string {
  return trueMinus(printMicro(value));
}

/** As typed, with two decimals at least, so that figures of a column stand point under point. */
export function microInColumn(value: number): string {
  const text = micro(value);
  const places = text.split('.')[1]?.length ?? 0;
  return places === 0 ? `${text}.00` : places === 1 ? `${text}0` : text;
}

const micrometresPerFoot = 304_800;

/** `96 m`, `1.24 km`, `590 ft`: three figures, or whole metres. */
export function length(value: Micrometres, { lengthUnit }: Display): string {
  if (lengthUnit === 'ft') return `${Math.round(value / micrometresPerFoot)} ft`;
  const metres = toMetres(value);
  if (metres >= 1000) return `${Number((metres / 1000).toPrecision(3))} km`;
  return `${Number(metres.toFixed(metres < 100 ? 1 : 0))} m`;
}

export function wavelength(value: Picometres): string {
  return `${toNanometres(value)} nm`;
}

/** `850 nm A>B`, or `850 nm`. */
export function key(
  reading: Pick<ReadingResult, 'wavelength' | 'direction'> &
    Partial<Pick<ReadingResult, 'reading'>>,
): string {
  const what = reading.reading?.quantity === 'reflectance' ? 'reflectance' : undefined;
  return [wavelength(reading.wavelength), reading.direction, what].filter(Boolean).join(' ');
}

/** `1,210`: thousands are grouped in counts only. */
export function count(value: number): string {
  return String(value).replaceAll(/\B(?=(\d{3})+$)/g, ',');
}

/** `1 link`, `2 links`. */
export function counted(value: number, one: string, many = `${one}s`): string {
  return `${count(value)} ${value === 1 ? one : many}`;
}

/** `a`, `a and b`, `a, b and c`. */
export function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}
