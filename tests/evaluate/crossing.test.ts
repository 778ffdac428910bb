/**
 * Where light comes out, and what meets what, whole. Place 1 of a duplex port sends
 * and place 2 receives, so that an odd number of crossings is necessary; what leaves
 * at place p of a port of n arrives at n + 1 − p (polarity of the TIA-568 and
 * ISO/IEC 11801 families); a reversed trunk has its keys the same at both ends.
 */
import { describe, expect, it } from 'vitest';
import { doubtsOfKeys } from '../../server/src/evaluate/keys.ts';
import { doubtsOfMating } from '../../server/src/evaluate/mating.ts';
import {
  arrivalsOf,
  doubtsOfPolarity,
  polarityInWords,
} from '../../server/src/evaluate/polarity.ts';
import type {
  ApplicationType,
  Carried,
  ComponentType,
  ConnectorType,
  LinkModel,
  PathElement,
} from '../../server/src/model/types.ts';
import { application, carried, connector, fibre, link, metres, place } from '../support/build.ts';

type Of<Kind> = Extract<PathElement, { kind: Kind }>;

const lc: ConnectorType = { ...connector, name: 'LC', origin: 'library' };
const mpo: ConnectorType = { ...connector, name: 'MPO-12', positions: 12, origin: 'library' };
const pair = (type: ConnectorType = lc, more: Partial<Of<'connector'>> = {}): PathElement => ({
  kind: 'connector',
  name: type.name,
  type,
  place: place(),
  ...more,
});
const plug = (type: ConnectorType = lc, pinned?: true): PathElement => ({
  kind: 'plug',
  name: type.name,
  type,
  ...(pinned && { pinned }),
  place: place(),
});
const segment = (map?: readonly number[]): PathElement => ({
  kind: 'segment',
  length: metres(100),
  deliberate: false,
  fibre,
  fibreName: 'GLASS',
  ...(map && { map }),
  place: place(),
});
const cord = (map?: Of<'cord'>['map'], more: Partial<Of<'cord'>> = {}): PathElement => ({
  kind: 'cord',
  length: metres(2),
  fibre,
  fibreName: 'GLASS',
  ...(map && { map }),
  place: place(),
  ...more,
});
const crossing = (of: LinkModel | undefined, more: Partial<Of<'link'>> = {}): PathElement => ({
  kind: 'link',
  name: of?.name ?? 'KQ-9',
  ...(of && { link: of }),
  turned: false,
  place: place(),
  ...more,
});
const service = (count: number, more: Partial<Carried> = {}): Carried => ({
  ...carried({ ...application([]), count } as ApplicationType),
  ...more,
});
const named = (
  name: string,
  fibres: number,
  path: readonly PathElement[],
  more: Partial<LinkModel> = {},
): LinkModel => ({
  ...link(path, {}, fibres),
  name,
  ...more,
});
const channel = (
  fibres: number,
  path: readonly PathElement[],
  carries: readonly Carried[] = [],
  more: Partial<LinkModel> = {},
): LinkModel => ({
  ...link(path, { carries }, fibres),
  kind: 'channel',
  name: 'CH-1',
  ...more,
});
const told = (model: LinkModel) => [...doubtsOfPolarity(model, arrivalsOf(model))];
const trunk = (fibres: number, map?: readonly number[]) =>
  named('TRUNK', fibres, [pair(), segment(map), pair()]);
const reversed = (n: number) => Array.from({ length: n }, (_, at) => n - at);

