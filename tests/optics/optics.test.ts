/** The physics by itself; published figures stand in tests/published. */
import fc from 'fast-check';
import { mean, medianAbsoluteDeviation, median as secondMedian } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import '../laws/runs.ts';
import {
  type ExactDb,
  exactDb,
  fibreLoss,
  microDb,
  micrometres,
  picometres,
  ratePerKm,
} from '../../grammar/src/quantity/index.ts';
import {
  bendExcessOf,
  coreStepLoss,
  exceedsRootTwo,
  idealSplit,
  longestFibre,
  lossOfRatio,
  median,
  medianDeviation,
  modeFieldLoss,
  rateOver,
  rootSumSquares,
  shareLeft,
  slopeLoss,
  surfaceLoss,
  widenUncertainty,
} from '../../server/src/optics/index.ts';

const dB = (value: number) => microDb(Math.round(value * 1e6));
const values = fc.array(fc.integer({ min: -1_000_000, max: 5_000_000 }), {
  minLength: 1,
  maxLength: 30,
});

describe('length and rate', () => {
  it('the longest fibre fits, and a micrometre more does not', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 30_000_000 }),
        fc.integer({ min: 0, max: 30_000_000 }),
        fc.integer({ min: 10_000, max: 5_000_000 }),
        (budget, fixed, rate) => {
          const [all, taken, perKm] = [
            exactDb(microDb(budget)),
            exactDb(microDb(fixed)),
            ratePerKm(rate),
          ];
          const longest = longestFibre(all, taken, perKm) ?? micrometres(0);
          if (fixed > budget) {
            expect(longest).toBe(0);
            return;
          }
          expect(taken + fibreLoss(perKm, longest) <= all).toBe(true);
          expect(taken + fibreLoss(perKm, micrometres(longest + 1)) > all).toBe(true);
        },
      ),
    );
  });

  it('nothing fits a rate of nothing, and no length has no rate', () => {
    expect(longestFibre(exactDb(dB(3)), exactDb(dB(0)), ratePerKm(0))).toBeUndefined();
    expect(longestFibre(exactDb(dB(30)), exactDb(dB(0)), ratePerKm(1))).toBeUndefined();
    expect(rateOver(exactDb(dB(3)), micrometres(0))).toBeUndefined();
  });

  it('the longest fibre is told up to the last whole number of micrometres', () => {
    const last = Number.MAX_SAFE_INTEGER;
    const budget = (steps: bigint) => steps as ExactDb;
    expect(longestFibre(budget(BigInt(last)), budget(0n), ratePerKm(1))).toBe(last);
    expect(longestFibre(budget(BigInt(last) + 1n), budget(0n), ratePerKm(1))).toBeUndefined();
  });

  it('a rate is rounded half away from zero to a micro-decibel per kilometre', () => {
    expect(rateOver(exactDb(microDb(1)), micrometres(2_000_000_000))).toBe(1);
    expect(rateOver(exactDb(microDb(-1)), micrometres(2_000_000_000))).toBe(-1);
    expect(rateOver(exactDb(dB(0.7)), micrometres(2_000_000_000))).toBe(350_000);
  });

  it('fibre alone, at its own slope, has no excess', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 500_000 }),
        fc.integer({ min: 1, max: 500_000 }),
        fc.integer({ min: 1, max: 50_000_000_000 }),
        (a, b, l) => {
          const [short, long, length] = [ratePerKm(a), ratePerKm(b), micrometres(l)];
          expect(
            bendExcessOf(
              fibreLoss(short, length),
              fibreLoss(long, length),
              slopeLoss(short, long, length),
            ),
          ).toBe(0n);
        },
      ),
    );
  });
});

