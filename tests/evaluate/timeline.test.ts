/**
 * Whether a reference was in force, asked minute by minute. Source: the recorded
 * reference power and the undisturbed joint at the source of MIL-STD-2042-6B(SH);
 * brackets, tolerances and expiry are common practice, no source. Whole days
 * stand in tests/published/bad-day.test.ts.
 */
import { describe, expect, it } from 'vitest';
import { isHeld, type Standing, standingIn } from '../../server/src/evaluate/timeline.ts';
import type { PlanSettings, Setup, SetupEvent, When } from '../../server/src/model/types.ts';
import { checked, db, dbm, disturbed, drift, nm, setup, taken, when } from '../support/build.ts';

const standing = (
  events: readonly SetupEvent[],
  at: number | When,
  by: PlanSettings = drift(),
  more: Partial<Setup> = {},
): Standing => standingIn(setup(more, events), nm(850), typeof at === 'number' ? when(at) : at, by);

/** `good`, or the name of what voids it. */
const word = (...asked: Parameters<typeof standing>): string => {
  const found = standing(...asked);
  return found.good ? 'good' : found.reason.name;
};
const because = (...asked: Parameters<typeof standing>): string => {
  const found = standing(...asked);
  return found.good ? '' : found.reason.because;
};

describe('a reference', () => {
  it('expires so long after it was taken, at the minute after the last', () => {
    const hours = drift({ expiry: 240 });
    expect(word([taken(480, -20)], 720, hours)).toBe('good');
    expect(standing([taken(480, -20)], 721, hours)).toMatchObject({
      good: false,
      reference: dbm(-20),
      reason: { name: 'reference-expired', details: { age: 241, wavelength: 850 } },
    });
  });

  it('is renewed by a good check, whenever in its life', () => {
    const hours = drift({ expiry: 240 });
    const events = [taken(480, -20), checked(600, -20.02), checked(660, -20.02)];
    expect(word(events, 900, hours)).toBe('good');
    expect(standing(events, 901, hours)).toMatchObject({ reason: { details: { age: 241 } } });
    // A check that comes after the reading renews nothing for it.
    expect(word([taken(480, -20), checked(800, -20)], 721, hours)).toBe('reference-expired');
  });

  it('of which no expiry is said holds until the end of its day', () => {
    expect(word([taken(480, -20)], 1439)).toBe('good');
    expect(word([taken(480, -20)], 1440)).toBe('reference-expired');
    expect(word([taken(480, -20), checked(1450, -20)], 1460)).toBe('good');
  });

  it('that expired is healed by a later good check only where the plan says so, and nothing was moved', () => {
    const wide = drift({ expiry: 240, extended: true });
    const events = [taken(480, -20), checked(900, -20.05)];
    expect(word(events, 800, wide)).toBe('good');
    expect(word(events, 800, drift({ expiry: 240 }))).toBe('reference-expired');
    expect(word([taken(480, -20)], 800, wide)).toBe('reference-expired');
    expect(word([...events, disturbed(850)], 800, wide)).toBe('reference-expired');
    expect(word([...events, disturbed(901)], 800, wide)).toBe('good');
  });

  it('wants a closing check where the plan does', () => {
    const closing = drift({ closing: true });
    expect(word([taken(480, -20), checked(520, -20)], 500, closing)).toBe('good');
    expect(word([taken(480, -20), checked(500, -20)], 500, closing)).toBe('good');
    expect(word([taken(480, -20), checked(499, -20)], 500, closing)).toBe('closing-check-missing');
    expect(because([taken(480, -20)], 500, closing)).toContain('none follows in set-up ONE yet');
    const replaced = [taken(480, -20), taken(520, -20), checked(530, -20)];
    expect(because(replaced, 500, closing)).toContain('before the next reference');
    const moved = [taken(480, -20), disturbed(510), checked(520, -20)];
    expect(word(moved, 500, closing)).toBe('closing-check-missing');
  });

  it('stands at exactly the drift that the plan allows', () => {
    expect(word([taken(480, -20), checked(510, -20.1)], 500)).toBe('good');
    expect(word([taken(480, -20), checked(510, -20.100001)], 500)).toBe('reference-drift');
    expect(word([taken(480, -20), checked(510, -19.899999)], 500)).toBe('reference-drift');
  });

  it('is voided by a bad check on either side, and by none behind a good one', () => {
    expect(word([taken(480, -20), checked(490, -20.2)], 500)).toBe('reference-drift');
    expect(word([taken(480, -20), checked(510, -20.2)], 500)).toBe('reference-drift');
    const closed = [taken(480, -20), checked(510, -20), checked(520, -20.2)];
    expect(word(closed, 500)).toBe('good');
    expect(word(closed, 510)).toBe('good');
    expect(word(closed, 511)).toBe('reference-drift');
    expect(word([taken(480, -20), checked(490, -20.2), taken(495, -20.2)], 500)).toBe('good');
    expect(word([taken(480, -20), taken(510, -20), checked(520, -20.2)], 500)).toBe('good');
  });

  it('says to which side readings err: a source that fell shows too much loss', () => {
    expect(because([taken(480, -20), checked(510, -20.2)], 500)).toContain('too high');
    expect(because([taken(480, -20), checked(510, -19.8)], 500)).toContain('too low');
    expect(standing([taken(480, -20), checked(510, -19.7)], 500)).toMatchObject({
      reason: { details: { drift: 0.3, over: 0.2, tolerance: 0.1, side: 'low' } },
    });
    expect(standing([taken(480, -20), checked(510, -20.3)], 500)).toMatchObject({
      reason: { details: { drift: -0.3, over: 0.2, side: 'high' } },
    });
  });

  it('hands on the drift of the check before and the one after, the greater of both', () => {
    const found = (...events: SetupEvent[]) => standing([taken(480, -20), ...events], 500);
    expect(found()).toMatchObject({ drift: 0 });
    expect(found(checked(490, -20.05))).toMatchObject({ drift: db(0.05) });
    expect(found(checked(490, -20.05), checked(495, -20.02))).toMatchObject({ drift: db(0.02) });
    expect(found(checked(490, -20.05), checked(510, -20.02))).toMatchObject({ drift: db(0.05) });
    expect(found(checked(490, -19.98), checked(510, -20.06))).toMatchObject({ drift: db(0.06) });
    expect(found(checked(510, -20.02), checked(520, -20.09))).toMatchObject({ drift: db(0.02) });
    // A check of the reading's own minute came before it.
    expect(found(checked(490, -20.05), checked(500, -20.02))).toMatchObject({ drift: db(0.02) });
  });

  it('is ended by what moves a plug, from that minute on', () => {
    const events = [taken(480, -20), disturbed(500)];
    expect(word(events, 499)).toBe('good');
    expect(word(events, 500)).toBe('reference-disturbed');
    expect(word([...events, taken(510, -20)], 509)).toBe('reference-disturbed');
    expect(word([...events, taken(510, -20)], 510)).toBe('good');
    // In one minute the text says what came first.
    expect(word([disturbed(480), taken(480, -20)], 490)).toBe('good');
    expect(word([taken(480, -20), disturbed(480)], 490)).toBe('reference-disturbed');
    expect(word([taken(480, -20), disturbed(470)], 490)).toBe('good');
  });

  it('is ended by another cord of it, and by no other cord', () => {
    const { cords } = setup();
    const since = (role: 'launch' | 'receive') => ({
      cords: cords.map((cord) => (cord.role === role ? { ...cord, since: when(500) } : cord)),
    });
    const at = (minute: number, role: 'launch' | 'receive', more: Partial<Setup> = {}) =>
      word([taken(480, -20)], minute, drift(), { ...since(role), ...more });
    expect([499, 500].map((minute) => at(minute, 'launch'))).toEqual([
      'good',
      'reference-disturbed',
    ]);
    expect(at(500, 'receive')).toBe('good');
    expect(at(500, 'receive', { reference: 'two-cord' })).toBe('reference-disturbed');
    expect(word([taken(480, -20), taken(500, -20)], 510, drift(), since('launch'))).toBe('good');
  });

  it('says what is missing: none at all, none before, or one without a time of day', () => {
    expect(because([], 500)).toBe('set-up ONE has no reference at 850 nm');
    expect(because([taken(480, -20, 1300)], 500)).toBe('set-up ONE has no reference at 850 nm');
    expect(because([taken(501, -20)], 500)).toContain('the first reference at 850 nm');
    const dated = { ...taken(480, -20), at: when(0, 1439) };
    expect(because([dated], 500)).toContain('has no time of day');
    expect(because([dated], 0)).toContain('has no time of day');
    expect(word([dated], 1439)).toBe('good');
  });
});