describe('a duplex pair', () => {
  it('that is crossed twice sends into a sender', () => {
    const [a, over, b] = [cord('crossed'), crossing(trunk(2)), cord('crossed')];
    const model = channel(2, [a, over, b], [service(2)]);
    expect(told(model)).toEqual([
      {
        name: 'pair-order-broken',
        place: model.namePlace,
        related: [
          { place: a.place, message: 'this cord: crossed' },
          { place: b.place, message: 'this cord: crossed' },
        ],
        details: {
          channel: 'CH-1',
          left: '1',
          arrives: '1',
          wanted: '2',
          places: 1,
          sides: 'wrong',
        },
      },
    ]);
    expect(
      told(channel(2, [cord('crossed'), crossing(trunk(2)), cord('straight')], [service(2)])),
    ).toEqual([]);
    expect(
      told(channel(2, [cord('straight'), crossing(trunk(2)), cord('straight')], [service(2)]))
        .length,
    ).toBe(1);
    // Two places of a channel that says nothing of what it carries are a pair; four are not.
    expect(told(channel(2, [cord('crossed'), cord('crossed')])).length).toBe(1);
    expect(told(channel(4, [cord('crossed'), cord('crossed')]))).toEqual([]);
    expect(told(channel(3, [cord('straight')], [service(2)]))).toEqual([]);
    expect(told(named('KQ-1', 2, [cord('straight')]))).toEqual([]);
  });

  it('that arrives at another is told as that', () => {
    const shift = [3, 4, 5, 6, 1, 2];
    const [over, b] = [crossing(trunk(6, shift)), cord('crossed')];
    const model = channel(6, [over, b], [service(2)]);
    expect(told(model)).toEqual([
      {
        name: 'arrives-at-wrong-pair',
        place: model.namePlace,
        related: [
          { place: over.place, message: 'TRUNK: 1 -> 3, 2 -> 4, 3 -> 5, 4 -> 6, 5 -> 1, 6 -> 2' },
          { place: b.place, message: 'this cord: crossed' },
        ],
        details: {
          channel: 'CH-1',
          left: '1, 3, 5',
          arrives: '4, 6, 2',
          wanted: '2, 4, 6',
          places: 3,
          sides: 'right',
        },
      },
    ]);
    // Only what is lit is asked about.
    expect(told(channel(6, [over, b], [service(2, { fibres: [1, 2] })]))[0]?.details).toMatchObject(
      { left: '1', places: 1 },
    );
  });

  it('that a link parts comes out at two ports', () => {
    const mixed = segment([1, 3, 2, 4]);
    const asked = (model: LinkModel) => told(model);
    const carries = service(2);
    const model = named('KQ-1', 4, [pair(), mixed, pair()], {
      terms: { ...link([]).terms, carries: [carries] },
    });
    expect(asked(model)).toEqual([
      {
        name: 'pair-parted',
        place: carries.place,
        related: [{ place: mixed.place, message: 'this segment: 1 -> 1, 2 -> 3, 3 -> 2, 4 -> 4' }],
        details: {
          link: 'KQ-1',
          application: 'SERVICE',
          first: 1,
          second: 2,
          firstPlace: 1,
          secondPlace: 3,
          pairs: 2,
        },
      },
    ]);
    const terms = (one: Carried) => ({ terms: { ...link([]).terms, carries: [one] } });
    expect(asked(named('KQ-1', 4, [pair(), mixed, pair()], terms(service(4))))).toEqual([]);
    expect(
      asked(named('KQ-1', 4, [pair(), mixed, pair()], terms(service(2, { fibres: [1, 3] })))),
    ).toEqual([]);
    expect(
      asked(named('KQ-1', 4, [pair(), segment([2, 1, 4, 3]), pair()], terms(carries))),
    ).toEqual([]);
    // Places of an array are no duplex ports, and a bare end is none either.
    expect(asked(named('KQ-1', 4, [pair(), mixed, pair(mpo)], terms(carries)))).toEqual([]);
    expect(asked(named('KQ-1', 4, [pair(), mixed, plug(mpo)], terms(carries)))).toEqual([]);
    expect(asked(named('KQ-1', 4, [pair(), mixed, plug()], terms(carries))).length).toBe(1);
    expect(asked(named('KQ-1', 4, [pair(), mixed], terms(carries)))).toEqual([]);
  });
});

