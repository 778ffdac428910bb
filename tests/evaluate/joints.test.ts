/**
 * Joints along a path as a trace shows them: where each lies, what it may lose and
 * send back, and what is said of an event, whole. A reflectometer's distance is
 * c·t ÷ (2·n); the loss of a splice is the average of both directions (IEC 61280-4-2,
 * from memory); a return loss is a reflectance without its sign (IEC 61300-3-6).
 */
import { describe, expect, it } from 'vitest';
import { exactDb, micrometres, partsPerMillion } from '../../grammar/src/quantity/index.ts';
import { lossLimit, returnLossLimit } from '../../server/src/evaluate/event-limits.ts';
import type { Piece } from '../../server/src/evaluate/path.ts';
import {
  indexAt,
  indicesOf,
  inGlass,
  isAway,
  type Joint,
  jointInWords,
  percentOver,
  stationsOf,
  stationsWith,
  whereInWords,
} from '../../server/src/evaluate/stations.ts';
import type {
  ConnectorType,
  EventCell,
  FibreType,
  LimitsSet,
  LinkModel,
  PathElement,
  Setup,
  Terms,
} from '../../server/src/model/types.ts';
import {
  connector,
  db,
  evaluate,
  evidence,
  fibre,
  limitsSet,
  link,
  mated,
  metres,
  nm,
  place,
  settings,
  setup,
  splice,
  stretch,
  welded,
  when,
} from '../support/build.ts';

const glass = (length: number | undefined, type: FibreType = fibre): Piece => ({
  kind: 'fibre',
  name: type.name,
  type,
  length: length === undefined ? undefined : metres(length),
  along: length === undefined ? undefined : metres(length),
  cord: false,
  place: place(),
});
const pairAt = (at?: string): Joint => ({
  kind: 'pair',
  name: 'PAIR',
  type: connector,
  at,
  place: place(),
});
const weldAt = (at?: string, name = 'WELD'): Joint => ({
  kind: 'splice',
  name,
  type: splice,
  at,
  place: place(),
});
const declared = (name: string) => ({
  name,
  place: place(),
  namePlace: place(),
  origin: 'plan' as const,
  basis: [],
  notes: [],
  shares: [],
  returnLoss: [],
});
const partAt = (loss: readonly object[], more: object = {}): Joint =>
  ({
    kind: 'part',
    name: 'PAD',
    type: { ...declared('PAD'), kind: 'component', loss },
    place: place(),
    ...more,
  }) as Joint;
const splitAt = (loss: readonly object[], out?: number): Joint =>
  ({
    kind: 'split',
    name: 'FOURTH',
    type: { ...declared('FOURTH'), kind: 'splitter', inputs: 1, outputs: 4, loss },
    out,
    place: place(),
  }) as Joint;

