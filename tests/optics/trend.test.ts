/** Ranks and medians along an order, against sums made by hand and an independent library. */
import { mad, median, sampleCorrelation, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  correlation,
  middleOf,
  neighbourSigma,
  robustSigma,
  standardDeviation,
  stepOf,
  trendOf,
} from '../../server/src/optics/index.ts';
import { randomFrom } from '../support/clean-plans.ts';

const rising = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

describe('a trend', () => {
  it('of ten rising values: S = 45, variance 10·9·25/18 = 125 (Mann and Kendall)', () => {
    const { rise, significance, misfit } = trendOf(rising);
    expect(rise).toBe(9);
    expect(significance).toBeCloseTo(45 / Math.sqrt(125), 12);
    expect(misfit).toBeCloseTo(0, 12);
  });

  it('counts ties out: 1, 1, 2, 3 has S = 5, variance (4·3·13 − 2·1·9)/18', () => {
    expect(trendOf([1, 1, 2, 3]).significance).toBeCloseTo(5 / Math.sqrt(138 / 18), 12);
  });

  it('is not pulled by one wild value, as a line of least squares is', () => {
    expect(trendOf(rising.map((value, at) => (at === 8 ? 100 : value))).rise).toBeCloseTo(9, 12);
  });

  it('of values that are all alike is none', () => {
    expect(trendOf([2, 2, 2, 2])).toMatchObject({ rise: 0, significance: 0 });
  });
});

describe('a step', () => {
  const stepped = [1, 1.1, 0.9, 1, 1.1, 2, 2.1, 1.9, 2, 2.1];

  it('is found where it is, with its size', () => {
    const found = stepOf(stepped, 3);
    expect(found).toMatchObject({ at: 5, apart: 1 });
    expect(found?.size).toBeCloseTo(1, 12);
  });

  it('leaves as many values on each side as are asked for', () => {
    expect(stepOf([1, 5, 5, 5, 5, 5], 3)?.at).toBe(3);
    expect(stepOf([1, 2, 3], 2)).toBeUndefined();
  });
});

it('medians, deviations and correlation are those of an independent library', () => {
  const random = randomFrom(7);
  const [a, b] = [0, 1].map(() => Array.from({ length: 31 }, () => random()));
  if (!a || !b) throw new Error('no values');
  expect(middleOf(a)).toBe(median(a));
  expect(robustSigma(a)).toBeCloseTo(1.4826 * mad(a), 12);
  expect(standardDeviation(a)).toBeCloseTo(sampleStandardDeviation(a), 12);
  expect(correlation(a, b)).toBeCloseTo(sampleCorrelation(a, b), 12);
});

it('neighbours show the scatter of values that rise or jump', () => {
  const random = randomFrom(11);
  const noise = Array.from({ length: 400 }, () => random() + random() + random() - 1.5);
  const plain = neighbourSigma(noise);
  // Variance of the sum of three uniform values: 3/12.
  expect(plain).toBeGreaterThan(0.42);
  expect(plain).toBeLessThan(0.58);
  expect(neighbourSigma(noise.map((value, at) => value + at / 100))).toBeCloseTo(plain, 1);
  expect(neighbourSigma(noise.map((value, at) => (at < 200 ? value : value + 9)))).toBeCloseTo(
    plain,
    1,
  );
});
