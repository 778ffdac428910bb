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

  it('of 0, 2, 1: slopes 2, 1/2 and −1, S = 1, variance 3·2·11/18 (Theil and Sen, Mann and Kendall)', () => {
    const { rise, significance, misfit } = trendOf([0, 2, 1]);
    expect(rise).toBe(1);
    expect(significance).toBeCloseTo(1 / Math.sqrt(66 / 18), 12);
    // The line 0, 1/2, 1 lifted by nothing: the median of 0, 3/2, 0.
    expect(misfit).toBeCloseTo(0.5, 12);
  });

  it('falls as it rises, with the other sign', () => {
    const [up, down] = [trendOf([0, 2, 1, 5]), trendOf([5, 1, 2, 0])];
    expect(down.rise).toBeCloseTo(-up.rise, 12);
    expect(down.significance).toBeCloseTo(-up.significance, 12);
    expect(down.misfit).toBeCloseTo(up.misfit, 12);
  });

  it('of a long row is that of every second value, and up to 120 of all', () => {
    const kendall = (n: number) => (n * (n - 1)) / 2 / Math.sqrt((n * (n - 1) * (2 * n + 5)) / 18);
    const row = (length: number) => Array.from({ length }, (_, at) => at);
    expect(trendOf(row(120)).significance).toBeCloseTo(kendall(120), 9);
    expect(trendOf(row(121)).significance).toBeCloseTo(kendall(61), 9);
    expect(trendOf(row(240))).toMatchObject({ rise: 239, misfit: 0 });
    expect(trendOf(row(240)).significance).toBeCloseTo(kendall(120), 9);
    expect(trendOf(row(241)).significance).toBeCloseTo(kendall(81), 9);
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
    expect(stepOf([5, 5, 5, 5, 5, 1], 3)?.at).toBe(3);
    expect(stepOf([1, 1, 5, 5], 2)?.at).toBe(2);
  });

  it('is as sure as its size over the error of two medians: √(π/2)·σ·√(1/4 + 1/4)', () => {
    const found = stepOf([0, 1, 0, 1, 10, 11, 10, 11], 2);
    // Neighbours differ by 1 in the middle: σ = 1.4826 ÷ √2.
    const error = (1.4826 / Math.SQRT2) * Math.sqrt(Math.PI / 2) * Math.sqrt(1 / 2);
    expect(found).toMatchObject({ at: 4, size: 10, apart: 1, misfit: 0.5 });
    expect(found?.significance).toBeCloseTo(10 / error, 12);
  });

  it('down is as sure as up', () => {
    const found = stepOf([11, 10, 11, 10, 1, 0, 1, 0], 2);
    expect(found).toMatchObject({ at: 4, size: -10, apart: 1, misfit: 0.5 });
    expect(found?.significance).toBeCloseTo(
      stepOf([0, 1, 0, 1, 10, 11, 10, 11], 2)?.significance ?? 0,
      12,
    );
  });

  it('with unequal sides has the error of both', () => {
    const found = stepOf([0, 1, 0, 10, 11, 10, 11, 10, 11], 3);
    const error = (1.4826 / Math.SQRT2) * Math.sqrt(Math.PI / 2) * Math.sqrt(1 / 3 + 1 / 6);
    expect(found).toMatchObject({ at: 3, size: 10.5 });
    expect(found?.significance).toBeCloseTo(10.5 / error, 12);
  });

  it('without any scatter is beyond all doubt, and of no size none at all', () => {
    expect(stepOf([1, 1, 1, 1, 1, 1], 3)).toMatchObject({ size: 0, significance: 0, apart: 0.5 });
    expect(stepOf([1, 1, 1, 2, 2, 2], 3)?.significance).toBe(Infinity);
  });

  it('tells how many pairs lie apart, those alike counted half (Mann and Whitney)', () => {
    // Of nine pairs 2 of {1, 2, 5} and {3, 4, 6} fall, and of {0, 1, 1} and {1, 2, 2} two are alike.
    expect(stepOf([1, 2, 5, 3, 4, 6], 3)?.apart).toBeCloseTo(7 / 9, 12);
    expect(stepOf([6, 4, 3, 5, 2, 1], 3)?.apart).toBeCloseTo(7 / 9, 12);
    expect(stepOf([0, 1, 1, 1, 2, 2], 3)?.apart).toBeCloseTo(8 / 9, 12);
  });

  it('is the first where two places are as sure', () => {
    expect(stepOf([1, 2, 2, 1], 1)?.at).toBe(1);
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

it('a correlation needs rows that vary, and takes the length of the shorter', () => {
  expect(correlation([1, 1, 1], [1, 2, 3])).toBe(0);
  expect(correlation([1, 2, 3], [2, 2, 2])).toBe(0);
  expect(correlation([1, 2, 3], [3, 2, 1, 9])).toBeCloseTo(-1, 12);
  expect(correlation([1, 2, 3, 9], [1, 2, 3])).toBeCloseTo(1, 12);
});

it('the middle of nothing is no number', () => {
  expect(middleOf([])).toBeNaN();
  expect(middleOf([3, 1])).toBe(2);
});

it('neighbours of 0, 1, 3 differ by 1 and 2: the middle is 1.5', () => {
  expect(neighbourSigma([0, 1, 3])).toBeCloseTo((1.4826 * 1.5) / Math.SQRT2, 12);
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