describe('where a joint lies', () => {
  const [near, weld, far] = [pairAt('panel 1'), weldAt('pit 4'), pairAt()];
  const pieces = [near, glass(2000), weld, glass(3000), far];

  it('is what fibre lies before it', () => {
    expect(stationsOf(pieces)).toEqual([
      { joint: near, distance: metres(0) },
      { joint: weld, distance: metres(2000) },
      { joint: far, distance: metres(5000) },
    ]);
    expect(stationsOf([near, glass(undefined), weld])).toBeUndefined();
  });

  it('moves on behind what a repair put in', () => {
    const stations = stationsOf(pieces)!;
    const [one, two] = [weldAt(), weldAt()];
    const at = (where: number) =>
      stationsWith(stations, [{ at: metres(where), pieces: [one, glass(200), two] }])?.map(
        ({ joint, distance }) => [jointInWords(joint), distance / 1e6],
      );
    expect(at(3000)).toEqual([
      ['pair PAIR at panel 1', 0],
      ['splice WELD at pit 4', 2000],
      ['splice WELD', 3000],
      ['splice WELD', 3200],
      ['pair PAIR', 5200],
    ]);
    // What lies just there comes before it.
    expect(at(2000)?.map(([, distance]) => distance)).toEqual([0, 2000, 2000, 2200, 5200]);
    expect(stationsWith(stations, [{ at: metres(1), pieces: [glass(undefined)] }])).toBeUndefined();
    expect(stationsWith(stations, [])).toEqual(stations);
  });

  it('is said by its neighbours', () => {
    const stations = stationsOf(pieces)!;
    expect(whereInWords(stations, metres(2500))).toBe(
      'between splice WELD at pit 4, 2 km and pair PAIR, 5 km',
    );
    expect(whereInWords(stations, metres(2000))).toContain('between splice WELD at pit 4, 2 km');
    expect(whereInWords(stations, metres(6000))).toBe('behind pair PAIR, 5 km');
    expect(whereInWords(stations.slice(1), metres(10))).toBe('before splice WELD at pit 4, 2 km');
    expect(whereInWords([], metres(10))).toBe('on a path without joints');
  });

  it('is named by its kind and place', () => {
    expect(jointInWords({ kind: 'plug', name: 'PAIR', place: place() })).toBe('plug PAIR');
    expect(jointInWords(weldAt('pit 4', ''))).toBe('splice at pit 4');
    expect(jointInWords(weldAt(undefined, ''))).toBe('splice');
    expect(jointInWords(partAt([]))).toBe('PAD');
    expect(jointInWords(splitAt([]))).toBe('splitter FOURTH');
  });

  it('is away by a share, and by some metres at least', () => {
    const allowed = { share: partsPerMillion(30_000), least: metres(15) };
    const away = (a: number, b: number) => isAway(metres(a), metres(b), allowed);
    expect([away(115, 100), away(115.000001, 100)]).toEqual([false, true]);
    expect([away(85, 100), away(84.999999, 100)]).toEqual([false, true]);
    expect([away(1030, 1000), away(1030.000001, 1000)]).toEqual([false, true]);
    expect(percentOver(metres(1010.6), metres(1000))).toBe(1.06);
    expect(percentOver(metres(990), metres(1000))).toBe(-1);
    expect(percentOver(metres(5), metres(0))).toBe(0);
  });
});

