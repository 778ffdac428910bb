/**
 * What one joint may lose and how little it may send back, whole: the figure, whose
 * it is and where it stands. A return loss is a reflectance without its sign
 * (IEC 61300-3-6), so that the greatest of several counts.
 */
import { describe, expect, it } from 'vitest';
import { exactDb } from '../../grammar/src/quantity/index.ts';
import { lossLimit, returnLossLimit } from '../../server/src/evaluate/event-limits.ts';
import type { Joint } from '../../server/src/evaluate/stations.ts';
import type { ConnectorType, LimitsSet } from '../../server/src/model/types.ts';
import { connector, db, limitsSet, link, nm, place, splice } from '../support/build.ts';
import { pairAt, part, split, weldAt } from './pieces.ts';

describe('what a joint may lose', () => {
  const limited = (joint: Joint, ...sets: readonly LimitsSet[]) => {
    const found = lossLimit(joint, link([], { limits: sets }), nm(850));
    return (
      found && [
        found.limit.value === undefined ? undefined : Number(found.limit.value) / 1e15,
        found.limit.name,
        found.objective,
      ]
    );
  };
  const set = limitsSet('SET', 0.75, 3);

  it('is one figure, and whose it is', () => {
    const joint = pairAt('panel 1');
    const entry = set.connector[0];
    expect(lossLimit(joint, link([], { limits: [set] }), nm(850))).toEqual({
      limit: {
        kind: 'components',
        name: 'SET',
        value: exactDb(db(0.75)),
        floor: db(0.75),
        terms: [
          {
            what: 'pair PAIR at panel 1',
            role: 'pair',
            count: 1,
            each: db(0.75),
            total: exactDb(db(0.75)),
            source: 'SET, any pair',
            trust: undefined,
            place: entry?.place,
          },
        ],
        beside: false,
        recalled: false,
      },
    });
    const contract = limitsSet('DEAL', 0.75, 3, {
      contract: true,
      edition: 'clause 7',
      splice: [
        { splice: 'any', loss: db(0.3), objective: db(0.1), trust: 'recalled', place: place() },
      ],
    });
    expect(lossLimit(weldAt(), link([], { limits: [contract] }), nm(850))).toMatchObject({
      limit: {
        kind: 'contract',
        name: 'DEAL',
        recalled: true,
        terms: [
          {
            what: 'splice WELD',
            role: 'splice',
            source: 'clause 7, splice any',
            trust: 'recalled',
          },
        ],
      },
      objective: db(0.1),
    });
  });

  it('is the smallest that a set in force gives, else that of the joint itself', () => {
    const tight = limitsSet('TIGHT', 0.5, 3);
    const bare = limitsSet('BARE', 0.5, 3, { connector: [], splice: [] });
    expect(limited(pairAt(), set, tight)).toEqual([0.5, 'TIGHT', undefined]);
    expect(limited(pairAt(), tight, set)).toEqual([0.5, 'TIGHT', undefined]);
    expect(limited(pairAt(), set, limitsSet('SAME', 0.75, 3))).toEqual([0.75, 'SET', undefined]);
    expect(limited({ ...pairAt(), type: undefined } as Joint, bare)).toBeUndefined();
    expect(limited({ ...pairAt(), type: undefined } as Joint, bare, set)).toEqual([
      0.75,
      'SET',
      undefined,
    ]);
    expect(limited({ ...pairAt(), type: undefined } as Joint, set, bare)).toEqual([
      0.75,
      'SET',
      undefined,
    ]);
    expect(limited(pairAt())).toEqual([0.75, 'pair PAIR', undefined]);
    expect(limited(weldAt())).toEqual([0.3, 'splice WELD', undefined]);
    expect(limited({ kind: 'plug', name: 'PAIR', type: connector, place: place() }, set)).toEqual([
      0.75,
      'SET',
      undefined,
    ]);
  });

  it('of a part is its own figure, or that of its two pairs', () => {
    expect(limited(part([{ max: db(1.2) }]))).toEqual([1.2, 'PAD', undefined]);
    const joins = part([], ['MPO-12', 'LC']);
    expect(lossLimit(joins, link([], { limits: [set] }), nm(850))?.limit.terms[0]).toMatchObject({
      each: db(1.5),
      role: 'part',
      source: 'SET, any pair, twice',
    });
    expect(limited(joins)).toBeUndefined();
    const named = limitsSet('NAMED', 0.75, 3, {
      part: [{ part: 'PAD', loss: db(0.9), place: place() }],
      connector: set.connector.map((one, at) => (at === 0 ? { ...one, connector: 'LC' } : one)),
    });
    expect(limited(joins, named)).toEqual([0.9, 'NAMED', undefined]);
    expect(limited(joins, { ...named, part: [] })).toBeUndefined();
  });

  it('of a splitter is the greatest that its output states at that light', () => {
    const stated = [
      { max: db(7) },
      { max: db(7.4), out: [1, 2] },
      { max: db(7.2), out: [3] },
      { max: db(9), wavelength: nm(1310) },
      { max: db(7.3), wavelength: nm(850), out: [3] },
      { typ: db(8) },
    ];
    expect(limited(split(stated, 1))).toEqual([7.4, 'splitter FOURTH', undefined]);
    expect(limited(split(stated, 3))).toEqual([7.3, 'splitter FOURTH', undefined]);
    expect(limited(split(stated))).toEqual([7, 'splitter FOURTH', undefined]);
    expect(limited(split([{ typ: db(8) }], 1))).toBeUndefined();
    expect(
      lossLimit(split(stated, 1), link([], { limits: [] }), nm(850))?.limit.terms,
    ).toMatchObject([{ role: 'part', source: 'FOURTH, greatest' }]);
  });
});

