/**
 * The path as light meets it: what stands at its ends, what lies between, what of
 * a channel lies outside a link, and the lengths that limits and reaches use.
 */
import { describe, expect, it } from 'vitest';
import { partsPerMillion } from '../../grammar/src/quantity/index.ts';
import {
  channelOnly,
  flatten,
  hasCoreStep,
  lengthsOf,
  objectOf,
  outsideOf,
  type Piece,
} from '../../server/src/evaluate/path.ts';
import type {
  Cable,
  ComponentType,
  FibreType,
  LinkModel,
  PathElement,
  Way,
} from '../../server/src/model/types.ts';
import {
  connector,
  fibre,
  link,
  mated,
  metres,
  nm,
  place,
  stretch,
  welded,
  when,
} from '../support/build.ts';

type Of<Kind> = Extract<PathElement, { kind: Kind }>;

const joining: ComponentType = {
  kind: 'component',
  name: 'CASSETTE',
  place: place(),
  namePlace: place(),
  origin: 'plan',
  basis: [],
  notes: [],
  loss: [],
  shares: [],
  returnLoss: [],
  joins: ['MPO-12', 'LC'],
};
const pad: ComponentType = { ...joining, name: 'PAD', joins: undefined };

const plug = (): PathElement => ({ kind: 'plug', name: 'PAIR', type: connector, place: place() });
const part = (type: ComponentType = joining, turned?: boolean): PathElement => ({
  kind: 'component',
  name: type.name,
  type,
  ...(turned !== undefined && { turned }),
  place: place(),
});
const cord = (length: number): PathElement => ({
  kind: 'cord',
  length: metres(length),
  fibre,
  fibreName: 'GLASS',
  place: place(),
});
const crossing = (of: LinkModel | undefined, more: Partial<Of<'link'>> = {}): PathElement => ({
  kind: 'link',
  name: of?.name ?? 'KQ-9',
  link: of,
  turned: false,
  place: place(),
  ...more,
});
const channel = (...path: readonly PathElement[]): LinkModel => ({
  ...link(path),
  kind: 'channel',
  name: 'CH-1',
});
const named = (name: string, ...path: readonly PathElement[]): LinkModel => ({
  ...link(path),
  name,
});

/** `pair PAIR`, `fibre GLASS 100`, `part CASSETTE MPO-12>LC`: pieces in short. */
const inShort = (pieces: readonly Piece[] | undefined) =>
  pieces?.map((piece) =>
    [
      piece.kind === 'fibre' && piece.cord ? 'cord' : piece.kind,
      piece.name,
      piece.kind === 'fibre' ? (piece.length ?? NaN) / 1e6 : undefined,
      piece.kind === 'fibre' && piece.apart ? 'apart' : undefined,
      piece.kind === 'part' ? piece.joins?.join('>') : undefined,
      piece.kind === 'split' ? piece.out : undefined,
    ]
      .filter((word) => word !== undefined)
      .join(' '),
  );
const flat = (...path: readonly PathElement[]) => flatten(link(path));

