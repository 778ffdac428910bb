/**
 * What is said of a trace for what it was taken with and what it is of: cords and range
 * that hide a joint, no reflectometer, an instrument past its due date, a fibre that is
 * none, a value that stands twice, work that came after (common practice, no source).
 */
import { describe, expect, it } from 'vitest';
import type { EventCell, Setup } from '../../server/src/model/types.ts';
import { metres, place, setup, when } from '../support/build.ts';
import { both, event, judged, names, told, using } from './traced-link.ts';

describe('what is said of a trace', () => {
  it('a set-up that could not see it', () => {
    const bare = { ...using, cords: [], range: metres(1500) } as Setup;
    const near = event('connector', 0, 0.3);
    const beyond = both('splice', 2, 0.1, 0.1);
    const related = [{ place: bare.namePlace, message: 'set-up ONE' }];
    expect(told([near, ...beyond], { of: bare })).toEqual([
      {
        name: 'end-pair-unseen',
        place: near.place,
        related,
        details: { fibre: 1, setup: 'ONE', cord: 'launch', part: 'pair PAIR', direction: 'A>B' },
      },
      {
        name: 'event-beyond-range',
        place: beyond[0]?.place,
        related,
        details: { fibre: 1, setup: 'ONE', at: 2000, range: 1500 },
      },
    ]);
    const launched = { ...using, cords: using.cords.slice(0, 1) } as Setup;
    expect(told([event('connector', 5, 0.3)], { of: launched })).toMatchObject([
      { details: { cord: 'tail' } },
    ]);
    expect(told([event('connector', 0, 0.3, 'B>A')], { of: launched })).toMatchObject([
      { details: { cord: 'tail', direction: 'B>A' } },
    ]);
    expect(names([event('connector', 5, 0.3, 'B>A')], { of: launched })).toEqual([]);
    const received = {
      ...using,
      cords: using.cords.map((cord) => ({
        ...cord,
        role: cord.role === 'tail' ? ('receive' as const) : cord.role,
      })),
    } as Setup;
    expect(names([event('connector', 5, 0.3)], { of: received })).toEqual([]);
  });

  it('a set-up without a reflectometer, or none at all', () => {
    const meter = setup();
    const cells = both('splice', 2, 0.1, 0.1);
    expect(told(cells, { of: meter })).toEqual([
      {
        name: 'reflectometer-missing',
        place: cells[0]?.place,
        related: [{ place: meter.namePlace, message: 'set-up ONE' }],
        details: { setup: 'ONE', object: 'KQ-1' },
      },
    ]);
    expect(judged(cells, { of: meter }).events[0]).toMatchObject({
      verdict: 'invalid',
      because: 'set-up ONE names no reflectometer',
    });
    const lost = both('splice', 2, 0.1, 0.1, { setup: 'TWO' });
    expect(judged(lost).events[0]).toMatchObject({
      verdict: 'invalid',
      because: 'there is no set-up TWO',
    });
    const aimless = event('splice', 2, 0.1, 'A>B');
    const { direction: _, ...undirected } = aimless;
    expect(judged([undirected as EventCell]).events[0]).toMatchObject({
      verdict: 'not-judged',
      because: 'which way the light went is not said',
    });
  });

  it('a fibre that the plan has not, a value that stands twice, and what has aged', () => {
    const strange = both('splice', 2, 0.1, 0.1, { fibre: 7 });
    expect(told(strange)).toEqual([
      {
        name: 'fibre-not-in-plan',
        place: strange[0]?.place,
        details: { fibre: 7, wavelength: 850, object: 'KQ-1', has: '1..2' },
      },
    ]);
    expect(told(strange, { model: { fibres: [] } })).toEqual([]);
    const twice = [
      event('splice', 2, 0.1),
      event('splice', 2, 0.12),
      event('splice', 2, 0.1, 'B>A'),
    ];
    expect(told(twice).filter(({ name }) => name === 'measured-twice')).toEqual([
      {
        name: 'measured-twice',
        place: twice[1]?.place,
        related: [{ place: twice[0]?.place, message: 'the first one' }],
        details: { fibre: 1, what: 'splice at 2000 m', tested: 'minute 500' },
      },
    ]);
    const work = [
      { object: 'KQ-1', done: 're-spliced', on: { ...when(600), text: 'ten' }, place: place() },
    ];
    const aged = both('splice', 2, 0.4, 0.4);
    expect(told(aged, { also: { work } })).toEqual([
      {
        name: 'evidence-aged',
        place: aged[0]?.place,
        details: {
          object: 'KQ-1',
          events: 1,
          faces: 0,
          lengths: 0,
          because: 're-spliced on ten, after it was measured',
        },
      },
    ]);
  });

  it('an instrument past its due date', () => {
    const due = { ...when(0, 100), text: 'last year' };
    const late = {
      ...using,
      meter: { text: 'T-2', wavelengths: [], due, place: place() },
    } as Setup;
    const cells = both('splice', 2, 0.1, 0.1);
    expect(told(cells, { of: late })).toEqual([
      {
        name: 'calibration-expired',
        place: cells[0]?.place,
        related: [{ place: late.meter?.place, message: 'T-2, due last year' }],
        details: {
          setup: 'ONE',
          instrument: 'T-2',
          due: 'last year',
          tested: 'minute 500',
          readings: 2,
        },
      },
    ]);
    const onTheDay = { ...late, meter: { ...late.meter, due: { ...due, to: 500 } } } as Setup;
    expect(told(cells, { of: onTheDay })).toEqual([]);
    const dayBefore = { ...late, meter: { ...late.meter, due: { ...due, to: 499 } } } as Setup;
    expect(names(cells, { of: dayBefore })).toEqual(['calibration-expired']);
  });
});
