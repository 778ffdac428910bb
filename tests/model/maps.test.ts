/** Maps over places: as they are written, over more places than they name, turned round, one after another. */
import { describe, expect, it } from 'vitest';
import {
  composed,
  faultOf,
  inverseOf,
  isPermutation,
  mapOver,
} from '../../server/src/model/maps.ts';

describe('a written map over the places of a link', () => {
  it.each([
    ['straight', 4, undefined, [1, 2, 3, 4]],
    ['reversed', 4, undefined, [4, 3, 2, 1]],
    ['pairs-swapped', 4, undefined, [2, 1, 4, 3]],
    // Two arrays of three: each is reversed by itself.
    ['reversed', 6, 3, [3, 2, 1, 6, 5, 4]],
    // Arrays that the places do not fill say nothing of how they lie in them.
    ['reversed', 4, 3, [4, 3, 2, 1]],
  ] as const)('%s over %i, arrays of %s', (written, n, each, expected) => {
    expect(mapOver(written, n, each)).toEqual(expected);
  });

  it('holds for each run of its length in turn', () => {
    expect(mapOver([2, 3, 1], 6)).toEqual([2, 3, 1, 5, 6, 4]);
  });

  it('stays as it is where it does not go into the places', () => {
    expect(mapOver([2, 3, 1], 4)).toEqual([2, 3, 1]);
  });
});

it.each([
  [[1, 2, 3], 3, true],
  [[3, 1, 2], 3, true],
  [[1, 1, 2], 3, false],
  [[1, 2, 4], 3, false],
  [[1, 2], 3, false],
])('%j over %i: every place once is %s', (map, n, expected) => {
  expect(isPermutation(map, n)).toBe(expected);
});

it('the way back leads back', () => {
  expect(inverseOf([2, 3, 1])).toEqual([3, 1, 2]);
  expect(composed([2, 3, 1], inverseOf([2, 3, 1]))).toEqual([1, 2, 3]);
  expect(inverseOf([2, 2, 1])).toEqual([2, 2, 1]);
});

it.each([
  [[2, 1, 1], 3, 'goes to place 1 twice'],
  [[2, 0], 2, 'has 2 places and goes to place 0'],
  [[1, 2, 3, 4, 6], 5, 'has 5 places and goes to place 6'],
  [[2, 1], 5, 'has 2 places, and there are 5'],
  ['pairs-swapped', 3, 'swaps pairs, and 3 places are no pairs'],
  [[2, 1], 4, undefined],
  ['reversed', 3, undefined],
] as const)('%j over %i: %s', (written, n, expected) => {
  expect(faultOf(written, n)).toBe(expected);
});
