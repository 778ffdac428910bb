/** Delay, bandwidth and polarisation mode dispersion by themselves; worked examples of others stand in tests/published. */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import '../laws/runs.ts';
import { type Micrometres, micrometres } from '../../grammar/src/quantity/index.ts';
import {
  delayOver,
  modalBandwidthOver,
  polarisationSpreadOver,
  pulseLength,
  skewOf,
} from '../../server/src/optics/index.ts';

const km = (value: number) => micrometres(Math.round(value * 1e9));
const length = fc.integer({ min: 1, max: 50_000_000_000 }).map(micrometres);
const index = fc.integer({ min: 1_000_000, max: 2_000_000 }).map((value) => value / 1e6);
const product = fc.integer({ min: 100_000, max: 20_000_000 });
const rate = fc.integer({ min: 0, max: 1_000_000 });

/** The two pieces of a length cut at a share of it. */
function cut(whole: Micrometres, share: number): readonly [Micrometres, Micrometres] {
  const first = micrometres(Math.floor(whole * share));
  return [first, micrometres(whole - first)];
}
const share = fc.double({ min: 0, max: 1, noNaN: true });

describe('delay', () => {
  it('of a kilometre in vacuum is 3.33564 us, and rises with the index', () => {
    expect(delayOver([{ index: 1, length: km(1) }])).toBe(3_335_640_952);
    expect(delayOver([{ index: 1.468, length: km(1) }])).toBe(4_896_720_918);
  });

  it('equals index times length over the speed of light, worked out to forty digits', () => {
    const Wide = Decimal.clone({ precision: 40 });
    const stretches = fc.array(fc.record({ index, length }), { maxLength: 12 });
    fc.assert(
      fc.property(stretches, (all) => {
        const metres = all.reduce(
          (sum, one) => sum.plus(new Wide(one.index).times(one.length).div(1e6)),
          new Wide(0),
        );
        const femtoseconds = metres.div(299_792_458).times('1e15').toDecimalPlaces(0);
        expect(delayOver(all)).toBe(femtoseconds.toNumber());
      }),
    );
  });

  it('is the same of a stretch that is cut in two, anywhere', () => {
    fc.assert(
      fc.property(index, length, share, (glass, whole, at) => {
        const pieces = cut(whole, at).map((piece) => ({ index: glass, length: piece }));
        expect(delayOver(pieces)).toBe(delayOver([{ index: glass, length: whole }]));
      }),
    );
  });

  it('there and back is the time from which an instrument tells a length', () => {
    fc.assert(
      fc.property(index, length, (glass, whole) => {
        const there = delayOver([{ index: glass, length: whole }]);
        // A picosecond there and back is some hundred micrometres.
        const told = pulseLength((2 * there) / 1000, glass);
        expect(Math.abs(told - whole)).toBeLessThanOrEqual(1);
      }),
    );
  });

  it('differs between fibres by the latest less the first; one alone has no skew', () => {
    expect(skewOf([7, 3, 5])).toBe(4);
    expect(skewOf([3, 7])).toBe(4);
    expect(skewOf([3])).toBeUndefined();
    expect(skewOf([])).toBeUndefined();
  });
});

describe('modal bandwidth', () => {
  it('of 2 km at 500 MHz.km is 250 MHz, and no length has no bound', () => {
    expect(modalBandwidthOver([{ product: 500_000, length: km(2) }])).toBe(250_000);
    expect(modalBandwidthOver([])).toBeUndefined();
  });

  it('is the same of a stretch that is cut in two, to a kilohertz', () => {
    fc.assert(
      fc.property(product, length, share, (grade, whole, at) => {
        const pieces = cut(whole, at).map((piece) => ({ product: grade, length: piece }));
        const [one, two] = [
          modalBandwidthOver([{ product: grade, length: whole }]) ?? 0,
          modalBandwidthOver(pieces) ?? 0,
        ];
        expect(Math.abs(one - two)).toBeLessThanOrEqual(1 + one * 1e-12);
      }),
    );
  });

  it('is never more for one stretch more, and lies below that of its worst stretch', () => {
    const stretches = fc.array(fc.record({ product, length }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(stretches, fc.record({ product, length }), (all, more) => {
        const left = modalBandwidthOver(all) ?? 0;
        expect(modalBandwidthOver([...all, more])).toBeLessThanOrEqual(left);
        for (const one of all) expect(left).toBeLessThanOrEqual(modalBandwidthOver([one]) ?? 0);
      }),
    );
  });

  it('is least where lengths add whole, which is what is taken', () => {
    const stretches = fc.array(fc.record({ product, length }), { minLength: 1, maxLength: 8 });
    fc.assert(
      fc.property(stretches, fc.double({ min: 0.5, max: 1, noNaN: true }), (all, gamma) => {
        const left = modalBandwidthOver(all) ?? 0;
        expect(left).toBeLessThanOrEqual((modalBandwidthOver(all, gamma) ?? 0) + 1);
      }),
    );
  });
});

describe('polarisation mode dispersion', () => {
  it('of 100 km at 0.2 ps/sqrt-km is 2 ps, of 400 km 4 ps', () => {
    expect(polarisationSpreadOver([{ rate: 200_000, length: km(100) }])).toBe(2_000_000);
    expect(polarisationSpreadOver([{ rate: 200_000, length: km(400) }])).toBe(4_000_000);
  });

  it('is the root of the sum of squares, worked out to forty digits', () => {
    const Wide = Decimal.clone({ precision: 40 });
    const stretches = fc.array(fc.record({ rate, length }), { maxLength: 12 });
    fc.assert(
      fc.property(stretches, (all) => {
        const squares = all.reduce(
          (sum, one) => sum.plus(new Wide(one.rate).pow(2).times(one.length).div('1e9')),
          new Wide(0),
        );
        const wanted = squares.sqrt().toNumber();
        expect(Math.abs(polarisationSpreadOver(all) - wanted)).toBeLessThanOrEqual(0.501);
      }),
    );
  });

  it('is the same of a stretch that is cut in two, and less than the sum of its stretches', () => {
    fc.assert(
      fc.property(rate, length, share, (each, whole, at) => {
        const pieces = cut(whole, at).map((piece) => ({ rate: each, length: piece }));
        const spread = polarisationSpreadOver([{ rate: each, length: whole }]);
        expect(polarisationSpreadOver(pieces)).toBe(spread);
        const apart = pieces.reduce((sum, one) => sum + polarisationSpreadOver([one]), 0);
        expect(spread).toBeLessThanOrEqual(apart + 1);
      }),
    );
  });
});
