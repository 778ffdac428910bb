/**
 * How the level of a batch runs in the order of its readings: a step that stays, and
 * a drift. Sizes and bounds are worked out by hand beside each case; that a step and a
 * drift are looked for at all is common practice, no source, and stands in `doubts`.
 */
import { describe, expect, it } from 'vitest';
import { nm } from '../support/build.ts';
import { column, many, said, told } from './columns.ts';

describe('the course of a batch', () => {
  const steps = (before: number, after: number, count = 12, at = 6) =>
    many(count, (index) => (index < at ? before : after));

  it('changes at one fibre and stays', () => {
    const readings = column(steps(1, 1.5));
    expect(told('level-changes', readings)).toEqual([
      {
        name: 'level-changes',
        place: readings[6]?.place,
        details: {
          readings: 12,
          wavelengths: '850',
          directions: 'A>B',
          setup: 'ONE',
          // 1.5 · √2 · 2 · 0.05 dB.
          bound: 0.2121,
          fibre: 7,
          before: 6,
          later: '7..12',
          size: 0.5,
          up: 1,
        },
      },
    ]);
    expect(told('level-changes', column(steps(1.5, 1)))).toMatchObject([
      { details: { size: 0.5, up: 0 } },
    ]);
    expect(told('level-changes', column(steps(1, 1.5, 12, 4)))).toMatchObject([
      { details: { fibre: 5, before: 4, later: '5..12' } },
    ]);
  });

  it('by more than two readings of one set-up do, over ten fibres', () => {
    expect(said('level-changes', column(steps(1, 1.22)))).toBe(true);
    expect(said('level-changes', column(steps(1, 1.21)))).toBe(false);
    const fibres = (count: number) => column(steps(1, 1.5, count, 5));
    expect(said('level-changes', fibres(10))).toBe(true);
    expect(said('level-changes', fibres(9))).toBe(false);
    const half = column(steps(1, 1.5)).map((one, at) => ({
      ...one,
      setup: at < 6 ? 'ONE' : 'TWO',
    }));
    expect(said('level-changes', half)).toBe(false);
  });

  it('rises or falls all along', () => {
    const readings = column(many(12, (at) => 1 + at * 0.05));
    expect(told('drift-while-testing', readings)).toEqual([
      {
        name: 'drift-while-testing',
        place: readings[0]?.place,
        details: {
          readings: 12,
          wavelengths: '850',
          directions: 'A>B',
          setup: 'ONE',
          bound: 0.2121,
          from: 1,
          to: 12,
          fibres: 12,
          // Eleven steps of 0.05 dB.
          size: 0.55,
          up: 1,
        },
      },
    ]);
    expect(said('level-changes', readings)).toBe(false);
    const falling = column(many(12, (at) => 2 - at * 0.05));
    expect(told('drift-while-testing', falling)).toMatchObject([
      { details: { size: 0.55, up: 0 } },
    ]);
    // Eleven steps of 0.019 dB are 0.209 dB, less than the bound; of 0.02 dB 0.22 dB.
    expect(said('drift-while-testing', column(many(12, (at) => 1 + at * 0.019)))).toBe(false);
    expect(said('drift-while-testing', column(many(12, (at) => 1 + at * 0.02)))).toBe(true);
  });

  /**
   * A line through any of these rises by more than the bound of 0.2121 dB. Whether it is
   * a drift is asked of their ranks (Mann and Kendall's test, from memory); the bounds are
   * ours, by the error study.
   */
  it('is more than readings scatter by', () => {
    const drifts = (...losses: readonly number[]) => said('drift-while-testing', column(losses));
    // Ranks at 2.8 standard deviations are none.
    const loose = [1.18, 1.2, 1.14, 1.06, 1.23, 1.13, 1.25, 1.14];
    expect(drifts(...loose, 1.36, 1.18, 1.38, 1.4, 1.24, 1.36, 1.3, 1.4)).toBe(false);
    // At 3.7 the rise has to be 6 standard errors, and is 3.3; at 3.8 it is 6.6.
    const rough = [1.02, 1.15, 1.22, 1.21, 1.23, 1.13, 1.25, 1.24];
    expect(drifts(...rough, 1.21, 1.35, 1.22, 1.37, 1.26, 1.26, 1.43, 1.45)).toBe(false);
    const close = [1, 1.09, 1.09, 1.14, 1.23, 1.25, 1.29, 1.21];
    expect(drifts(...close, 1.33, 1.28, 1.3, 1.24, 1.36, 1.36, 1.3, 1.35)).toBe(true);
    // At 4.3 the ranks are enough, though the rise is 4.7 standard errors.
    const sure = [1.07, 1.02, 1.19, 1.11, 1.21, 1.23, 1.12, 1.21];
    expect(drifts(...sure, 1.21, 1.3, 1.25, 1.22, 1.31, 1.31, 1.38, 1.4)).toBe(true);
  });

  it('is in the order of the readings, not of the fibres', () => {
    const reversed = column(many(12, (at) => 1 + at * 0.05)).map((one, at) => ({
      ...one,
      fibre: 12 - at,
    }));
    expect(told('drift-while-testing', reversed)).toMatchObject([
      { details: { from: 12, to: 1, up: 1 } },
    ]);
  });

  it('is looked for in all columns together, and told once', () => {
    const all = [
      ...column(steps(1, 1.5)),
      ...column(steps(1.1, 1.6), 'B>A'),
      ...column(steps(0.7, 1.2), 'A>B', 1300),
      ...column(steps(0.8, 1.3), 'B>A', 1300),
    ];
    const terms = { measure: [nm(850), nm(1300)] };
    expect(told('level-changes', all, { terms })).toMatchObject([
      {
        details: {
          readings: 48,
          wavelengths: '850 and 1300',
          directions: 'A>B and B>A',
          size: 0.5,
          fibre: 7,
        },
      },
    ]);
  });
});
