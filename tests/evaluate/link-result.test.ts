/**
 * The result of a link: counts, verdict, worst margin, order of its readings, length;
 * each worked out by hand from the limit of 1.8 dB (TIA-568.3-E) and the uncertainty
 * of `short-link.ts`.
 */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import type { PathElement } from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cell,
  cleaned,
  db,
  mated,
  metres,
  nm,
  place,
  stretch,
  when,
  withdrawn,
} from '../support/build.ts';
import { judged } from './short-link.ts';

describe('the sum of a link', () => {
  it('counts what stands, and names the worst margin', () => {
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 1.7, 'A>B', 500), cell(3, 1.5, 'A>B', 500)];
    const result = judged(readings, { fibres: 4 });
    expect(result.counts).toMatchObject({ pass: 2, 'marginal-pass': 1, untested: 1, fail: 0 });
    expect(result).toMatchObject({ expected: 4, present: 3, verdict: 'untested', accepted: false });
    expect([result.worstMargin?.margin, result.worstMargin?.reading.fibre]).toEqual([
      exactDb(db(0.1)),
      2,
    ]);
    expect(result.length).toBe(metres(100));
    expect(result.fibres.map(({ verdict }) => verdict)).toEqual([
      'pass',
      'marginal-pass',
      'pass',
      'untested',
    ]);
  });

  it('names the first of two margins that are alike', () => {
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 1.7, 'A>B', 500), cell(3, 1.7, 'A>B', 500)];
    expect(judged(readings, { fibres: 3 }).worstMargin?.reading.fibre).toBe(2);
  });

  it('sets aside what does not stand for it', () => {
    const work = cleaned(when(600), { fibres: [2] });
    const readings = [cell(1, 1, 'A>B', 500), cell(2, 1.79, 'A>B', 500)];
    expect(judged(readings, { also: { work } }).worstMargin?.reading.fibre).toBe(1);
    const concessions = [
      {
        object: 'KQ-1',
        accepted: db(3),
        because: 'spare',
        by: 'M. Ashdown',
        fibres: [2],
        place: place(),
      },
    ];
    const over = [cell(1, 1, 'A>B', 500), cell(2, 2.5, 'A>B', 500)];
    const conceded = judged(over, { also: { concessions } });
    expect([conceded.worstMargin?.reading.fibre, conceded.verdict, conceded.accepted]).toEqual([
      1,
      'conceded',
      true,
    ]);
    expect(conceded.doubts).toMatchObject([
      {
        name: 'excess-conceded',
        details: {
          loss: 2.5,
          over: 0.7,
          because: 'fail by 0.70 dB; up to 3.00 dB accepted by M. Ashdown: spare',
        },
      },
    ]);
  });

  it('keeps what was withdrawn in sight', () => {
    const withdrawals = withdrawn({ because: 'wrong cord' });
    const [reading, missing] = judged([cell(1, 1, 'A>B', 500)], { also: { withdrawals } }).readings;
    expect(reading).toMatchObject({
      verdict: 'invalid',
      because: 'withdrawn by R. Vale: wrong cord',
      reason: 'withdrawn',
      current: false,
    });
    expect(missing).toMatchObject({ verdict: 'untested', attempt: null });
  });

  it('lists readings in order of the text, and those of a fibre by light and direction', () => {
    const readings = [
      cell(1, 1, 'B>A', 500),
      cell(1, 1.1, 'A>B', 495),
      cell(1, 0.9, 'A>B', 500, 1300),
      cell(1, 1.2, 'A>B', 490),
    ];
    const terms = {
      measure: [nm(850), nm(1300)],
      directions: { wanted: ['A>B' as const, 'B>A' as const], average: false },
    };
    const result = judged(readings, { terms });
    expect(result.readings.map(({ loss }) => (loss ?? 0) / 1e6)).toEqual([1, 1.1, 0.9, 1.2, 0]);
    expect(
      result.fibres[0]?.current.map(({ wavelength, direction, verdict }) => [
        wavelength,
        direction,
        verdict,
      ]),
    ).toEqual([
      [nm(850), 'A>B', 'pass'],
      [nm(850), 'B>A', 'pass'],
      [nm(1300), 'A>B', 'pass'],
      [nm(1300), 'B>A', 'untested'],
    ]);
    expect(result.readings.map(({ attempt }) => attempt)).toEqual([1, 2, 1, 1, null]);
  });

  it('has no length where a stretch is unknown', () => {
    const unknown = { ...stretch(0), deliberate: true } as PathElement;
    expect(
      judged([], { elements: [...betweenPairs(100), unknown, mated()] }).length,
    ).toBeUndefined();
  });
});
