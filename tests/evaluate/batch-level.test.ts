/**
 * The level of all that was read with one set-up, of one object or of many: too low,
 * too high, or read with another number of cords than was wanted. What the parts usually
 * lose is added up by hand beside each case; the bounds are common practice, no source,
 * and stand in `doubts`.
 */
import { describe, expect, it } from 'vitest';
import { type FewReadings, highTogether } from '../../server/src/evaluate/index.ts';
import type { PathElement } from '../../server/src/model/types.ts';
import { cell, connector, db, dbm, limitsSet, nm, place, setup } from '../support/build.ts';
import { column, many, pair, piece, said, setupAt, told, wide } from './columns.ts';
import { judged } from './quiet-link.ts';

describe('the level of a batch', () => {
  it('is low below what the parts make likely', () => {
    const readings = column(many(4, 2));
    // As a rule 2.5 + 2 × 0.3; at least 0.8 × 2.5 + 0.35 × 0.6.
    expect(told('batch-too-low', readings)).toEqual([
      {
        name: 'batch-too-low',
        place: readings[0]?.place,
        details: {
          wavelength: 850,
          direction: 'A>B',
          setup: 'ONE',
          readings: 4,
          fibres: '1..4',
          median: 2,
          usual: 3.1,
          least: 2.21,
          away: 1.1,
          pair: 0.3,
          coreStep: 1,
        },
      },
    ]);
    expect(said('batch-too-low', column(many(4, 2.2)))).toBe(true);
    expect(said('batch-too-low', column(many(4, 2.22)))).toBe(false);
    expect(said('batch-too-low', column(many(3, 2)))).toBe(false);
  });

  it('is less by the pairs that the reference took', () => {
    const by = (reference: 'two-cord' | 'three-cord') => {
      const using = { ...setupAt(850), reference };
      const [low] = told('batch-too-low', column(many(4, 1.5)), { using });
      return low?.details;
    };
    // 2.5 dB of fibre and two pairs of 0.3 dB, less one of them, and less both.
    expect(by('two-cord')).toMatchObject({ usual: 2.8, least: 2.105, pair: 0.3, away: 1.3 });
    expect(by('three-cord')).toMatchObject({ usual: 2.5, least: 2, pair: 0, away: 1 });
  });

  it('is told of the batch that is furthest away, of two alike the first', () => {
    const both = (forward: number, back: number) => {
      const readings = [...column(many(4, forward)), ...column(many(4, back), 'B>A')];
      return told('batch-too-low', readings).map(({ details }) => [
        details.direction,
        details.median,
        details.readings,
      ]);
    };
    expect(both(2, 2)).toEqual([['A>B', 2, 8]]);
    expect(both(2, 1.9)).toEqual([['B>A', 1.9, 8]]);
  });

  it('is high above what they usually lose, a tenth of the fibre and 0.3 dB', () => {
    const short = { elements: [pair(), piece(100), pair()] };
    const readings = column(many(4, 1.18));
    // 0.25 + 0.6 dB as a rule, and at most 0.3 + 0.025 dB more.
    expect(told('batch-too-high', readings, short)).toEqual([
      {
        name: 'batch-too-high',
        place: readings[0]?.place,
        details: {
          wavelength: 850,
          direction: 'A>B',
          setup: 'ONE',
          readings: 4,
          fibres: '1..4',
          median: 1.18,
          usual: 0.85,
          least: 0.41,
          away: 0.33,
          pair: 0.3,
          // Away by about one pair.
          onePair: 1,
        },
      },
    ]);
    expect(said('batch-too-high', column(many(4, 1.17)), short)).toBe(false);
    const far = told('batch-too-high', column(many(4, 1.8)), short)[0]?.details;
    expect(far).toMatchObject({ away: 0.95, coreStep: 1 });
    expect(far).not.toHaveProperty('onePair');
    const single = { ...short, model: { mode: 'single-mode' as const } };
    expect(told('batch-too-high', column(many(4, 1.8)), single)[0]?.details).not.toHaveProperty(
      'coreStep',
    );
  });

  it('is away by a pair from half of one to one and a half', () => {
    const short = { elements: [pair(), piece(100), pair()] };
    const onePair = (loss: number) =>
      told('batch-too-high', column(many(4, loss)), short)[0]?.details.onePair;
    // 0.85 dB as a rule, a pair of 0.3 dB.
    expect([onePair(1.29), onePair(1.31)]).toEqual([1, undefined]);
  });

  it('that is high may be powers, typed without their minus, where the parts may lose that', () => {
    const short = { elements: [pair(), piece(100), pair()] };
    const asPower = (loss: number) =>
      told('batch-too-high', column(many(4, loss)), short).map(({ details }) => details.asPower);
    // The reference is -20 dBm; the path loses 0.41 to 1.175 dB.
    expect(asPower(21)).toEqual([1]);
    expect(asPower(20.42)).toEqual([0.42]);
    expect(asPower(20.4)).toEqual([undefined]);
    expect(asPower(21.17)).toEqual([1.17]);
    expect(asPower(21.2)).toEqual([undefined]);
    const powers = column(many(4, 1)).map((one) => ({
      ...one,
      quantity: 'power' as const,
      power: dbm(-41),
    }));
    expect(told('batch-too-high', powers, short).map(({ details }) => details.asPower)).toEqual([
      undefined,
    ]);
  });

  it('is that of each set-up for itself', () => {
    const by = (forward: number, back: number) => {
      const other = column(many(4, back), 'B>A').map((one) => ({ ...one, setup: 'TWO' }));
      const all = [...column(many(4, forward)), ...other];
      return told('batch-too-low', all, { anySetup: true }).map(
        ({ details: { setup: named, readings } }) => [named, readings],
      );
    };
    expect(by(2, 3)).toEqual([['ONE', 4]]);
    expect(by(2, 2)).toEqual([
      ['ONE', 4],
      ['TWO', 4],
    ]);
  });

  it('of a path without pairs has none to be away by', () => {
    const bare = { elements: [piece(1000)] };
    const [found] = told('batch-too-low', column(many(4, 1)), bare);
    expect(found?.details).toMatchObject({ usual: 2.5, least: 2, pair: 0 });
  });

  it('has an error of its own where its readings scatter', () => {
    const short = { elements: [pair(), piece(100), pair()] };
    // Three errors are 3 · 1.4826 · MAD ÷ √4: 0.11 dB for a MAD of 0.05 dB, 0.56 dB for one of 0.25 dB.
    expect(said('batch-too-high', column([1.3, 1.5, 1.4, 1.4]), short)).toBe(true);
    expect(said('batch-too-high', column([1.1, 1.7, 1.2, 1.6]), short)).toBe(false);
    expect(said('batch-too-low', column([0.3, 0.35, 0.3, 0.35]), short)).toBe(true);
    expect(said('batch-too-low', column([0.1, 0.6, 0.2, 0.5]), short)).toBe(false);
  });

  it('is told once for a set-up, where it is furthest away, of all that share it', () => {
    const readings = [...column(many(4, 2)), ...column(many(4, 0.5), 'A>B', 1300)];
    // At 1300 nm 0.8 × 0.6 + 0.35 × 0.6 = 0.69 dB at least: 0.19 dB short; at 850 nm 0.21 dB.
    const terms = { measure: [nm(850), nm(1300)] };
    expect(told('batch-too-low', readings, { terms })).toMatchObject([
      { place: readings[0]?.place, details: { wavelength: 850, readings: 8, least: 2.21 } },
    ]);
    const other = [...column(many(4, 2.1)), ...column(many(4, 0.4), 'A>B', 1300)];
    expect(told('batch-too-low', other, { terms })).toMatchObject([
      { place: other[4]?.place, details: { wavelength: 1300, median: 0.4, least: 0.69 } },
    ]);
  });

  it('is not asked where a core steps, upwards, or where a part has no usual figure', () => {
    const step = { elements: [pair(), piece(50), pair(), piece(50, wide), pair()] };
    expect(said('batch-too-high', column(many(4, 3)), step)).toBe(false);
    expect(said('batch-too-low', column(many(4, 0.3)), step)).toBe(true);
    const bare = { ...connector, loss: [{ max: db(0.75) }] };
    const unsaid = [{ ...pair(), type: bare } as PathElement, piece(100), pair()];
    expect(said('batch-too-high', column(many(4, 3)), { elements: unsaid })).toBe(false);
  });
});

