/**
 * What is told of a reading that stands: over its limit, marginal, dark, of a fibre that
 * is not there, and when a retest comes before a reject. The limit of 1.8 dB is that of
 * `short-link.ts` (TIA-568.3-E), margins are worked out by hand; bands of rejection are
 * what a contract asks, their figures ours.
 */
import { describe, expect, it } from 'vitest';
import type { ReadingCell } from '../../server/src/model/types.ts';
import { cell, db, dbm, limitsSet } from '../support/build.ts';
import { key, names, told } from './short-link.ts';

const judgedBy = {
  limit: 1.8,
  limitName: 'SET',
  limitKind: 'components',
  uncertainty: 0.15,
  attempt: 1,
};

describe('a reading that stands', () => {
  it('is over its limit by what it is', () => {
    const reading = cell(1, 2.31, 'A>B', 500);
    expect(told('over-limit', [reading])).toEqual([
      {
        name: 'over-limit',
        place: reading.place,
        details: { ...key, ...judgedBy, loss: 2.31, over: 0.51, margin: -0.51 },
      },
    ]);
  });

  it('is marginal on either side', () => {
    const [inside, outside] = [cell(1, 1.7, 'A>B', 500), cell(1, 1.9, 'A>B', 500)];
    expect(told('marginal-pass', [inside])).toEqual([
      {
        name: 'marginal-pass',
        place: inside.place,
        details: { ...key, ...judgedBy, loss: 1.7, margin: 0.1 },
      },
    ]);
    expect(told('marginal-fail', [outside])).toEqual([
      {
        name: 'marginal-fail',
        place: outside.place,
        details: { ...key, ...judgedBy, loss: 1.9, over: 0.1, margin: -0.1 },
      },
    ]);
    expect(names([cell(1, 1.8, 'A>B', 500)])).toEqual(['marginal-pass']);
    expect(names([cell(1, 1, 'A>B', 500)])).toEqual([]);
  });

  it('shows no light, and so more than its set-up sees', () => {
    const dark = cell(1, 'dark', 'A>B', 500);
    expect(told('over-limit', [dark])).toEqual([
      {
        name: 'over-limit',
        place: dark.place,
        details: { ...key, ...judgedBy, bound: 40, over: 38.2, dark: 1 },
      },
    ]);
  });

  it('was read as a power, by a recalled figure, at a later attempt', () => {
    const set = limitsSet('SET', 0.75, 3);
    const recalled = {
      ...set,
      fibre: set.fibre.map((one) => ({ ...one, trust: 'recalled' as const })),
    };
    const power: ReadingCell = {
      ...cell(1, 1, 'A>B', 600),
      quantity: 'power',
      loss: undefined,
      power: dbm(-22.31),
    };
    const readings = [cell(1, 1, 'A>B', 500), power];
    expect(told('over-limit', readings, { terms: { limits: [recalled] } })).toMatchObject([
      { details: { loss: 2.31, power: -22.31, recalled: 1, attempt: 2 } },
    ]);
  });

  it('is judged by the mean of both directions', () => {
    const readings = [cell(1, 2.1, 'A>B', 500), cell(1, 1.7, 'B>A', 500)];
    const directions = { wanted: ['A>B' as const, 'B>A' as const], average: true };
    expect(
      told('marginal-fail', readings, { terms: { directions } }).map(({ details }) => details),
    ).toMatchObject([
      { direction: 'A>B', loss: 2.1, average: 1.9, margin: -0.1, over: 0.1 },
      { direction: 'B>A', loss: 1.7, average: 1.9, margin: -0.1, over: 0.1 },
    ]);
  });

  it('is of a fibre that the plan has not', () => {
    const strange = cell(7, 1, 'A>B', 500);
    expect(told('fibre-not-in-plan', [strange], { fibres: 2 })).toEqual([
      {
        name: 'fibre-not-in-plan',
        place: strange.place,
        details: { ...key, fibre: 7, object: 'KQ-1', has: '1..2' },
      },
    ]);
    expect(names([cell(7, 9, 'A>B', 500)], { fibres: 2 })).toEqual([
      'fibre-not-in-plan',
      'readings-missing',
    ]);
    expect(names([strange], { fibres: 0 })).toEqual([]);
  });
});

describe('a retest', () => {
  const reject = (...bands: readonly object[]) => ({
    terms: { limits: [limitsSet('SET', 0.75, 3, { reject: bands as never })] },
  });
  const asked = (bands: readonly object[], ...losses: readonly number[]) => {
    const readings = losses.map((loss, at) => cell(1, loss, 'A>B', 500 + at));
    const {
      action,
      reject: over,
      far,
      object,
      retests,
    } = told('over-limit', readings, reject(...bands))[0]?.details ?? {};
    return { action, over, far, object, retests };
  };

  it('comes first, unless it is too far over or has been tried too often', () => {
    const band = { over: db(1), after: 2 };
    const again = { action: 'clean and retest', over: 1, far: undefined, object: 'link' };
    expect(asked([band], 2.5)).toEqual({ ...again, retests: 0 });
    expect(asked([band], 2.5, 2.5)).toEqual({ ...again, retests: 1 });
    expect(asked([band], 2.5, 2.5, 2.5)).toEqual({ ...again, action: 'reject', retests: 2 });
    // A pass between is no failed try.
    expect(asked([band], 2.5, 1, 2.5)).toEqual({ ...again, retests: 1 });
    expect(asked([band], 2.8)).toEqual({
      action: 'reject',
      over: 1,
      far: 1,
      object: 'link',
      retests: 0,
    });
    expect(asked([band], 2.799999)).toMatchObject({ action: 'clean and retest' });
    expect(asked([{ over: db(1) }], 2.5, 2.5, 2.5, 2.5)).toMatchObject({
      action: 'clean and retest',
      retests: 3,
    });
  });

  it('follows the band of its object, and none where none is said', () => {
    const assembly = { over: db(0.1), object: 'assembly' };
    expect(asked([assembly, { over: db(1), object: 'link' }], 2.5)).toMatchObject({ over: 1 });
    expect(asked([assembly, { over: db(2) }], 2.5)).toMatchObject({ over: 2 });
    expect(asked([assembly], 2.5)).toEqual({});
    expect(asked([], 2.5)).toEqual({});
    const tight = [{ over: db(1) }];
    expect(
      told('marginal-fail', [cell(1, 1.9, 'A>B', 500)], reject(...tight))[0]?.details,
    ).not.toHaveProperty('action');
    const dark = told('over-limit', [cell(1, 'dark', 'A>B', 500)], reject({ over: db(1) }))[0]
      ?.details;
    expect(dark).toMatchObject({ action: 'clean and retest', retests: 0 });
  });
});
