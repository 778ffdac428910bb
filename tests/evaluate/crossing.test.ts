/**
 * Where light comes out of what it crosses, whole. Place 1 of a duplex port sends and
 * place 2 receives, so that an odd number of crossings is necessary; what leaves at
 * place p of a port of n arrives at n + 1 − p (polarity of the TIA-568 and
 * ISO/IEC 11801 families).
 */
import { describe, expect, it } from 'vitest';
import {
  arrivalsOf,
  doubtsOfPolarity,
  polarityInWords,
} from '../../server/src/evaluate/polarity.ts';
import type { Carried, LinkModel, PathElement } from '../../server/src/model/types.ts';
import { link } from '../support/build.ts';
import {
  channel,
  cord,
  crossing,
  mpo,
  named,
  pair,
  plug,
  reversed,
  segment,
  service,
  trunk,
} from './crossed-paths.ts';

const told = (model: LinkModel) => [...doubtsOfPolarity(model, arrivalsOf(model))];

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
