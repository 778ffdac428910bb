/**
 * Exact quantities. Outside sources: the international foot is 0.3048 m exactly
 * (NIST SP 811, appendix B.6); the level in dBm is ten times the decimal
 * logarithm of the power over one milliwatt (ITU-T G.100.1, clause on dBm).
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import * as q from '../../grammar/src/quantity/index.ts';

const unit = (name: string) => q.findUnit(name)!;
const base = (digits: string, name: string) => q.toBase(q.readDecimal(digits)!, unit(name));

describe('a written number', () => {
  it.each([
    ['12', 12n, 0],
    ['-0.04', -4n, 2],
    ['−0.04', -4n, 2],
    ['.84', 84n, 2],
    ['0.10', 10n, 2],
    ['123456789012345678901234567890.5', 1234567890123456789012345678905n, 1],
  ])('%s is read to its last digit', (text, scaled, places) => {
    expect(q.readDecimal(text)).toEqual({ scaled, places });
  });

  it.each(['', '.', '-', '12.', '1e5', '1,2', ' 1', 'x', '--1', '1.2.3'])('%j is none', (text) => {
    expect(q.readDecimal(text)).toBeUndefined();
  });
});

describe('a quantity in base units', () => {
  it.each([
    ['1', 'ft', 304_800],
    ['1', 'kft', 304_800_000],
    ['142', 'm', 142_000_000],
    ['2.31', 'km', 2_310_000_000],
    ['850', 'nm', 850_000],
    ['50', 'um', 50_000_000],
    ['0.15', 'dB', 150_000],
    ['-20.05', 'dBm', -20_050_000],
    ['2.3', 'dB/km', 2_300_000],
    ['1', 'dB/m', 1_000_000_000],
    ['500', 'MHz.km', 500_000],
    ['5', '%', 50_000],
    ['1', 'h', 3_600_000_000_000_000],
    ['-5.5', 'degC', -5_500],
  ])('%s %s is %d', (digits, name, value) => {
    expect(base(digits, name)).toBe(value);
  });

  it('is rounded once for a rate per kilofoot: 1 dB/kft = 1 dB / 0.3048 km', () => {
    expect(base('1', 'dB/kft')).toBe(3_280_840);
    expect(base('-1', 'dB/kft')).toBe(-3_280_840);
  });

  it('is refused where a digit would be lost or the number is too large', () => {
    expect(base('0.0000001', 'dB')).toBe('too-fine');
    expect(base('0.1000000', 'dB')).toBe(100_000);
    expect(base('99999999', 'km')).toBe('too-large');
  });

  it.each([
    ['1', 'mW', 0],
    ['1', 'uW', -30_000_000],
    ['1', 'nW', -60_000_000],
    ['1', 'W', 30_000_000],
    ['2', 'mW', 3_010_300],
    ['7.11', 'uW', -21_481_304],
  ])('%s %s is %d micro-dBm', (digits, name, value) => {
    expect(base(digits, name)).toBe(value);
  });

  it.each(['0', '-1'])('%s uW has no level', (digits) => {
    expect(base(digits, 'uW')).toBe('not-positive');
  });
});

describe('a unit', () => {
  it('has one ASCII spelling and is known by it alone', () => {
    for (const { name } of q.units) {
      expect(name).toMatch(/^[\x21-\x7e]+$/u);
      expect(q.findUnit(name)?.name).toBe(name);
    }
    expect(new Set(q.units.map(({ name }) => name)).size).toBe(q.units.length);
  });

  it.each([
    ['µm', 'um'],
    ['μW', 'uW'],
    ['MHz·km', 'MHz.km'],
    ['ps/nm²/km', 'ps/nm2/km'],
    ['ps/√km', 'ps/sqrt-km'],
    ['°C', 'degC'],
  ])('%s is %s', (written, name) => {
    expect(q.findUnit(written)?.name).toBe(name);
  });

  it.each(['db', 'KM', 'min', 'dBM', 'x', '', 'toString'])('%j is none', (text) => {
    expect(q.findUnit(text)).toBeUndefined();
  });
});

describe('exact sums of loss', () => {
  const loss = fc.integer({ min: -50_000_000, max: 50_000_000 });
  const rate = fc.integer({ min: 0, max: 300_000_000 });
  const length = fc.integer({ min: 0, max: 500_000_000_000 });

  it('fibre loss is rate times length, part by part or whole', () => {
    fc.assert(
      fc.property(rate, length, length, (r, a, b) => {
        const per = q.ratePerKm(r);
        const [one, other] = [q.micrometres(a), q.micrometres(b)];
        const parts = q.addDb(q.fibreLoss(per, one), q.fibreLoss(per, other));
        expect(parts).toBe(q.fibreLoss(per, q.addLengths(one, other)));
      }),
    );
  });

  it('3.5 dB/km over 142 m is 0.497 dB exactly', () => {
    const exact = q.fibreLoss(q.ratePerKm(3_500_000), q.micrometres(142_000_000));
    expect(q.printExactDb(exact)).toBe('0.497');
  });

  it('a reading is at most a limit exactly when it is at most its floor', () => {
    fc.assert(
      fc.property(loss, fc.bigInt({ min: -(10n ** 17n), max: 10n ** 17n }), (reading, exact) => {
        const limit = exact as q.ExactDb;
        const value = q.microDb(reading);
        expect(value <= q.floorDb(limit)).toBe(q.compareDb(q.exactDb(value), limit) <= 0);
        expect(value >= q.ceilDb(limit)).toBe(q.compareDb(q.exactDb(value), limit) >= 0);
      }),
    );
  });

  it('adding and taking away come back', () => {
    fc.assert(
      fc.property(loss, loss, fc.integer({ min: -20, max: 20 }), (a, b, n) => {
        const [one, other] = [q.exactDb(q.microDb(a)), q.exactDb(q.microDb(b))];
        expect(q.subtractDb(q.addDb(one, other), other)).toBe(one);
        expect(q.timesDb(one, n)).toBe(q.exactDb(q.microDb(a)) * BigInt(n));
        expect(q.subtractMicroDb(q.addMicroDb(q.microDb(a), q.microDb(b)), q.microDb(b))).toBe(a);
      }),
    );
  });

  it.each([
    [2_805_000, 100_000, '2.8'],
    [2_850_000, 100_000, '2.9'],
    [2_849_999, 100_000, '2.8'],
    [-2_850_000, 100_000, '-2.8'],
    [2_805_000, 10_000, '2.81'],
  ])('%d rounds half up to steps of %d: %s', (value, step, printed) => {
    const rounded = q.roundLimit(q.exactDb(q.microDb(value)), q.microDb(step));
    expect(q.printExactDb(rounded)).toBe(printed);
  });

  it('excess is added once: 1 km and 2 % is 1.02 km', () => {
    const grown = q.lengthWithExcess(q.micrometres(1_000_000_000), q.partsPerMillion(20_000));
    expect(q.toMetres(grown)).toBe(1_020);
  });
});

describe('printing', () => {
  it('loses no digit and reads back', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: -(10n ** 18n), max: 10n ** 18n }), (value) => {
        const printed = q.printExactDb(value as q.ExactDb);
        const { scaled, places } = q.readDecimal(printed)!;
        expect(scaled * 10n ** BigInt(15 - places)).toBe(value);
      }),
    );
  });

  it.each([
    [2_805_000, 2, '2.81'],
    [-2_805_000, 2, '-2.81'],
    [2_804_999, 2, '2.80'],
    [-4_000, 2, '0.00'],
    [1_500_000, 0, '2'],
  ])('%d with %d places, half away from zero, is %s', (value, places, printed) => {
    expect(q.printMicroRounded(value, places)).toBe(printed);
  });

  it.each([
    [-20_050_000, '-20.05'],
    [0, '0'],
    [1, '0.000001'],
    [100_000_000, '100'],
  ])('%d micro units are %s', (value, printed) => {
    expect(q.printMicro(value)).toBe(printed);
    expect(q.microToNumber(value)).toBe(Number(printed));
  });
});

describe('a branded number', () => {
  it.each([0.5, Number.NaN, Number.POSITIVE_INFINITY, 2 ** 53])('%d is refused', (value) => {
    for (const make of [q.microDb, q.microDbm, q.micrometres, q.ratePerKm, q.picometres]) {
      expect(() => make(value)).toThrow(RangeError);
    }
  });

  it('is rounded once from a float of decibels', () => {
    expect(q.roundToMicroDb(10 * Math.log10(4))).toBe(6_020_600);
    expect(q.roundToMicroDb(-0.0000005)).toBe(-1);
  });

  it('loss from two levels is reference minus measured', () => {
    expect(q.lossFromPowers(q.microDbm(-20_050_000), q.microDbm(-21_170_000))).toBe(1_120_000);
  });
});