it('another number of cords than was wanted is said once for a set-up', () => {
  const using = setup({ reference: 'three-cord' });
  const readings = column([0.4, 0.5]);
  const terms = { limits: [limitsSet('SET', 0.75, 3)] };
  expect(told('method-limit-mismatch', readings, { using, terms })).toEqual([
    {
      name: 'method-limit-mismatch',
      place: readings[0]?.place,
      details: {
        setup: 'ONE',
        wanted: 'one-cord',
        used: 'three-cord',
        readings: 2,
        fibres: '1..2',
        // 3.0 dB/km, two pairs of 0.75 dB in the path and two in the reference.
        limit: 3,
      },
    },
  ]);
  expect(told('method-limit-mismatch', readings, { using })[0]?.details).not.toHaveProperty(
    'limit',
  );
  expect(
    said('method-limit-mismatch', readings, {
      using,
      terms: { ...terms, reference: 'three-cord' },
    }),
  ).toBe(false);
  expect(
    said('method-limit-mismatch', readings, { using, terms: { ...terms, reference: undefined } }),
  ).toBe(false);
});

describe('few readings of many objects', () => {
  const few = (object: string, excess: number, wavelength = 850): FewReadings => ({
    object,
    setup: 'ONE',
    wavelength: nm(wavelength),
    readings: 2,
    away: excess + 0.3,
    excess,
    place: place(),
  });

  it('are high together where their median surely is', () => {
    const four = [few('A', 0.2), few('B', 0.2), few('C', 0.2), few('D', 0.2)];
    expect(highTogether(four)).toEqual({ wavelength: nm(850), away: 0.5, of: four });
    expect(highTogether(four.slice(1))).toBeUndefined();
    expect(highTogether(four.map((one) => ({ ...one, excess: 0 })))).toBeUndefined();
    expect(highTogether(four.map((one) => ({ ...one, excess: -0.1 })))).toBeUndefined();
    const scattered = [-0.3, 0.7, 0.1, 0.3].map((excess, at) => few(`${at}`, excess));
    expect(highTogether(scattered)).toBeUndefined();
  });

  it('are told at the wavelength where they are furthest away, else at the shorter', () => {
    const at = (wavelength: number, excess: number) =>
      ['A', 'B', 'C', 'D'].map((object) => few(object, excess, wavelength));
    expect(highTogether([...at(850, 0.2), ...at(1300, 0.3)])?.wavelength).toBe(nm(1300));
    expect(highTogether([...at(1300, 0.2), ...at(850, 0.3)])?.wavelength).toBe(nm(850));
    expect(highTogether([...at(1300, 0.2), ...at(850, 0.2)])?.wavelength).toBe(nm(850));
    expect(highTogether([])).toBeUndefined();
  });

  it('are handed on by their mean, each object for itself', () => {
    const readings = [cell(1, 1.1, 'A>B', 500), cell(2, 1.3, 'A>B', 501)];
    const elements = [pair(), piece(100), pair()];
    const [own, ...more] = judged({ readings }, { elements, terms: { measure: [nm(850)] } }).few;
    expect(more).toEqual([]);
    // As a rule 0.25 + 0.6 dB, and at most 0.3 + 0.025 dB more.
    expect(own).toMatchObject({
      object: 'KQ-1',
      setup: 'ONE',
      wavelength: nm(850),
      readings: 2,
      place: readings[0]?.place,
    });
    expect(own?.away).toBeCloseTo(0.35, 9);
    expect(own?.excess).toBeCloseTo(0.025, 9);
  });
});
