/**
 * Concessions by themselves: which fail they cover, and what spends them. A
 * limit of 1.8 dB, 3.0·0.1 + 2·0.75, with U 0.15. Common practice of acceptance,
 * no source; a whole day stands in tests/published/bad-day.test.ts.
 */
import { describe, expect, it } from 'vitest';
import type {
  Concession,
  Evidence,
  PlanSettings,
  ReadingCell,
} from '../../server/src/model/types.ts';
import {
  cell,
  db,
  evaluate,
  evidence,
  link,
  mated,
  nm,
  oneWay,
  place,
  settings,
  setup,
  stretch,
  when,
} from '../support/build.ts';

const concession = (more: Partial<Concession> = {}): Concession => ({
  object: 'KQ-1',
  accepted: db(2.5),
  because: 'booked',
  by: 'M. Ashdown',
  on: when(600),
  place: place(),
  ...more,
});

const judged = (
  readings: readonly ReadingCell[],
  concessions: readonly Concession[],
  by?: PlanSettings,
  asOf = 1_000_000,
  more: Partial<Evidence> = {},
) =>
  evaluate(
    link([mated(), stretch(100), mated()], oneWay, 1),
    evidence({ readings, concessions, ...more }),
    setup(),
    by,
    { asOf },
  );
const standing = (...asked: Parameters<typeof judged>) =>
  judged(...asked).readings.find((one) => one.current);
const verdict = (...asked: Parameters<typeof judged>) => standing(...asked)?.verdict;
const read = (loss: number, minute: number) => cell(1, loss, 'A>B', minute);

