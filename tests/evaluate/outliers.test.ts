/**
 * One reading beside others: a pass that stands out of its mates, and an attempt
 * beside the one before it. Bounds are worked out by hand or by another library of
 * statistics; their factors are common practice, no source, and stand in `doubts`.
 */
import { sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import type { ReadingCell } from '../../server/src/model/types.ts';
import { cell, cleaned, limitsSet, place, when } from '../support/build.ts';
import { column, piece, round, said, told } from './columns.ts';

describe('a pass that stands out', () => {
  const usual = [0.6, 0.62, 0.58, 0.61, 0.6, 0.63, 0.59];
  const wide = { limits: [limitsSet('SET', 0.75, 3)] };

  it('lies 0.2 dB above the median of its mates', () => {
    const readings = column([...usual, 1.2]);
    // Sorted: 0.58 0.59 0.60 0.60 0.61 0.62 0.63 1.20; deviations from 0.605: 0.005 three times, 0.015 twice.
    expect(told('pass-but-outlier', readings, { terms: wide })).toEqual([
      {
        name: 'pass-but-outlier',
        place: readings[7]?.place,
        details: {
          fibre: 8,
          wavelength: 850,
          direction: 'A>B',
          loss: 1.2,
          median: 0.605,
          deviation: 0.015,
          bound: 0.805,
          mates: 8,
        },
      },
    ]);
    expect(said('pass-but-outlier', column([...usual, 0.805]), { terms: wide })).toBe(false);
    expect(said('pass-but-outlier', column([...usual, 0.805001]), { terms: wide })).toBe(true);
  });

  it('and so many deviations of the mates, without the two greatest', () => {
    const mates = [0.6, 0.7, 0.8, 0.9, 1, 1.1];
    const scatter = (4.7 + 350 / 64) * sampleStandardDeviation(mates);
    const bound = round(0.95 + scatter, 6);
    expect(bound).toBeCloseTo(2.852, 3);
    const last = (loss: number) =>
      told('pass-but-outlier', column([...mates, 1.2, loss]), { terms: wide });
    expect(last(bound)).toEqual([]);
    expect(last(round(bound + 1e-6, 6))).toMatchObject([{ details: { bound, median: 0.95 } }]);
  });

  it('passes, has eight mates, and those of its own path, light and direction', () => {
    expect(said('pass-but-outlier', column([...usual, 4.4]), { terms: wide })).toBe(false);
    expect(said('pass-but-outlier', column([...usual.slice(1), 1.2]), { terms: wide })).toBe(false);
    expect(
      said('pass-but-outlier', column([...usual.slice(1), 1.2]), {
        terms: wide,
        by: { doubts: { outlierMates: 7 } },
      }),
    ).toBe(true);
    const apart = (change: Partial<ReadingCell>) => {
      const readings = column([...usual, 1.2]);
      return [...readings.slice(1), { ...readings[0]!, ...change }];
    };
    expect(said('pass-but-outlier', apart({ direction: 'B>A' }), { terms: wide })).toBe(false);
    const repaired = {
      name: 'REP-1',
      fibres: [1],
      on: when(100),
      path: [piece(1)],
      place: place(),
    };
    expect(
      said('pass-but-outlier', apart({}), { terms: wide, model: { repairs: [repaired] } }),
    ).toBe(false);
    expect(said('pass-but-outlier', apart({}), { terms: wide })).toBe(true);
  });
});

describe('an attempt beside the one before', () => {
  const twice = (...losses: readonly number[]) =>
    losses.map((loss, at) => cell(1, loss, 'A>B', 500 + at));

  it('differs by no more than both uncertainties allow', () => {
    const readings = twice(1.12, 1.62);
    expect(told('not-repeatable', readings)).toEqual([
      {
        name: 'not-repeatable',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the attempt before' }],
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'A>B',
          loss: 1.62,
          before: 1.12,
          difference: 0.5,
          bound: 0.2121,
          uncertainty: 0.15,
        },
      },
    ]);
    // 0.15 · √2 = 0.2121320…
    expect(said('not-repeatable', twice(1, 1.212132))).toBe(false);
    expect(said('not-repeatable', twice(1, 1.212133))).toBe(true);
    expect(said('not-repeatable', twice(1.212133, 1))).toBe(true);
    expect(said('not-repeatable', twice(1, 3), { by: { uncertainty: [] } })).toBe(false);
  });

  it('is compared with the last valid one that no work came after', () => {
    expect(said('not-repeatable', twice(1, 1.6, 1.61))).toBe(false);
    expect(told('not-repeatable', twice(1, 1.6, 46, 1.1))).toMatchObject([
      { details: { before: 1.6 } },
    ]);
    const work = cleaned(when(500));
    expect(said('not-repeatable', twice(1, 1.6), { work })).toBe(false);
    const late = cleaned(when(900));
    expect(said('not-repeatable', twice(1, 1.6), { work: late })).toBe(false);
  });
});