describe('a distance in the glass', () => {
  const indexed = (index: number, name = 'GLASS'): FibreType =>
    ({ ...fibre, name, index: [{ wavelength: nm(1550), value: index }] }) as never;
  const set = (...entries: readonly (readonly [number, number])[]): Setup =>
    setup({
      index: entries.map(([wavelength, value]) => ({ wavelength: nm(wavelength), value })) as never,
    });

  it('is converted by the index that was set and that of the fibres, by their lengths', () => {
    const indices = indicesOf(
      set([1550, 1.46]),
      [glass(1000, indexed(1.468)), glass(3000, indexed(1.472, 'B'))],
      nm(1550),
    );
    expect(indices?.set).toBe(1.46);
    expect(indices?.glass).toBeCloseTo(1.471, 12);
    // 8.15 km · 1.46 ÷ 1.468, to a micrometre.
    expect(inGlass(metres(8150), { set: 1.46, glass: 1.468 })).toBe(micrometres(8_105_585_831));
    expect(inGlass(metres(8150), { set: 1.468, glass: 1.468 })).toBe(metres(8150));
    expect(inGlass(metres(8150), undefined)).toBe(metres(8150));
  });

  it('stands as it was shown where an index, a length or the light is not known', () => {
    const pieces = [glass(1000, indexed(1.468))];
    expect(indicesOf(undefined, pieces, nm(1550))).toBeUndefined();
    expect(indicesOf(set(), pieces, nm(1550))).toBeUndefined();
    expect(indicesOf(set([1310, 1.46]), pieces, nm(1550))).toBeUndefined();
    expect(indicesOf(set([1550, 1.46]), [...pieces, glass(1000)], nm(1550))).toBeUndefined();
    expect(
      indicesOf(set([1550, 1.46]), [glass(undefined, indexed(1.468))], nm(1550)),
    ).toBeUndefined();
    expect(indicesOf(set([1550, 1.46]), [], nm(1550))).toBeUndefined();
    // Of a length without its light: the only index that was set.
    expect(indicesOf(set([1550, 1.46]), pieces, undefined)).toEqual({ set: 1.46, glass: 1.468 });
    expect(indicesOf(set([1550, 1.46], [1310, 1.466]), pieces, undefined)).toBeUndefined();
  });

  it('takes the figure of the nearest light in its window', () => {
    const at = (...wavelengths: readonly number[]) =>
      indexAt(
        wavelengths.map((wavelength) => ({ wavelength: nm(wavelength) })),
        nm(1550),
      )?.wavelength;
    expect(at(1530, 1545, 1560)).toBe(nm(1545));
    expect(at(1581)).toBeUndefined();
    expect(at(1580)).toBe(nm(1580));
  });
});

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
    expect(limited(partAt([{ max: db(1.2) }]))).toEqual([1.2, 'PAD', undefined]);
    const joins = partAt([], { joins: ['MPO-12', 'LC'] });
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
    expect(limited(splitAt(stated, 1))).toEqual([7.4, 'splitter FOURTH', undefined]);
    expect(limited(splitAt(stated, 3))).toEqual([7.3, 'splitter FOURTH', undefined]);
    expect(limited(splitAt(stated))).toEqual([7, 'splitter FOURTH', undefined]);
    expect(limited(splitAt([{ typ: db(8) }], 1))).toBeUndefined();
    expect(
      lossLimit(splitAt(stated, 1), link([], { limits: [] }), nm(850))?.limit.terms,
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

describe('what is said of events', () => {
  const using = setup({
    otdr: true,
    reference: undefined,
    cords: setup().cords.map((cord) => ({
      ...cord,
      role: cord.role === 'receive' ? ('tail' as const) : cord.role,
    })),
  });
  const path = (): PathElement[] => [
    mated(),
    stretch(2000),
    { ...welded(), at: 'pit 4' } as PathElement,
    stretch(3000),
    mated(),
  ];
  const event = (
    kind: EventCell['kind'],
    kilometres: number,
    value: number,
    direction: 'A>B' | 'B>A' | undefined = 'A>B',
    more: Partial<EventCell> = {},
  ): EventCell => ({
    object: 'KQ-1',
    fibre: 1,
    distance: metres(kilometres * 1000),
    kind,
    quantity: 'loss',
    wavelength: nm(850),
    direction,
    typed: { digits: String(value), unit: 'dB' },
    value: db(value),
    setup: 'ONE',
    trace: [],
    at: when(500),
    place: place(),
    row: { ...place(), block: 40 },
    ...more,
  });
  const both = (
    kind: EventCell['kind'],
    kilometres: number,
    a: number,
    b: number,
    more: Partial<EventCell> = {},
  ) => [event(kind, kilometres, a, 'A>B', more), event(kind, kilometres, b, 'B>A', more)];

  const judged = (
    events: readonly EventCell[],
    {
      terms = {},
      of = using,
      model = {},
      also = {},
    }: {
      terms?: Partial<Terms>;
      of?: Setup;
      model?: Partial<LinkModel>;
      also?: Parameters<typeof evidence>[0];
    } = {},
  ) => {
    const whole = { ...link(path(), { measure: [], ...terms }, 2), ...model };
    return evaluate(whole, evidence({ events, ...also }), of, settings());
  };
  const told = (...asked: Parameters<typeof judged>) => judged(...asked).doubts;
  const names = (...asked: Parameters<typeof judged>) => told(...asked).map((one) => one.name);
  const at = { fibre: 1, wavelength: 850 };

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