describe('lanes of an array', () => {
  const four = (path: readonly PathElement[], more: Partial<LinkModel> = {}) =>
    channel(4, path, [service(4)], more);

  it('arrive in the order of the other end', () => {
    const over = crossing(trunk(4));
    const model = four([cord([1, 2, 3, 4]), over]);
    expect(told(model)).toEqual([
      {
        name: 'lanes-out-of-order',
        place: model.namePlace,
        related: [{ place: model.path[0]?.place, message: 'this cord: straight' }],
        details: {
          channel: 'CH-1',
          left: '1..4',
          arrives: '1..4',
          wanted: '4 down to 1',
          places: 4,
          sides: 'wrong',
        },
      },
    ]);
    expect(told(four([cord(reversed(4)), over]))).toEqual([]);
    expect(told(four([cord([2, 1, 4, 3]), over]))[0]?.details).toMatchObject({
      arrives: '2, 1, 4, 3',
      sides: 'right',
    });
  });

  it('of an array are turned over all its places, dark ones too', () => {
    const arrayed = named('TRUNK', 12, [pair(mpo), segment(reversed(12)), pair(mpo)]);
    const lit = [1, 2, 3, 4, 9, 10, 11, 12];
    const right = channel(
      12,
      [cord(Array.from({ length: 12 }, (_, at) => at + 1)), crossing(arrayed)],
      [service(8, { fibres: lit })],
    );
    expect(told(right)).toEqual([]);
    // Ports that are named say how many places one has: groups of four, of which the middle one is right.
    const ported = {
      ...right,
      from: ['A', 'B', 'C'],
      terms: { ...right.terms, carries: [service(4)] },
    };
    expect(told(ported)[0]?.details).toMatchObject({
      left: '1..4, 9..12',
      arrives: '12, 11, 10, 9, 4, 3, 2, 1',
      wanted: '4, 3, 2, 1, 12, 11, 10, 9',
    });
  });
});

describe('light that goes astray', () => {
  it('comes out where the channel does not go on from', () => {
    const over = crossing(trunk(4, reversed(4)), { fibres: [1, 2] });
    const model = channel(2, [cord('straight'), over, cord('straight')]);
    expect(told(model)).toEqual([
      {
        name: 'comes-out-elsewhere',
        place: over.place,
        details: {
          channel: 'CH-1',
          link: 'TRUNK',
          entered: '1..2',
          out: '4, 3',
          taken: '1..2',
          lights: 2,
        },
      },
    ]);
    const on = crossing(trunk(4, reversed(4)), { fibres: [1, 2], toFibres: [4, 3] });
    expect(told(channel(2, [cord('crossed'), on, cord('straight')]))).toEqual([]);
    const half = crossing(trunk(4, [1, 4, 3, 2]), { fibres: [1, 2] });
    expect(told(channel(2, [cord('crossed'), half]))[0]?.details).toMatchObject({
      entered: '2',
      out: '4',
      lights: 1,
    });
  });

  it('is where the map of a way out is turned round', () => {
    const turned = crossing(trunk(3, [2, 3, 1]), { turned: true });
    // Light enters at B: what came out at 2 left at 1.
    expect(arrivalsOf(channel(3, [turned])).map(({ place: to }) => to)).toEqual([3, 1, 2]);
    expect(
      arrivalsOf(channel(3, [crossing(trunk(3, [2, 3, 1]))])).map(({ place: to }) => to),
    ).toEqual([2, 3, 1]);
    expect(arrivalsOf(channel(2, [crossing(undefined)])).map(({ place: to }) => to)).toEqual([
      undefined,
      undefined,
    ]);
    expect(arrivalsOf(channel(3, [crossing(trunk(2))])).map(({ place: to }) => to)).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    expect(arrivalsOf(channel(3, [cord('crossed')])).map(({ place: to }) => to)).toEqual([
      undefined,
      undefined,
      undefined,
    ]);
    expect(arrivalsOf(channel(2, [cord()])).map(({ place: to }) => to)).toEqual([
      undefined,
      undefined,
    ]);
    expect(arrivalsOf(channel(2, [pair(), segment(), pair()]))).toEqual([]);
  });

  it('is said in words, with whether that is right', () => {
    const words = (model: LinkModel) => polarityInWords(arrivalsOf(model));
    expect(words(channel(2, [cord('crossed')]))).toBe('1 -> 2, 2 -> 1: as it must be');
    expect(words(channel(2, [cord('straight')]))).toBe('straight: not as it must be');
    expect(words(channel(2, [cord()]))).toBe('not known');
    expect(words(channel(4, [cord('crossed')]))).toBe('1 -> 2, 2 -> 1, 3 -> 4, 4 -> 3');
    expect(words(channel(2, [pair()]))).toBeUndefined();
    expect(words(trunk(10, reversed(10)))).toBe(
      '1 -> 10, 2 -> 9, 3 -> 8, 4 -> 7, 5 -> 6, 6 -> 5, 7 -> 4, 8 -> 3 …',
    );
    const astray = crossing(trunk(4, [1, 4, 3, 2]), { fibres: [1, 2] });
    expect(words(channel(2, [astray]))).toBe('1 -> 1, 2 -> not known');
  });
});

