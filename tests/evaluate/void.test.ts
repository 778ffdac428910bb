/**
 * Why a reading cannot stand, whole: the sentence, every number in it and the places
 * that stand beside it. Bracketing by checks, their tolerance and expiry are common
 * practice, no source; that nothing can be lost less than nothing is arithmetic.
 */
import { describe, expect, it } from 'vitest';
import { ratePerKm } from '../../grammar/src/quantity/index.ts';
import { suspicionsIn } from '../../server/src/evaluate/index.ts';
import { standingIn } from '../../server/src/evaluate/timeline.ts';
import type {
  FibreType,
  PathElement,
  PlanSettings,
  ReadingCell,
  Setup,
  SetupEvent,
} from '../../server/src/model/types.ts';
import {
  cell,
  checked,
  db,
  dbm,
  disturbed,
  evaluate,
  evidence,
  fibre,
  link,
  mated,
  nm,
  place,
  settings,
  setup,
  stretch,
  taken,
  when,
} from '../support/build.ts';

const drift = (more: Partial<PlanSettings['drift']> = {}): PlanSettings =>
  settings({ drift: { loss: db(0.1), extended: false, closing: false, widening: false, ...more } });
const at = (minute: number, text: string) => ({ ...when(minute), text });

describe('no reference in force', () => {
  const why = (of: Setup, minute = 500, by = drift()) => {
    const standing = standingIn(of, nm(850), when(minute), by);
    return standing.good ? undefined : standing.reason;
  };

  it('because none is there, or it came later, or at no time of day', () => {
    const none = setup({}, [taken(480, -20, 1300)]);
    expect(why(none)).toEqual({
      name: 'reference-missing',
      because: 'set-up ONE has no reference at 850 nm',
      details: { setup: 'ONE', wavelength: 850, time: '1970-01-01 08:20' },
      related: [{ place: none.place, message: 'set-up ONE' }],
    });
    const later = taken(501, -20);
    expect(why(setup({}, [checked(400, -20), later]))).toEqual({
      name: 'reference-missing',
      because: 'the first reference at 850 nm in set-up ONE is of minute 501',
      details: { setup: 'ONE', wavelength: 850, time: '1970-01-01 08:20', first: 'minute 501' },
      related: [{ place: later.place, message: 'reference of minute 501' }],
    });
    const dated = { ...taken(0, -20), at: { ...when(0, 1439), text: '2026-03-14' } } as SetupEvent;
    expect(why(setup({}, [dated]))).toEqual({
      name: 'reference-missing',
      because: 'the reference of 2026-03-14 at 850 nm has no time of day',
      details: { setup: 'ONE', wavelength: 850, time: '1970-01-01 08:20', first: '2026-03-14' },
      related: [{ place: dated.place, message: 'reference of 2026-03-14' }],
    });
    const edge = { ...taken(500, -20), at: { ...when(500, 501), text: 'then' } } as SetupEvent;
    expect(why(setup({}, [edge]))?.because).toContain('has no time of day');
  });

  it('because something moved it', () => {
    const first = taken(480, -20);
    const moved = disturbed(490);
    expect(why(setup({}, [first, moved]))).toEqual({
      name: 'reference-disturbed',
      because: 'set-up ONE was disturbed at minute 490, and no reference was taken since',
      details: { setup: 'ONE', wavelength: 850, disturbed: 'minute 490', taken: 'minute 480' },
      related: [{ place: moved.place, message: 'disturbed at minute 490' }],
    });
    const told = { ...moved, because: 'plug cleaned' } as SetupEvent;
    expect(why(setup({}, [first, told]))).toMatchObject({
      because:
        'set-up ONE was disturbed at minute 490 (plug cleaned), and no reference was taken since',
      details: { cause: 'plug cleaned' },
    });
    const cords = setup().cords.map((cord) =>
      cord.role === 'launch' ? { ...cord, since: at(490, 'ten past eight') } : cord,
    );
    expect(why(setup({ cords }, [first]))).toEqual({
      name: 'reference-disturbed',
      because: 'L came in at ten past eight and is part of the reference of minute 480',
      details: {
        setup: 'ONE',
        wavelength: 850,
        disturbed: 'ten past eight',
        taken: 'minute 480',
        cord: 'L',
        cause: 'launch cord replaced',
      },
      related: [{ place: cords[0]?.place, message: 'L since ten past eight' }],
    });
  });

  it('because it drifted', () => {
    const [first, check] = [taken(480, -20), checked(490, -20.25)];
    expect(why(setup({}, [first, check]))).toEqual({
      name: 'reference-drift',
      because:
        'the check of minute 490 differs by −0.25 dB from the reference of minute 480, more than 0.10 dB; readings may be too high',
      details: {
        setup: 'ONE',
        wavelength: 850,
        drift: -0.25,
        tolerance: 0.1,
        over: 0.15,
        checked: 'minute 490',
        taken: 'minute 480',
        reference: -20,
        check: -20.25,
        side: 'high',
      },
      related: [
        { place: check.place, message: 'check of minute 490' },
        { place: first.place, message: 'reference of minute 480' },
      ],
    });
  });

  it('because it is too old', () => {
    const using = setup({}, [taken(480, -20)]);
    expect(why(using, 1500)).toEqual({
      name: 'reference-expired',
      because:
        'the last reference or good check at 850 nm in set-up ONE, of 1970-01-01 08:00, held until 1970-01-01 23:59',
      details: {
        setup: 'ONE',
        wavelength: 850,
        last: '1970-01-01 08:00',
        expired: '1970-01-01 23:59',
        time: '1970-01-02 01:00',
        age: 1020,
      },
      related: [{ place: using.place, message: 'set-up ONE' }],
    });
  });

  it('because nothing closes it', () => {
    const first = taken(480, -20);
    expect(why(setup({}, [first]), 500, drift({ closing: true }))).toEqual({
      name: 'closing-check-missing',
      because: 'the plan asks for a closing check, and none follows in set-up ONE yet',
      details: { setup: 'ONE', wavelength: 850, taken: 'minute 480' },
      related: [{ place: first.place, message: 'reference of minute 480' }],
    });
  });
});

