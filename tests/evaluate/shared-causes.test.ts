/**
 * One cause of several readings that cannot stand, told once: a wrong sign, a doubtful
 * reference, two set-ups for one reading. That each is told once and holds what was
 * taken with it is common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { suspicionsIn } from '../../server/src/evaluate/index.ts';
import type { ReadingCell, Withdrawal } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cell,
  cleaned,
  db,
  evaluate,
  evidence,
  link,
  nm,
  oneWay,
  place,
  settings,
  setup,
  when,
  withdrawn,
  worded,
} from '../support/build.ts';
import { doubt, judged, key, names, pathOver, references, told } from './short-link.ts';

describe('readings that cannot stand', () => {
  const unknown = (fibre: number, minute: number) => ({
    ...cell(fibre, 1, 'A>B', minute),
    setup: 'TWO',
  });

  it('for one cause are told once, on the first', () => {
    const readings = [unknown(1, 500), unknown(3, 501), unknown(2, 502)];
    expect(told('setup-unknown', readings)).toMatchObject([
      { place: readings[0]?.place, details: { readings: 3, fibres: '1..3' } },
    ]);
  });

  it('and were measured again, or taken back, are not told', () => {
    expect(names([unknown(1, 500), cell(1, 1, 'A>B', 600)])).toEqual([]);
    expect(names([cell(1, 1, 'A>B', 400), unknown(1, 600)])).toContain('setup-unknown');
    const withdrawals = withdrawn();
    expect(names([unknown(1, 500)], { also: { withdrawals } })).toEqual(['readings-missing']);
  });

  it('each for itself where the cause is its own', () => {
    const readings = [cell(1, 46, 'A>B', 500), cell(2, 46, 'A>B', 500)];
    const own = readings.map((one) => ({ ...one, place: { ...one.place, block: 9 } }));
    expect(
      told('loss-negative', [cell(1, -0.2, 'A>B', 500), cell(2, -0.2, 'A>B', 500)]).length,
    ).toBe(2);
    // An implausible loss is one of those that lie in the set-up, and told once.
    expect(told('unit-suspect', own).length).toBe(1);
  });

  it('because of work are told of the one that stands', () => {
    const work = cleaned(worded(700, 'ten'));
    const readings = [cell(1, 1, 'A>B', 500), cell(1, 1, 'A>B', 600)];
    const [stale, ...more] = told('stale-reading', readings, { also: { work } });
    expect(more).toEqual([]);
    expect(stale).toMatchObject({
      place: readings[1]?.place,
      details: { readings: 1, tested: 'minute 600' },
    });
    expect(names([...readings, cell(1, 1, 'A>B', 800)], { also: { work } })).not.toContain(
      'stale-reading',
    );
  });
});

describe('one cause of many readings', () => {
  const block = (readings: readonly ReadingCell[], number = 7) =>
    readings.map((one) => ({ ...one, place: { ...place(), block: number } }));
  const losses = (...values: readonly number[]) =>
    values.map((loss, index) => cell(index + 1, loss, 'A>B', 500));

  it('is the sign, where every loss of a block is below nothing', () => {
    const readings = block(losses(-1.1, -1.2, -1.3));
    expect(doubt('sign-suspect', readings)).toEqual({
      name: 'sign-suspect',
      place: readings[0]?.place,
      related: [],
      details: {
        ...key,
        loss: -1.1,
        readings: 3,
        because: 'every loss of this block is negative: it was written with the other sign',
        fibres: '1..3',
      },
    });
    expect(names(readings)).not.toContain('loss-negative');
    expect(names(block(losses(-1.1, -1.2)))).not.toContain('sign-suspect');
    expect(names(block(losses(-1.1, -1.2, 1.3)))).not.toContain('sign-suspect');
    expect(names(block(losses(-1.1, -1.2, -1.3, 0)))).not.toContain('sign-suspect');
    // Three of two blocks are no block; one that was taken back is none of it.
    const [one, two, three] = losses(-1.1, -1.2, -1.3) as [ReadingCell, ReadingCell, ReadingCell];
    expect(names([...block([one, two]), ...block([three], 8)])).not.toContain('sign-suspect');
    const withdrawals = withdrawn({ fibres: [3] });
    expect(names(readings, { also: { withdrawals } })).not.toContain('sign-suspect');
  });

  it('is no sign where the fibre has to lose more than nothing', () => {
    const elements = pathOver(2, 1000);
    const readings = block(losses(0.5, 0.6, 0.7));
    const found = names(readings, { using: setup({ reference: 'three-cord' }), elements });
    expect(found).toContain('loss-negative');
    expect(found).not.toContain('sign-suspect');
  });

  it('is an impossible reading, which holds what was taken with its reference', () => {
    const [bad, held] = [cell(1, -0.2, 'A>B', 505), cell(2, 1, 'A>B', 500)];
    const suspect = { ...bad, at: worded(505, 'five past') };
    expect(doubt('reference-suspect', [suspect, held])).toEqual({
      name: 'reference-suspect',
      place: held.place,
      related: [{ place: suspect.at.place, message: 'the impossible reading' }],
      details: {
        fibre: 2,
        wavelength: 850,
        direction: 'A>B',
        setup: 'ONE',
        suspect: 'five past',
        because:
          'a reading of five past with set-up ONE is impossible, and no check has passed since',
        readings: 1,
        fibres: '2',
      },
    });
    const other = { ...held, wavelength: nm(1300) };
    expect(names([suspect, other])).not.toContain('reference-suspect');
    const withdrawals = withdrawn({ fibres: [1] });
    expect(names([suspect, held], { also: { withdrawals } })).not.toContain('reference-suspect');
    const three = setup({ reference: 'three-cord' }, references);
    expect(names([{ ...suspect, loss: db(-0.4) }, held], { using: three })).not.toContain(
      'reference-suspect',
    );
  });

  it('may lie in another object', () => {
    const asked: string[] = [];
    const held = (wavelength: number) =>
      names([cell(1, 1, 'A>B', 500), cell(2, 1, 'A>B', 501)], {
        more: {
          suspected: (name) => {
            asked.push(name);
            return [{ wavelength: nm(wavelength), at: when(505) }];
          },
        },
      });
    expect(held(850)).toContain('reference-suspect');
    expect(held(1300)).not.toContain('reference-suspect');
    // Once for each object, not for each reading.
    expect(asked).toEqual(['ONE', 'ONE']);
  });

  it('is handed to other objects where it was taken with one cord, and not else', () => {
    const bad = cell(1, -0.2, 'A>B', 505);
    expect(suspicionsIn(judged([bad]).readings)).toEqual([
      { setup: 'ONE', wavelength: nm(850), at: bad.at },
    ]);
    expect(suspicionsIn(judged([cell(1, 1, 'A>B', 505)]).readings)).toEqual([]);
    expect(suspicionsIn(judged([cell(1, 46, 'A>B', 505)]).readings)).toEqual([]);
    const three = setup({ reference: 'three-cord' }, references);
    expect(suspicionsIn(judged([{ ...bad, loss: db(-0.4) }], { using: three }).readings)).toEqual(
      [],
    );
  });
});

describe('two set-ups that claim one reading', () => {
  const two = { ...setup({}, references), name: 'TWO' };
  const both = (
    times: readonly { from: number; to: number }[],
    setups: readonly [string, string] = ['ONE', 'TWO'],
    withdrawals: readonly Withdrawal[] = [],
  ) => {
    const readings = times.map((time, index) => ({
      ...cell(1, 1 + index / 100, 'A>B', time.from),
      at: { ...when(time.from, time.to), text: `minute ${time.from}` },
      setup: setups[index] ?? '',
    }));
    const using = setup({}, references);
    const result = evaluate(
      link(betweenPairs(100), oneWay, 1),
      evidence({ readings, withdrawals }),
      using,
      settings(),
      { setup: (name: string) => ({ ONE: using, TWO: two })[name] },
    );
    return {
      readings,
      told: result.doubts.filter((one) => one.name === 'set-ups-claim-one-reading'),
    };
  };
  const then = { from: 500, to: 500 };

  it('are both doubted, whichever is named first', () => {
    const { readings, told } = both([then, then]);
    expect(told).toEqual([
      {
        name: 'set-ups-claim-one-reading',
        place: readings[0]?.place,
        related: [{ place: readings[1]?.place, message: 'with TWO' }],
        details: {
          ...key,
          one: 'ONE',
          other: 'TWO',
          tested: 'minute 500',
          because: 'set-ups ONE and TWO both claim it',
          readings: 2,
          fibres: '1',
        },
      },
    ]);
    expect(both([then, then], ['TWO', 'ONE']).told[0]?.details).toMatchObject({
      one: 'ONE',
      other: 'TWO',
    });
  });

  it('are two readings where the times differ, are not known to a minute, or both were taken back', () => {
    expect(both([then, { from: 501, to: 501 }]).told).toEqual([]);
    expect(
      both([
        { from: 500, to: 510 },
        { from: 500, to: 510 },
      ]).told,
    ).toEqual([]);
    expect(both([then, { from: 500, to: 510 }]).told).toEqual([]);
    expect(both([then, then], ['ONE', 'ONE']).told).toEqual([]);
    const takenBack = (minute: number) => withdrawn({ tested: when(minute) });
    expect(both([then, then], undefined, takenBack(500)).told).toEqual([]);
    // One of another minute takes neither of them back.
    expect(both([then, then], undefined, takenBack(499)).told).toHaveLength(1);
  });
});