describe('what voids a reading', () => {
  const told = (...asked: Parameters<typeof standing>) => {
    const found = standing(...asked);
    if (found.good) throw new Error('nothing voids it');
    const { name, because: sentence, details, related } = found.reason;
    return { name, sentence, details, beside: related.map(({ message }) => message) };
  };
  const of = { setup: 'ONE', wavelength: 850 };

  it('is said with its numbers and with what lies beside it', () => {
    expect(told([], 500)).toEqual({
      name: 'reference-missing',
      sentence: 'set-up ONE has no reference at 850 nm',
      details: { ...of, time: '1970-01-01 08:20' },
      beside: ['set-up ONE'],
    });
    expect(told([taken(501, -20)], 500)).toEqual({
      name: 'reference-missing',
      sentence: 'the first reference at 850 nm in set-up ONE is of minute 501',
      details: { ...of, time: '1970-01-01 08:20', first: 'minute 501' },
      beside: ['reference of minute 501'],
    });
    // A check is no reference.
    expect(told([checked(480, -20)], 500).sentence).toBe('set-up ONE has no reference at 850 nm');
    expect(told([taken(480, -20), disturbed(490)], 500)).toEqual({
      name: 'reference-disturbed',
      sentence: 'set-up ONE was disturbed at minute 490, and no reference was taken since',
      details: { ...of, disturbed: 'minute 490', taken: 'minute 480' },
      beside: ['disturbed at minute 490'],
    });
    const moved = { ...disturbed(490), because: 'cord trodden on' } as SetupEvent;
    expect(told([taken(480, -20), moved], 500)).toMatchObject({
      sentence:
        'set-up ONE was disturbed at minute 490 (cord trodden on), and no reference was taken since',
      details: { cause: 'cord trodden on' },
    });
    expect(told([taken(480, -20), checked(510, -20.25)], 500)).toEqual({
      name: 'reference-drift',
      sentence:
        'the check of minute 510 differs by −0.25 dB from the reference of minute 480, more than 0.10 dB; readings may be too high',
      details: {
        ...of,
        drift: -0.25,
        tolerance: 0.1,
        over: 0.15,
        checked: 'minute 510',
        taken: 'minute 480',
        reference: -20,
        check: -20.25,
        side: 'high',
      },
      beside: ['check of minute 510', 'reference of minute 480'],
    });
    expect(told([taken(480, -20)], 721, drift({ expiry: 240 }))).toEqual({
      name: 'reference-expired',
      sentence:
        'the last reference or good check at 850 nm in set-up ONE, of 1970-01-01 08:00, held until 1970-01-01 12:00',
      details: {
        ...of,
        last: '1970-01-01 08:00',
        expired: '1970-01-01 12:00',
        time: '1970-01-01 12:01',
        age: 241,
      },
      beside: ['set-up ONE'],
    });
    expect(told([taken(480, -20)], 500, drift({ closing: true }))).toEqual({
      name: 'closing-check-missing',
      sentence: 'the plan asks for a closing check, and none follows in set-up ONE yet',
      details: { ...of, taken: 'minute 480' },
      beside: ['reference of minute 480'],
    });
  });

  it('names a cord that was replaced', () => {
    const cords = setup().cords.map((cord) =>
      cord.role === 'launch' ? { ...cord, since: when(490) } : cord,
    );
    expect(told([taken(480, -20)], 500, drift(), { cords })).toEqual({
      name: 'reference-disturbed',
      sentence: 'L came in at minute 490 and is part of the reference of minute 480',
      details: {
        ...of,
        disturbed: 'minute 490',
        taken: 'minute 480',
        cord: 'L',
        cause: 'launch cord replaced',
      },
      beside: ['L since minute 490'],
    });
  });
});

