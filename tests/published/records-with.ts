/** What computing published records needs: plain numbers of dB, dBm and km in, plain numbers out, by the product's own functions. */
import {
  exactDb,
  findUnit,
  lossFromPowers,
  microDb,
  microDbm,
  micrometres,
  powerFromWatts,
  ratePerKm,
  readDecimal,
} from '../../grammar/src/quantity/index.ts';
import {
  delayOver,
  idealSplit,
  longestByDispersion,
  longestFibre,
  lossOfRatio,
  rateOver,
  rootSumSquares,
} from '../../server/src/optics/index.ts';
import { lossAndMargin, type PublishedSum } from './sums-as-plans.ts';

/** One per output of the record, in its order; undefined where the record cannot be computed. */
export type Answers = readonly (number | string | undefined)[];
export type Inputs = Readonly<Record<string, number>>;
export type Computed = Readonly<Record<string, (i: Inputs) => Answers>>;

export const micro = (value: number) => Math.round(value * 1e6);
export const dB = (value: number) => microDb(micro(value));
export const dBm = (value: number) => microDbm(micro(value));
/** Decibels between two powers in dBm. */
export const between = (high: number, low: number) => lossFromPowers(dBm(high), dBm(low)) / 1e6;
/** Kilometres that fit. */
export const reach = (budget: number, fixed: number, rate: number) =>
  (longestFibre(exactDb(dB(budget)), exactDb(dB(fixed)), ratePerKm(micro(rate))) ?? 0) / 1e9;
export const km = (value: number) => micrometres(Math.round(value * 1e9));
/** dBm of a written power. */
export const absolute = (digits: number, unit: string) => {
  const decimal = readDecimal(String(digits));
  const known = findUnit(unit);
  const power = decimal && known && powerFromWatts(decimal, known);
  return power === undefined ? Number.NaN : power / 1e6;
};
export const ratio = (powerIn: number, powerOut: number) =>
  (lossOfRatio(powerIn, powerOut) ?? Number.NaN) / 1e6;
export const rate = (loss: number, length: number) =>
  (rateOver(exactDb(dB(loss)), km(length)) ?? Number.NaN) / 1e6;
export const rss = (values: readonly number[]) => rootSumSquares(values.map(dB)) / 1e6;
/** Loss of an even split over so many outputs. */
export const split = (outputs: number) => (idealSplit(outputs) ?? Number.NaN) / 1e6;
/** Kilometres that a tolerance of dispersion allows at a rate. */
export const dispersed = (bears: number, each: number) =>
  (longestByDispersion(micro(bears), micro(each)) ?? 0) / 1e9;
/** Microseconds over kilometres, by the speed of light that the source took, in km/s. */
export const late = (index: number, length: number, light = 299_792.458) =>
  (delayOver([{ index, length: km(length) }]) / 1e9) * (299_792.458 / light);
export const repeated = (count: number, value: number) =>
  Array.from({ length: count }, () => value);
export const sum = (terms: PublishedSum) => lossAndMargin(terms);
/** Loss of joints between two ends, each as a textbook's law gives it. */
export const joined = (...each: readonly number[]) =>
  sum({ splices: each.map((loss) => [1, Number(loss.toFixed(6))] as const) }).loss;
export const word = (good: boolean) => (good ? 'PASS' : 'FAIL');
