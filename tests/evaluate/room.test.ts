/**
 * The room that a design leaves, worked out by hand. Fibre of 3.0 dB/km at 850 nm
 * and 1.5 dB/km at 1300 nm, pairs of 0.75 dB (TIA-568.3-E): a path of two pairs
 * and 100 m loses 1.5 + 0.3 dB. The length formula is that of equipment makers'
 * manuals: (budget − joints − reserve) ÷ dB/km; a row's terms hold together (IEEE 802.3).
 */
import { describe, expect, it } from 'vitest';
import {
  exactDb,
  type Micrometres,
  micrometres,
  partsPerMillion,
  ratePerKm,
} from '../../grammar/src/quantity/index.ts';
import type {
  ApplicationRow,
  Cable,
  ConnectorType,
  FibreType,
  PathElement,
} from '../../server/src/model/types.ts';
import {
  carried,
  connector,
  db,
  fibre,
  link,
  mated,
  metres,
  nm,
  place,
  stretch,
} from '../support/build.ts';
import { limitedBy, path, room, roomsOf, type Segment, service } from './service-room.ts';

describe('the room of a path', () => {
  it('is the smaller of reach and loss, with all that they are made of', () => {
    const type = service([limitedBy(300, 2.6)]);
    const carries = carried(type, [3, 2]);
    const [pairA, glass, pairB] = path() as [PathElement, Segment, PathElement];
    const [found, ...more] = roomsOf(link([pairA, glass, pairB], { carries: [carries] }));
    expect(more).toEqual([]);
    expect(found).toEqual({
      application: 'SERVICE',
      place: carries.place,
      row: 'GLASS, 300 m, 2.6 dB',
      stretch: { fibre: 'GLASS', length: metres(100), place: glass.place },
      others: metres(5),
      byReach: { reach: metres(300), longest: metres(295) },
      byLoss: {
        wavelength: nm(850),
        direction: 'A>B',
        allowed: db(2.6),
        // Two pairs and 5 m of cords.
        fixed: exactDb(db(1.515)),
        rate: ratePerKm(3_000_000),
        // 1.085 dB ÷ 3.0 dB/km, and no micrometre more.
        longest: micrometres(361_666_666),
      },
      longest: metres(295),
      left: {
        wavelength: nm(850),
        // 2.6 − 1.515 − 0.3, and a tenth of 2.6 should be left.
        loss: exactDb(db(0.785)),
        wanted: exactDb(db(0.26)),
        pairs: { name: 'PAIR', each: db(0.75), more: 1 },
      },
      recalled: false,
    });
  });

  it('is that of the row which leaves most', () => {
    const short = limitedBy(200, 2.6);
    const long = limitedBy(300, 1.9);
    // The long row ends at (1.9 − 1.5) ÷ 3.0 km, the short one by its reach.
    for (const rows of [
      [long, short],
      [short, long],
    ]) {
      expect(room(rows)).toMatchObject({ row: 'GLASS, 200 m, 2.6 dB', longest: metres(200) });
    }
    // Of two that leave the same the first is named, and one that never holds is last.
    expect(room([limitedBy(200, 2.6), limitedBy(200, 2.7)])?.row).toBe('GLASS, 200 m, 2.6 dB');
    expect(room([limitedBy(300, 1.4), limitedBy(110, 2.6)])?.longest).toEqual(metres(110));
  });

  it('has no end where a row asks for neither', () => {
    const found = room([{}]);
    expect(found).toMatchObject({ row: 'GLASS' });
    expect(found?.longest).toBeUndefined();
    expect(found).not.toHaveProperty('byReach');
    expect(found).not.toHaveProperty('byLoss');
    expect(found).not.toHaveProperty('never');
    expect(found?.left).toBeUndefined();
    // More than any length is no less than some.
    expect(room([limitedBy(900, undefined), {}])?.longest).toBeUndefined();
    expect(room([limitedBy(900, undefined)])?.longest).toEqual(metres(900));
    expect(room([limitedBy(undefined, 2.1)])?.longest).toEqual(metres(200));
  });

  it('is told of the light that ends first', () => {
    const first = (...lights: readonly { nm: number; direction?: 'A>B' | 'B>A' }[]) => {
      const found = room([limitedBy(undefined, 2.1)], {
        wavelengths: lights.map((light) => ({ wavelength: nm(light.nm), ...light })),
      });
      return [found?.byLoss?.wavelength, found?.byLoss?.direction, found?.left?.wavelength];
    };
    expect(first({ nm: 1300 }, { nm: 850 })).toEqual([nm(850), 'A>B', nm(850)]);
    expect(first({ nm: 850 }, { nm: 1300 })).toEqual([nm(850), 'A>B', nm(850)]);
    expect(first({ nm: 850, direction: 'B>A' })).toEqual([nm(850), 'B>A', nm(850)]);
  });

  it('is not told where a length or a figure is not known', () => {
    const unknown: PathElement = { ...(stretch(0) as Segment), deliberate: true };
    const missing: PathElement = { ...(stretch(0) as Segment), length: undefined };
    const strange: PathElement = { ...(stretch(50) as Segment), fibre: undefined, fibreName: 'X' };
    const rows = [limitedBy(300, 2.6)];
    for (const element of [unknown, missing, strange]) {
      expect(room(rows, { along: path(element) })).toBeUndefined();
    }
    expect(room(rows, { along: [mated(), mated()] })).toBeUndefined();
    // Without a figure for a pair no loss is known, whatever the reach.
    const bare: PathElement = { kind: 'connector', name: 'BARE', place: place() };
    const terms = { limits: [] };
    expect(room(rows, { along: path(bare), terms })).toBeUndefined();
    expect(room([], {})).toBeUndefined();
    const gone: PathElement = { kind: 'link', name: 'KQ-9', turned: false, place: place() };
    const cord = { ...stretch(3), kind: 'cord' } as unknown as PathElement;
    const channel = { ...link([cord, gone], { carries: [carried(service(rows))] }) };
    expect(roomsOf({ ...channel, kind: 'channel' })).toEqual([]);
  });

  it('asks of the longest stretch that is no cord, else of the longest cord', () => {
    const long = { ...stretch(250), place: place() } as Segment;
    expect(room([limitedBy(900, 9)], { along: path(long) })?.stretch.place).toBe(long.place);
    const cords = room([limitedBy(900, 9)], { along: path(long), cords: [400] });
    expect([cords?.stretch.length, cords?.others]).toEqual([metres(250), metres(500)]);
    const along = path(stretch(100));
    const twice = room([limitedBy(900, 9)], { along });
    expect(twice?.others).toEqual(metres(100));
    // Of two as long the first.
    expect(twice?.stretch.place).toBe(along[1]?.place);
    const cord = (length: number) =>
      ({ ...stretch(length), kind: 'cord' }) as unknown as PathElement;
    const carries = [carried(service([limitedBy(900, 9)]))];
    const channel = link([cord(3), cord(7), cord(5)], { carries });
    const [only] = roomsOf({ ...channel, kind: 'channel' });
    expect([only?.stretch.length, only?.longest]).toEqual([metres(7), metres(892)]);
  });

  it('counts the fibre of a cable, which is longer than its sheath', () => {
    const cable = { excess: partsPerMillion(10_000) } as Cable;
    const helix = { ...stretch(100), cable } as Segment;
    const found = room([limitedBy(300, undefined)], {
      along: [mated(), helix, mated()],
      cords: [5],
    });
    // 101 m of fibre and 5 m of cord; 295 m of fibre lie in 292.0792079 m of cable.
    expect(found).toMatchObject({
      others: metres(5),
      byReach: { longest: micrometres(292_079_208) },
    });
    // 292.079208 × 1.01 = 295.00000008 m, which is 295 m to a micrometre; one more is not.
    const grown = room([limitedBy(106, undefined)], {
      along: [mated(), helix, mated()],
      cords: [5],
    });
    expect(grown?.longest).toEqual(metres(100));
  });

  it('rests on a recalled figure where its row or a term of its loss does', () => {
    const glass: FibreType = {
      ...fibre,
      attenuation: [{ wavelength: nm(850), max: ratePerKm(3_000_000), trust: 'recalled' }],
    };
    const along = [mated(), { ...stretch(100), fibre: glass } as Segment, mated()];
    const recalled = (one: Partial<ApplicationRow>, over: readonly PathElement[]) =>
      room([one], { along: over })?.recalled;
    expect(recalled({ ...limitedBy(300, 2.6), trust: 'recalled' }, path())).toBe(true);
    expect(recalled({ ...limitedBy(300, 2.6), trust: 'read' }, path())).toBe(false);
    expect(recalled(limitedBy(300, 2.6), along)).toBe(true);
    // One of two lights is enough, whichever.
    const half = fibre.attenuation.map((rate) => ({
      ...rate,
      ...(rate.wavelength === nm(1300) && { trust: 'recalled' as const }),
    }));
    const mixed = [
      mated(),
      { ...stretch(100), fibre: { ...fibre, attenuation: half } } as Segment,
      mated(),
    ];
    const lights = [{ wavelength: nm(850) }, { wavelength: nm(1300) }];
    for (const wavelengths of [lights, [...lights].reverse()]) {
      const asked = { along: mixed, wavelengths, terms: { limits: [] } };
      expect(room([limitedBy(300, 2.6)], asked)?.recalled).toBe(true);
    }
    // Where loss has no part in it, its figures have none either.
    expect(recalled(limitedBy(300, undefined), along)).toBe(false);
  });
});