describe('keys of array pairs', () => {
  const keyed = (
    first: 'same' | 'opposed' | undefined,
    second: 'same' | 'opposed' | undefined,
    between: readonly PathElement[],
  ) => {
    const [a, b] = [pair(mpo, first && { key: first }), pair(mpo, second && { key: second })];
    return { a, b, found: [...doubtsOfKeys(named('TRUNK', 12, [a, ...between, b]))] };
  };
  const details = (...asked: Parameters<typeof keyed>) =>
    keyed(...asked).found.map((one) => one.details);

  it('lie the same over a reversed stretch, and opposed over others', () => {
    const { a, b, found } = keyed('opposed', 'opposed', [segment(reversed(12))]);
    expect(found).toEqual([
      {
        name: 'keys-contradict-map',
        place: b.place,
        related: [{ place: a.place, message: 'The pair before it, key opposed.' }],
        details: {
          link: 'TRUNK',
          connector: 'MPO-12',
          first: 'opposed',
          second: 'opposed',
          places: 12,
          map: 'reversed',
          fits: 'same',
          turned: 0,
        },
      },
    ]);
    expect(details('same', 'same', [segment(reversed(12))])).toEqual([]);
    expect(details('opposed', 'opposed', [segment()])).toEqual([]);
    expect(details('same', 'same', [segment()])).toMatchObject([
      { map: 'straight', fits: 'opposed', turned: 0 },
    ]);
    const swapped = [2, 1, 4, 3, 6, 5, 8, 7, 10, 9, 12, 11];
    expect(details('opposed', 'opposed', [segment(swapped)])).toEqual([]);
    expect(details('same', 'same', [segment(swapped)])).toMatchObject([
      { map: 'with its pairs swapped' },
    ]);
    const twice = [...reversed(12), ...reversed(12).map((to) => to + 12)];
    expect(details('opposed', 'opposed', [segment(twice)])).toMatchObject([{ map: 'reversed' }]);
  });

  it('that differ turn one housing, whatever the map', () => {
    expect(details('same', 'opposed', [segment(reversed(12))])).toMatchObject([
      { turned: 1, map: 'reversed', fits: 'same' },
    ]);
    const odd = [2, 3, 1, 4, 5, 6, 7, 8, 9, 10, 11, 12];
    expect(details('same', 'opposed', [segment(odd)])).toEqual([
      {
        link: 'TRUNK',
        connector: 'MPO-12',
        first: 'same',
        second: 'opposed',
        places: 12,
        turned: 1,
      },
    ]);
    expect(details('same', 'same', [segment(odd)])).toEqual([]);
    // Two maps in a row are not put together; a splice between them is none.
    expect(details('opposed', 'opposed', [segment(reversed(12)), segment(reversed(12))])).toEqual(
      [],
    );
    const splice: PathElement = { kind: 'splice', name: 'WELD', place: place() };
    expect(details('opposed', 'opposed', [segment(), splice, segment(reversed(12))])).toMatchObject(
      [{ map: 'reversed' }],
    );
  });

  it('are two of arrays, with nothing but fibre between', () => {
    expect(details('same', undefined, [segment()])).toEqual([]);
    expect(details(undefined, 'same', [segment()])).toEqual([]);
    expect(details('same', 'same', [segment(), pair(mpo), segment()])).toEqual([]);
    const small = (type: ConnectorType, other = type) => [
      ...doubtsOfKeys(
        named('T', 2, [pair(type, { key: 'same' }), segment(), pair(other, { key: 'same' })]),
      ),
    ];
    expect(small({ ...mpo, positions: 2 })).toEqual([]);
    expect(small({ ...mpo, positions: 3 }).length).toBe(1);
    expect(small(mpo, { ...mpo, positions: 8 })).toEqual([]);
    const model = named('T', 12, [
      pair(mpo, { key: 'same' }),
      segment(),
      pair(mpo, { key: 'same' }),
    ]);
    expect([...doubtsOfKeys({ ...model, kind: 'channel' })]).toEqual([]);
  });
});

