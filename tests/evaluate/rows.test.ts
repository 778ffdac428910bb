/**
 * Rows of an application by themselves: all terms of a row hold at once or the
 * row does not (tables of IEEE 802.3 are rows of this kind, from memory). Whole
 * links stand in tests/published/trunk.test.ts; figures here are ours.
 */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import type { Piece } from '../../server/src/evaluate/path.ts';
import {
  brokenTerms,
  lengthInWords,
  limitingRow,
  rowInWords,
  usableRows,
} from '../../server/src/evaluate/rows.ts';
import type { ApplicationRow, FibreType } from '../../server/src/model/types.ts';
import { application, db, fibre, metres, place } from '../support/build.ts';

const row = (
  reach?: number,
  loss?: number,
  more: Partial<ApplicationRow> = {},
): ApplicationRow => ({
  fibre: 'GLASS',
  reach: reach === undefined ? undefined : metres(reach),
  loss: loss === undefined ? undefined : db(loss),
  place: place(),
  ...more,
});
const dB = (value: number) => exactDb(db(value));

describe('the row that gives the limit', () => {
  const [near, far, open] = [row(100, 1.9), row(400, 2.9), row(undefined, 1.5)];

  it('is the most generous of those that reach', () => {
    expect(limitingRow([near, far], metres(80))).toBe(far);
    expect(limitingRow([far, near], metres(80))).toBe(far);
    expect(limitingRow([row(100, 3.1), far], metres(100))).toMatchObject({ loss: db(3.1) });
    expect(limitingRow([row(100, 3.1), far], metres(100.000001))).toBe(far);
    expect(limitingRow([near, open], metres(101))).toBe(open);
    // One that says no reach reaches everywhere.
    const generous = row(undefined, 3.5);
    expect(limitingRow([far, generous], metres(80))).toBe(generous);
    expect(limitingRow([row(400, 1.2), open], metres(80))).toBe(open);
  });

  it('of equals is the first', () => {
    const same = row(400, 2.9);
    expect(limitingRow([far, same], metres(80))).toBe(far);
    expect(limitingRow([far, same], metres(500))).toBe(far);
  });

  it('is that of longest reach where none reaches, and of equal reach the more generous', () => {
    expect(limitingRow([near, far], metres(500))).toBe(far);
    expect(limitingRow([far, near], metres(500))).toBe(far);
    // Never the softer limit of a shorter reach.
    expect(limitingRow([row(100, 9), far], metres(500))).toBe(far);
    expect(limitingRow([row(400, 2), far], metres(500))).toBe(far);
    expect(limitingRow([far, row(400, 2)], metres(500))).toBe(far);
  });

  it('where the length is not known is that of longest reach, or without an end', () => {
    expect(limitingRow([near, far], undefined)).toBe(far);
    expect(limitingRow([far, open], undefined)).toBe(open);
    expect(limitingRow([open, far], undefined)).toBe(open);
    // Of two without an end the more generous, as of two of one reach.
    const softer = row(undefined, 1.8);
    expect(limitingRow([open, softer], undefined)).toBe(softer);
    expect(limitingRow([softer, open], undefined)).toBe(softer);
  });

  it('needs a loss', () => {
    expect(limitingRow([row(400), near], metres(80))).toBe(near);
    expect(limitingRow([row(400)], metres(80))).toBeUndefined();
    expect(limitingRow([], metres(80))).toBeUndefined();
  });
});

describe('what breaks a row', () => {
  const whole = row(400, 2.9, { connections: db(1.5), min: db(0.5) });
  const good = { length: metres(400), loss: dB(2.9), connections: dB(1.5), least: dB(0.5) };

  it('is nothing at exactly its terms', () => {
    expect(brokenTerms(whole, good)).toEqual([]);
  });

  it.each([
    [{ length: metres(400.000001) }, ['reach']],
    [{ loss: dB(2.900001) }, ['loss']],
    [{ connections: dB(1.500001) }, ['connections']],
    [{ least: dB(0.499999) }, ['least loss']],
    [{ length: undefined }, ['reach']],
    [{ loss: undefined }, ['loss']],
    [{ connections: undefined }, ['connections']],
    [{ least: undefined }, ['least loss']],
  ] as const)('%o breaks it', (more, terms) => {
    expect(brokenTerms(whole, { ...good, ...more })).toEqual(terms);
  });

  it('is never a term that the row does not have', () => {
    expect(brokenTerms(row(), {})).toEqual([]);
    expect(brokenTerms(whole, {})).toEqual(['reach', 'loss', 'connections', 'least loss']);
  });
});

describe('a row that may be used', () => {
  const better: FibreType = { ...fibre, name: 'BETTER', meets: ['GLASS'] };
  const piece = (type: FibreType, name = type.name): Piece => ({
    kind: 'fibre',
    name,
    type,
    length: metres(10),
    along: metres(10),
    cord: false,
    place: place(),
  });
  const service = {
    ...application([]),
    rows: [row(300, 2.6), row(400, 2.9, { fibre: 'BETTER' })],
  };
  const usable = (...pieces: Piece[]) => usableRows(service, pieces).map((one) => one.fibre);

  it('is one that every fibre is or meets, the path’s own before others', () => {
    expect(usable(piece(fibre))).toEqual(['GLASS']);
    expect(usable(piece(better))).toEqual(['BETTER', 'GLASS']);
    expect(usable(piece(better), piece(fibre))).toEqual(['GLASS']);
    expect(usable(piece({ ...fibre, name: 'OTHER' }))).toEqual([]);
    expect(usable()).toEqual([]);
  });
});

describe('words of a row', () => {
  it('are its fibre, reach and loss, as far as it has them', () => {
    expect(rowInWords(row(400, 2.9))).toBe('GLASS, 400 m, 2.9 dB');
    expect(rowInWords(row(10_000))).toBe('GLASS, 10 km');
    expect(rowInWords(row(undefined, 2.9))).toBe('GLASS, 2.9 dB');
  });

  it('say kilometres from one kilometre on', () => {
    expect([999.5, 1000, 1234.567].map((length) => lengthInWords(metres(length)))).toEqual([
      '999.5 m',
      '1 km',
      '1.234567 km',
    ]);
  });
});
