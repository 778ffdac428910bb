/**
 * Spreads on a grid and their sums, against closed forms and printed tables.
 *
 * A gamma distribution of shape n/2 and scale 2 is chi-squared of n degrees, and
 * the sum of k such of n degrees is chi-squared of k·n: its percentiles stand in
 * every table, here that of an independent library. The sum of uniform losses is
 * that of Irwin (1927) and Hall (1927). Many parts tend to the normal spread.
 */
import normalQuantile from '@stdlib/stats-base-dists-normal-quantile';
import { chiSquaredDistributionTable } from 'simple-statistics';
import { describe, expect, it, test } from 'vitest';
import {
  addSpreads,
  between,
  certain,
  gamma,
  gridStep,
  logGamma,
  lowerGamma,
  meanOf,
  percentileOf,
  sigmaThrough,
  timesSpread,
} from '../../server/src/optics/index.ts';
import { randomFrom } from '../support/clean-plans.ts';

const table = chiSquaredDistributionTable as unknown as Readonly<
  Record<string, Readonly<Record<string, number>>>
>;

describe('the share of a gamma distribution', () => {
  // The library's table is by degrees and by the share that lies above.
  test.each([1, 2, 5, 10, 30, 100])('of chi-squared of %d degrees, as printed', (degrees) => {
    for (const above of [0.995, 0.5, 0.1, 0.05, 0.01, 0.005]) {
      const printed = table[degrees]?.[above] ?? Number.NaN;
      // Tables have two decimals.
      const low = lowerGamma(degrees / 2, (printed - 0.0051) / 2);
      const high = lowerGamma(degrees / 2, (printed + 0.0051) / 2);
      expect(low).toBeLessThanOrEqual(1 - above);
      expect(high).toBeGreaterThanOrEqual(1 - above);
    }
  });

  it('of shape 1 is exponential, and factorials are what the gamma function is', () => {
    expect(lowerGamma(1, 2)).toBeCloseTo(1 - Math.exp(-2), 12);
    expect(Math.exp(logGamma(6))).toBeCloseTo(120, 9);
    expect(logGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 12);
  });
});

describe('a sum', () => {
  it('of five gamma spreads of two degrees is chi-squared of ten: 18.307 at 95 %', () => {
    // In tenths of a decibel: mean 2, variance 2 · 2.
    const sum = timesSpread(gamma(0.2, 0.2), 5);
    expect(meanOf(sum)).toBeCloseTo(1, 5);
    expect(10 * percentileOf(sum, 0.95)).toBeCloseTo(18.307, 2);
    expect(10 * percentileOf(sum, 0.99)).toBeCloseTo(23.209, 2);
  });

  it('of two uniform losses up to 1 dB: 98 % keep 2 − √(2 · 0.02)', () => {
    const sum = timesSpread(between(0, [[1, 1]]), 2);
    expect(percentileOf(sum, 0.98)).toBeCloseTo(2 - Math.sqrt(0.04), 3);
    expect(percentileOf(sum, 0.5)).toBeCloseTo(1, 3);
  });

  it('of a hundred is nearly normal: mean + 1.645 or 2.326 sigma, and a little more for its lean', () => {
    const sum = timesSpread(gamma(0.3, 0.15), 100);
    for (const share of [0.95, 0.977, 0.99]) {
      const k = normalQuantile(share, 0, 1);
      // The first term of Cornish and Fisher (1938): skewness (k² − 1) / 6, of a gamma spread 2 · sigma / mean over √n.
      const lean = ((2 * 0.15) / 0.3 / 10) * ((k * k - 1) / 6);
      expect(percentileOf(sum, share)).toBeCloseTo(30 + 1.5 * (k + lean), 2);
    }
  });

  it('of a thousand still adds up to all there is, though ends next to impossible were cut off', () => {
    const { chances } = timesSpread(gamma(0.1, 0.05), 1000);
    expect(chances.reduce((sum, chance) => sum + chance, 0)).toBeCloseTo(1, 12);
  });

  it('is what drawing parts at random gives, within what 200,000 draws may be off', () => {
    const shares = [
      [0.5, 0.35],
      [0.95, 0.5],
      [1, 0.75],
    ] as const;
    const random = randomFrom(41);
    const draw = () => {
      const at = random();
      const next = shares.findIndex(([share]) => at <= share);
      const [from, low] = shares[next - 1] ?? [0, 0];
      const [to, high] = shares[next] ?? [1, 0.75];
      return low + ((high - low) * (at - from)) / (to - from);
    };
    const draws = 200_000;
    const sums = Float64Array.from(
      { length: draws },
      () => draw() + draw() + draw() + draw(),
    ).sort();
    const sum = timesSpread(between(0, shares), 4);
    for (const share of [0.5, 0.9, 0.977]) {
      const simulated = sums[Math.floor(share * draws)] ?? 0;
      // Three standard errors of a share, √(p (1 − p) / n), as losses.
      const error = 3 * Math.sqrt((share * (1 - share)) / draws);
      expect(simulated).toBeGreaterThanOrEqual(percentileOf(sum, share - error) - gridStep);
      expect(simulated).toBeLessThanOrEqual(percentileOf(sum, share + error) + gridStep);
    }
  });

  it('keeps the mean of what does not vary, and takes away what is taken away', () => {
    expect(meanOf(certain(0.1234))).toBeCloseTo(0.1234, 12);
    const both = addSpreads(timesSpread(gamma(0.3, 0.1), 3), timesSpread(gamma(0.3, 0.1), -1));
    expect(meanOf(both)).toBeCloseTo(0.6, 5);
  });
});

describe('a spread by its mean and a share', () => {
  test.each([
    [0.12, 0.25],
    [0.25, 0.5],
    [0.5, 1],
  ])('mean %d dB and 97 %% up to %d dB', (mean, loss) => {
    const sigma = sigmaThrough(mean, 0.97, loss) ?? 0;
    expect(percentileOf(gamma(mean, sigma), 0.97)).toBeCloseTo(loss, 2);
    // 97 % are 1.881 sigma of a normal spread: a skewed one has a smaller sigma for the same.
    expect(sigma).toBeLessThan((loss - mean) / 1.881);
    expect(sigma).toBeGreaterThan((loss - mean) / 2.4);
  });

  it('is none where the share lies below its mean, or where no gamma spread reaches so far', () => {
    expect(sigmaThrough(0.25, 0.97, 0.2)).toBeUndefined();
    expect(sigmaThrough(0, 0.97, 0.2)).toBeUndefined();
    expect(sigmaThrough(0.25, 0.5, 0.25)).toBeUndefined();
    expect(sigmaThrough(0.25, 0.5, 2.5)).toBeUndefined();
  });
});
