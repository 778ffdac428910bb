/**
 * How the level of a batch runs in the order of its readings: a step that stays, and
 * a drift. Sizes and bounds are worked out by hand beside each case; that a step and a
 * drift are looked for at all is common practice, no source, and stands in `doubts`.
 */
import { describe, expect, it } from 'vitest';
import { db, limitsSet, nm } from '../support/build.ts';
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
    expect(said('level-changes', half, { anySetup: true })).toBe(false);
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

  /** All of these step by more than the bound of 0.2121 dB at the ninth or tenth fibre. */
  it('is a step where it is surer than readings scatter, and few lie beyond it', () => {
    const stepped = (...losses: readonly number[]) => said('level-changes', column(losses));
    const sure = [1.03, 1.16, 0.66, 0.64, 1.19, 0.73, 0.82, 0.83];
    expect(stepped(...sure, 1, 1.23, 1.27, 1.09, 1.19, 1.19, 1.09, 1.05)).toBe(true);
    // 4.6 standard errors, where 5 are wanted.
    const loose = [0.98, 0.97, 0.9, 1.16, 1.04, 0.94, 0.9, 0.68];
    expect(stepped(...loose, 1.31, 1.24, 1.42, 1.49, 1.33, 1.19, 1.33, 1.21)).toBe(false);
    // 82 of 100 pairs have the later one higher, where 85 are wanted.
    const mixed = [1.39, 0.91, 0.9, 1.17, 1.04, 0.96, 1.08, 0.73];
    expect(stepped(...mixed, 1.52, 1.51, 1.5, 0.8, 1.36, 1.49, 1.44, 1.04)).toBe(false);
  });

  it('is what fits it better, where it is long enough to be a drift by its ranks, too', () => {
    const long = column(steps(1, 1.5, 40, 20).map((loss, at) => loss + (at % 3) * 0.01));
    expect(told('level-changes', long)).toMatchObject([{ details: { fibre: 21, size: 0.5 } }]);
    expect(said('drift-while-testing', long)).toBe(false);
  });

  it('is no drift where it rises by less than neighbours differ', () => {
    // 0.25 dB over 60 fibres, of which every second is a splice more.
    const rises = (apart: number) =>
      column(many(60, (at) => 1 + (at % 2) * apart + (at * 0.25) / 59));
    expect(said('drift-while-testing', rises(0.5))).toBe(false);
    expect(said('drift-while-testing', rises(0.1))).toBe(true);
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

  it('is told of those columns that show it', () => {
    const terms = { measure: [nm(850), nm(1300)] };
    // Both directions at 850 nm, which were typed apart by a few hundredths; 1300 nm, one way, goes up and down.
    const one = [
      ...column(steps(1, 1.5).map((loss, at) => loss + (at % 2) * 0.04)),
      ...column(
        steps(1.1, 1.6).map((loss, at) => loss + (at % 3) * 0.02),
        'B>A',
      ),
      ...column(
        many(12, (at) => 0.7 + (at % 2) * 0.3),
        'A>B',
        1300,
      ),
    ];
    expect(told('level-changes', one, { terms })).toMatchObject([
      { details: { wavelengths: '850', directions: 'A>B and B>A', readings: 24, fibre: 7 } },
    ]);
    // Fibres 1 to 12 at one wavelength, 9 to 20 at the other: four are too few to look at together.
    const apart = [
      ...column(steps(1, 1.5)),
      ...column(many(20, 0.7), 'A>B', 1300).filter(({ fibre }) => fibre > 8),
    ];
    expect(told('level-changes', apart, { terms })).toMatchObject([
      { details: { wavelengths: '850', readings: 12, fibre: 7, later: '7..12' } },
    ]);
    // Ten each, nine of them the same: less than a course has.
    const nine = [
      ...column(steps(1, 1.5, 10, 5)),
      ...column(steps(0.7, 1.2, 11, 5), 'A>B', 1300).slice(1),
    ];
    expect(told('level-changes', nine, { terms })).toMatchObject([{ details: { readings: 10 } }]);
  });

  it('leaves out a fibre that not all of them have', () => {
    const terms = { measure: [nm(850), nm(1300)] };
    const readings = [
      // What one scatters by, the other does not: together they rise the more evenly.
      ...column(many(12, (at) => 1 + at * 0.05 + (at % 2) * 0.08)),
      ...column(
        many(12, (at) => 0.7 + at * 0.05 - (at % 2) * 0.08),
        'A>B',
        1300,
      ).filter((one) => one.fibre !== 6),
    ];
    expect(told('drift-while-testing', readings, { terms })).toMatchObject([
      { details: { wavelengths: '850 and 1300', readings: 23, fibres: 11, from: 1, to: 12 } },
    ]);
  });

  it('is of all wavelengths where each of them steps there, and the same way', () => {
    const terms = { measure: [nm(850), nm(1300)] };
    const also = (before: number, after: number) => [
      ...column(steps(1, 2)),
      ...column(
        steps(before, after).map((loss, at) => loss + (at % 2) * 0.1),
        'A>B',
        1300,
      ),
    ];
    const both = { wavelengths: '850 and 1300', readings: 24, fibre: 7 };
    const alone = { wavelengths: '850', readings: 12, fibre: 7, size: 1, up: 1 };
    expect(told('level-changes', also(0.7, 1.3), { terms })).toMatchObject([{ details: both }]);
    expect(told('level-changes', also(1.3, 0.7), { terms })).toMatchObject([{ details: alone }]);
    expect(told('level-changes', also(0.7, 0.7), { terms })).toMatchObject([{ details: alone }]);
  });

  it('stands for the outliers after it, and for no other', () => {
    const terms = { limits: [limitsSet('SET', 0.75, 3)] };
    // 56 fibres at 1 dB, four at 1.5 dB, which stand out from their mates where no step is told.
    const late = column(many(60, (at) => (at < 56 ? 1 : 1.5)));
    expect(told('level-changes', late, { terms })).toMatchObject([
      { details: { later: '57..60' } },
    ]);
    expect(said('pass-but-outlier', late, { terms })).toBe(false);
    const by = { doubts: { course: db(0.6) } };
    expect(told('pass-but-outlier', late, { terms, by }).length).toBe(4);
    const early = column(many(60, (at) => (at === 1 ? 2 : at < 56 ? 1 : 1.5)));
    expect(told('level-changes', early, { terms })).toMatchObject([{ details: { fibre: 57 } }]);
    expect(told('pass-but-outlier', early, { terms })).toMatchObject([{ details: { fibre: 2 } }]);
  });
});
