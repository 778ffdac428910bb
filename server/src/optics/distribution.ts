/**
 * How losses are spread, on a grid, and how sums of them are: by convolution,
 * which is exact on the grid and needs no random numbers. Decibels.
 *
 * A spread is put on the grid so that its mean is kept: what lies between two
 * steps is shared between them. That widens each part by at most half a step.
 */

/** Chances of a loss, step by step. */
export interface Spread {
  /** Number of steps from 0 dB to the first chance; may be negative. */
  readonly first: number;
  /** They add up to 1. */
  readonly chances: Float64Array;
}

/** 0.005 dB: half of what instruments show. */
export const gridStep = 0.005;

/** Chances less than this at either end are left out. */
const negligible = 1e-10;

/** Of a loss that does not vary. */
export function certain(loss: number): Spread {
  return onGrid((at) => (at < loss ? 0 : 1), loss, loss);
}

/**
 * Losses that lie evenly between shares: `[0.5, 0.35]` says that half lose no
 * more than 0.35 dB. Ascending, the last share 1.
 */
export function between(least: number, shares: readonly (readonly [number, number])[]): Spread {
  const points = [[0, least] as const, ...shares];
  const below = (loss: number) => {
    const next = points.findIndex(([, at]) => at > loss);
    if (next === -1) return 1;
    const [[share, from], [more, to]] = [points[next - 1] ?? [0, loss], points[next] ?? [1, loss]];
    return next === 0 ? 0 : share + ((more - share) * (loss - from)) / (to - from);
  };
  return onGrid(below, least, points.at(-1)?.[1] ?? least);
}

/** Gamma distribution of a mean and a standard deviation, both above 0: it begins at 0 dB and leans to the greater. */
export function gamma(mean: number, sigma: number): Spread {
  const shape = (mean / sigma) ** 2;
  const below = (loss: number) => (loss <= 0 ? 0 : lowerGamma(shape, (loss * shape) / mean));
  let end = mean + 8 * sigma;
  while (1 - below(end) > negligible) end += 4 * sigma;
  return onGrid(below, 0, end);
}

/**
 * Standard deviation of the gamma distribution of a mean of which a share loses
 * no more than some loss; undefined where none does. Of two that do, the lesser.
 */
export function sigmaThrough(mean: number, share: number, loss: number): number | undefined {
  const below = (shape: number) => lowerGamma(shape, (loss * shape) / mean);
  if (mean <= 0 || below(mostShape) < share) return undefined;
  let [wide, narrow] = [leastShape, mostShape];
  if (below(wide) > share) return undefined;
  for (let turn = 0; turn < 100; turn++) {
    const middle = Math.sqrt(wide * narrow);
    if (below(middle) < share) wide = middle;
    else narrow = middle;
  }
  return mean / Math.sqrt(narrow);
}

/** From where half of all is next to nothing, to where nothing varies. */
const [leastShape, mostShape] = [0.5, 1e5];

/** Spread of the sum of two independent losses. */
export function addSpreads(a: Spread, b: Spread): Spread {
  const [few, many] = a.chances.length < b.chances.length ? [a, b] : [b, a];
  const [short, long] = [few.chances, many.chances];
  const sum = new Float64Array(short.length + long.length - 1);
  for (let index = 0; index < short.length; index++) {
    const chance = short[index] as number;
    for (let other = 0; other < long.length; other++) {
      sum[index + other] = (sum[index + other] as number) + chance * (long[other] as number);
    }
  }
  return trimmed(a.first + b.first, sum);
}

/** Of so many alike; fewer than none are taken away. */
export function timesSpread(one: Spread, count: number): Spread {
  let [sum, power] = [certain(0), count < 0 ? negated(one) : one];
  for (let left = Math.abs(count); left > 0; left >>= 1) {
    if (left % 2 === 1) sum = addSpreads(sum, power);
    if (left > 1) power = addSpreads(power, power);
  }
  return sum;
}

/**
 * Loss in dB below which so large a share of all lies, off by half a step at
 * most. What a step holds stands for what lies half a step to either side, and
 * is taken as lying evenly there.
 */
export function percentileOf({ first, chances }: Spread, share: number): number {
  let below = 0;
  for (const [index, chance] of chances.entries()) {
    if (below + chance >= share && chance > 0)
      return (first + index - 0.5 + (share - below) / chance) * gridStep;
    below += chance;
  }
  return (first + chances.length - 1) * gridStep;
}

export function meanOf({ first, chances }: Spread): number {
  return chances.reduce((sum, chance, index) => sum + chance * (first + index), 0) * gridStep;
}

function negated({ first, chances }: Spread): Spread {
  return { first: 1 - first - chances.length, chances: chances.toReversed() };
}

/**
 * A spread by the share that lies below a loss. What lies within a step goes to
 * its two ends, nearer more: of a step it is the share below, averaged over it.
 */
function onGrid(below: (loss: number) => number, from: number, to: number): Spread {
  const [first, last] = [Math.floor(from / gridStep), Math.ceil(to / gridStep)];
  if (from === to) {
    const part = from / gridStep - first;
    return trimmed(first, Float64Array.of(1 - part, part));
  }
  /** Mean of the share below over the step that ends here, by Simpson's rule. */
  const average = (index: number) => {
    const [low, high] = [(index - 1) * gridStep, index * gridStep];
    return (below(low) + 4 * below((low + high) / 2) + below(high)) / 6;
  };
  const averages = Array.from({ length: last - first + 3 }, (_, at) => average(first + at));
  const rises = averages.slice(1).map((next, at) => Math.max(0, next - (averages[at] ?? 0)));
  return trimmed(first, Float64Array.from(rises));
}

/** Without ends that are next to impossible, and adding up to 1 again. */
function trimmed(first: number, chances: Float64Array): Spread {
  let [start, end] = [0, chances.length];
  while (end - start > 1 && (chances[start] ?? 0) < negligible) start++;
  while (end - start > 1 && (chances[end - 1] ?? 0) < negligible) end--;
  const kept = chances.slice(start, end);
  const all = kept.reduce((sum, chance) => sum + chance, 0);
  return { first: first + start, chances: kept.map((chance) => chance / all) };
}

/**
 * Share of a gamma distribution of shape a and scale 1 that lies below x: the
 * regularised lower incomplete gamma function, by its series (DLMF 8.7.1) up to
 * a + 1 and beyond by its continued fraction (DLMF 8.9.2).
 */
export function lowerGamma(a: number, x: number): number {
  if (x <= 0) return 0;
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let [term, sum] = [1 / a, 1 / a];
    for (let n = 1; Math.abs(term) > sum * 1e-16 && n < 100_000; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return Math.min(1, front * sum);
  }
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let fraction = d;
  for (let n = 1; n < 100_000; n++) {
    const an = -n * (n - a);
    b += 2;
    d = 1 / (an * d + b);
    c = b + an / c;
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return 1 - front * fraction;
}

/** Logarithm of the gamma function above 0: Stirling's series (DLMF 5.11.1) from 12 on, and by recurrence below. */
export function logGamma(x: number): number {
  let [shift, at] = [0, x];
  for (; at < 12; at++) shift += Math.log(at);
  const series = 1 / (12 * at) - 1 / (360 * at ** 3) + 1 / (1260 * at ** 5) - 1 / (1680 * at ** 7);
  return (at - 0.5) * Math.log(at) - at + Math.log(2 * Math.PI) / 2 + series - shift;
}
