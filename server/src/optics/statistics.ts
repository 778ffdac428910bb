/** The few statistics that acceptance of fibre needs. */
import { type MicroDb, microDb, roundToMicroDb } from '../../../grammar/src/quantity/index.ts';

/** Middle value; of an even number the mean of the two in the middle, rounded to a micro-decibel. Undefined of nothing. */
export function median(values: readonly MicroDb[]): MicroDb | undefined {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half];
  if (upper === undefined) return undefined;
  const lower = sorted.length % 2 === 1 ? upper : (sorted[half - 1] ?? upper);
  return microDb(Math.round((lower + upper) / 2));
}

/** Median of the distances from the median: a spread that one bad value cannot pull. Undefined of nothing. */
export function medianDeviation(values: readonly MicroDb[]): MicroDb | undefined {
  const middle = median(values) ?? 0;
  return median(values.map((value) => microDb(Math.abs(value - middle))));
}

/**
 * Root of a sum of squares: how independent standard deviations combine.
 * Source: JCGM 100 (GUM), 5.1.2; rounded once to a micro-decibel.
 */
export function rootSumSquares(values: readonly MicroDb[]): MicroDb {
  let squares = 0;
  for (const value of values) squares += (value / 1e6) ** 2;
  return roundToMicroDb(Math.sqrt(squares));
}

/**
 * Expanded uncertainty widened by a drift that was found and is within its
 * tolerance: U' = √(U² + 4·d²/3), the drift taken as uniform within ±d, k = 2.
 * Source: JCGM 100 (GUM), 4.3.7 for the uniform distribution.
 */
export function widenUncertainty(expanded: MicroDb, drift: MicroDb): MicroDb {
  return roundToMicroDb(Math.sqrt((expanded / 1e6) ** 2 + (4 * (drift / 1e6) ** 2) / 3));
}

/** Whether |difference| > factor·√2·value, by squares and so without a root. Factor is whole. */
export function exceedsRootTwo(difference: MicroDb, value: MicroDb, factor = 1): boolean {
  const d = BigInt(difference);
  const v = BigInt(value) * BigInt(factor);
  return d * d > 2n * v * v;
}
