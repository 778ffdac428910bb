/**
 * Plugs that meet along a path, finding by finding and whole: their fibres, faces,
 * housings and pins (interfaces of the IEC 61754 family, from memory).
 */
import { describe, expect, it } from 'vitest';
import { doubtsOfMating } from '../../server/src/evaluate/mating.ts';
import type { ComponentType, ConnectorType, PathElement } from '../../server/src/model/types.ts';
import { place } from '../support/build.ts';
import { channel, cord, crossing, lc, mpo, named, pair, plug, segment } from './crossed-paths.ts';

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