describe('a concession', () => {
  it('covers a fail up to what it accepts, and says by how much it fails', () => {
    const found = standing([read(2.5, 500)], [concession()]);
    expect(found).toMatchObject({ verdict: 'conceded', reason: 'fail' });
    expect(found?.because).toBe('fail by 0.70 dB; up to 2.50 dB accepted by M. Ashdown: booked');
    expect(verdict([read(2.500001, 500)], [concession()])).toBe('fail');
    expect(standing([read(1.9, 500)], [concession()])?.because).toBe(
      'marginal-fail by 0.10 dB; up to 2.50 dB accepted by M. Ashdown: booked',
    );
    expect(judged([read(2.5, 500)], [concession()]).accepted).toBe(true);
  });

  it('leaves what does not fail, and what is not a value', () => {
    expect(verdict([read(1.6, 500)], [concession()])).toBe('pass');
    expect(verdict([read(1.7, 500)], [concession()])).toBe('marginal-pass');
    const dark = { ...cell(1, 'dark', 'A>B', 500) };
    expect(verdict([dark], [concession({ accepted: db(90) })])).toBe('fail');
    expect(verdict([], [concession()])).toBe('untested');
  });

  it('covers what a guarded decision refuses inside the limit', () => {
    const guarded = settings({ decision: { rule: 'guarded-acceptance', accepting: 'none' } });
    expect(standing([read(1.7, 500)], [concession()], guarded)?.because).toBe(
      'fail, inside the limit by less than the uncertainty of 0.15 dB; up to 2.50 dB accepted by M. Ashdown: booked',
    );
    // At the limit nothing is over it.
    expect(standing([read(1.8, 500)], [concession()], guarded)?.because).toBe(
      'fail, inside the limit by less than the uncertainty of 0.15 dB; up to 2.50 dB accepted by M. Ashdown: booked',
    );
    expect(verdict([read(1.65, 500)], [concession()], guarded)).toBe('pass');
  });

  it('holds as far as it is narrowed, and until its day', () => {
    const covered = (more: Partial<Concession>, asOf?: number) =>
      verdict([read(2.2, 500)], [concession(more)], undefined, asOf);
    expect(covered({ fibres: [1] })).toBe('conceded');
    expect(covered({ fibres: [2] })).toBe('fail');
    expect(covered({ wavelength: nm(1300) })).toBe('fail');
    expect(covered({ direction: 'B>A' })).toBe('fail');
    expect(covered({ until: when(700) }, 700)).toBe('conceded');
    expect(covered({ until: when(700) }, 701)).toBe('fail');
  });

  it('that does not cover leaves the next its turn', () => {
    const found = standing(
      [read(2.2, 500)],
      [concession({ accepted: db(2) }), concession({ by: 'E. Thorne' })],
    );
    expect(found?.because).toContain('accepted by E. Thorne');
  });

  it('that has ended is told where it would have been enough, and the first of two', () => {
    const short = (...of: readonly Concession[]) =>
      judged([read(2.2, 500)], of, undefined, 900).doubts.flatMap(({ name, details }) =>
        name === 'over-limit' ? [[details.accepted, details.acceptedBy, details.ended]] : [],
      );
    const ended = { until: when(700) };
    const enough = short(concession(ended));
    expect(enough).toEqual([[2.5, 'M. Ashdown', 'minute 700']]);
    // One that was too small as well says nothing; one that holds and is too small says more.
    expect(short(concession({ ...ended, accepted: db(2) }))).toEqual([
      [undefined, undefined, undefined],
    ]);
    expect(short(concession(ended), concession({ ...ended, by: 'E. Thorne' }))).toEqual(enough);
    expect(short(concession(ended), concession({ accepted: db(2) }))).toEqual([
      [2, 'M. Ashdown', undefined],
    ]);
  });

  it('is spent by the first pass after it, and not by one before it', () => {
    const fails = [read(2.2, 500), read(2.3, 800)];
    expect(verdict(fails, [concession()])).toBe('conceded');
    expect(verdict([...fails, read(1.2, 700)], [concession()])).toBe('fail');
    expect(verdict([...fails, read(1.2, 601)], [concession()])).toBe('fail');
    expect(verdict([read(1.2, 490), ...fails], [concession()])).toBe('conceded');
    // A marginal pass is a pass.
    expect(verdict([...fails, read(1.7, 700)], [concession()])).toBe('fail');
    expect(verdict([...fails, read(1.9, 700)], [concession()])).toBe('conceded');
    const spent = judged([...fails, read(1.2, 700)], [concession()]).doubts;
    const said = spent.find(({ name }) => name === 'concession-spent');
    expect(said?.details).toMatchObject({
      loss: 2.3,
      accepted: 2.5,
      passed: 'minute 700',
      by: 'M. Ashdown',
    });
    expect(said?.related?.map(({ message }) => message)).toEqual([
      'the concession',
      'the pass that spent it',
    ]);
  });

  it('of a day is spent by a pass of that day that came after the fail it was for', () => {
    const day = concession({ on: when(0, 1439) });
    expect(verdict([read(2.2, 500), read(1.2, 700), read(2.3, 800)], [day])).toBe('fail');
    expect(verdict([read(1.2, 490), read(2.2, 500)], [day])).toBe('conceded');
    expect(
      verdict(
        [read(2.2, 500), read(1.2, 700), read(2.3, 800)],
        [concession({ on: when(701, 1439) })],
      ),
    ).toBe('conceded');
    expect(
      verdict(
        [read(2.2, 500), read(1.2, 700), read(2.3, 800)],
        [concession({ on: when(700, 1439) })],
      ),
    ).toBe('fail');
  });

  it('without a day is spent by any pass after the fail', () => {
    const open = concession({ on: undefined });
    expect(verdict([read(2.2, 500), read(1.2, 700), read(2.3, 800)], [open])).toBe('fail');
    expect(verdict([read(1.2, 490), read(2.2, 500)], [open])).toBe('conceded');
  });

  it('made beforehand is spent by a pass after it, though none had failed, and not by one of its minute', () => {
    expect(verdict([read(1.2, 700), read(2.3, 800)], [concession()])).toBe('fail');
    expect(verdict([read(1.2, 600), read(2.3, 800)], [concession()])).toBe('conceded');
  });

  it('is not called for by what a guarded decision refuses inside the limit', () => {
    const guarded = settings({ decision: { rule: 'guarded-acceptance', accepting: 'none' } });
    const day = concession({ on: when(0, 1439) });
    const readings = [read(1.8, 500), read(1.2, 700), read(2.3, 800)];
    expect(verdict(readings, [day], guarded)).toBe('conceded');
    expect(verdict([read(1.800001, 500), ...readings.slice(1)], [day], guarded)).toBe('fail');
    // At exactly the limit nothing is over it.
    expect(standing([read(1.8, 500)], [concession()], guarded)?.because).toContain(
      'fail, inside the limit',
    );
  });

  it('is spent by a pass that work has aged since, and by no other aged reading', () => {
    const work = [{ object: 'KQ-1', done: 'cleaned', on: when(750), place: place() }];
    const after = (loss: number) =>
      verdict(
        [read(2.2, 500), read(loss, 700), read(2.3, 800)],
        [concession()],
        undefined,
        1_000_000,
        { work },
      );
    expect([1.2, 1.8, 1.800001, 1.9].map(after)).toEqual(['fail', 'fail', 'conceded', 'conceded']);
  });

  it('is not spent by a pass that was withdrawn', () => {
    const withdrawals = [
      {
        object: 'KQ-1',
        tested: when(700),
        because: 'wrong port',
        by: 'R. Vale',
        place: place(),
      },
    ];
    const readings = [read(2.2, 500), read(1.2, 700), read(2.3, 800)];
    expect(verdict(readings, [concession()], undefined, 1_000_000, { withdrawals })).toBe(
      'conceded',
    );
  });

  it('leaves the attempts before as they were', () => {
    const { readings } = judged([read(2.6, 500), read(2.3, 800)], [concession()]);
    expect(readings.map((one) => [one.attempt, one.verdict])).toEqual([
      [1, 'fail'],
      [2, 'conceded'],
    ]);
  });

  it('of an average is of the mean of both directions', () => {
    const mean = (there: number, back: number) =>
      evaluate(
        link(
          [mated(), stretch(100), mated()],
          { directions: { wanted: ['A>B', 'B>A'], average: true } },
          1,
        ),
        evidence({
          readings: [cell(1, there, 'A>B', 500), cell(1, back, 'B>A', 500)],
          concessions: [concession()],
        }),
      ).readings.map((one) => one.verdict);
    expect(mean(2.2, 2.8)).toEqual(['conceded', 'conceded']);
    expect(mean(2.2, 2.800001)).toEqual(['fail', 'fail']);
  });
});
