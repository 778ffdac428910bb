/**
 * An instrument past its due date is told once for all that was read with it: a
 * calibration holds until its date, common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import type { Setup } from '../../server/src/model/types.ts';
import { cell, dbm, place, setup, when } from '../support/build.ts';
import { told } from './short-link.ts';

describe('an instrument past its due date', () => {
  const due = { ...when(0, 499), text: 'yesterday' };
  const with_ = (source: boolean, meter: boolean): Setup => {
    const using = setup();
    const late = (text: string) => ({
      text,
      wavelengths: [],
      floor: dbm(-60),
      due,
      place: place(),
    });
    return {
      ...using,
      ...(source && { source: late('S-3') }),
      ...(meter && { meter: late('M-5') }),
    };
  };

  it('is told once for all that was read with it', () => {
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 1, 'A>B', 501)];
    const using = with_(true, true);
    expect(told('calibration-expired', readings, { using })).toEqual(
      [using.source, using.meter].map((instrument) => ({
        name: 'calibration-expired',
        place: readings[0]?.place,
        related: [{ place: instrument?.place, message: `${instrument?.text}, due yesterday` }],
        details: {
          setup: 'ONE',
          instrument: instrument?.text,
          due: 'yesterday',
          tested: 'minute 500',
          readings: 2,
        },
      })),
    );
    const spans = { ...cell(1, 1, 'A>B', 490), at: { ...when(490, 499), text: 'then' } };
    expect(told('calibration-expired', [spans], { using })).toEqual([]);
    expect(
      told('calibration-expired', [{ ...spans, at: { ...when(490, 500), text: 'then' } }], {
        using,
      }).length,
    ).toBe(2);
    // One of the future has a wrong year, and no calibration for it.
    expect(told('calibration-expired', readings, { using, more: { asOf: 499 } })).toEqual([]);
  });
});
