/**
 * Why no reference was in force for a reading, whole: the sentence, every number in it
 * and the places beside it. References that are in force stand in timeline.test.ts.
 * Bracketing by checks, their tolerance and expiry are common practice, no source.
 */
import { describe, expect, it } from 'vitest';
import { standingIn } from '../../server/src/evaluate/timeline.ts';
import type { Setup, SetupEvent } from '../../server/src/model/types.ts';
import { checked, disturbed, drift, nm, setup, taken, when, worded } from '../support/build.ts';

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
      cord.role === 'launch' ? { ...cord, since: worded(490, 'ten past eight') } : cord,
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
