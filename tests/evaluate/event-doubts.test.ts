/**
 * What is said of an event, whole: a joint over its figure, a gain, a bend, light that
 * is sent back. The loss of a splice is the average of both directions (IEC 61280-4-2,
 * from memory); a return loss is a reflectance without its sign (IEC 61300-3-6).
 */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import { db, limitsSet, metres, nm, place } from '../support/build.ts';
import { both, event, judged, names, told } from './traced-link.ts';

const at = { fibre: 1, wavelength: 850 };

describe('what is said of events', () => {
  it('a splice over its figure', () => {
    const cells = both('splice', 2, 0.3, 0.4);
    const because = 'average 0.35 dB of 0.30 dB A>B and 0.40 dB B>A';
    expect(told(cells)).toEqual([
      {
        name: 'joint-over-limit',
        place: cells[0]?.place,
        details: {
          ...at,
          at: 2000,
          kind: 'splice',
          because,
          part: 'splice WELD at pit 4',
          average: 0.35,
          value: 0.3,
          limit: 0.3,
          limitName: 'SET',
          limitKind: 'components',
          margin: -0.05,
          over: 0.05,
          verdict: 'fail',
        },
      },
    ]);
    expect(judged(cells).events).toMatchObject([
      {
        verdict: 'fail',
        because,
        sum: db(0.7),
        at: 'pit 4',
        margin: exactDb(db(-0.05)),
        distance: metres(2000),
      },
    ]);
    expect(told(both('splice', 2, 0.3, 0.3))).toEqual([]);
  });

  it('a splice over its objective', () => {
    const set = limitsSet('SET', 0.75, 3);
    const splices = [{ splice: 'any', loss: db(0.3), objective: db(0.1), place: place() }];
    const terms = { limits: [{ ...set, splice: splices }] };
    const cells = both('splice', 2, 0.1, 0.16);
    expect(told(cells, { terms })).toEqual([
      {
        name: 'splice-over-objective',
        place: cells[0]?.place,
        details: {
          ...at,
          at: 2000,
          kind: 'splice',
          because: 'average 0.13 dB of 0.10 dB A>B and 0.16 dB B>A, over the objective of 0.10 dB',
          part: 'splice WELD at pit 4',
          average: 0.13,
          value: 0.1,
          limit: 0.3,
          limitName: 'SET',
          limitKind: 'components',
          margin: 0.17,
          objective: 0.1,
          over: 0.03,
        },
      },
    ]);
    expect(told(both('splice', 2, 0.1, 0.1), { terms })).toEqual([]);
  });

  it('a gain in one direction, and one that cannot be', () => {
    const gain = both('splice', 2, -0.06, 0.22);
    expect(told(gain)).toEqual([
      {
        name: 'splice-gain',
        place: gain[0]?.place,
        details: {
          ...at,
          at: 2000,
          kind: 'splice',
          because: 'average 0.08 dB of −0.06 dB A>B and 0.22 dB B>A',
          part: 'splice WELD at pit 4',
          average: 0.08,
          value: -0.06,
          events: 1,
          fibres: '1',
          direction: 'A>B',
          forward: -0.06,
          back: 0.22,
          unlike: 0.14,
        },
      },
    ]);
    // Two at a joint each of two fibres are two events.
    const four = [...gain, ...both('splice', 2, -0.05, 0.2, { fibre: 2 })];
    expect(told(four)).toMatchObject([{ details: { events: 2, fibres: '1..2' } }]);
    expect(names(both('splice', 2, -0.05, -0.05))).toEqual(['splice-gain']);
    const less = both('splice', 2, -0.05, -0.050001);
    expect(told(less)).toMatchObject([
      {
        name: 'event-impossible',
        place: less[0]?.place,
        details: {
          average: -0.0500005,
          because: expect.stringContaining(
            'a joint cannot gain light, so the trace or its place is not true',
          ),
        },
      },
    ]);
    expect(names([event('connector', 0, -0.06)])).toEqual(['event-impossible']);
    expect(names([event('connector', 0, -0.05)])).toEqual([]);
  });

  it('a splice that was seen one way', () => {
    const one = event('splice', 2, 0.1, 'B>A');
    expect(told([one])).toEqual([
      {
        name: 'splice-one-way',
        place: one.place,
        details: {
          ...at,
          at: 2000,
          kind: 'splice',
          because: 'seen B>A alone: a splice is the average of both directions',
          part: 'splice WELD at pit 4',
          value: 0.1,
          events: 1,
          fibres: '1',
          direction: 'B>A',
        },
      },
    ]);
  });

  it('a bend, and what fits no joint', () => {
    const bend = both('bend', 3, 0.2, 0.2);
    const where = 'between splice WELD at pit 4, 2 km and pair PAIR, 5 km';
    expect(told(bend)).toEqual([
      {
        name: 'bend-on-trace',
        place: bend[0]?.place,
        details: {
          ...at,
          at: 3000,
          kind: 'bend',
          because: `a bend, ${where}: nothing is allowed for it`,
          average: 0.2,
          value: 0.2,
          where,
        },
      },
    ]);
    const strange = both('splice', 3, 0.2, 0.2);
    expect(told(strange)).toEqual([
      {
        name: 'event-unexplained',
        place: strange[0]?.place,
        details: {
          ...at,
          at: 3000,
          kind: 'splice',
          because: `no splice of the path lies there: ${where}`,
          average: 0.2,
          value: 0.2,
          where,
        },
      },
    ]);
  });

  it('one joint at several lights is told at the worst', () => {
    const long = { wavelength: nm(1300) };
    const cells = [...both('splice', 2, 0.35, 0.35), ...both('splice', 2, 0.4, 0.4, long)];
    expect(told(cells)).toMatchObject([{ details: { wavelength: 1300, over: 0.1 } }]);
    const other = [...both('splice', 2, 0.45, 0.45), ...both('splice', 2, 0.4, 0.4, long)];
    expect(told(other)).toMatchObject([{ details: { wavelength: 850, over: 0.15 } }]);
  });

  it('light that is sent back', () => {
    const set = limitsSet('SET', 0.75, 3, {
      returnLoss: [{ connector: 'PAIR', min: db(45), place: place() }] as never,
    });
    const terms = { limits: [set] };
    const back = { quantity: 'reflectance' as const };
    const low = [event('connector', 0, -44, 'A>B', back), event('connector', 0, -50, 'B>A', back)];
    expect(told(low, { terms })).toEqual([
      {
        name: 'return-loss-low',
        place: low[0]?.place,
        details: {
          ...at,
          at: 0,
          kind: 'connector',
          because: 'return loss 44.00 dB',
          part: 'pair PAIR',
          value: -44,
          limit: 45,
          limitName: 'SET',
          limitKind: 'components',
          margin: -1,
          over: 1,
          verdict: 'fail',
        },
      },
    ]);
    const positive = event('connector', 0, 50, 'A>B', back);
    expect(told([positive], { terms })).toMatchObject([
      {
        name: 'reflectance-positive',
        details: {
          because:
            'a reflectance is negative: 50.00 dB is a return loss, and is written as −50.00 dB',
        },
      },
    ]);
    expect(names([event('connector', 0, 0, 'A>B', back)], { terms })).toEqual(['return-loss-low']);
    const unasked = judged([event('connector', 0, -50, 'A>B', back)]);
    expect(unasked.events[0]?.because).toBe('no return loss is asked of pair PAIR');
  });
});