describe('joints', () => {
  it('a step in core takes light one way only', () => {
    const [wide, narrow] = [{ core: picometres(62_500_000) }, { core: picometres(50_000_000) }];
    expect(coreStepLoss(wide, narrow)).toBe(1_938_200);
    expect(coreStepLoss(narrow, wide)).toBe(0);
  });

  it('an aperture counts where both fibres state theirs: 62.5 um 0.275 into 50 um 0.200 is 4.7043 dB', () => {
    const [wide, narrow] = [
      { core: picometres(62_500_000), aperture: 0.275 },
      { core: picometres(50_000_000), aperture: 0.2 },
    ];
    expect(coreStepLoss(wide, narrow)).toBe(4_704_254);
    expect(coreStepLoss(narrow, wide)).toBe(0);
    expect(coreStepLoss(wide, { core: narrow.core })).toBe(1_938_200);
    expect(coreStepLoss({ core: wide.core }, narrow)).toBe(1_938_200);
    // A wider core of smaller aperture still cuts the angles.
    expect(coreStepLoss({ ...narrow, aperture: 0.275 }, { ...wide, aperture: 0.2 })).toBe(
      2_766_054,
    );
  });

  it('mode fields cost the same both ways, and nothing where they are equal', () => {
    expect(modeFieldLoss(9.2, 9.2)).toBe(0);
    expect(modeFieldLoss(9.2, 8.6)).toBe(modeFieldLoss(8.6, 9.2));
    // 2·9.2·10.4 ÷ (9.2² + 10.4²) of the light's field goes over (Marcuse 1977).
    expect(modeFieldLoss(9.2, 10.4)).toBe(65_117);
  });

  it('a surface between equal indices throws nothing back', () => {
    expect(surfaceLoss(1.46, 1.46)).toBe(0);
  });

  it('a surface of glass 1.5 in air throws 4 % back, the textbook case of Fresnel’s equations', () => {
    expect(surfaceLoss(1.5, 1)).toBe(Math.round(-1e7 * Math.log10(0.96)));
    expect(surfaceLoss(1, 1.5)).toBe(surfaceLoss(1.5, 1));
  });
});

describe('powers', () => {
  it('a ratio and the share that is left are each other’s inverse', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40_000_000 }), (loss) => {
        expect(lossOfRatio(1, shareLeft(microDb(loss)))).toBe(loss);
      }),
    );
  });

  it('no power has no ratio', () => {
    expect(lossOfRatio(0, 1)).toBeUndefined();
    expect(lossOfRatio(1, 0)).toBeUndefined();
    expect(idealSplit(0)).toBeUndefined();
    expect(idealSplit(1)).toBe(0);
  });
});

describe('statistics, with a library as second opinion', () => {
  it('median and median absolute deviation', () => {
    fc.assert(
      fc.property(values, (list) => {
        const held = list.map(microDb);
        expect(median(held)).toBe(Math.round(secondMedian(list)));
        // The middle is rounded to a micro-decibel first, so that the deviation may differ by as much.
        expect(
          Math.abs(Number(medianDeviation(held)) - medianAbsoluteDeviation(list)),
        ).toBeLessThanOrEqual(1);
      }),
    );
    expect(median([])).toBeUndefined();
    expect(medianDeviation([])).toBeUndefined();
  });

  it('independent deviations combine by squares, and never to more than their sum', () => {
    expect(rootSumSquares([dB(0.3), dB(0.4)])).toBe(500_000);
    fc.assert(
      fc.property(values, (list) => {
        const sum = list.reduce((total, value) => total + Math.abs(value), 0);
        expect(rootSumSquares(list.map(microDb))).toBeLessThanOrEqual(sum + 1);
        expect(rootSumSquares(list.map(microDb))).toBeGreaterThanOrEqual(Math.abs(mean(list)) - 1);
      }),
    );
  });

  it('a drift widens uncertainty as a uniform component, k = 2', () => {
    expect(widenUncertainty(dB(0.15), dB(0))).toBe(150_000);
    expect(widenUncertainty(dB(0), dB(0.15))).toBe(173_205);
  });

  it('compares with a root of two without taking one', () => {
    expect(exceedsRootTwo(dB(0.25), dB(0.15))).toBe(true);
    expect(exceedsRootTwo(dB(0.21), dB(0.15))).toBe(false);
    expect(exceedsRootTwo(dB(-0.25), dB(0.15))).toBe(true);
    expect(exceedsRootTwo(dB(0.25), dB(0.1), 2)).toBe(false);
    expect(exceedsRootTwo(dB(0), dB(0))).toBe(false);
  });
});
