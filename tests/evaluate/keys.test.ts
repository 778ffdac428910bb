/**
 * Keys of array pairs, held to the map between them: a reversed trunk has its keys the
 * same at both ends (polarity of the TIA-568 and ISO/IEC 11801 families).
 */
import { describe, expect, it } from 'vitest';
import { doubtsOfKeys } from '../../server/src/evaluate/keys.ts';
import type { ConnectorType, PathElement } from '../../server/src/model/types.ts';
import { place } from '../support/build.ts';
import { mpo, named, pair, reversed, segment } from './crossed-paths.ts';

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