describe('a path laid out', () => {
  it('holds each element with its type and place', () => {
    const elements = [
      { ...mated(), at: 'panel 3' } as PathElement,
      { ...welded(), at: 'closure 1' } as PathElement,
      stretch(100),
      cord(3),
      plug(),
    ];
    const [pair, weld, glass, patch, last] = elements;
    expect(flat(...elements).pieces).toEqual([
      { kind: 'pair', name: 'PAIR', type: connector, at: 'panel 3', place: pair?.place },
      {
        kind: 'splice',
        name: 'WELD',
        type: (weld as Of<'splice'>).type,
        at: 'closure 1',
        place: weld?.place,
      },
      {
        kind: 'fibre',
        name: 'GLASS',
        type: fibre,
        length: metres(100),
        along: metres(100),
        cord: false,
        place: glass?.place,
      },
      {
        kind: 'fibre',
        name: 'GLASS',
        type: fibre,
        length: metres(3),
        along: metres(3),
        cord: true,
        place: patch?.place,
      },
      { kind: 'plug', name: 'PAIR', type: connector, place: last?.place },
    ]);
  });

  it('holds a splitter by what it is, with the output that is taken', () => {
    const split: PathElement = {
      kind: 'split',
      name: 'SP-1',
      splitter: 'FOURTH',
      out: 3,
      place: place(),
    };
    expect(flat(mated(), split).pieces[1]).toEqual({
      kind: 'split',
      name: 'FOURTH',
      type: undefined,
      out: 3,
      place: split.place,
    });
  });

  it('grows the fibre of a cable by its excess, for reach alone', () => {
    const cable = { excess: partsPerMillion(20_000) } as Cable;
    const glass = { ...stretch(100), cable } as PathElement;
    const missing = { ...stretch(100), length: undefined, cable } as PathElement;
    expect(flat(glass).pieces).toMatchObject([
      { length: metres(100), along: metres(102), excess: 20_000 },
    ]);
    expect(flat(missing).pieces[0]).toMatchObject({ length: undefined, along: undefined });
    expect(flat(stretch(100)).pieces[0]).not.toHaveProperty('excess');
    expect(flat({ ...stretch(100), cable: {} } as PathElement).pieces[0]).toMatchObject({
      along: metres(100),
    });
    expect(lengthsOf(flat(mated(), glass, cord(3)).pieces)).toEqual({
      cable: metres(103),
      along: metres(105),
    });
    expect(lengthsOf(flat(stretch(5), missing, stretch(7)).pieces)).toEqual({});
    expect(lengthsOf(flat(mated()).pieces)).toEqual({ cable: metres(0), along: metres(0) });
  });

  it('has a pair at an end outside of what lies inside, and a joining part within', () => {
    const inside = (...path: readonly PathElement[]) => inShort(flat(...path).inside);
    expect(inside(mated(), stretch(1), mated())).toEqual(['fibre GLASS 1']);
    expect(inside(stretch(1), mated())).toEqual(['fibre GLASS 1']);
    expect(inside(mated(), stretch(1))).toEqual(['fibre GLASS 1']);
    expect(inside(mated(), mated(), stretch(1), mated(), mated())).toEqual([
      'pair PAIR',
      'fibre GLASS 1',
      'pair PAIR',
    ]);
    expect(inside(part(), stretch(1), plug())).toEqual([
      'part CASSETTE LC>MPO-12',
      'fibre GLASS 1',
      'plug PAIR',
    ]);
    // A single pair stands at both ends, and is left out once.
    expect(inside(mated())).toEqual([]);
    expect(inside(mated(), mated())).toEqual([]);
  });

  it('names the ends by what stands there', () => {
    const ends = (...path: readonly PathElement[]) => flat(...path).ends;
    const socket = { kind: 'socket', name: 'PAIR', type: connector };
    expect(ends(mated(), stretch(1), plug())).toEqual({
      A: socket,
      B: { kind: 'plug', name: 'PAIR', type: connector },
    });
    expect(ends(stretch(1), mated())).toEqual({ A: { kind: 'open' }, B: socket });
    expect(ends(cord(1), welded())).toEqual({ A: { kind: 'plug' }, B: { kind: 'open' } });
    expect(ends(part(pad), stretch(1), part(pad))).toEqual({
      A: { kind: 'part' },
      B: { kind: 'part' },
    });
    expect(ends()).toEqual({ A: { kind: 'open' }, B: { kind: 'open' } });
    // The second kind of a joining part looks out of the path at both of its ends.
    const both = flat(part(), stretch(1), part());
    expect(both.ends).toEqual({
      A: { kind: 'socket', name: 'LC', part: both.pieces[0] },
      B: { kind: 'socket', name: 'LC', part: both.pieces[2] },
    });
  });

  it('turns a joining part where it begins a path, and where it says so', () => {
    const joins = (...path: readonly PathElement[]) =>
      flat(...path).pieces.flatMap((piece) =>
        piece.kind === 'part' ? [piece.joins?.join('>')] : [],
      );
    expect(joins(part(), stretch(1))).toEqual(['LC>MPO-12']);
    expect(joins(part(joining, true), stretch(1))).toEqual(['MPO-12>LC']);
    expect(joins(part(joining, false), stretch(1))).toEqual(['LC>MPO-12']);
    expect(joins(stretch(1), part())).toEqual(['MPO-12>LC']);
    expect(joins(stretch(1), part(joining, true))).toEqual(['LC>MPO-12']);
    expect(joins(stretch(1), part(), stretch(1))).toEqual(['MPO-12>LC']);
    // One that is all there is begins nothing.
    expect(joins(part())).toEqual(['MPO-12>LC']);
    expect(joins(part(pad), stretch(1))).toEqual([undefined]);
  });

  it('has what a repair put in before its last piece', () => {
    const put = {
      name: 'REP-1',
      fibres: [1],
      on: when(1),
      path: [welded(), stretch(9)],
      place: place(),
    };
    const crossed = { ...put, path: [crossing(undefined), stretch(8)] };
    const model = link([mated(), stretch(100), mated()]);
    expect(inShort(flatten(model, undefined, [put, crossed]).pieces)).toEqual([
      'pair PAIR',
      'fibre GLASS 100',
      'splice WELD',
      'fibre GLASS 9',
      'fibre GLASS 8',
      'pair PAIR',
    ]);
    expect(flatten(model, undefined, [put]).ends.B.kind).toBe('socket');
  });

  it('of one way is its own', () => {
    const way = {
      name: 'E-1',
      fibre: 1,
      path: [mated(), stretch(7)],
      place: place(),
    } as unknown as Way;
    expect(inShort(flatten(link([mated(), stretch(100)]), way).pieces)).toEqual([
      'pair PAIR',
      'fibre GLASS 7',
    ]);
  });
});