describe('a reading at some time within an interval', () => {
  it('is good only if it is at every minute of it', () => {
    expect(word([taken(480, -20)], when(479, 500))).toBe('reference-missing');
    expect(word([taken(480, -20)], when(480, 500))).toBe('good');
    const moved = [taken(480, -20), disturbed(510), taken(520, -20)];
    expect(word(moved, when(490, 509))).toBe('good');
    expect(word(moved, when(490, 530))).toBe('reference-disturbed');
    expect(word(moved, when(520, 530))).toBe('good');
    const expired = [taken(480, -20), taken(800, -20)];
    expect(word(expired, when(490, 810), drift({ expiry: 240 }))).toBe('reference-expired');
    const cords = setup().cords.map((cord) =>
      cord.role === 'launch' ? { ...cord, since: when(500) } : cord,
    );
    const changed = [taken(480, -20), taken(505, -20)];
    expect(word(changed, when(490, 520), drift(), { cords })).toBe('reference-disturbed');
  });

  it('is told the first thing in it that voids it', () => {
    const events = [taken(480, -20), disturbed(505), taken(510, -20), checked(520, -20.5)];
    expect(word(events, when(490, 515))).toBe('reference-disturbed');
    expect(word(events, when(510, 515))).toBe('reference-drift');
  });

  it('takes the reference that makes the loss greater, and the greater drift', () => {
    const events = [taken(480, -20), checked(490, -20.04), taken(510, -20.5), checked(520, -20.57)];
    expect(standing(events, when(495, 515))).toMatchObject({
      good: true,
      reference: dbm(-20),
      drift: db(0.07),
    });
    const risen = [taken(480, -20.5), checked(490, -20.57), taken(510, -20), checked(520, -20.04)];
    expect(standing(risen, when(495, 515))).toMatchObject({ reference: dbm(-20), drift: db(0.07) });
  });
});

