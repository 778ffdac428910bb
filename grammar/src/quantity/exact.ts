/**
 * Exact quantities. The one module that may make or convert a branded number:
 * everything else receives them and hands them on.
 *
 * Written values are read from their decimal digits, never through a float.
 * Sums that involve length times rate are kept as integers of a femto-decibel
 * (1e-15 dB): micro-decibel per kilometre times micrometre gives exactly that.
 */
import type { Unit } from './units.ts';

declare const brand: unique symbol;
type Branded<Base, Name extends string> = Base & { readonly [brand]: Name };

/** Loss or a difference of powers, integer micro-decibels. */
export type MicroDb = Branded<number, 'micro-decibel'>;
/** Absolute power, integer micro-decibels relative to one milliwatt. */
export type MicroDbm = Branded<number, 'micro-dBm'>;
/** Length, integer micrometres. */
export type Micrometres = Branded<number, 'micrometre'>;
/** Attenuation rate, integer micro-decibels per kilometre. */
export type RatePerKm = Branded<number, 'micro-decibel per kilometre'>;
/** Wavelength or size, integer picometres. */
export type Picometres = Branded<number, 'picometre'>;
/** Parts per million. */
export type PartsPerMillion = Branded<number, 'ppm'>;
/** Exact loss, integer femto-decibels (1e-15 dB). */
export type ExactDb = Branded<bigint, 'femto-decibel'>;

const FEMTO_PER_MICRO = 1_000_000_000n;

/** A decimal as written: digits with an exact integer value `scaled / 10^places`. */
export interface Decimal {
  readonly scaled: bigint;
  readonly places: number;
}

/** Reads `12`, `-0.04`, `.84`; the true minus equals the ASCII one. Undefined if it is no number. */
export function readDecimal(text: string): Decimal | undefined {
  const match = /^([-−+]?)(\d*)(?:\.(\d+))?$/u.exec(text);
  if (!match || (match[2] === '' && match[3] === undefined)) return undefined;
  const fraction = match[3] ?? '';
  const magnitude = BigInt(`${match[2] || '0'}${fraction}`);
  const negative = match[1] === '-' || match[1] === '−';
  return { scaled: negative ? -magnitude : magnitude, places: fraction.length };
}

/** Why a written value could not be held: more decimals than the base unit, or too large for exact work. */
export type Refusal = 'too-fine' | 'too-large' | 'not-positive';

/**
 * A decimal in a unit as an integer of its base unit. A rate per kilofoot is
 * rounded once (half away from zero); any other value that is finer than the
 * base unit is refused, since it would be lost. Powers in watts are not
 * converted here: see {@link powerFromWatts}.
 */
export function toBase(decimal: Decimal, unit: Unit): number | Refusal {
  if (unit.logarithmic) {
    const converted = powerFromWatts(decimal, unit);
    return converted ?? 'not-positive';
  }
  const numerator = decimal.scaled * unit.numerator;
  const denominator = unit.denominator * 10n ** BigInt(decimal.places);
  const exact = numerator % denominator === 0n;
  if (!exact && unit.denominator === 1n) return 'too-fine';
  const value = Number(exact ? numerator / denominator : divideRounded(numerator, denominator));
  return Number.isSafeInteger(value) || unit.dimension === 'time' || unit.dimension === 'frequency'
    ? value
    : 'too-large';
}

/**
 * Power in W, mW, uW or nW as dBm: P = 10·log10(P / 1 mW), rounded once to a
 * micro-decibel. Undefined for zero and below, which have no logarithm.
 */
export function powerFromWatts(decimal: Decimal, unit: Unit): MicroDbm | undefined {
  if (decimal.scaled <= 0n) return undefined;
  const nanowatts = (Number(decimal.scaled) / 10 ** decimal.places) * Number(unit.numerator);
  return roundHalfAway(10 * Math.log10(nanowatts / 1e6) * 1e6) as MicroDbm;
}

/** Takes a number that is already an integer of the base unit; anything else is a defect of the caller. */
function integer(value: number): number {
  if (!Number.isSafeInteger(value))
    throw new RangeError(`not a whole number of base units: ${value}`);
  return value;
}

export const microDb = (value: number): MicroDb => integer(value) as MicroDb;
export const microDbm = (value: number): MicroDbm => integer(value) as MicroDbm;
export const micrometres = (value: number): Micrometres => integer(value) as Micrometres;
export const ratePerKm = (value: number): RatePerKm => integer(value) as RatePerKm;
export const picometres = (value: number): Picometres => integer(value) as Picometres;
export const partsPerMillion = (value: number): PartsPerMillion =>
  integer(value) as PartsPerMillion;

/** A float of decibels from a logarithm or k·sigma, rounded once at the border to a micro-decibel. */
export function roundToMicroDb(decibels: number): MicroDb {
  return integer(roundHalfAway(decibels * 1e6)) as MicroDb;
}

/** Exact form of a held loss. */
export function exactDb(loss: MicroDb): ExactDb {
  return (BigInt(loss) * FEMTO_PER_MICRO) as ExactDb;
}

/** A decibel number as handed from evaluation to a sentence, to 1e-9 dB; not for judging. */
export function exactFromNumber(decibels: number): ExactDb {
  return (BigInt(Math.round(decibels * 1e9)) * 1_000_000n) as ExactDb;
}