describe('a channel opened up', () => {
  const first = named('KQ-1', mated(), stretch(100), mated());
  const second = named('KQ-2', mated(), stretch(50), plug());

  it('has one pair where two links share a port', () => {
    const pieces = (...path: readonly PathElement[]) => inShort(flatten(channel(...path)).pieces);
    expect(pieces(cord(3), crossing(first), crossing(second), cord(2))).toEqual([
      'cord GLASS 3',
      'pair PAIR',
      'fibre GLASS 100',
      'pair PAIR',
      'fibre GLASS 50',
      'plug PAIR',
      'cord GLASS 2',
    ]);
    expect(pieces(crossing(second), crossing(first))).toEqual([
      'pair PAIR',
      'fibre GLASS 50',
      'plug PAIR',
      'pair PAIR',
      'fibre GLASS 100',
      'pair PAIR',
    ]);
    // Cords between the two have a pair at each end.
    expect(pieces(crossing(first), cord(1), crossing(second))?.length).toBe(7);
  });

  it('has a turned link the other way round, its parts too', () => {
    const cased = named('KQ-3', part(), stretch(100), part(pad), plug());
    expect(inShort(flatten(channel(crossing(cased, { turned: true }))).pieces)).toEqual([
      'plug PAIR',
      'part PAD',
      'fibre GLASS 100',
      'part CASSETTE MPO-12>LC',
    ]);
    expect(inShort(flatten(channel(crossing(cased))).pieces)?.[0]).toBe('part CASSETTE LC>MPO-12');
  });

  it('names the first link that nobody declares', () => {
    expect(flatten(channel(crossing(first), cord(1))).unknown).toBeUndefined();
    const missing = flatten(
      channel(cord(1), crossing(undefined, { name: 'KQ-8' }), crossing(undefined)),
    );
    expect([missing.unknown, inShort(missing.pieces)]).toEqual(['KQ-8', ['cord GLASS 1']]);
  });

  it('takes the way of a tree to the end whose number is crossed', () => {
    const split: PathElement = { kind: 'split', name: 'SP', splitter: 'FOURTH', place: place() };
    const way = (end: number, length: number) =>
      ({
        kind: 'branch',
        name: `E-${end}`,
        fibre: end,
        path: [mated(), stretch(length)],
        place: place(),
      }) as unknown as Way;
    const tree = {
      ...named('TREE', mated(), split),
      ways: [way(1, 10), way(2, 20)],
      fibres: [1, 2],
    };
    const glass = (fibres?: readonly number[]) =>
      inShort(flatten(channel(crossing(tree, fibres ? { fibres } : {}))).pieces);
    expect(glass([2])).toEqual(['pair PAIR', 'fibre GLASS 20']);
    expect(glass()).toEqual(['pair PAIR', 'fibre GLASS 10']);
    expect(glass([9])).toEqual(['pair PAIR', 'split FOURTH']);
  });
});

