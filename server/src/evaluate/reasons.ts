/** Why a reading cannot stand, as data and as one sentence. */
import {
  microToNumber,
  type Picometres,
  printMicroProse,
  toNanometres,
} from '../../../grammar/src/quantity/index.ts';
import type { Place } from '../model/types.ts';

export type Details = Readonly<Record<string, string | number>>;

/**
 * What is wrong, under the name of the finding that says so. Numbers in
 * `details` are decibels, dBm, nanometres and metres; times are as written.
 */
export interface Reason extends Notice {
  readonly because: string;
}

/** What is said of a reading that stands: its finding alone tells it. */
export interface Notice {
  readonly name: string;
  readonly details: Details;
  readonly related: readonly { readonly place: Place; readonly message: string }[];
}

export function reason(
  name: string,
  because: string,
  details: Details = {},
  related: Reason['related'] = [],
): Reason {
  return { name, because, details, related };
}

/** Decibels or dBm as a number for details: exact to the micro-decibel. */
export const db = microToNumber;

/** `2.805 dB` for a sentence, from micro-decibels, apart from what it is said beside. */
export function inDb(value: number, ...beside: readonly number[]): string {
  return `${printMicroProse(value, ...beside)} dB`;
}

/** `−20.05 dBm`. */
export function inDbm(value: number, ...beside: readonly (number | undefined)[]): string {
  return `${printMicroProse(value, ...beside.filter((each) => each !== undefined))} dBm`;
}

/** Nanometres as a number for details. */
export function nm(wavelength: Picometres): number {
  return toNanometres(wavelength);
}

const minutesOfDay = 1440;

/** `2026-03-14 09:05` from minutes of the site's clock. */
export function timeInWords(minute: number): string {
  const day = Math.floor(minute / minutesOfDay);
  const rest = minute - day * minutesOfDay;
  return `${dateInWords(day)} ${pad(Math.floor(rest / 60))}:${pad(rest % 60)}`;
}

/** Last minute of the day that a minute lies in. */
export function endOfDay(minute: number): number {
  return Math.floor(minute / minutesOfDay) * minutesOfDay + minutesOfDay - 1;
}

/** Gregorian date of a day number since 1970-01-01 (civil-from-days, proleptic calendar). */
function dateInWords(days: number): string {
  const z = days + 719_468;
  const era = Math.floor(z / 146_097);
  const doe = z - era * 146_097;
  const yoe = Math.floor(
    (doe - Math.floor(doe / 1460) + Math.floor(doe / 36_524) - Math.floor(doe / 146_096)) / 365,
  );
  const doy = doe - (365 * yoe + Math.floor(yoe / 4) - Math.floor(yoe / 100));
  const mp = Math.floor((5 * doy + 2) / 153);
  const day = doy - Math.floor((153 * mp + 2) / 5) + 1;
  const month = mp < 10 ? mp + 3 : mp - 9;
  const year = yoe + era * 400 + (month <= 2 ? 1 : 0);
  return `${String(year).padStart(4, '0')}-${pad(month)}-${pad(day)}`;
}

function pad(number: number): string {
  return String(number).padStart(2, '0');
}
