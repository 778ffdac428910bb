/**
 * Second opinions on units and on quantiles: every unit of the notation against
 * a library of units that works with wide decimals, and the factors that rest on
 * the normal distribution against a library of quantiles.
 */

import quantile from '@stdlib/stats-base-dists-normal-quantile';
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { all, create } from 'mathjs';
import { quantileSorted } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  findUnit,
  microDb,
  micrometres,
  readDecimal,
  toBase,
  units,
} from '../../grammar/src/quantity/index.ts';
import {
  delayOver,
  dispersionAlong,
  dispersionAt,
  dispersionBounds,
  median,
  medianDeviation,
  middleOf,
  modalBandwidthOver,
  polarisationSpreadOver,
  robustSigma,
  rootSumSquares,
} from '../../server/src/optics/index.ts';
import { atLeast } from '../laws/runs.ts';

const math = create(all ?? {}, { number: 'BigNumber', precision: 64 });
const Wide = Decimal.clone({ precision: 64 });
// Decibels are no unit of the library: only what they are divided by is converted.
math.createUnit('kft', '1000 ft');

/** Unit of the notation, what it is to the library, and what its base unit is. */
const known: readonly (readonly [string, string, string])[] = [
  ['m', '1 m', '1 um'],
  ['km', '1 km', '1 um'],
  ['cm', '1 cm', '1 um'],
  ['ft', '1 ft', '1 um'],
  ['kft', '1 kft', '1 um'],
  ['um', '1 um', '1 pm'],
  ['mm', '1 mm', '1 pm'],
  ['nm', '1 nm', '1 pm'],
  ['dB/km', '1e6 / (1 km)', '1 / (1 km)'],
  ['dB/m', '1e6 / (1 m)', '1 / (1 km)'],
  ['dB/kft', '1e6 / (1 kft)', '1 / (1 km)'],
  ['MHz.km', '1 MHz km', '1 kHz km'],
  ['GHz.km', '1 GHz km', '1 kHz km'],
  ['ps/nm/km', '(1 ps) / (1 nm km)', '(1e-6 ps) / (1 nm km)'],
  ['ps/nm', '(1 ps) / (1 nm)', '(1e-6 ps) / (1 nm)'],
  ['ps/nm2/km', '(1 ps) / (1 nm^2 km)', '(1e-6 ps) / (1 nm^2 km)'],
  ['ps/sqrt-km', '(1 ps) / (1 km^0.5)', '(1e-6 ps) / (1 km^0.5)'],
  ['MHz', '1 MHz', '1 Hz'],
  ['GHz', '1 GHz', '1 Hz'],
  ['THz', '1 THz', '1 Hz'],
  ['ps', '1 ps', '1 ps'],
  ['ns', '1 ns', '1 ps'],
  ['us', '1 us', '1 ps'],
  ['s', '1 s', '1 ps'],
  ['h', '1 hour', '1 ps'],
];

/** Base units in one unit. */
function perUnit(theirs: string, base: string): Decimal {
  return new Wide(String(math.evaluate(`(${theirs}) / (${base})`)));
}

describe('units', () => {
  it('all have a second opinion, but decibels, shares, degrees and powers, which are asked elsewhere', () => {
    const asked = new Set(known.map(([name]) => name));
    const left = units.filter(({ name }) => !asked.has(name)).map(({ name }) => name);
    expect(left).toEqual(['dB', 'dBm', 'W', 'mW', 'uW', 'nW', '%', 'degC']);
  });

  it.each(known)('%s is held as the library converts it', (name, theirs, base) => {
    const unit = findUnit(name);
    if (!unit) throw new Error(`no unit ${name}`);
    const ratio = perUnit(theirs, base);
    const places = Math.max(0, Math.min(6, Math.floor(ratio.log(10).toNumber())));
    fc.assert(
      fc.property(
        fc.integer({ min: -99_999, max: 99_999 }),
        fc.integer({ min: 0, max: places }),
        (digits, behind) => {
          const text = (digits / 10 ** behind).toFixed(behind);
          const held = toBase(readDecimal(text)!, unit);
          const wanted = ratio.times(text);
          if (held === 'too-fine') expect(wanted.isInteger()).toBe(false);
          else if (held === 'too-large') {
            expect(wanted.abs().gt(Number.MAX_SAFE_INTEGER)).toBe(true);
          } else expect(held).toBe(wanted.toDecimalPlaces(0, Decimal.ROUND_HALF_UP).toNumber() + 0);
        },
      ),
      { numRuns: atLeast(200) },
    );
  });
});

