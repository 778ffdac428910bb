/**
 * Second opinions of libraries on what the tool works out by itself: sums of
 * limits and levels of power by wide decimals, means by a library of statistics.
 * Median and median absolute deviation are asked in `optics.test.ts`.
 */
import { Decimal } from 'decimal.js';
import fc from 'fast-check';
import { mean } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import {
  findUnit,
  microDb,
  powerFromWatts,
  printExactDb,
  readDecimal,
} from '../../grammar/src/quantity/index.ts';
import { lossOfRatio, microwatts, rootSumSquares } from '../../server/src/optics/index.ts';
import { atLeast } from '../laws/runs.ts';
import { judged } from '../published/judged.ts';

const Wide = Decimal.clone({ precision: 40 });
/** Log to the base of ten to twenty digits, in micro-units, rounded half away from zero. */
const Log = Decimal.clone({ precision: 20 });
const level = (share: Decimal) =>
  new Log(share).log(10).times(10_000_000).toDecimalPlaces(0).toNumber() + 0;

/** A hundred plans each, which a busy machine judges slowly. */
const slow = { timeout: 300_000 };

/** A written number below a power of ten, with at most so many digits behind the point. */
const written = (before: number, behind: number) =>
  fc
    .integer({ min: 0, max: behind })
    .chain((places) =>
      fc
        .integer({ min: 1, max: 10 ** (before + places) - 1 })
        .map((digits) => (digits / 10 ** places).toFixed(places)),
    );

describe('a limit', () => {
  const stretch = fc.record({
    kind: fc.constant('stretch' as const),
    // A hundredth of a foot is the last that is a whole number of micrometres.
    length: written(3, 2),
    unit: fc.constantFrom('m', 'km', 'ft', 'cm'),
  });
  const joint = fc.record({ kind: fc.constantFrom('pair' as const, 'splice' as const) });
  const figures = fc.record({
    rate: written(1, 4),
    pair: written(1, 3),
    splice: written(1, 3),
    path: fc.array(fc.oneof(stretch, joint), { minLength: 1, maxLength: 14 }),
  });
  const metres = { m: '1', km: '1000', ft: '0.3048', cm: '0.01' };

  it('is the sum of its parts to the last digit, as wide decimals add it', slow, () => {
    fc.assert(
      fc.property(figures, ({ rate, pair, splice, path }) => {
        const joints = path.map((part) =>
          part.kind === 'stretch'
            ? `  segment     ${part.length} ${part.unit} GLASS\n`
            : part.kind === 'pair'
              ? '  connector   LC\n'
              : '  splice      fusion\n',
        );
        const { link } = judged(`plan "Sums" {
  limits      SET
  measure     850 nm
  reference   one-cord
}

fibre GLASS {
  mode        multimode core 50 um
}

limits SET {
  policy      counting
  fibre       GLASS 850 nm ${rate} dB/km
  connector   any ${pair} dB
  splice      any ${splice} dB
}

link KQ-1 {
  fibres      1
  connector   LC
  segment     1 m GLASS
${joints.join('')}  segment     1 m GLASS
  connector   LC
}
`);
        const sum = path.reduce(
          (total, part) =>
            total.plus(
              part.kind === 'stretch'
                ? new Wide(part.length).times(metres[part.unit]).div(1000).times(rate)
                : part.kind === 'pair'
                  ? pair
                  : splice,
            ),
          new Wide(pair).times(2).plus(new Wide(rate).times('0.002')),
        );
        const [at] = link('KQ-1').wavelengths;
        expect(printExactDb(at!.governing!.value!)).toBe(sum.toFixed());
      }),
    );
  });
});

describe('a power', () => {
  it('has the level that its logarithm to twenty digits gives', () => {
    const unit = fc.constantFrom(['W', '1e3'], ['mW', '1'], ['uW', '1e-3'], [
      'nW',
      '1e-6',
    ] as const);
    fc.assert(
      fc.property(written(3, 6), unit, (digits, [name, milliwatts]) => {
        const held = powerFromWatts(readDecimal(digits)!, findUnit(name!)!);
        const wanted = level(new Wide(digits).times(milliwatts!));
        expect(held).toBe(wanted);
      }),
      { numRuns: atLeast(2000) },
    );
  });

  it('is won back from its level to eight digits', () => {
    fc.assert(
      fc.property(written(3, 6), (digits) => {
        const held = powerFromWatts(readDecimal(digits)!, findUnit('uW')!)!;
        expect(microwatts(held) / Number(digits)).toBeCloseTo(1, 6);
      }),
    );
  });

  it('over another loses what the logarithm of both says', () => {
    fc.assert(
      fc.property(written(3, 6), written(3, 6), (one, other) => {
        const wanted = level(new Wide(one).div(other));
        const held = lossOfRatio(Number(one), Number(other)) ?? Number.NaN;
        expect(held + 0).toBe(wanted);
      }),
      { numRuns: atLeast(2000) },
    );
  });
});

describe('statistics', () => {
  it('a root of squares is that of wide decimals', () => {
    const values = fc.array(fc.integer({ min: -5_000_000, max: 5_000_000 }), { maxLength: 30 });
    fc.assert(
      fc.property(values, (list) => {
        const squares = list.reduce((sum, value) => sum.plus(new Wide(value).pow(2)), new Wide(0));
        expect(
          Math.abs(rootSumSquares(list.map(microDb)) - squares.sqrt().toNumber()),
        ).toBeLessThan(0.501);
      }),
    );
  });

  it(
    'a batch is held to its mean exactly where a library of statistics finds it over',
    slow,
    () => {
      const losses = fc.array(fc.integer({ min: 5, max: 60 }), { minLength: 1, maxLength: 12 });
      fc.assert(
        fc.property(losses, fc.integer({ min: 5, max: 60 }), (list, limit) => {
          const { link } = judged(`plan "Batch" {
  measure     850 nm
  directions  A>B
  reference   one-cord
  policy      counting
}

setup ONE {
  reference   one-cord
  source      "S1"
  meter       "M1" floor -60 dBm
  cord        L1 launch LC OM3 reference-grade
  cord        R1 receive LC OM3 reference-grade verified 0.1 dB
  taken       2026-01-10 08:00 850 nm -20 dBm
}

link KQ-1 {
  fibres      1..${list.length}
  connector   LC
  segment     20 m OM3
  connector   LC
  require     loss ${(limit / 100).toFixed(2)} dB mean
}

readings KQ-1 {
  setup       ONE
  tested      2026-01-10 09:00
  values      loss in dB
  columns fibre, 850 nm A>B
${list.map((value, index) => `  ${index + 1}  ${(value / 100).toFixed(2)}`).join('\n')}
}
`);
          const found = link('KQ-1').doubts.find(({ name }) => name === 'batch-over-limit');
          const middle = mean(list);
          expect(found !== undefined).toBe(middle > limit + 1e-9);
          if (found) expect(Number(found.details.mean)).toBeCloseTo(middle / 100, 6);
        }),
      );
    },
  );
});
