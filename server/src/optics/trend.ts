/**
 * What a row of values does along its order, by medians and ranks, which a few
 * wild values cannot pull. Values are decibels in the order of measuring.
 */

/** Middle of plain numbers; of an even number the mean of both. NaN of nothing. */
export function middleOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  const upper = sorted[half] ?? NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[half - 1] ?? NaN) + upper) / 2;
}

/** Makes a median absolute deviation of normal noise its standard deviation: 1 / Φ⁻¹(3/4). */
const normal = 1.4826;

/** Standard deviation by the median absolute deviation. */
export function robustSigma(values: readonly number[]): number {
  const middle = middleOf(values);
  return normal * middleOf(values.map((value) => Math.abs(value - middle)));
}

/** Standard deviation from neighbours' differences, which neither a trend nor a step raises. */
export function neighbourSigma(values: readonly number[]): number {
  const steps = values.slice(1).map((value, index) => value - (values[index] ?? value));
  return (normal * middleOf(steps.map((step) => Math.abs(step)))) / Math.SQRT2;
}

export interface Trend {
  /** From the first to the last value. */
  readonly rise: number;
  /** Standard deviations of the rank test. */
  readonly significance: number;
  /** Mean distance of the values from the line. */
  readonly misfit: number;
}

/**
 * Slope as the median of the slopes of all pairs (Theil 1950, Sen 1968), its
 * significance by the rank test of Mann (1945) and Kendall (1975), ties counted
 * out. Of long rows evenly chosen values stand for all.
 */
export function trendOf(values: readonly number[]): Trend {
  const every = Math.ceil(values.length / longest);
  const taken = values.flatMap((value, at) => (at % every === 0 ? [{ at, value }] : []));
  const slopes: number[] = [];
  let score = 0;
  for (const [index, later] of taken.entries()) {
    for (const earlier of taken.slice(0, index)) {
      slopes.push((later.value - earlier.value) / (later.at - earlier.at));
      score += Math.sign(later.value - earlier.value);
    }
  }
  const slope = middleOf(slopes);
  const n = taken.length;
  let variance = n * (n - 1) * (2 * n + 5);
  for (const tied of countsOf(taken.map(({ value }) => value)).values())
    variance -= tied * (tied - 1) * (2 * tied + 5);
  const base = middleOf(values.map((value, at) => value - slope * at));
  return {
    rise: slope * (values.length - 1),
    significance: variance > 0 ? score / Math.sqrt(variance / 18) : 0,
    misfit: meanDistance(values, (at) => base + slope * at),
  };
}

const longest = 120;

export interface Step {
  /** Place of the first value after it. */
  readonly at: number;
  readonly size: number;
  /** Size over its standard error, the noise taken from neighbours; infinite without noise. */
  readonly significance: number;
  /** Chance that a value after it is beyond one before it. */
  readonly apart: number;
  readonly misfit: number;
}

/** The one place where the level changes most, by the rank test of Mann and Whitney (1947), taken at every place. */
export function stepOf(values: readonly number[], least: number): Step | undefined {
  const ranks = ranksOf(values);
  const n = values.length;
  let best: { at: number; z: number; apart: number } | undefined;
  let sum = 0;
  for (const [index, rank] of ranks.entries()) {
    sum += rank;
    const k = index + 1;
    if (k < least || n - k < least) continue;
    const lower = sum - (k * (k + 1)) / 2;
    const apart = 1 - lower / (k * (n - k));
    // But for √((n + 1) ÷ 12), which is the same at every place.
    const z = Math.abs(sum - (k * (n + 1)) / 2) / Math.sqrt(k * (n - k));
    if (!best || z > best.z) best = { at: k, z, apart };
  }
  if (!best) return undefined;
  const { at, apart } = best;
  const [before, after] = [middleOf(values.slice(0, at)), middleOf(values.slice(at))];
  const noise = neighbourSigma(values) * medianCost * Math.sqrt(1 / at + 1 / (n - at));
  return {
    at,
    size: after - before,
    significance: after === before ? 0 : Math.abs(after - before) / noise,
    apart: Math.max(apart, 1 - apart),
    misfit: meanDistance(values, (place) => (place < at ? before : after)),
  };
}

/** A median of normal noise scatters √(π/2) times as far as a mean. */
const medianCost = Math.sqrt(Math.PI / 2);

/** Pearson's correlation; 0 where one of the rows does not vary. */
export function correlation(a: readonly number[], b: readonly number[]): number {
  const n = Math.min(a.length, b.length);
  const [meanA, meanB] = [mean(a.slice(0, n)), mean(b.slice(0, n))];
  let [ab, aa, bb] = [0, 0, 0];
  for (let at = 0; at < n; at++) {
    const [x, y] = [(a[at] ?? 0) - meanA, (b[at] ?? 0) - meanB];
    ab += x * y;
    aa += x * x;
    bb += y * y;
  }
  return aa > 0 && bb > 0 ? ab / Math.sqrt(aa * bb) : 0;
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Of a sample, with n − 1. */
export function standardDeviation(values: readonly number[]): number {
  const middle = mean(values);
  const squares = values.reduce((sum, value) => sum + (value - middle) ** 2, 0);
  return Math.sqrt(squares / (values.length - 1));
}

/** How often each value occurs. */
export function countsOf<Value>(values: readonly Value[]): ReadonlyMap<Value, number> {
  const counts = new Map<Value, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return counts;
}

function ranksOf(values: readonly number[]): readonly number[] {
  const order = values.map((value, at) => ({ value, at })).sort((a, b) => a.value - b.value);
  const ranks: number[] = new Array(values.length).fill(0);
  for (let from = 0; from < order.length; ) {
    let to = from;
    while (order[to + 1]?.value === order[from]!.value) to++;
    for (const { at } of order.slice(from, to + 1)) ranks[at] = (from + to) / 2 + 1;
    from = to + 1;
  }
  return ranks;
}

function meanDistance(values: readonly number[], line: (at: number) => number): number {
  return mean(values.map((value, at) => Math.abs(value - line(at))));
}