describe('what lies outside of a link', () => {
  const first = named('KQ-1', mated(), stretch(100), mated());
  const second = named('KQ-2', mated(), stretch(50), mated());

  it('is all but the link, parted where it was', () => {
    const whole = channel(cord(3), crossing(first), cord(2), cord(1));
    expect(inShort(outsideOf(whole, 'KQ-1'))).toEqual([
      'cord GLASS 3 apart',
      'cord GLASS 2 apart',
      'cord GLASS 1',
    ]);
    expect(outsideOf(whole, 'KQ-2')).toBeUndefined();
    expect(outsideOf(channel(crossing(first)), 'KQ-1')).toEqual([]);
  });

  it('leaves the pair of a shared port to the link that is asked about', () => {
    const both = channel(cord(3), crossing(first), crossing(second), cord(2));
    // The port between the two is of whichever is asked about: one pair is left, not two.
    expect(inShort(outsideOf(both, 'KQ-1'))).toEqual([
      'cord GLASS 3 apart',
      'fibre GLASS 50 apart',
      'pair PAIR',
      'cord GLASS 2',
    ]);
    expect(inShort(outsideOf(both, 'KQ-2'))).toEqual([
      'cord GLASS 3 apart',
      'pair PAIR',
      'fibre GLASS 100',
      'cord GLASS 2 apart',
    ]);
  });

  it('keeps a pair that a plug of the link does not share', () => {
    const ended = named('KQ-4', plug(), stretch(9), plug());
    expect(inShort(outsideOf(channel(mated(), crossing(ended), mated()), 'KQ-4'))).toEqual([
      'pair PAIR',
      'pair PAIR',
    ]);
    const one = named('KQ-5', plug(), stretch(9), mated());
    const outside = (turned: boolean) =>
      inShort(outsideOf(channel(mated(), crossing(one, { turned }), cord(1)), 'KQ-5'));
    expect(outside(false)).toEqual(['pair PAIR', 'cord GLASS 1 apart']);
    expect(outside(true)).toEqual(['cord GLASS 1 apart']);
    expect(inShort(outsideOf(channel(crossing(first), cord(1), crossing(second)), 'KQ-1'))).toEqual(
      ['cord GLASS 1 apart', 'pair PAIR', 'fibre GLASS 50', 'pair PAIR'],
    );
    expect(
      inShort(outsideOf(channel(crossing(undefined), mated(), crossing(first)), 'KQ-1')),
    ).toEqual([]);
  });

  it('of all links is what the channel itself adds', () => {
    const whole = channel(cord(3), crossing(first), mated(), cord(2), crossing(second), cord(1));
    expect(inShort(channelOnly(whole))).toEqual([
      'cord GLASS 3',
      'pair PAIR',
      'cord GLASS 2 apart',
      'cord GLASS 1 apart',
    ]);
  });
});

describe('what a path is', () => {
  it('an assembly where it has a plug at both ends', () => {
    expect(objectOf(link([plug(), stretch(1), plug()]))).toBe('assembly');
    expect(objectOf(link([plug(), stretch(1), mated()]))).toBe('link');
    expect(objectOf(link([mated(), stretch(1), plug()]))).toBe('link');
    expect(objectOf(link([]))).toBe('link');
    expect(objectOf(channel(plug(), plug()))).toBe('channel');
  });

  it('one with a step where two known cores meet', () => {
    const wide: FibreType = { ...fibre, name: 'WIDE', core: nm(62_500) };
    const other = (type: FibreType | undefined): PathElement =>
      ({ ...stretch(1), fibre: type }) as PathElement;
    const step = (...path: readonly PathElement[]) => hasCoreStep(flat(...path).pieces);
    expect(step(stretch(1), mated(), other(wide))).toBe(true);
    expect(step(stretch(1), mated(), stretch(2))).toBe(false);
    expect(step(other(wide), stretch(1), other(undefined))).toBe(false);
    expect(step(mated())).toBe(false);
  });
});
