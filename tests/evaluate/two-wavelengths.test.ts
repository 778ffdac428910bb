/**
 * Two wavelengths of a fibre beside each other: columns that were exchanged, and the
 * signatures of a bend and of a joint. Slopes are worked out by hand from the fibre's
 * attenuation; the bounds are common practice, no source, and stand in `doubts`.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type { FibreType } from '../../server/src/model/types.ts';
import { cell, db, fibre, limitsSet, nm, place } from '../support/build.ts';
import {
  type Asked,
  column,
  glass,
  many,
  pair,
  piece,
  rate,
  round,
  said,
  setupAt,
  told,
} from './columns.ts';

/** Single-mode fibre of 0.35 and 0.20 dB/km as a rule. */
const fine: FibreType = {
  ...fibre,
  name: 'FINE',
  mode: 'single-mode',
  core: nm(9_000),
  attenuation: [rate(1310, 0.35, 0.4), rate(1550, 0.2, 0.3)],
};

describe('two wavelengths of a fibre', () => {
  const terms = { measure: [nm(850), nm(1300)] };
  const two = (short: number, long: number) => [
    cell(1, short, 'A>B', 500),
    cell(1, long, 'A>B', 500, 1300),
  ];

  it('are the wrong way round on multimode where the longer loses more', () => {
    const readings = two(1, 1.3);
    expect(told('bend-or-swap-mm', readings, { terms })).toEqual([
      {
        name: 'bend-or-swap-mm',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the shorter wavelength' }],
        details: {
          fibre: 1,
          wavelength: 1300,
          direction: 'A>B',
          short: 850,
          long: 1300,
          lossShort: 1,
          lossLong: 1.3,
          difference: 0.3,
          bound: 0.1,
        },
      },
    ]);
    // Two readings of one set-up differ by 2 · √2 · 0.05 = 0.141421… dB.
    expect(said('bend-or-swap-mm', two(1, 1.141421), { terms })).toBe(false);
    expect(said('bend-or-swap-mm', two(1, 1.141422), { terms })).toBe(true);
    const bound = { terms, by: { doubts: { inversion: db(0.3) } } };
    expect(said('bend-or-swap-mm', two(1, 1.3), bound)).toBe(false);
    expect(said('bend-or-swap-mm', two(1, 1.300001), bound)).toBe(true);
  });

  it('are exchanged where a batch has about the slope of its fibre, the other way', () => {
    const table = (more: number, count = 4) => [
      ...column(many(count, 1)),
      ...column(many(count, 1 + more), 'A>B', 1300),
    ];
    const readings = table(1.5);
    // (2.5 − 0.6) dB/km over 1 km.
    expect(told('wavelengths-exchanged', readings, { terms })).toEqual([
      {
        name: 'wavelengths-exchanged',
        place: readings[4]?.place,
        related: [{ place: readings[0]?.place, message: 'the shorter wavelength' }],
        details: {
          short: 850,
          long: 1300,
          direction: 'A>B',
          fibres: '1..4',
          readings: 8,
          more: 1.5,
          slope: 1.9,
        },
      },
    ]);
    expect(said('bend-or-swap-mm', readings, { terms })).toBe(false);
    expect(said('wavelengths-exchanged', table(1.5, 3), { terms })).toBe(false);
    expect(said('wavelengths-exchanged', table(0.14), { terms })).toBe(false);
    expect(said('wavelengths-exchanged', table(0.15), { terms })).toBe(true);
    // At most 1.6 times the slope: 3.04 dB.
    expect(said('wavelengths-exchanged', table(3.03), { terms })).toBe(true);
    expect(said('wavelengths-exchanged', table(3.05), { terms })).toBe(false);
    // 0.5 dB/km more at the shorter, of which 1.6 times is 0.8 dB, in binary too.
    const even = [
      pair(),
      piece(1000, { ...glass, attenuation: [rate(850, 1, 3), rate(1300, 0.5, 3)] }),
      pair(),
    ];
    const told08 = (more: number) =>
      said('wavelengths-exchanged', table(more), { terms, elements: even });
    expect([told08(0.8), told08(0.800001)]).toEqual([true, false]);
    // Four of five have to say it; three of five are none of a kind.
    const but = (fewer: number) =>
      table(1.5, 5).map((one, at) =>
        at >= 10 - fewer ? cell(one.fibre, 0.9, 'A>B', 500, 1300) : one,
      );
    expect([but(1), but(2)].map((of) => said('wavelengths-exchanged', of, { terms }))).toEqual([
      true,
      false,
    ]);
    const back = readings.map((one, at) => (at < 4 ? one : { ...one, direction: 'B>A' as const }));
    expect(said('wavelengths-exchanged', back, { terms })).toBe(false);
  });

  it('are one question where they lie in one window', () => {
    const near = [cell(1, 1, 'A>B', 500, 1300), cell(1, 1.3, 'A>B', 500, 1310)];
    expect(said('bend-or-swap-mm', near, { terms: { measure: [nm(1300), nm(1310)] } })).toBe(false);
  });

  it('are exchanged by more than the batch scatters', () => {
    const table = (...more: readonly number[]) => [
      ...column(many(4, 1)),
      ...column(
        more.map((each) => 1 + each),
        'A>B',
        1300,
      ),
    ];
    // Both have 0.8 dB in the middle; three standard errors and 0.14 dB are 1.03 and 0.31 dB.
    const scattered = (...more: readonly number[]) =>
      said('wavelengths-exchanged', table(...more), { terms });
    expect(scattered(0.2, 0.6, 1, 1.4)).toBe(false);
    expect(scattered(0.7, 0.75, 0.85, 0.9)).toBe(true);
  });

  it('are held to the slope of all stretches, and to none where a length is not known', () => {
    const even = { ...glass, name: 'EVEN', attenuation: [rate(850, 1, 3), rate(1300, 0.5, 3)] };
    const readings = [...column(many(4, 1)), ...column(many(4, 2), 'A>B', 1300)];
    const path = [pair(), piece(500), pair(), piece(500, even), pair()];
    // 1.9 and 0.5 dB/km over half a kilometre each.
    expect(told('wavelengths-exchanged', readings, { terms, elements: path })).toMatchObject([
      { details: { slope: 1.2 } },
    ]);
    const { length: _, ...unknown } = piece(500) as { length?: number };
    const elements = [pair(), unknown as ReturnType<typeof piece>, pair()];
    expect(said('wavelengths-exchanged', readings, { terms, elements })).toBe(false);
  });

  it('that are exchanged say why a level does not fit, too', () => {
    const limits = [limitsSet('SET', 0.75, 3)];
    const readings = [...column(many(8, 0.6)), ...column(many(8, 2.6), 'A>B', 1300)];
    const level = (by: Asked['by']) =>
      ['batch-too-high', 'batch-too-low'].map((name) =>
        said(name, readings, { terms: { ...terms, limits }, by }),
      );
    expect(level({})).toEqual([false, false]);
    // Where the plan wants more fibres before it doubts the headings, the levels are told.
    expect(level({ doubts: { exchangedMates: 9 } })).toEqual([true, true]);
  });
});