describe('an impossible reading', () => {
  const held = (events: readonly SetupEvent[], reading: number | When, suspicion: number | When) =>
    isHeld(
      setup({}, events),
      nm(850),
      typeof reading === 'number' ? when(reading) : reading,
      typeof suspicion === 'number' ? when(suspicion) : suspicion,
      drift(),
    );

  it('holds all that share its reference, before and after', () => {
    const events = [taken(480, -20), taken(600, -20)];
    expect([480, 490, 510, 599].map((minute) => held(events, minute, 500))).toEqual([
      true,
      true,
      true,
      true,
    ]);
    expect([600, 700].map((minute) => held(events, minute, 500))).toEqual([false, false]);
    expect(held([], 490, 500)).toBe(false);
    // Of a reading that may lie under either reference.
    expect(held(events, when(590, 610), 500)).toBe(true);
    expect(held(events, when(470, 490), 500)).toBe(true);
  });

  it('holds nothing from before the last good check', () => {
    const events = [taken(480, -20), checked(495, -20)];
    expect([494, 495, 510].map((minute) => held(events, minute, 500))).toEqual([false, true, true]);
    expect(held([taken(480, -20), checked(495, -20.3)], 490, 500)).toBe(true);
  });

  it('is answered by a good check after it, and by no bad one nor one of another reference', () => {
    expect(held([taken(480, -20), checked(520, -20)], 510, 500)).toBe(false);
    expect(held([taken(480, -20), checked(500, -20)], 510, 500)).toBe(false);
    expect(held([taken(480, -20), checked(520, -20.3)], 510, 500)).toBe(true);
    expect(held([taken(480, -20), checked(520, -20.1)], 510, 500)).toBe(false);
    expect(held([taken(480, -20), taken(515, -20), checked(520, -20)], 510, 500)).toBe(true);
    // A check somewhere within the time of the impossible reading proves nothing.
    expect(held([taken(480, -20), checked(500, -20)], 510, when(495, 505))).toBe(true);
  });
});
