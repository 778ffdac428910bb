/**
 * The two directions of a fibre beside each other: how far apart they may lie, what a
 * step of cores allows, and columns that were exchanged or copied. The loss of a step is
 * 20 · log10 of the cores; the bounds are common practice, no source, and stand in `doubts`.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type { LimitsSet, ReadingCell } from '../../server/src/model/types.ts';
import { cell, cleaned, db, limitsSet, nm, place, when } from '../support/build.ts';
import { column, many, pair, piece, said, told, wide } from './columns.ts';

describe('both directions of a fibre', () => {
  const both = (forward: number, back: number) => [
    cell(1, forward, 'A>B', 500),
    cell(1, back, 'B>A', 500),
  ];

  it('lie within 0.3 dB', () => {
    const readings = both(1, 1.4);
    expect(told('direction-asymmetry', readings)).toEqual([
      {
        name: 'direction-asymmetry',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the other direction' }],
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'B>A',
          forward: 1,
          back: 1.4,
          difference: 0.4,
          bound: 0.3,
        },
      },
    ]);
    const other = both(1.4, 1);
    expect(told('direction-asymmetry', other)).toMatchObject([
      {
        place: other[0]?.place,
        related: [{ place: other[1]?.place }],
        details: { direction: 'A>B', difference: 0.4 },
      },
    ]);
    expect(told('direction-asymmetry', other)[0]?.details).not.toHaveProperty('allowed');
    expect(said('direction-asymmetry', both(1, 1.3))).toBe(false);
    expect(said('direction-asymmetry', both(1.3, 1))).toBe(false);
    expect(said('direction-asymmetry', both(1, 1.300001))).toBe(true);
    expect(said('direction-asymmetry', both(1.300001, 1))).toBe(true);
    const average = { wanted: ['A>B' as const, 'B>A' as const], average: true, within: db(0.1) };
    expect(said('direction-asymmetry', both(1, 1.2), { terms: { directions: average } })).toBe(
      true,
    );
    expect(
      said('direction-asymmetry', both(1, 1.2), {
        terms: { directions: { ...average, average: false } },
      }),
    ).toBe(false);
  });

  const down = [pair(), piece(50, wide), pair(), piece(50), pair()];
  const stepped = (loss: number): LimitsSet =>
    limitsSet('STEP', 0.75, 3, {
      fibre: ['GLASS', 'WIDE'].map((name) => ({
        fibre: name,
        wavelength: nm(850),
        rate: ratePerKm(3_000_000),
        place: place(),
      })),
      coreStep: [{ from: 'WIDE', to: 'GLASS', loss: db(loss), place: place() }] as never,
    });

  it('differ by what a step of cores may take, in its direction', () => {
    // 20 · log10(62.5 ÷ 50) = 1.938200 dB, all modes filled.
    const step = { coreStep: 'WIDE to GLASS', coreLoss: 1.9382 };
    expect(told('direction-asymmetry', both(2.6, 2), { elements: down })[0]?.details).toMatchObject(
      step,
    );
    expect(told('direction-asymmetry', both(2, 2.6), { elements: down })[0]?.details).toMatchObject(
      {
        coreStep: 'against the step',
      },
    );
    expect(
      told('direction-asymmetry', both(2, 2.6), { elements: [...down].reverse() })[0]?.details,
    ).toMatchObject(step);
    const allowed = { elements: down, terms: { limits: [stepped(1)] } };
    expect(said('direction-asymmetry', both(3.3, 2), allowed)).toBe(false);
    expect(told('direction-asymmetry', both(3.4, 2), allowed)[0]?.details).toMatchObject({
      allowed: 1,
      difference: 1.4,
    });
    expect(said('direction-asymmetry', both(2, 2.3), allowed)).toBe(false);
    const turned = { ...allowed, elements: [...down].reverse() };
    expect(said('direction-asymmetry', both(2, 3.3), turned)).toBe(false);
    expect(told('direction-asymmetry', both(2, 3.4), turned)[0]?.details).toMatchObject({
      allowed: 1,
      difference: 1.4,
    });
    const against = told('direction-asymmetry', both(2, 2.4), allowed)[0]?.details;
    expect(against).toMatchObject({ difference: 0.4 });
    expect(against).not.toHaveProperty('allowed');
  });

  it('differ by the step, wherever it lies among fibres of one core', () => {
    const other = { ...wide, name: 'OTHER' };
    const long = [pair(), piece(50, wide), pair(), piece(50, other), ...down.slice(2)];
    expect(told('direction-asymmetry', both(2.6, 2), { elements: long })[0]?.details).toMatchObject(
      { coreStep: 'OTHER to GLASS' },
    );
    const columns = [...column(many(4, 1)), ...column(many(4, 2), 'B>A')];
    expect(told('directions-exchanged', columns, { elements: long })).toMatchObject([
      { details: { narrowing: 'A>B' } },
    ]);
    const back = [...column(many(4, 2)), ...column(many(4, 1), 'B>A')];
    expect(told('directions-exchanged', back, { elements: long.toReversed() })).toMatchObject([
      { details: { narrowing: 'B>A' } },
    ]);
  });

  it('are of one time: one that work came after is none', () => {
    const readings = [cell(1, 1, 'A>B', 700), cell(1, 1.4, 'B>A', 500)];
    expect(said('direction-asymmetry', readings)).toBe(true);
    expect(said('direction-asymmetry', readings, { work: cleaned(when(600)) })).toBe(false);
  });

  it('are exchanged where every fibre loses more against the step', () => {
    const readings = (count: number, forward = 1, back = 2) => [
      ...column(many(count, forward)),
      ...column(many(count, back), 'B>A'),
    ];
    const four = readings(4);
    expect(told('directions-exchanged', four, { elements: down })).toEqual([
      {
        name: 'directions-exchanged',
        place: four[0]?.place,
        details: { fibres: '1..4', readings: 8, narrowing: 'A>B', less: 1, bound: 0.3 },
      },
    ]);
    expect(
      told('directions-exchanged', readings(4, 2, 1), { elements: [...down].reverse() }),
    ).toMatchObject([{ details: { narrowing: 'B>A', less: 1 } }]);
    expect(said('direction-asymmetry', four, { elements: down })).toBe(false);
    expect(said('directions-exchanged', readings(3), { elements: down })).toBe(false);
    expect(said('directions-exchanged', readings(4, 2, 1), { elements: down })).toBe(false);
    expect(said('directions-exchanged', four)).toBe(false);
    expect(said('directions-exchanged', readings(4, 1.7, 2), { elements: down })).toBe(true);
    expect(said('directions-exchanged', readings(4, 1.71, 2), { elements: down })).toBe(false);
    const level = [...readings(4), cell(5, 1, 'A>B', 500), cell(5, 1, 'B>A', 500)];
    expect(said('directions-exchanged', level, { elements: down })).toBe(false);
    const up = [...down.slice(0, -1), pair(), piece(10, wide), pair()];
    expect(said('directions-exchanged', four, { elements: up })).toBe(false);
    expect(said('directions-exchanged', readings(4, 2, 1), { elements: up })).toBe(false);
  });

  it('are copied where more than five fibres have the same digits, and none has others', () => {
    const same = (count: number, ...more: ReadingCell[]) => {
      const losses = many(count, (at) => 1 + at / 100);
      return [...column(losses), ...column(losses, 'B>A'), ...more];
    };
    const six = same(6);
    expect(told('direction-fake', six)).toEqual([
      {
        name: 'direction-fake',
        place: six[0]?.place,
        details: { wavelength: 850, fibres: '1..6', readings: 6 },
      },
    ]);
    const two = [...six, ...six.map((one) => ({ ...one, wavelength: nm(1300) }))];
    expect(told('direction-fake', two, { terms: { measure: [nm(850), nm(1300)] } })).toEqual([
      {
        name: 'direction-fake',
        place: six[0]?.place,
        details: { wavelength: 850, wavelengths: '850 and 1300', fibres: '1..6', readings: 12 },
      },
    ]);
    expect(said('direction-fake', same(5))).toBe(false);
    expect(said('direction-fake', same(6, cell(7, 1, 'A>B', 500), cell(7, 1.01, 'B>A', 500)))).toBe(
      false,
    );
    expect(said('direction-fake', same(6, cell(7, 1, 'A>B', 500)))).toBe(true);
  });
});
