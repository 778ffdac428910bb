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
  const twiceOf = (count: number, columns = 2) => {
    const once = many(count, (at) => 1 + ((at * 7) % 23) / 100).map((loss) =>
      [loss, loss - 0.3].slice(0, columns),
    );
    return [...once, ...once];
  };
  const twice = (count: number, columns = 1) => table(...twiceOf(count, columns));

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

  const once = (count: number) =>
    many(count, (at) => 1 + ((at * 7) % 23) / 100).map((loss) => [loss]);
  const found = (...asked: Parameters<typeof told>) =>
    told(...asked).map(({ details }) => [details.fibres, details.like, details.readings]);

  it('are told once, by the first of as many', () => {
    const thrice = [...once(8), [3], ...once(8), [4], ...once(8)];
    expect(found('rows-repeated', table(...thrice))).toEqual([['10..17', '1..8', 1]]);
    // Six rows four times over: a run does not overlap what it repeats.
    const turns = [...once(6), ...once(6), ...once(6), ...once(6)];
    expect(found('rows-repeated', table(...turns))).toEqual([['13..24', '1..12', 1]]);
  });

  it('are as many as the plan asks for', () => {
    // 98 · (10 ÷ 182 · 1/4)^5 = 4.8e−8.
    const rows = [...twiceOf(5), [5, 4], [6, 5], [7, 6], [8, 7]];
    const asked = (repeated: number) =>
      said('rows-repeated', table(...rows), { by: { doubts: { repeated } } });
    expect([asked(5), asked(6)]).toEqual([true, false]);
    const alike = [
      ...many(9, 0).map(() => [1.12]),
      ...many(9, (at) => 2 + at / 10).map((loss) => [loss]),
    ];
    const along = (repeated: number) =>
      said('rows-repeated', table(...alike), { by: { doubts: { repeated } } });
    expect([along(8), along(9)]).toEqual([true, false]);
  });

  it('are less sure by a second column that follows the first', () => {
    // Four of twelve: 72 · (8 ÷ 132 · 1/4)^4 = 3.8e−6, and 1.3e−8 if both columns stood for themselves.
    const others = [5, 6, 7, 8].map((loss) => [loss, loss - 1]);
    expect(said('rows-repeated', table(...twiceOf(4), ...others))).toBe(false);
    // Five alike of six: 6 · (0.113 · 1/4)^4 = 3.8e−6, and 1.6e−7.
    const alike = many(5, 0).map(() => [1.12, 0.81]);
    expect(said('rows-repeated', table(...alike, [5, 4]))).toBe(false);
  });

  it('are rows of the text, in whatever order they were measured', () => {
    const backwards = twice(8).toReversed();
    expect(found('rows-repeated', backwards)).toEqual([['9..16', '1..8', 1]]);
    // One row from left to right, the next from right to left.
    const turned = twice(5, 2).flatMap((_, at, all) => {
      const [row, column] = [Math.floor(at / 2), at % 2];
      return [all[2 * row + (row % 2 === 1 ? 1 - column : column)]!];
    });
    expect(found('rows-repeated', turned)).toEqual([['6..10', '1..5', 2]]);
  });

  it('that are alike all along are a run within the table', () => {
    const rows = (...runs: readonly (readonly [number, number])[]) =>
      table(...runs.flatMap(([count, loss]) => many(count, 0).map(() => [loss])));
    const before = [1.31, 1.42, 1.53].map((loss) => [1, loss] as const);
    const after = [1.64, 1.75, 1.86].map((loss) => [1, loss] as const);
    const run = [9, 1.12] as const;
    expect(found('rows-repeated', rows(...before, run, ...after))).toEqual([['5..12', '4', 1]]);
    // Of two as long the first.
    expect(found('rows-repeated', rows(run, [9, 1.23]))).toEqual([['2..9', '1', 1]]);
  });

  it('count the step of a power in decibels', () => {
    const powers = (digits: string, unit: 'uW' | 'dBm') =>
      many(9, 0).map((_, at) => ({
        ...cell(at + 1, 1, 'A>B', 500),
        typed: { digits, unit },
        row: { ...place(), block: 77 },
        place: { ...place(), block: 77 },
      }));
    // A hundredth of 7.94 µW is 0.0055 dB, less than a hundredth of a dBm; of 0.79 µW 0.055 dB.
    expect(said('rows-repeated', powers('-0.50', 'dBm'))).toBe(true);
    expect(said('rows-repeated', powers('7.94', 'uW'))).toBe(true);
    expect(said('rows-repeated', powers('0.79', 'uW'))).toBe(false);
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

  it('that are shifted are why directions and attempts differ', () => {
    const steep = many(16, (at) => round(1 + (((at * 17 + 5) * (at + 3)) % 61) / 40, 6));
    const shifted = [...steep.slice(1), 1.15];
    const ways = [...column(steep), ...column2(shifted)];
    const again = [...column(steep), ...shifted.map((loss, at) => cell(at + 1, loss, 'A>B', 700))];
    const late = { by: { doubts: { numbered: 17 } } };
    expect(said('numbers-shifted', ways)).toBe(true);
    expect([said('direction-asymmetry', ways), said('direction-asymmetry', ways, late)]).toEqual([
      false,
      true,
    ]);
    expect(said('numbers-shifted', again)).toBe(true);
    expect([said('not-repeatable', again), said('not-repeatable', again, late)]).toEqual([
      false,
      true,
    ]);
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