describe('what is left', () => {
  const left = (...asked: Parameters<typeof room>) => room(...asked)?.left;
  const kind = (name: string, loss: ConnectorType['loss']) =>
    ({ ...mated(), name, type: { ...connector, name, loss } }) as PathElement;

  it('should be a tenth of what is allowed, at most 0.3 dB, or what the plan wants', () => {
    expect(left([limitedBy(300, 2.6)])?.wanted).toBe(exactDb(db(0.26)));
    expect(left([limitedBy(300, 3)])?.wanted).toBe(exactDb(db(0.3)));
    expect(left([limitedBy(300, 9)])?.wanted).toBe(exactDb(db(0.3)));
    const terms = { margin: db(1) };
    expect(left([limitedBy(300, 9)], { terms })?.wanted).toBe(exactDb(db(1)));
  });

  it('is that of the light that leaves least, and so are the pairs that it bears', () => {
    const pair = () =>
      kind('TWO', [
        { wavelength: nm(850), max: db(0.75) },
        { wavelength: nm(1300), max: db(0.5) },
      ]);
    const along = [pair(), stretch(100), pair()];
    const lights = [{ wavelength: nm(850) }, { wavelength: nm(1300) }];
    for (const wavelengths of [lights, [...lights].reverse()]) {
      const asked = { along, wavelengths, terms: { limits: [] } };
      // 2.6 − 1.5 − 0.3 at 850 nm, where one of 0.75 dB fits; 1.45 dB at 1300 nm, where two of 0.5 dB do.
      expect(left([limitedBy(300, 2.6)], asked)).toMatchObject({
        wavelength: nm(850),
        loss: exactDb(db(0.8)),
        pairs: { name: 'TWO', each: db(0.75), more: 1 },
      });
      expect(left([limitedBy(300, 2.55)], asked)?.pairs?.more).toBe(1);
      expect(left([limitedBy(300, 2.549)], asked)?.pairs?.more).toBe(0);
      // Connections may take 2.24 dB, and take 1.5 dB.
      const joints = { ...limitedBy(300, 9), connections: db(2.24) };
      expect(left([joints], asked)?.pairs?.more).toBe(0);
      expect(left([{ ...joints, connections: db(2.25) }], asked)?.pairs?.more).toBe(1);
    }
  });

  it('bears no pair where nothing is left, nor where pairs lose nothing or there are none', () => {
    expect(left([limitedBy(300, 1.6)])).toMatchObject({
      loss: exactDb(db(-0.2)),
      pairs: { more: 0 },
    });
    // 1.7 dB too much are more than two pairs, and still none fits.
    expect(left([limitedBy(300, 0.1)])?.pairs?.more).toBe(0);
    // Where connections may take more than is left, what is left counts.
    expect(left([{ ...limitedBy(300, 2.6), connections: db(9) }])?.pairs?.more).toBe(1);
    const free = [kind('FREE', [{ max: db(0) }]), stretch(100), kind('FREE', [{ max: db(0) }])];
    const own = { terms: { limits: [] } };
    expect(left([limitedBy(300, 2.6)], { along: free, ...own })).not.toHaveProperty('pairs');
    expect(left([limitedBy(300, 2.6)], { along: [stretch(100)] })).not.toHaveProperty('pairs');
  });

  it('bears pairs of the kind that the path has most of, of two alike the first', () => {
    const few = () => kind('FEW', [{ max: db(0.2) }]);
    const many = () => kind('MANY', [{ max: db(0.4) }]);
    const named = (...pairs: readonly PathElement[]) => {
      const along = [...pairs, stretch(100)];
      return left([limitedBy(300, 9)], { along, terms: { limits: [] } })?.pairs?.name;
    };
    expect(named(few(), many(), many())).toBe('MANY');
    expect(named(many(), many(), few())).toBe('MANY');
    expect(named(few(), many())).toBe('FEW');
  });
});