export const zeroDb = 0n as ExactDb;

/** Fibre loss: rate times length, exact (dB/km × km; IEC 61280-4 series, attenuation of cabled fibre). */
export function fibreLoss(rate: RatePerKm, length: Micrometres): ExactDb {
  return (BigInt(rate) * BigInt(length)) as ExactDb;
}

export function addDb(...terms: readonly ExactDb[]): ExactDb {
  let sum = 0n;
  for (const term of terms) sum += term;
  return sum as ExactDb;
}

export function subtractDb(a: ExactDb, b: ExactDb): ExactDb {
  return (a - b) as ExactDb;
}

/** A loss counted `n` times; n is a whole number and may be negative. */
export function timesDb(loss: ExactDb, n: number): ExactDb {
  return (loss * BigInt(integer(n))) as ExactDb;
}

/** The greatest micro-decibel not above the value: r ≤ L exactly when r ≤ floor(L). For upper limits. */
export function floorDb(value: ExactDb): MicroDb {
  return integer(Number(floorDivide(value, FEMTO_PER_MICRO))) as MicroDb;
}

/** The least micro-decibel not below the value. For lower limits. */
export function ceilDb(value: ExactDb): MicroDb {
  return integer(-Number(floorDivide(-value, FEMTO_PER_MICRO))) as MicroDb;
}

export function compareDb(a: ExactDb, b: ExactDb): -1 | 0 | 1 {
  return a < b ? -1 : a > b ? 1 : 0;
}

/** Loss from two powers: reference minus measured, in dB, positive for a loss. */
export function lossFromPowers(reference: MicroDbm, measured: MicroDbm): MicroDb {
  return (reference - measured) as MicroDb;
}

export function addMicroDb(a: MicroDb, b: MicroDb): MicroDb {
  return (a + b) as MicroDb;
}

export function subtractMicroDb(a: MicroDb, b: MicroDb): MicroDb {
  return (a - b) as MicroDb;
}

export function addLengths(a: Micrometres, b: Micrometres): Micrometres {
  return integer(a + b) as Micrometres;
}

/** Length grown by a share, rounded once to a micrometre (fibre over cable: excess). */
export function lengthWithExcess(length: Micrometres, excess: PartsPerMillion): Micrometres {
  const grown = BigInt(length) * (1_000_000n + BigInt(excess));
  return integer(Number(divideRounded(grown, 1_000_000n))) as Micrometres;
}

/** Rounds an exact loss half up to a step, as a contract may ask; the step is positive. */
export function roundLimit(value: ExactDb, step: MicroDb): ExactDb {
  const exactStep = BigInt(step) * FEMTO_PER_MICRO;
  return (floorDivide(2n * value + exactStep, 2n * exactStep) * exactStep) as ExactDb;
}

/** Decimal text of an exact loss with no digit lost and no zero at the end: `2.805`. */
export function printExactDb(value: ExactDb): string {
  return printScaled(value, 15);
}

/** Decimal text of a base integer of a micro unit, no zero at the end: `-20.05`. */
export function printMicro(value: number): string {
  return printScaled(BigInt(value), 6);
}

/** Decimal text rounded half away from zero to a number of places, which are all shown: `2.81`. */
export function printRounded(value: ExactDb, places: number): string {
  const divisor = 10n ** BigInt(15 - places);
  return printFixed(divideRounded(value, divisor), places);
}

/** As {@link printRounded} for an integer of micro units. */
export function printMicroRounded(value: number, places: number): string {
  return printRounded((BigInt(value) * FEMTO_PER_MICRO) as ExactDb, places);
}

/** A JavaScript number for output formats; exact to 1e-6 dB and better. */
export function toNumberDb(value: ExactDb): number {
  return Number(printExactDb(value));
}

export function microToNumber(value: number): number {
  return Number(printMicro(value));
}

/** Metres, for output formats and axes. */
export function toMetres(length: Micrometres): number {
  return Number(printScaled(BigInt(length), 6));
}

/** Nanometres, for output formats and labels. */
export function toNanometres(wavelength: Picometres): number {
  return Number(printScaled(BigInt(wavelength), 3));
}

function printScaled(value: bigint, places: number): string {
  const fixed = printFixed(value, places);
  return fixed.includes('.') ? fixed.replace(/\.?0+$/u, '') : fixed;
}

function printFixed(value: bigint, places: number): string {
  const negative = value < 0n;
  const digits = (negative ? -value : value).toString().padStart(places + 1, '0');
  const whole = digits.slice(0, digits.length - places);
  const fraction = places === 0 ? '' : `.${digits.slice(digits.length - places)}`;
  return `${negative ? '-' : ''}${whole}${fraction}`;
}

function floorDivide(a: bigint, b: bigint): bigint {
  const quotient = a / b;
  return a % b !== 0n && a < 0n !== b < 0n ? quotient - 1n : quotient;
}

function divideRounded(a: bigint, b: bigint): bigint {
  const negative = a < 0n !== b < 0n;
  const top = a < 0n ? -a : a;
  const bottom = b < 0n ? -b : b;
  const quotient = (2n * top + bottom) / (2n * bottom);
  return negative ? -quotient : quotient;
}

function roundHalfAway(value: number): number {
  // Adding zero turns a negative zero into a plain one.
  return Math.sign(value) * Math.round(Math.abs(value)) + 0;
}
