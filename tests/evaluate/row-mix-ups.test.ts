/**
 * Rows of a table that are not of their fibres: copied from rows above, or one number
 * on. How likely chance makes them is worked out by hand, correlations by another
 * library of statistics; the bounds are common practice, no source, and stand in `doubts`.
 */
import { sampleCorrelation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import { cell, nm, place } from '../support/build.ts';
import { column, many, round, said, told } from './columns.ts';

describe('rows that repeat', () => {
  /** Rows of one block, one reading for each column. */
  const table = (...rows: readonly (readonly number[])[]) =>
    rows.flatMap((values, index) => {
      const row = { ...place(), block: 77 };
      return values.map((loss, at) => ({
        ...cell(index + 1, loss, 'A>B', 500, [850, 1300][at]),
        row,
        place: { ...place(), block: 77 },
      }));
    });
  const twice = (count: number, columns = 1) => {
    const once = many(count, (at) => 1 + ((at * 7) % 23) / 100).map((loss) =>
      [loss, loss - 0.3].slice(0, columns),
    );
    return table(...once, ...once);
  };

  it('are more than chance makes', () => {
    const readings = twice(8);
    // A row is like another by 16 ÷ (16 · 15); eight in a row of 16²/2 ways: 128 · 15^−8 = 5e−8.
    expect(told('rows-repeated', readings)).toEqual([
      {
        name: 'rows-repeated',
        place: readings[8]?.row,
        related: [{ place: readings[0]?.row, message: 'the same values' }],
        details: { rows: 8, fibres: '9..16', like: '1..8', readings: 1 },
      },
    ]);
    // Seven of 14: 98 · 13^−7 = 1.6e−6 is chance.
    expect(said('rows-repeated', twice(7))).toBe(false);
  });

  it('count another column by a quarter at least', () => {
    // Five of ten: 50 · (1/9 · 1/4)^5 = 8.3e−7; four of eight: 32 · (1/7 · 1/4)^4 = 5.2e−5.
    expect(told('rows-repeated', twice(5, 2))).toMatchObject([
      { details: { rows: 5, readings: 2 } },
    ]);
    expect(said('rows-repeated', twice(4, 2))).toBe(false);
    expect(said('rows-repeated', twice(5, 2), { by: { doubts: { repeated: 6 } } })).toBe(false);
  });

  it('are more than scatter makes, where one value stands all along', () => {
    const alike = (count: number, ...row: readonly number[]) =>
      table(...many(count, 0).map(() => row));
    // A hundredth over √π · 0.05 dB: 0.113. Nine rows: 9 · 0.113^8 = 2.4e−7; eight: 8 · 0.113^7 = 1.9e−6.
    expect(told('rows-repeated', alike(9, 1.12))).toMatchObject([
      { details: { rows: 8, fibres: '2..9', like: '1', readings: 1 } },
    ]);
    expect(said('rows-repeated', alike(8, 1.12))).toBe(false);
    // With another column 0.113 / 4: six rows, 6 · 0.028^5 = 1.1e−7; with digits of tenths chance makes all.
    expect(said('rows-repeated', alike(6, 1.12, 0.81))).toBe(true);
    expect(said('rows-repeated', alike(20, 1.2))).toBe(false);
    // In a table of fewer than twice the rows that the plan asks for nothing is looked for.
    const asked = { by: { doubts: { repeated: 7 } } };
    expect(said('rows-repeated', alike(13, 1.12), asked)).toBe(false);
    expect(said('rows-repeated', alike(14, 1.12), asked)).toBe(true);
    const other = [
      ...alike(3, 1.31),
      ...alike(9, 1.12).map((one) => ({ ...one, fibre: one.fibre + 3 })),
    ];
    expect(told('rows-repeated', other)).toMatchObject([
      { details: { fibres: '5..12', like: '4' } },
    ]);
  });

  it('stand apart from what they repeat, in one block', () => {
    expect(said('rows-repeated', table(...many(20, 1).map((loss) => [loss])))).toBe(false);
    const apart = twice(8).map((one, at) =>
      at < 8 ? one : { ...one, place: { ...one.place, block: 78 } },
    );
    expect(said('rows-repeated', apart)).toBe(false);
    const shifted = many(8, (at) => 1 + ((at * 7) % 23) / 100).map((loss) => [loss]);
    const between = [[3], ...shifted, [4], [5], ...shifted];
    expect(told('rows-repeated', table(...between))).toMatchObject([
      { details: { rows: 8, fibres: '12..19', like: '2..9' } },
    ]);
  });
});

describe('numbers', () => {
  const own = many(16, (at) => 1 + (((at * 17 + 5) * (at + 3)) % 61) / 200);
  const column2 = (values: readonly number[], minute = 500) =>
    values.map((loss, at) => cell(at + 1, round(loss, 6), 'B>A', minute + at));

  it('of one direction fit those of the other one number on', () => {
    const shifted = [...own.slice(1), 1.15];
    const readings = [...column(own.map((loss) => round(loss, 6))), ...column2(shifted)];
    expect(told('numbers-shifted', readings)).toEqual([
      {
        name: 'numbers-shifted',
        place: readings[16]?.place,
        details: {
          what: 'B>A',
          against: 'A>B',
          shift: 'one number on',
          fibres: 16,
          own: round(sampleCorrelation(shifted, own), 4),
          other: 1,
        },
      },
    ]);
    expect(said('numbers-shifted', [...column(own), ...column2(own)])).toBe(false);
    expect(said('numbers-shifted', readings, { by: { doubts: { numbered: 17 } } })).toBe(false);
  });

  it('of a later table fit those before', () => {
    const later = [...own.slice(1), 1.15].map((loss, at) =>
      cell(at + 1, round(loss, 6), 'A>B', 700 + at),
    );
    const readings = [...column(own.map((loss) => round(loss, 6))), ...later];
    expect(told('numbers-shifted', readings)).toMatchObject([
      {
        place: later[0]?.place,
        details: { what: 'these readings', against: 'those before', shift: 'one number on' },
      },
    ]);
  });

  it('of another wavelength fit those of the first', () => {
    const shifted = [...own.slice(1), 1.15].map((loss) => round(loss, 6));
    const readings = [
      ...column(own.map((loss) => round(loss, 6))),
      ...column(shifted, 'A>B', 1300),
    ];
    expect(
      told('numbers-shifted', readings, { terms: { measure: [nm(850), nm(1300)] } }),
    ).toMatchObject([
      { details: { what: '1300 nm', against: '850 nm', shift: 'one number on', other: 1 } },
    ]);
  });
});