describe('a long wavelength on single-mode', () => {
  const elements = [pair(), piece(10_000, fine), pair()];
  const asked: Asked = {
    elements,
    terms: { measure: [nm(1310), nm(1550)] },
    model: { mode: 'single-mode' },
  };
  const two = (short: number, long: number, number = 1) => [
    cell(number, short, 'A>B', 500, 1310),
    cell(number, long, 'A>B', 500, 1550),
  ];

  it('loses more than the slope of its fibre has it: a bend', () => {
    const readings = two(4, 3.2);
    // (0.35 − 0.20) · 10 km = 1.5 dB less was due; 0.2 dB and a fifth of 1.5 dB are left open.
    expect(told('bend-signature-sm', readings, asked)).toEqual([
      {
        name: 'bend-signature-sm',
        place: readings[1]?.place,
        related: [{ place: readings[0]?.place, message: 'the shorter wavelength' }],
        details: {
          fibre: 1,
          wavelength: 1550,
          direction: 'A>B',
          short: 1310,
          long: 1550,
          lossShort: 4,
          lossLong: 3.2,
          excess: 0.7,
          slope: 1.5,
          length: 10_000,
          bound: 0.5,
        },
      },
    ]);
    expect(said('bend-signature-sm', two(4, 3), asked)).toBe(false);
    expect(said('bend-signature-sm', two(4, 3.000001), asked)).toBe(true);
  });

  it('is held to the usual slope where the fibre says none, and to none at other wavelengths', () => {
    const silent: FibreType = { ...fine, attenuation: [] };
    const unsaid = { ...asked, elements: [pair(), piece(10_000, silent), pair()] };
    expect(told('bend-signature-sm', two(4, 3.2), unsaid)[0]?.details).toMatchObject({
      slope: 1.5,
      excess: 0.7,
    });
    const other = two(4, 9).map((one) =>
      one.wavelength === nm(1550) ? { ...one, wavelength: nm(1625) } : one,
    );
    const using = setupAt(850, 1300, 1310, 1550, 1625);
    expect(said('bend-signature-sm', other, { ...unsaid, using })).toBe(false);
  });

  it('stands out from its mates by what it has alone', () => {
    const mates = (share: number, own: number) =>
      many(8, (at) => (at === 7 ? own : share)).flatMap((excess, at) =>
        two(4, round(2.5 + excess, 6), at + 1),
      );
    // All exceed the slope by 0.4 dB, one by 0.5 dB more: 0.2 dB beyond the rest is a bend.
    expect(told('bend-signature-sm', mates(0.4, 0.9), asked)).toMatchObject([
      { details: { fibre: 8, excess: 0.9, bound: 0.2 } },
    ]);
    expect(said('bend-signature-sm', mates(0.4, 0.6), asked)).toBe(false);
    expect(said('bend-signature-sm', mates(0.4, 0.61), asked)).toBe(true);
    // A little that all share is no reason to doubt one; 0.13 dB of its own two readings show by chance.
    expect(said('bend-signature-sm', mates(0.1, 0.25), asked)).toBe(true);
    expect(said('bend-signature-sm', mates(0.1, 0.23), asked)).toBe(false);
    // What all of them have beyond what is left open is no slope of the cable.
    expect(told('bend-signature-sm', mates(0.6, 0.6), asked).length).toBe(8);
  });

  it('stands out from mates that lose less than the slope has it', () => {
    const among = (own: number) =>
      many(8, (at) => (at === 7 ? own : -0.3)).flatMap((excess, at) =>
        two(4, round(2.5 + excess, 6), at + 1),
      );
    expect(said('bend-signature-sm', among(0.2), asked)).toBe(false);
    expect(told('bend-signature-sm', among(0.200001), asked)).toMatchObject([
      { details: { fibre: 8, excess: 0.200001, bound: 0.2 } },
    ]);
  });

  it('has its mates in its own direction', () => {
    const forward = many(8, 0.4).flatMap((excess, at) => two(4, 2.5 + excess, at + 1));
    const back = two(4, 3.15).map((one) => ({ ...one, direction: 'B>A' as const }));
    // One of its direction is held to what the slope leaves open.
    expect(told('bend-signature-sm', [...forward, ...back], asked)).toMatchObject([
      { details: { fibre: 1, direction: 'B>A', excess: 0.65, bound: 0.5 } },
    ]);
  });

  it('is why it lies beyond its mates: that is not told as well', () => {
    const wide = [1310, 1550].map((wavelength) => ({
      fibre: 'FINE',
      wavelength: nm(wavelength),
      rate: ratePerKm(900_000),
      place: place(),
    }));
    const limits = [limitsSet('SET', 0.75, 1, { fibre: wide })];
    const mates = many(8, (at) => (at === 7 ? 0.9 : 0.4)).flatMap((excess, at) =>
      two(4, 2.5 + excess, at + 1),
    );
    const outliers = (by?: Asked['by']) =>
      told('pass-but-outlier', mates, { ...asked, terms: { ...asked.terms, limits }, by });
    expect(outliers()).toEqual([]);
    const bound = { doubts: { bend: db(1) } };
    expect(outliers(bound)).toMatchObject([{ details: { fibre: 8, wavelength: 1550 } }]);
  });

  it('is no bend of all fibres where the headings are exchanged', () => {
    // 1.5 dB more at 1550 nm, where the slope has it 1.5 dB less.
    const readings = many(4, 0).flatMap((_, at) => two(3, 4.5, at + 1));
    const found = (by?: Asked['by']) =>
      ['wavelengths-exchanged', 'bend-signature-sm'].map(
        (name) => told(name, readings, { ...asked, by }).length,
      );
    expect(found()).toEqual([1, 0]);
    expect(found({ doubts: { exchangedMates: 5 } })).toEqual([0, 4]);
  });

  it('is told of the worst of several, of two alike the first', () => {
    const three: FibreType = { ...fine, attenuation: [...fine.attenuation, rate(1625, 0.22, 0.3)] };
    const worst = (at1550: number, at1625: number) =>
      told('bend-signature-sm', [...two(4, at1550), cell(1, at1625, 'A>B', 500, 1625)], {
        elements: [pair(), piece(10_000, three), pair()],
        terms: { measure: [nm(1310), nm(1550), nm(1625)] },
        model: { mode: 'single-mode' },
        using: setupAt(1310, 1550, 1625),
      }).map(({ details }) => [details.long, details.excess]);
    // 1.5 and (0.35 − 0.22) · 10 km = 1.3 dB less were due.
    expect(worst(3.2, 3.5)).toEqual([[1625, 0.8]]);
    expect(worst(3.3, 3.4)).toEqual([[1550, 0.8]]);
    expect(worst(3.2, 3.4)).toEqual([[1550, 0.7]]);
  });

  it('loses as much more as the shorter: a joint', () => {
    const readings = two(4.5, 3);
    // As a rule 3.5 + 0.6 and 2.0 + 0.6 dB.
    expect(told('joint-signature', readings, asked)).toEqual([
      {
        name: 'joint-signature',
        place: readings[0]?.place,
        related: [{ place: readings[1]?.place, message: 'the longer wavelength' }],
        details: {
          fibre: 1,
          wavelength: 1550,
          direction: 'A>B',
          short: 1310,
          long: 1550,
          lossShort: 4.5,
          lossLong: 3,
          excess: 0,
          slope: 1.5,
          length: 10_000,
          residual: 0.4,
          residualLong: 0.4,
        },
      },
    ]);
    expect(said('joint-signature', two(4.4, 2.9), asked)).toBe(false);
    expect(said('joint-signature', two(4.400001, 2.900001), asked)).toBe(true);
    expect(said('joint-signature', two(4.400001, 2.9), asked)).toBe(false);
    // Alike within 0.141421… dB.
    expect(said('joint-signature', two(4.5, 3.141421), asked)).toBe(true);
    expect(said('joint-signature', two(4.5, 3.141422), asked)).toBe(false);
    expect(said('joint-signature', two(4.641422, 3), asked)).toBe(false);
  });

  it('says nothing of other fibre', () => {
    expect(said('bend-signature-sm', two(4, 3.2), { ...asked, model: { mode: 'plastic' } })).toBe(
      false,
    );
    expect(said('bend-signature-sm', two(4, 3.2), { ...asked, model: { mode: undefined } })).toBe(
      false,
    );
  });
});