/** Why a row holds at no length, if it does not, and its longest. */
const never = (more: Partial<ApplicationRow>, options = {}) => {
  const found = room([more], options);
  return [found?.never, found?.longest];
};
const none: Micrometres = micrometres(0);

describe('a row that holds at no length', () => {
  it('is one that the rest of the path reaches to already', () => {
    const rest = 'the rest of the path reaches that far already';
    expect(never(limitedBy(5, 2.6), { cords: [3, 2] })).toEqual([rest, none]);
    expect(never(limitedBy(4, 2.6), { cords: [3, 2] })).toEqual([rest, none]);
    expect(never(limitedBy(6, 2.6), { cords: [3, 2] })).toEqual([undefined, metres(1)]);
  });

  it('is one whose loss the rest takes', () => {
    const taken = 'what is not this fibre takes all of the loss already';
    expect(never(limitedBy(300, 1.4))).toEqual([taken, none]);
    expect(never(limitedBy(300, 1.5))).toEqual([taken, none]);
    expect(never(limitedBy(300, 1.53))).toEqual([undefined, metres(10)]);
    // Of fibre that loses nothing any length holds that the joints leave room for.
    const clear = { ...fibre, attenuation: [{ wavelength: nm(850), max: ratePerKm(0) }] };
    const along = [mated(), { ...stretch(100), fibre: clear } as Segment, mated()];
    const free = { along, terms: { limits: [] } };
    expect(never(limitedBy(300, 1.5), free)).toEqual([undefined, metres(300)]);
    expect(never(limitedBy(300, 1.499999), free)).toEqual([taken, none]);
  });

  it('is one that holds at one of its lights and at the other does not, whichever comes first', () => {
    // Joints of 0.75 dB at 850 nm and 0.5 dB at 1300 nm, over fibre that loses nothing or its usual.
    const pair = () =>
      ({
        ...mated(),
        type: {
          ...connector,
          loss: [
            { wavelength: nm(850), max: db(0.75) },
            { wavelength: nm(1300), max: db(0.5) },
          ],
        },
      }) as PathElement;
    const clear = [850, 1300].map((at) => ({ wavelength: nm(at), max: ratePerKm(0) }));
    const over = (attenuation: FibreType['attenuation']) => [
      pair(),
      { ...stretch(100), fibre: { ...fibre, attenuation } } as Segment,
      pair(),
    ];
    const lights = [{ wavelength: nm(850) }, { wavelength: nm(1300) }];
    const taken = 'what is not this fibre takes all of the loss already';
    const joints = 'its connections alone may lose too much';
    const glass = fibre.attenuation.map((rate) => ({ ...rate, min: rate.max }));
    for (const wavelengths of [lights, [...lights].reverse()]) {
      const asked = (more: Partial<ApplicationRow>, attenuation: FibreType['attenuation']) =>
        never(more, { along: over(attenuation), wavelengths, terms: { limits: [] } });
      expect(asked(limitedBy(300, 1.2), clear)).toEqual([taken, none]);
      expect(asked(limitedBy(300, 1.2), glass)).toEqual([taken, none]);
      expect(asked(limitedBy(300, 1.5), clear)).toEqual([undefined, metres(300)]);
      const row = { ...limitedBy(300, undefined), connections: db(1.2) };
      expect(asked(row, glass)).toEqual([joints, none]);
      expect(asked({ ...row, connections: db(1.5) }, glass)).toEqual([undefined, metres(300)]);
      // 3.0 and 1.5 dB/km at the least over 300 m: 0.9 and 0.45 dB.
      const weak = 'at no length that it reaches does it surely lose enough';
      const wanting = { ...limitedBy(300, undefined), min: db(0.46) };
      expect(asked(wanting, glass)).toEqual([weak, none]);
      expect(asked({ ...wanting, min: db(0.45) }, glass)).toEqual([undefined, metres(300)]);
    }
  });

  it('is one whose connections may take less', () => {
    const over = 'its connections alone may lose too much';
    const joints = (connections: number) => ({
      ...limitedBy(300, 2.6),
      connections: db(connections),
    });
    expect(never(joints(1.4))).toEqual([over, none]);
    expect(never(joints(1.5))).toEqual([undefined, metres(300)]);
  });

  it('is one that wants more loss than it can have', () => {
    const weak = 'at no length that it reaches does it surely lose enough';
    const glass = (least: number): FibreType => ({
      ...fibre,
      attenuation: [{ wavelength: nm(850), min: ratePerKm(least), max: ratePerKm(3_000_000) }],
    });
    const over = (least: number) => ({
      along: [mated(), { ...stretch(100), fibre: glass(least) } as Segment, mated()],
      cords: [5],
    });
    const wanting = { ...limitedBy(505, 9), min: db(1) };
    // 500 m and 5 m of cord, which is of the same fibre: 1 dB ÷ 0.505 km = 1.98019802 dB/km.
    expect(never(wanting, over(2_000_000))).toEqual([undefined, metres(500)]);
    expect(never(wanting, over(1_980_199))).toEqual([undefined, metres(500)]);
    expect(never(wanting, over(1_980_198))).toEqual([weak, none]);
    // Without an end it can always be longer.
    expect(never({ min: db(1) }, over(0))).toEqual([undefined, undefined]);
  });
});