describe('how little a joint may send back', () => {
  const asked = (joint: Joint, ...sets: readonly LimitsSet[]) => {
    const found = returnLossLimit(joint, link([], { limits: sets }), nm(850));
    return found && [Number(found.value) / 1e15, found.name];
  };
  const wanting = (name: string, min: number, of = 'PAIR') =>
    limitsSet(name, 0.75, 3, {
      returnLoss: [{ connector: of, min: db(min), place: place() }] as never,
    });
  const own = (...returnLoss: readonly object[]): ConnectorType =>
    ({ ...connector, returnLoss }) as never;

  it('is the greatest of what sets and part say', () => {
    expect(asked(pairAt(), wanting('A', 45), wanting('B', 50))).toEqual([50, 'B']);
    expect(asked(pairAt(), wanting('B', 50), wanting('A', 45))).toEqual([50, 'B']);
    expect(asked(pairAt(), wanting('A', 45), wanting('B', 45))).toEqual([45, 'A']);
    expect(asked(pairAt(), wanting('A', 45, 'OTHER'))).toBeUndefined();
    const graded = { ...pairAt(), type: own({ min: db(48) }) } as Joint;
    expect(asked(graded, wanting('A', 45))).toEqual([48, 'pair PAIR']);
    expect(asked(graded, wanting('A', 55))).toEqual([55, 'A']);
    const weld = { ...weldAt(), type: { ...splice, returnLoss: [{ min: db(60) }] } } as Joint;
    expect(asked(weld, wanting('A', 70, 'WELD'))).toEqual([60, 'splice WELD']);
    expect(asked(weldAt())).toBeUndefined();
  });

  it('is that of its own light before that of all', () => {
    const two = own({ min: db(40) }, { wavelength: nm(850), min: db(35) });
    expect(asked({ ...pairAt(), type: two } as Joint)).toEqual([35, 'pair PAIR']);
    const half = own({ wavelength: nm(850), typ: db(50) }, { min: db(40) });
    expect(asked({ ...pairAt(), type: half } as Joint)).toEqual([40, 'pair PAIR']);
    expect(
      asked({ ...pairAt(), type: own({ wavelength: nm(1310), min: db(40) }) } as Joint),
    ).toBeUndefined();
  });

  it('is one term, with its source', () => {
    const set = { ...wanting('A', 45), contract: true, edition: 'clause 7' };
    expect(returnLossLimit(pairAt(), link([], { limits: [set] }), nm(850))).toEqual({
      kind: 'contract',
      name: 'A',
      value: exactDb(db(45)),
      floor: db(45),
      terms: [
        {
          what: 'return loss of pair PAIR',
          role: 'pair',
          count: 1,
          each: db(45),
          total: exactDb(db(45)),
          source: 'clause 7',
          place: set.returnLoss[0]?.place,
        },
      ],
      beside: false,
      recalled: false,
    });
    const graded = {
      kind: 'plug',
      name: 'PAIR',
      type: own({ min: db(48) }),
      place: place(),
    } as Joint;
    expect(returnLossLimit(graded, link([], { limits: [] }), nm(850))).toMatchObject({
      kind: 'components',
      name: 'plug PAIR',
      terms: [{ role: 'part', source: 'PAIR, least return loss', place: connector.place }],
    });
  });
});