const path = (length = 100): PathElement[] => [mated(), stretch(length), mated()];
const oneWay = { directions: { wanted: ['A>B' as const], average: false } };
const references = [taken(480, -20), taken(480, -20, 1300)];

/** What is said of readings of a path of 1.8 dB at most. */
function judged(
  readings: readonly ReadingCell[],
  using: Setup = setup({}, references),
  {
    elements = path(),
    by = settings(),
    terms = oneWay as Parameters<typeof link>[1],
    more = {} as Parameters<typeof evaluate>[4],
    also = {} as Parameters<typeof evidence>[0],
  } = {},
) {
  const fibres = Math.max(...readings.map((one) => one.fibre));
  return evaluate(link(elements, terms, fibres), evidence({ readings, ...also }), using, by, more);
}
const doubt = (name: string, ...asked: Parameters<typeof judged>) =>
  judged(...asked).doubts.find((one) => one.name === name);
const first = (...asked: Parameters<typeof judged>) => {
  const { verdict, because, reason, loss, lossBound, margin } = judged(...asked).readings[0] ?? {};
  return { verdict, because, reason, loss, lossBound, margin };
};

describe('a reading that is none', () => {
  it('is dated later than it is judged', () => {
    const reading = { ...cell(1, 1, 'A>B', 500), at: at(500, 'tomorrow') };
    expect(doubt('reading-in-future', [reading], undefined, { more: { asOf: 499 } })).toEqual({
      name: 'reading-in-future',
      place: reading.place,
      related: [],
      details: {
        fibre: 1,
        wavelength: 850,
        direction: 'A>B',
        tested: 'tomorrow',
        because: 'dated later than the time of judgement',
        readings: 1,
        fibres: '1',
      },
    });
    expect(first([reading], undefined, { more: { asOf: 500 } }).verdict).toBe('pass');
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
        fibre: 1,
        wavelength: 850,
        direction: 'A>B',
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
        fibre: 1,
        wavelength: 850,
        direction: 'A>B',
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
  const glass = (least: number): FibreType => ({
    ...fibre,
    attenuation: [{ wavelength: nm(850), min: ratePerKm(least), max: ratePerKm(3_000_000) }],
  });
  const elements = (least: number, length: number): PathElement[] => [
    mated(),
    { ...stretch(length), fibre: glass(least) } as PathElement,
    mated(),
  ];
  const three = setup({ reference: 'three-cord' });

  it('is void where the reference took nothing', () => {
    const reading = cell(1, -0.01, 'A>B', 500);
    expect(doubt('loss-negative', [reading])).toEqual({
      name: 'loss-negative',
      place: reading.place,
      related: [],
      details: {
        fibre: 1,
        wavelength: 850,
        direction: 'A>B',
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
    const noticed = (loss: number, over = path()) => {
      const found = judged([cell(1, loss, 'A>B', 500)], undefined, { elements: over });
      expect(found.readings[0]?.verdict).toBe('pass');
      return found.doubts.find((one) => one.name === 'loss-too-good')?.details;
    };
    expect(noticed(0.049)).toEqual({
      fibre: 1,
      wavelength: 850,
      direction: 'A>B',
      loss: 0.049,
      method: 'one-cord',
      setup: 'ONE',
      floor: 0,
      repeatable: 0.05,
      least: 0.05,
    });
    expect(noticed(0.05)).toBeUndefined();
    // 2.0 dB/km over 200 m less the uncertainty of 0.15 dB: 0.25 dB.
    expect(noticed(0.249, elements(2_000_000, 200))).toMatchObject({ floor: 0.4, least: 0.25 });
    expect(noticed(0.25, elements(2_000_000, 200))).toBeUndefined();
  });

  it('may lie below nothing where pairs are in the reference, and no further', () => {
    // Two pairs of reference-grade plugs lose 0.10 dB each at most; repeatability 0.05 dB.
    const reading = cell(1, -0.2, 'A>B', 500);
    const slightly = doubt('loss-slightly-negative', [reading], three, { elements: path(3) });
    expect(slightly).toEqual({
      name: 'loss-slightly-negative',
      place: reading.place,
      related: [],
      details: {
        fibre: 1,
        wavelength: 850,
        direction: 'A>B',
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
      judged([cell(1, loss, 'A>B', 500)], three, { elements: path(3) }).doubts.map(
        (one) => one.name,
      );
    expect(name(-0.25)).toContain('loss-slightly-negative');
    expect(name(-0.250001)).toContain('loss-negative');
    expect(name(0)).not.toContain('loss-slightly-negative');
    expect(
      doubt('loss-negative', [cell(1, -0.3, 'A>B', 500)], three, { elements: path(3) })?.details,
    ).toMatchObject({
      because: '−0.30 dB is below the lowest that three-cord can read here',
      floor: -0.2,
      lowest: -0.25,
    });
  });

  it('may lie above nothing, on fibre that has to lose something', () => {
    // 2.0 dB/km × 1 km − 0.2 dB − 0.05 dB = 1.75 dB.
    const word = (loss: number) =>
      first([cell(1, loss, 'A>B', 500)], three, { elements: elements(2_000_000, 1000) }).reason;
    expect(word(1.749999)).toBe('loss-negative');
    expect(word(1.75)).toBeUndefined();
  });
});

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
    expect(first(dark, meter(-60))).toEqual({
      verdict: 'fail',
      because: 'no light: the loss is more than 40.00 dB',
      reason: 'dark',
      loss: undefined,
      lossBound: db(40),
      margin: undefined,
    });
    expect(first(dark, meter(-21.800001)).verdict).toBe('fail');
    expect(first(dark, meter(-21.8))).toMatchObject({
      verdict: 'not-judged',
      because: 'no light, but the set-up sees no more than 1.80 dB',
      reason: 'dark-within-limit',
    });
  });

  it('says nothing without a floor or a limit', () => {
    expect(first(dark, meter(undefined))).toEqual({
      verdict: 'not-judged',
      because: 'no light, and the meter of set-up ONE has no floor: how much is lost is not known',
      reason: 'meter-floor-missing',
      loss: undefined,
      lossBound: undefined,
      margin: undefined,
    });
    const bare = { ...oneWay, limits: [] };
    expect(first(dark, meter(-60), { terms: bare })).toMatchObject({
      verdict: 'not-judged',
      because: 'there is no limit at 850 nm for it',
      reason: 'no-limit',
      lossBound: db(40),
    });
    expect(first([cell(1, 1, 'A>B', 500)], meter(-60), { terms: bare })).toMatchObject({
      verdict: 'not-judged',
      because: 'there is no limit at 850 nm for it',
    });
  });

  it('ages like any other reading', () => {
    const work = [{ object: 'KQ-1', done: 'cleaned', on: at(600, 'ten'), place: place() }];
    for (const floor of [-60, -21.8, undefined]) {
      expect(first(dark, meter(floor), { also: { work } })).toMatchObject({
        verdict: 'stale',
        because: 'cleaned on ten, after it was measured',
        reason: 'work',
      });
    }
    const told = doubt('stale-reading', dark, meter(-60), { also: { work } });
    expect(told).toMatchObject({
      related: [{ place: work[0]?.place, message: 'cleaned on ten' }],
      details: { done: 'cleaned', on: 'ten', tested: 'minute 500', timed: 1 },
    });
    const dated = [{ ...work[0]!, on: { ...when(0, 1439), text: 'that day' } }];
    expect(
      doubt('stale-reading', dark, meter(-60), { also: { work: dated } })?.details,
    ).toMatchObject({
      on: 'that day',
      timed: 0,
    });
  });
});

describe('one cause of many readings', () => {
  const block = (readings: readonly ReadingCell[], number = 7) =>
    readings.map((one) => ({ ...one, place: { ...place(), block: number } }));
  const losses = (...values: readonly number[]) =>
    values.map((loss, index) => cell(index + 1, loss, 'A>B', 500));
  const names = (...asked: Parameters<typeof judged>) => [
    ...new Set(judged(...asked).doubts.map((one) => one.name)),
  ];

  it('is the sign, where every loss of a block is below nothing', () => {
    const readings = block(losses(-1.1, -1.2, -1.3));
    expect(doubt('sign-suspect', readings)).toEqual({
      name: 'sign-suspect',
      place: readings[0]?.place,
      related: [],
      details: {
        fibre: 1,
        wavelength: 850,
        direction: 'A>B',
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
    const withdrawals = [{ object: 'KQ-1', fibres: [3], because: 'slip', place: place() }];
    expect(names(readings, undefined, { also: { withdrawals } as never })).not.toContain(
      'sign-suspect',
    );
  });

  it('is no sign where the fibre has to lose more than nothing', () => {
    const glass: FibreType = {
      ...fibre,
      attenuation: [{ wavelength: nm(850), min: ratePerKm(2_000_000), max: ratePerKm(3_000_000) }],
    };
    const elements = [mated(), { ...stretch(1000), fibre: glass } as PathElement, mated()];
    const readings = block(losses(0.5, 0.6, 0.7));
    const found = names(readings, setup({ reference: 'three-cord' }), { elements });
    expect(found).toContain('loss-negative');
    expect(found).not.toContain('sign-suspect');
  });

  it('is an impossible reading, which holds what was taken with its reference', () => {
    const [bad, held] = [cell(1, -0.2, 'A>B', 505), cell(2, 1, 'A>B', 500)];
    const suspect = { ...bad, at: at(505, 'five past') };
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
    const withdrawals = [{ object: 'KQ-1', fibres: [1], because: 'slip', place: place() }];
    expect(names([suspect, held], undefined, { also: { withdrawals } as never })).not.toContain(
      'reference-suspect',
    );
    const three = setup({ reference: 'three-cord' }, references);
    expect(names([{ ...suspect, loss: db(-0.4) }, held], three)).not.toContain('reference-suspect');
  });

  it('may lie in another object', () => {
    const asked: string[] = [];
    const held = (wavelength: number) =>
      names([cell(1, 1, 'A>B', 500), cell(2, 1, 'A>B', 501)], undefined, {
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
    expect(suspicionsIn(judged([{ ...bad, loss: db(-0.4) }], three).readings)).toEqual([]);
  });
});

describe('two set-ups that claim one reading', () => {
  const two = { ...setup({}, references), name: 'TWO' };
  const both = (
    times: readonly { from: number; to: number }[],
    setups: readonly [string, string] = ['ONE', 'TWO'],
    withdrawals: readonly object[] = [],
  ) => {
    const readings = times.map((time, index) => ({
      ...cell(1, 1 + index / 100, 'A>B', time.from),
      at: { ...when(time.from, time.to), text: `minute ${time.from}` },
      setup: setups[index] ?? '',
    }));
    const using = setup({}, references);
    const result = evaluate(
      link(path(), oneWay, 1),
      evidence({ readings, withdrawals } as never),
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
          fibre: 1,
          wavelength: 850,
          direction: 'A>B',
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

  it('are two readings where the times differ, are not known to a minute, or one was taken back', () => {
    expect(both([then, { from: 501, to: 501 }]).told).toEqual([]);
    expect(
      both([
        { from: 500, to: 510 },
        { from: 500, to: 510 },
      ]).told,
    ).toEqual([]);
    expect(both([then, { from: 500, to: 510 }]).told).toEqual([]);
    expect(both([then, then], ['ONE', 'ONE']).told).toEqual([]);
    const withdrawals = [
      { object: 'KQ-1', because: 'slip', tested: when(499, 499), place: place() },
    ];
    expect(both([then, then], undefined, withdrawals).told.length).toBe(1);
  });
});

describe('the mean of both directions', () => {
  const mean = (a: number | 'dark', b: number | 'dark', more: object = {}, using = setup()) => {
    const terms = {
      directions: { wanted: ['A>B' as const, 'B>A' as const], average: true, ...more },
    };
    const readings = [cell(1, a, 'A>B', 500), cell(1, b, 'B>A', 500)];
    return judged(readings, using, { terms }).readings.map(({ verdict, because, margin }) => ({
      verdict,
      because,
      margin: margin === undefined ? undefined : Number(margin) / 1e15,
    }));
  };

  it('is judged in place of each, and the margin is its own', () => {
    const because = 'judged by the average of 1.90 dB and 1.50 dB: 1.70 dB';
    const joined = { verdict: 'marginal-pass', because, margin: 0.1 };
    expect(mean(1.9, 1.5)).toEqual([joined, joined]);
    expect(mean(1.5, 1.7).map(({ verdict }) => verdict)).toEqual(['pass', 'pass']);
    expect(mean(2.1, 1.5)).toMatchObject([{ verdict: 'marginal-pass', margin: 0 }, { margin: 0 }]);
    expect(mean(2.3, 1.5)[0]).toMatchObject({ verdict: 'marginal-fail', margin: -0.1 });
  });

  it('is none where they lie further apart than allowed, or one of them is no loss', () => {
    expect(mean(1.9, 1.5, { within: db(0.4) })[0]?.because).toContain('judged by the average');
    expect(mean(1.9, 1.5, { within: db(0.399999) })).toMatchObject([
      { verdict: 'marginal-fail', because: '' },
      { verdict: 'pass', because: '' },
    ]);
    expect(mean(1.5, 1.9, { within: db(0.399999) })[0]?.because).toBe('');
    expect(mean('dark', 1.5)[1]).toMatchObject({ verdict: 'pass', because: '' });
    expect(mean(1.5, -0.5)[0]?.because).not.toContain('average');
  });

  it('is none over a step of cores', () => {
    const wide: FibreType = { ...fibre, name: 'WIDE', core: nm(62_500) };
    const terms = { directions: { wanted: ['A>B' as const, 'B>A' as const], average: true } };
    const readings = [cell(1, 1.2, 'A>B', 500), cell(1, 1, 'B>A', 500)];
    const step = [...path(50), { ...stretch(50), fibre: wide } as PathElement, mated()];
    const using = setup();
    const cords = using.cords.map((one) => ({ ...one, fibreType: undefined }));
    const over = (elements: PathElement[]) =>
      judged(readings, { ...using, cords }, { terms, elements }).readings.map(
        ({ because }) => because,
      );
    expect(over(path())[0]).toContain('judged by the average');
    expect(over(step)).toEqual(['', '']);
  });
});
