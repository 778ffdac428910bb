/**
 * The room of several paths: ends of a tree, repaired fibres, services beside each
 * other, and channels that take a link. What a stretch may have in m is the reach
 * less all that lies besides, worked out by hand.
 */
import { describe, expect, it } from 'vitest';
import type { Carried, LinkModel, PathElement, Way } from '../../server/src/model/types.ts';
import { carried, link, metres, place, stretch, when } from '../support/build.ts';
import { limitedBy, path, roomsOf, type Segment, service } from './service-room.ts';

describe('of several paths', () => {
  const rows = [limitedBy(300, 9)];
  const way = (name: string, end: number, length: number): Way =>
    ({ name, fibre: end, path: path(stretch(length)), place: place() }) as unknown as Way;
  const tree = (more: Partial<Carried> = {}): LinkModel => ({
    ...link(path(), { carries: [{ ...carried(service(rows)), ...more }] }, 3),
    ways: [way('E-1', 1, 20), way('E-2', 2, 60), way('E-3', 3, 40)],
  });

  it('the one with the least room is told, by its name', () => {
    // 100 m is the stretch; of E-2 60 m lie besides.
    expect(roomsOf(tree())).toMatchObject([{ way: 'E-2', longest: metres(240) }]);
    expect(roomsOf(tree({ fibres: [1, 3] }))).toMatchObject([{ way: 'E-3', longest: metres(260) }]);
    expect(roomsOf(tree({ fibres: [] }))).toEqual([]);
    // What holds at no length is less than a long one that is far too long.
    const long = { ...way('E-1', 1, 900), path: path(stretch(900)) };
    const never = {
      ...way('E-2', 2, 20),
      path: path(...Array.from({ length: 30 }, () => stretch(10))),
    };
    for (const ways of [
      [long, never],
      [never, long],
    ]) {
      expect(roomsOf({ ...tree(), ways })).toMatchObject([
        { way: 'E-2', never: 'the rest of the path reaches that far already' },
      ]);
    }
    // Of two that have as little the first.
    const alike = { ...tree(), ways: [way('E-1', 1, 20), way('E-2', 2, 60), way('E-3', 3, 60)] };
    expect(roomsOf(alike)).toMatchObject([{ way: 'E-2' }]);
    expect(roomsOf(link(path(), { carries: [carried(service(rows))] }))[0]).not.toHaveProperty(
      'way',
    );
  });

  it('a way of unknown length is left out, and so is what carries nothing that is declared', () => {
    const unknown = { ...(stretch(0) as Segment), deliberate: true };
    const hidden = { ...way('E-2', 2, 60), path: path(unknown) } as Way;
    const model = { ...tree(), ways: [way('E-1', 1, 20), hidden] };
    expect(roomsOf(model)).toMatchObject([{ way: 'E-1' }]);
    expect(roomsOf(tree({ application: undefined }))).toEqual([]);
  });

  it('a fibre that was repaired has its own, and a dead one has none', () => {
    const put = { name: 'REP-1', fibres: [2], on: when(500), path: [stretch(30)], place: place() };
    const model = { ...link(path(), { carries: [carried(service(rows))] }), repairs: [put] };
    expect(roomsOf(model)[0]?.longest).toEqual(metres(270));
    const dead = { ...model, dead: [{ fibre: 2, because: 'crushed' }] };
    expect(roomsOf(dead)[0]?.longest).toEqual(metres(300));
    const other = {
      ...model,
      terms: { ...model.terms, carries: [{ ...carried(service(rows)), fibres: [1, 3] }] },
    };
    expect(roomsOf(other)[0]?.longest).toEqual(metres(300));
  });

  it('each service has its own', () => {
    const two = [
      { ...service([limitedBy(200, 9)]), name: 'NEAR' },
      { ...service([limitedBy(400, 9)]), name: 'FAR' },
    ];
    const found = roomsOf(link(path(), { carries: two.map((type) => carried(type)) }));
    expect(found.map((one) => [one.application, one.longest])).toEqual([
      ['NEAR', metres(200)],
      ['FAR', metres(400)],
    ]);
  });

  it('what lies outside in a channel counts for the fibres that it takes', () => {
    const model = link(path(), { carries: [carried(service(rows), [5])] });
    const cord = { ...stretch(8), kind: 'cord' } as unknown as PathElement;
    const crossing = (fibres: readonly number[]): PathElement => ({
      kind: 'link',
      name: 'KQ-1',
      link: model,
      turned: false,
      fibres,
      place: place(),
    });
    const channel = (fibres: readonly number[]): LinkModel => ({
      ...link([cord, crossing(fibres)]),
      kind: 'channel',
      name: 'CH-1',
    });
    expect(roomsOf(model, [channel([1, 2])])[0]?.longest).toEqual(metres(292));
    expect(roomsOf(model)[0]?.longest).toEqual(metres(295));
    // 30 m that a repair put into fibre 1 and the 8 m of fibre 2 are in no path together.
    const put = { name: 'REP-1', fibres: [1], on: when(500), path: [stretch(30)], place: place() };
    const repaired = { ...model, repairs: [put] };
    expect(roomsOf(repaired, [channel([2])])[0]?.longest).toEqual(metres(265));
    expect(roomsOf(repaired, [channel([1])])[0]?.longest).toEqual(metres(262));
    const gone = { ...repaired, dead: [{ fibre: 1, because: 'crushed' }] };
    expect(roomsOf(gone, [channel([1])])[0]?.longest).toEqual(metres(295));
    // Of a tree only the ends that the channel takes have its cords: 40 m and 25 m for E-3.
    const long = { ...channel([3]), path: [{ ...cord, length: metres(25) }, crossing([3])] };
    expect(roomsOf(tree(), [channel([3])])).toMatchObject([{ way: 'E-2', longest: metres(240) }]);
    expect(roomsOf(tree(), [long as LinkModel])).toMatchObject([
      { way: 'E-3', longest: metres(235) },
    ]);
  });
});
