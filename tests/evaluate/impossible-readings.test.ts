/**
 * A reading that cannot be, whole: no set-up, no such date, powers that contradict it,
 * a loss beyond any test or below what its path has to lose. That nothing can be lost
 * less than nothing is arithmetic; the other bounds are common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import type {
  FibreType,
  PathElement,
  ReadingCell,
  TestCord,
} from '../../server/src/model/types.ts';
import {
  betweenPairs,
  cell,
  connector,
  db,
  dbm,
  fibre,
  mated,
  metres,
  nm,
  place,
  setup,
  stretch,
  worded,
} from '../support/build.ts';
import { doubt, first, judged, key, names, pathOver } from './short-link.ts';

describe('a reading that is none', () => {
  it('is dated later than it is judged', () => {
    const reading = { ...cell(1, 1, 'A>B', 500), at: worded(500, 'tomorrow') };
    expect(doubt('reading-in-future', [reading], { more: { asOf: 499 } })).toEqual({
      name: 'reading-in-future',
      place: reading.place,
      related: [],
      details: {
        ...key,
        tested: 'tomorrow',
        because: 'dated later than the time of judgement',
        readings: 1,
        fibres: '1',
      },
    });
    expect(first([reading], { more: { asOf: 500 } }).verdict).toBe('pass');
  });

  it('names no set-up, or one that nobody declares', () => {
    const reading = (name: string) => ({ ...cell(1, 1, 'A>B', 500), setup: name });
    expect(first([reading('')])).toMatchObject({
      verdict: 'invalid',
      because: 'no set-up is named',
      reason: 'setup-unknown',
    });
    const lost = reading('TWO');
    expect(doubt('setup-unknown', [lost])).toEqual({
      name: 'setup-unknown',
      place: lost.place,
      related: [],
      details: {
        ...key,
        setup: 'TWO',
        because: 'there is no set-up TWO',
        readings: 1,
        fibres: '1',
      },
    });
  });

  it('contradicts the powers that it came from', () => {
    const loss = cell(1, 1, 'A>B', 500);
    const power = (level: number): ReadingCell => ({
      ...loss,
      quantity: 'power',
      typed: { digits: String(level), unit: 'dBm' },
      loss: undefined,
      power: dbm(level),
      place: place(),
    });
    const wrong = power(-21.5);
    expect(doubt('arithmetic-mismatch', [loss, wrong])).toEqual({
      name: 'arithmetic-mismatch',
      place: loss.place,
      related: [{ place: wrong.place, message: '−21.50 dBm' }],
      details: {
        ...key,
        loss: 1,
        computed: 1.5,
        reference: -20,
        power: -21.5,
        difference: 0.5,
        agreement: 0.02,
        because: 'the loss is given as 1.00 dB, and its powers make 1.50 dB',
        readings: 1,
        fibres: '1',
      },
    });
    // Within resolution the greater of the two counts, whichever it is.
    expect(first([loss, power(-21.02)]).loss).toBe(db(1.02));
    expect(first([loss, power(-20.98)]).loss).toBe(db(1));
    expect(first([loss, power(-21.020001)]).reason).toBe('arithmetic-mismatch');
  });

  it('is more than any test can show, or looks like a power', () => {
    const of = (loss: number) => [cell(1, loss, 'A>B', 500)];
    expect(first(of(45.01))).toMatchObject({
      verdict: 'invalid',
      because: '45.01 dB is more than a loss test can show',
      reason: 'unit-suspect',
    });
    expect(first(of(45)).verdict).toBe('fail');
    expect(first(of(-21.17)).because).toBe('−21.17 dB looks like a received power in dBm');
    expect([-35.01, -35, -5, -4.99].map((loss) => first(of(loss)).reason)).toEqual([
      'loss-negative',
      'unit-suspect',
      'unit-suspect',
      'loss-negative',
    ]);
    expect(doubt('unit-suspect', of(46))?.details).toMatchObject({ loss: 46, highest: 45 });
  });
});

describe('a loss below what can be', () => {
  const three = setup({ reference: 'three-cord' });

  it('is void where the reference took nothing', () => {
    const reading = cell(1, -0.01, 'A>B', 500);
    expect(doubt('loss-negative', [reading])).toEqual({
      name: 'loss-negative',
      place: reading.place,
      related: [],
      details: {
        ...key,
        loss: -0.01,
        method: 'one-cord',
        setup: 'ONE',
        floor: 0,
        repeatable: 0.05,
        because:
          '−0.01 dB: more light arrived than the reference has, so the reference is not true',
        readings: 1,
        fibres: '1',
      },
    });
  });

  it('is too good below the repeatability, or below what its own fibre loses at least', () => {
    const noticed = (loss: number, over = betweenPairs(100)) => {
      const found = judged([cell(1, loss, 'A>B', 500)], { elements: over });
      expect(found.readings[0]?.verdict).toBe('pass');
      return found.doubts.find((one) => one.name === 'loss-too-good')?.details;
    };
    expect(noticed(0.049)).toEqual({
      ...key,
      loss: 0.049,
      method: 'one-cord',
      setup: 'ONE',
      floor: 0,
      repeatable: 0.05,
      least: 0.05,
    });
    expect(noticed(0.05)).toBeUndefined();
    // A cord that came in after the reference loses at least 2.0 dB/km of 100 m; it is not the link's own.
    const using = setup();
    const steady: FibreType = {
      ...fibre,
      attenuation: [{ wavelength: nm(850), min: ratePerKm(2_000_000), max: ratePerKm(3_000_000) }],
    };
    const cords = using.cords.map((each) =>
      each.role === 'receive' ? { ...each, fibreType: steady, length: metres(100) } : each,
    );
    const long = { using: { ...using, cords }, elements: betweenPairs(100) };
    expect(doubt('loss-too-good', [cell(1, 0.049, 'A>B', 500)], long)?.details).toMatchObject({
      floor: 0.2,
      least: 0.05,
    });
    // 2.0 dB/km over 200 m less the uncertainty of 0.15 dB: 0.25 dB.
    expect(noticed(0.249, pathOver(2, 200))).toMatchObject({ floor: 0.4, least: 0.25 });
    expect(noticed(0.25, pathOver(2, 200))).toBeUndefined();
    // Parts and splitters lose what they state at the least; a pair may lose nothing, whatever it states.
    const loss = [{ min: db(1), max: db(2) }];
    const stated = { ...connector, loss };
    const pairs = betweenPairs(100).map((each) =>
      each.kind === 'connector' ? { ...each, type: stated } : each,
    );
    expect(noticed(0.1, pairs)).toBeUndefined();
    const within = (element: object) => [mated(), element as PathElement, stretch(100), mated()];
    const part = {
      kind: 'component',
      name: 'PAD',
      place: place(),
      type: { ...stated, name: 'PAD', kind: 'component' },
    };
    expect(noticed(0.849, within(part))).toMatchObject({ floor: 1, least: 0.85 });
    expect(noticed(0.85, within(part))).toBeUndefined();
    const split = {
      kind: 'split',
      name: 'SP',
      splitter: 'TWO',
      out: 2,
      place: place(),
      type: {
        ...stated,
        name: 'TWO',
        outputs: 2,
        loss: [
          { min: db(3), max: db(4) },
          { out: [2], min: db(1), max: db(2) },
        ],
      },
    };
    expect(noticed(0.849, within(split))).toMatchObject({ floor: 1, least: 0.85 });
    expect(noticed(0.85, within(split))).toBeUndefined();
  });

  it('may lie below nothing where pairs are in the reference, and no further', () => {
    // Two pairs of reference-grade plugs lose 0.10 dB each at most; repeatability 0.05 dB.
    const reading = cell(1, -0.2, 'A>B', 500);
    const slightly = doubt('loss-slightly-negative', [reading], {
      using: three,
      elements: betweenPairs(3),
    });
    expect(slightly).toEqual({
      name: 'loss-slightly-negative',
      place: reading.place,
      related: [],
      details: {
        ...key,
        loss: -0.2,
        method: 'three-cord',
        setup: 'ONE',
        floor: -0.2,
        repeatable: 0.05,
        lowest: -0.25,
        grade: 'reference-grade',
      },
    });
    const name = (loss: number) =>
      names([cell(1, loss, 'A>B', 500)], { using: three, elements: betweenPairs(3) });
    // A cord that went away took at most 3.0 dB/km of 100 m with it.
    const away: TestCord = {
      ...three.cords[0]!,
      name: 'S',
      role: 'substitution',
      length: metres(100),
    };
    const found = doubt('loss-slightly-negative', [cell(1, -0.55, 'A>B', 500)], {
      using: { ...three, cords: [...three.cords, away] },
      elements: betweenPairs(3),
    });
    expect(found?.details).toMatchObject({ floor: -0.5, lowest: -0.55 });
    // One ordinary plug makes both pairs ordinary: 0.75 dB each at most.
    const [sender, receiver] = three.cords;
    const mixed = doubt('loss-slightly-negative', [cell(1, -1.5, 'A>B', 500)], {
      using: { ...three, cords: [sender!, { ...receiver!, grade: 'ordinary' }] },
      elements: betweenPairs(3),
    });
    expect(mixed?.details).toMatchObject({ floor: -1.5, lowest: -1.55, grade: 'ordinary' });
    expect(name(-0.25)).toContain('loss-slightly-negative');
    expect(name(-0.250001)).toContain('loss-negative');
    expect(name(0)).not.toContain('loss-slightly-negative');
    expect(
      doubt('loss-negative', [cell(1, -0.3, 'A>B', 500)], {
        using: three,
        elements: betweenPairs(3),
      })?.details,
    ).toMatchObject({
      because: '−0.30 dB is below the lowest that three-cord can read here',
      floor: -0.2,
      lowest: -0.25,
    });
  });

  it('may lie as far below nothing whichever side the only cord stands on', () => {
    const using = { ...three, cords: three.cords.filter(({ role }) => role === 'launch') };
    const floor = (direction: 'A>B' | 'B>A') =>
      judged([cell(1, -0.2, direction, 500)], {
        using,
        elements: betweenPairs(3),
      }).doubts.find(({ name }) => /^loss-/u.test(name))?.details.floor;
    expect([floor('A>B'), floor('B>A')]).toEqual([-0.2, -0.2]);
  });

  it('may lie above nothing, on fibre that has to lose something', () => {
    // 2.0 dB/km × 1 km − 0.2 dB − 0.05 dB = 1.75 dB.
    const word = (loss: number) =>
      first([cell(1, loss, 'A>B', 500)], { using: three, elements: pathOver(2, 1000) }).reason;
    expect(word(1.749999)).toBe('loss-negative');
    expect(word(1.75)).toBeUndefined();
  });
});
