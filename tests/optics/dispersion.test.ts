/** Chromatic dispersion by itself; worked examples of others stand in tests/published. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '../laws/runs.ts';
import { micrometres, picometres } from '../../grammar/src/quantity/index.ts';
import {
  dispersionAlong,
  dispersionAt,
  dispersionBounds,
  longestByDispersion,
} from '../../server/src/optics/index.ts';

const nm = (value: number) => picometres(Math.round(value * 1000));
const slope = 92_000;

describe('the rate', () => {
  it('is nothing at the zero, negative below it and positive above', () => {
    expect(dispersionAt(nm(1310), nm(1310), slope)).toBe(0);
    expect(dispersionAt(nm(1270), nm(1310), slope)).toBeLessThan(0);
    expect(dispersionAt(nm(1550), nm(1310), slope)).toBeGreaterThan(0);
  });

  it('rises like the slope close to the zero', () => {
    const rise =
      dispersionAt(nm(1310.5), nm(1310), slope) - dispersionAt(nm(1309.5), nm(1310), slope);
    expect(rise).toBeGreaterThan(slope * 0.998);
    expect(rise).toBeLessThan(slope * 1.002);
  });

  it('lies between its bounds, whatever the light and the fibre are within theirs', () => {
    const light = { min: nm(1264), max: nm(1565) };
    const zero = { min: nm(1300), max: nm(1324) };
    const { least, most } = dispersionBounds(light, zero, slope);
    fc.assert(
      fc.property(
        fc.integer({ min: light.min, max: light.max }),
        fc.integer({ min: zero.min, max: zero.max }),
        fc.integer({ min: 0, max: slope }),
        (wavelength, none, less) => {
          const rate = dispersionAt(picometres(wavelength), picometres(none), less);
          expect(rate).toBeGreaterThanOrEqual(least);
          expect(rate).toBeLessThanOrEqual(most);
        },
      ),
    );
  });
});

describe('along a length', () => {
  it('adds up, and rounds away from what would be too good', () => {
    expect(dispersionAlong(18_000_000, micrometres(52_000_000_000))).toBe(936_000_000);
    expect(dispersionAlong(1, micrometres(1))).toBe(1);
    expect(dispersionAlong(-1, micrometres(1))).toBe(-1);
    expect(dispersionAlong(0, micrometres(5_000_000))).toBe(0);
  });

  it('the longest path keeps the tolerance, and a kilometre more does not', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1_000_000, max: 2_000_000_000 }),
        fc.integer({ min: 500_000, max: 25_000_000 }),
        (tolerance, rate) => {
          const longest = longestByDispersion(tolerance, rate);
          if (longest === undefined) throw new Error('a fibre that spreads has a longest path');
          expect(dispersionAlong(rate, longest)).toBeLessThanOrEqual(tolerance);
          const more = micrometres(longest + 1_000_000_000);
          expect(dispersionAlong(rate, more)).toBeGreaterThan(tolerance);
          expect(longestByDispersion(tolerance, -rate)).toBe(longest);
        },
      ),
    );
  });

  it('has no end where nothing spreads', () => {
    expect(longestByDispersion(800_000_000, 0)).toBeUndefined();
  });

  it('is told up to the last length that is a whole number of micrometres', () => {
    const last = Number.MAX_SAFE_INTEGER;
    // A tolerance of 9 at a millionth is nine thousand million micrometres.
    expect(longestByDispersion(9, 1)).toBe(9_000_000_000);
    expect(longestByDispersion(9_007_199, 1)).toBe(9_007_199_000_000_000);
    expect(longestByDispersion(9_007_200, 1)).toBeUndefined();
    expect(longestByDispersion(last, 1_000_000_000)).toBe(last);
  });
});