describe('sums along a path', () => {
  const stretches = fc.array(
    fc.record({
      figure: fc.integer({ min: 100, max: 5000 }),
      length: fc.integer({ min: 1, max: 80_000 }),
    }),
    { minLength: 1, maxLength: 8 },
  );
  const long = (metres: number) => micrometres(metres * 1_000_000);

  it('delay is Σ n·L ÷ c by the library’s own speed of light', () => {
    fc.assert(
      fc.property(stretches, (all) => {
        const held = delayOver(
          all.map(({ figure, length }) => ({ index: 1.4 + figure / 1e5, length: long(length) })),
        );
        const wanted = all
          .map(({ figure, length }) =>
            math.evaluate(`(1.4 + ${figure} / 1e5) * ${length} m / speedOfLight`),
          )
          .reduce((a, b) => math.add(a, b));
        expect(Math.abs(held - Number(math.number(wanted, 'fs')))).toBeLessThan(0.51);
      }),
    );
  });

  it('modal bandwidth, polarisation and chromatic dispersion are those of wide decimals', () => {
    fc.assert(
      fc.property(stretches, (all) => {
        const at = (each: (figure: string, km: string) => string) =>
          math.evaluate(
            all.map(({ figure, length }) => each(`${figure}`, `(${length} / 1000)`)).join(' + '),
          );
        const band = modalBandwidthOver(
          all.map(({ figure, length }) => ({ product: figure * 1000, length: long(length) })),
        );
        const exactBand = Number(
          math.divide(
            1000,
            at((product, km) => `${km} / ${product}`),
          ),
        );
        expect(band).toBeLessThanOrEqual(exactBand + 1e-5);
        expect(band).toBeGreaterThan(exactBand - 1);

        const spread = polarisationSpreadOver(
          all.map(({ figure, length }) => ({ rate: figure * 100, length: long(length) })),
        );
        const exactSpread = Number(math.sqrt(at((rate, km) => `(${rate} * 100)^2 * ${km}`)));
        expect(Math.abs(spread - exactSpread)).toBeLessThan(0.51);

        const chromatic = all.reduce(
          (sum, { figure, length }) => sum + dispersionAlong(figure * 1000, long(length)),
          0,
        );
        const exactChromatic = Number(at((rate, km) => `${rate} * 1000 * ${km}`));
        expect(chromatic).toBeGreaterThanOrEqual(exactChromatic);
        expect(chromatic).toBeLessThan(exactChromatic + all.length);
      }),
    );
  });

  it('dispersion over a band is nowhere outside its corners', () => {
    const picometres = (low: number, high: number) => fc.integer({ min: low, max: high });
    fc.assert(
      fc.property(
        fc.tuple(picometres(1_260_000, 1_625_000), picometres(1_260_000, 1_625_000)),
        fc.tuple(picometres(1_300_000, 1_324_000), picometres(1_300_000, 1_324_000)),
        fc.integer({ min: 50_000, max: 95_000 }),
        fc.float({ min: 0, max: 1, noNaN: true }),
        fc.float({ min: 0, max: 1, noNaN: true }),
        (light, zero, slope, u, v) => {
          type Wavelength = Parameters<typeof dispersionAt>[0];
          const band = (pair: readonly number[]) => ({
            min: Math.min(...pair) as Wavelength,
            max: Math.max(...pair) as Wavelength,
          });
          const [lit, none] = [band(light), band(zero)];
          const between = ({ min, max }: { min: number; max: number }, at: number) =>
            Math.round(min + (max - min) * at) as Wavelength;
          const { least, most } = dispersionBounds(lit, none, slope);
          const inside = dispersionAt(between(lit, u), between(none, v), slope);
          expect(inside).toBeGreaterThanOrEqual(least);
          expect(inside).toBeLessThanOrEqual(most);
        },
      ),
    );
  });
});

describe('quantiles', () => {
  const losses = fc.array(fc.integer({ min: 0, max: 3_000_000 }), { minLength: 1, maxLength: 60 });
  const sorted = (values: readonly number[]) => [...values].sort((a, b) => a - b);

  it('the middle of values is their quantile of a half', () => {
    fc.assert(
      fc.property(losses, (values) => {
        const half = quantileSorted(sorted(values), 0.5);
        expect(middleOf(values)).toBe(half);
        expect(Math.abs(median(values.map(microDb))! - half)).toBeLessThanOrEqual(0.5);
      }),
    );
  });

  it('the scatter by medians is that of normal noise: the factor is 1 ÷ Φ⁻¹(3 ÷ 4)', () => {
    // Quantiles of a normal distribution themselves stand for its noise.
    const sigma = 0.04;
    const noise = Array.from({ length: 2001 }, (_, at) => quantile((at + 0.5) / 2001, 1, sigma));
    expect(robustSigma(noise)).toBeCloseTo(sigma, 4);
    const deviation = medianDeviation(noise.map((value) => microDb(Math.round(value * 1e6))))!;
    expect(deviation / 1e6 / quantile(0.75, 0, 1)).toBeCloseTo(sigma, 4);
  });

  it('mean and three sigma of joints in a row leave out one case in 741', () => {
    // One-sided: 1 − Φ(3) = 1 ÷ 740.8.
    const joints = Array.from({ length: 6 }, () => microDb(133_000));
    const sigma = rootSumSquares(joints) / 1e6;
    const level = quantile(1 - 1 / 740.8, 6 * 0.25, sigma);
    expect(level).toBeCloseTo(6 * 0.25 + 3 * sigma, 4);
  });
});