describe('what meets', () => {
  const meeting = (...path: readonly PathElement[]) => [...doubtsOfMating(channel(12, path))];
  const faces = (a: PathElement, b: PathElement) => meeting(a, b).map(({ details }) => details.why);

  it('fits by its fibres, its face and its housing', () => {
    const [a, b] = [plug(mpo), pair()];
    expect(meeting(a, b)).toEqual([
      {
        name: 'connectors-do-not-fit',
        place: b.place,
        related: [{ place: a.place, message: 'MPO-12 before it' }],
        details: {
          link: 'CH-1',
          before: 'MPO-12',
          after: 'LC',
          why: 'MPO-12 holds 12 fibres, LC one fibre',
        },
      },
    ]);
    const kind = (name: string, more: Partial<ConnectorType> = {}): ConnectorType => ({
      ...lc,
      name,
      ...more,
    });
    expect(
      faces(plug(kind('LC-APC', { polish: 'APC' })), pair(kind('LC', { polish: 'UPC' }))),
    ).toEqual(['one end face is angled, the other is not']);
    expect(
      faces(plug(kind('LC-UPC', { polish: 'UPC' })), pair(kind('LC-PC', { polish: 'PC' }))),
    ).toEqual([]);
    expect(faces(plug(kind('SC')), pair(kind('LC')))).toEqual(['their housings differ']);
    expect(faces(plug(kind('SC', { origin: 'plan' })), pair(kind('LC')))).toEqual([]);
    expect(faces(plug(kind('SC')), pair(kind('LC', { origin: 'plan' })))).toEqual([]);
    expect(faces(plug(kind('LC-APC', { polish: 'APC' })), pair(kind('LC')))).toEqual([]);
    expect(faces({ kind: 'plug', name: 'SC', place: place() }, pair())).toEqual([]);
    expect(meeting(plug(), segment(), pair(kind('SC')))).toEqual([]);
    expect([...doubtsOfMating({ ...channel(12, [a, b]), kind: 'ring' })]).toEqual([]);
  });

  it('of parts and cords is the side that they show', () => {
    const cassette: ComponentType = {
      ...{
        place: place(),
        namePlace: place(),
        origin: 'plan' as const,
        basis: [],
        notes: [],
        shares: [],
        returnLoss: [],
      },
      kind: 'component',
      name: 'CASSETTE',
      loss: [],
      joins: ['MPO-12', 'LC'],
      joined: [mpo, lc],
    };
    const part = (turned?: boolean): PathElement => ({
      kind: 'component',
      name: 'CASSETTE',
      type: cassette,
      ...(turned !== undefined && { turned }),
      place: place(),
    });
    // Where a path begins the second kind looks outward, and the first meets what follows.
    expect(meeting(part(), plug(mpo))).toEqual([]);
    expect(meeting(part(), plug()).length).toBe(1);
    expect(meeting(part(true), plug())).toEqual([]);
    expect(meeting(plug(mpo), part())).toEqual([]);
    expect(meeting(plug(), part()).length).toBe(1);
    expect(meeting(plug(), part(true))).toEqual([]);
    const patch = cord('straight', {
      plugs: [lc, mpo].map((type) => ({ name: type.name, type })) as never,
    });
    expect(meeting(pair(mpo), patch).length).toBe(1);
    expect(meeting(pair(), patch, pair(mpo))).toEqual([]);
    expect(meeting(pair(), patch, pair()).length).toBe(1);
    expect(meeting(pair(mpo), cord('straight'))).toEqual([]);
  });

  it('across two links stands where the channel takes them', () => {
    const [one, two] = [
      named('T-1', 12, [plug(mpo), segment(), plug(mpo)]),
      named('T-2', 12, [pair(), segment(), pair()]),
    ];
    const [first, second] = [crossing(one), crossing(two)];
    expect(meeting(first, second)).toMatchObject([
      { place: second.place, related: [{ place: first.place }] },
    ]);
    expect(meeting(crossing(one, { turned: true }), second).length).toBe(1);
    expect(meeting(first, crossing(undefined))).toEqual([]);
  });

  it('has its pins on one side', () => {
    const pins = (side: 'A' | 'B') => pair(mpo, { pins: side });
    const [a, b] = [plug(mpo, true), pins('B')];
    expect(meeting(a, b)).toEqual([
      {
        name: 'pins-do-not-mate',
        place: b.place,
        related: [{ place: a.place, message: 'What it meets.' }],
        details: { link: 'CH-1', connector: 'MPO-12', both: 1 },
      },
    ]);
    expect(meeting(plug(mpo, true), pins('A'))).toEqual([]);
    expect(meeting(plug(mpo), pins('B'))).toEqual([]);
    expect(meeting(plug(mpo), pins('A'))).toMatchObject([{ details: { both: 0 } }]);
    expect(meeting(pins('A'), plug(mpo, true))).toMatchObject([{ details: { both: 1 } }]);
    expect(meeting(pins('B'), plug(mpo, true))).toEqual([]);
    expect(meeting(pins('B'), plug(mpo))).toMatchObject([{ details: { both: 0 } }]);
    expect(meeting(pins('A'), pins('A'))).toEqual([]);
    expect(meeting(pins('A'), pins('B'))).toMatchObject([{ details: { both: 1 } }]);
    expect(meeting(pins('B'), pins('A'))).toMatchObject([{ details: { both: 0 } }]);
    expect(meeting(pins('B'), pair(mpo))).toEqual([]);
    expect(meeting(plug(lc, true), pair(lc, { pins: 'B' }))).toEqual([]);
  });

  it('is two plugs in an adapter that says nothing of pins', () => {
    const [a, adapter, b] = [plug(mpo, true), pair(mpo), plug(mpo, true)];
    expect(meeting(a, adapter, b)).toEqual([
      {
        name: 'pins-do-not-mate',
        place: b.place,
        related: [{ place: a.place, message: 'The plug it meets.' }],
        details: { link: 'CH-1', connector: 'MPO-12', both: 1 },
      },
    ]);
    expect(meeting(plug(mpo), pair(mpo), plug(mpo))).toMatchObject([{ details: { both: 0 } }]);
    expect(meeting(plug(mpo, true), pair(mpo), plug(mpo))).toEqual([]);
    expect(meeting(plug(), pair(), plug())).toEqual([]);
    expect(meeting(plug(mpo), pair(mpo), pair(mpo))).toEqual([]);
    // A link that is turned round shows the other side of its pins.
    const ended = named('T-1', 12, [pair(mpo, { pins: 'A' }), segment(), plug(lc)]);
    expect(meeting(crossing(ended, { turned: true }), plug(mpo, true))).toEqual([]);
    expect(meeting(crossing(ended, { turned: true }), plug(mpo)).length).toBe(1);
  });
});
