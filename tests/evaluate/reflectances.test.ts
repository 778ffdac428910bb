/**
 * Reflectances of the connectors at a link's ends, whole: more return loss is better,
 * and a return loss is a reflectance without its sign (IEC 61300-3-6).
 */
import { describe, expect, it } from 'vitest';
import type { Evidence, PathElement, ReadingCell } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cell,
  cleaned,
  connector,
  db,
  limitsSet,
  mated,
  place,
  stretch,
  when,
  withdrawn,
  worded,
} from '../support/build.ts';
import { judged } from './quiet-link.ts';

describe('reflectance at the end of a fibre', () => {
  const set = limitsSet('SET', 0.75, 3, {
    returnLoss: [{ connector: 'PAIR', min: db(45), place: place() }],
  });
  const reading = (value: number | undefined, more: Partial<ReadingCell> = {}): ReadingCell => ({
    ...cell(1, 1, 'A>B', 500),
    quantity: 'reflectance',
    loss: undefined,
    ...(value !== undefined && { reflectance: db(value) }),
    ...more,
  });
  const of = (
    readings: readonly ReadingCell[],
    limits = [set],
    also: Partial<Evidence> = {},
    elements = betweenPairs(100),
  ) => judged({ readings, ...also }, { terms: { limits }, elements });
  const first = (...asked: Parameters<typeof of>) => {
    const { verdict, because, reason, margin } = of(...asked).reflectances[0] ?? {};
    return [verdict, because, reason, margin === undefined ? undefined : Number(margin) / 1e15];
  };

  it('is held to the return loss that is asked, exactly', () => {
    expect(first([reading(-48)])).toEqual([
      'pass',
      'return loss 48.00 dB of 45.00 dB at least, at end A',
      undefined,
      3,
    ]);
    expect(first([reading(-45)])[0]).toBe('pass');
    expect(first([reading(-44.999999)])[0]).toBe('fail');
    const low = reading(-44, { direction: 'B>A' });
    expect(of([low]).doubts.filter(({ name }) => name === 'return-loss-low')).toEqual([
      {
        name: 'return-loss-low',
        place: low.place,
        details: {
          fibre: 1,
          wavelength: 850,
          direction: 'B>A',
          value: -44,
          because: 'return loss 44.00 dB of 45.00 dB at least, at end B',
          part: 'the connector at end B',
          limit: 45,
          limitName: 'SET',
          over: 1,
        },
      },
    ]);
  });

  it('is void or not judged, and says why', () => {
    expect(first([reading(48)])).toEqual([
      'invalid',
      'a reflectance is negative: 48.00 dB is a return loss, and is written as −48.00 dB',
      'reflectance-positive',
      undefined,
    ]);
    expect(first([reading(-48, { setup: '' })]).slice(0, 3)).toEqual([
      'invalid',
      'no set-up is named',
      'setup-unknown',
    ]);
    expect(first([reading(-48, { setup: 'TWO' })])[1]).toBe('there is no set-up TWO');
    expect(first([reading(undefined)]).slice(0, 3)).toEqual([
      'not-judged',
      'no value could be read',
      'value-missing',
    ]);
    const { direction: _, ...aimless } = reading(-48);
    expect(first([aimless as ReadingCell]).slice(0, 3)).toEqual([
      'not-judged',
      'which end it is of is not said',
      'no-direction',
    ]);
    expect(first([reading(-48)], [])).toEqual([
      'not-judged',
      'no return loss is asked of pair PAIR at end A',
      'no-limit',
      undefined,
    ]);
    expect(first([reading(-48)], [set], {}, [stretch(10), mated()])[1]).toBe(
      'no connector stands at end A',
    );
    expect(first([reading(-48)], [set], { work: cleaned(worded(600, 'ten')) }).slice(0, 3)).toEqual(
      ['stale', 'cleaned on ten, after it was measured', 'work'],
    );
    expect(first([reading(0)])[0]).toBe('fail');
  });

  it('is asked of a plug at the end as of a pair there', () => {
    const plug: PathElement = { kind: 'plug', name: 'PAIR', type: connector, place: place() };
    const ends = [plug, stretch(100), plug];
    expect(first([reading(-44)], [set], {}, ends).slice(0, 2)).toEqual([
      'fail',
      'return loss 44.00 dB of 45.00 dB at least, at end A',
    ]);
    expect(first([reading(-48, { direction: 'B>A' })], [], {}, ends)[1]).toBe(
      'no return loss is asked of plug PAIR at end B',
    );
    // Bare glass at one end leaves the other end its own.
    expect(first([reading(-44, { direction: 'B>A' })], [set], {}, [stretch(10), plug])[0]).toBe(
      'fail',
    );
  });

  it('stands as the last that is good', () => {
    const stands = (readings: readonly ReadingCell[], also: Partial<Evidence> = {}) =>
      of(readings, [set], also).reflectances.map(
        ({ current, attempt }) => `${attempt}${current ? ' stands' : ''}`,
      );
    const later = { at: when(600) };
    expect(stands([reading(-48), reading(-50, later)])).toEqual(['1', '2 stands']);
    expect(stands([reading(-50, later), reading(-48)])).toEqual(['2 stands', '1']);
    expect(stands([reading(-48), reading(50, later)])).toEqual(['1 stands', '2']);
    expect(stands([reading(48), reading(50, later)])).toEqual(['1', '2 stands']);
    const withdrawals = withdrawn({ tested: when(600) });
    expect(stands([reading(-48), reading(-50, later)], { withdrawals })).toEqual(['1 stands', '2']);
    expect(of([reading(-50, later)], [set], { withdrawals }).reflectances[0]).toMatchObject({
      verdict: 'invalid',
      because: 'withdrawn by R. Vale: slip',
      reason: 'withdrawn',
      current: false,
    });
  });
});
