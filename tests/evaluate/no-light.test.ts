/**
 * What a reading without light says: a fail where the set-up would have seen what is
 * allowed, and nothing without a floor or a limit. That a loss is more than reference
 * less floor of the meter is arithmetic.
 */
import { describe, expect, it } from 'vitest';
import { cell, cleaned, db, dbm, place, setup, when, worded } from '../support/build.ts';
import { doubt, first } from './short-link.ts';

describe('no light', () => {
  const dark = [cell(1, 'dark', 'A>B', 500)];
  const meter = (floor: number | undefined) =>
    setup({
      meter: {
        text: 'M',
        wavelengths: [],
        ...(floor !== undefined && { floor: dbm(floor) }),
        place: place(),
      },
    });

  it('fails where the set-up would have seen what is allowed', () => {
    expect(first(dark, { using: meter(-60) })).toEqual({
      verdict: 'fail',
      because: 'no light: the loss is more than 40.00 dB',
      reason: 'dark',
      loss: undefined,
      lossBound: db(40),
      margin: undefined,
    });
    expect(first(dark, { using: meter(-21.800001) }).verdict).toBe('fail');
    expect(first(dark, { using: meter(-21.8) })).toMatchObject({
      verdict: 'not-judged',
      because: 'no light, but the set-up sees no more than 1.80 dB',
      reason: 'dark-within-limit',
    });
  });

  it('says nothing without a floor or a limit', () => {
    expect(first(dark, { using: meter(undefined) })).toEqual({
      verdict: 'not-judged',
      because: 'no light, and the meter of set-up ONE has no floor: how much is lost is not known',
      reason: 'meter-floor-missing',
      loss: undefined,
      lossBound: undefined,
      margin: undefined,
    });
    const bare = { limits: [] };
    expect(first(dark, { using: meter(-60), terms: bare })).toMatchObject({
      verdict: 'not-judged',
      because: 'there is no limit at 850 nm for it',
      reason: 'no-limit',
      lossBound: db(40),
    });
    expect(first([cell(1, 1, 'A>B', 500)], { using: meter(-60), terms: bare })).toMatchObject({
      verdict: 'not-judged',
      because: 'there is no limit at 850 nm for it',
    });
  });

  it('ages like any other reading', () => {
    const work = cleaned(worded(600, 'ten'));
    for (const floor of [-60, -21.8, undefined]) {
      expect(first(dark, { using: meter(floor), also: { work } })).toMatchObject({
        verdict: 'stale',
        because: 'cleaned on ten, after it was measured',
        reason: 'work',
      });
    }
    const told = doubt('stale-reading', dark, { using: meter(-60), also: { work } });
    expect(told).toMatchObject({
      related: [{ place: work[0]?.place, message: 'cleaned on ten' }],
      details: { done: 'cleaned', on: 'ten', tested: 'minute 500', timed: 1 },
    });
    const dated = cleaned({ ...when(0, 1439), text: 'that day' });
    expect(
      doubt('stale-reading', dark, { using: meter(-60), also: { work: dated } })?.details,
    ).toMatchObject({
      on: 'that day',
      timed: 0,
    });
  });
});
