/** Laws of maps: what is composed of permutations is one, and the way back undoes the way there. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import {
  composed,
  faultOf,
  inverseOf,
  isPermutation,
  mapOver,
  upTo,
} from '../../server/src/model/maps.ts';

const permutation = (n: number) =>
  fc.shuffledSubarray([...upTo(n)], { minLength: n, maxLength: n });
const several = fc
  .integer({ min: 1, max: 24 })
  .chain((n) => fc.array(permutation(n), { minLength: 1, maxLength: 6 }));

it('maps one after another are a permutation, and turning the row of them gives the way back', () => {
  fc.assert(
    fc.property(several, (maps) => {
      const n = maps[0]!.length;
      const there = maps.reduce<readonly number[]>(composed, upTo(n));
      const back = maps.toReversed().map(inverseOf).reduce<readonly number[]>(composed, upTo(n));
      expect(isPermutation(there, n)).toBe(true);
      expect(composed(there, back)).toEqual(upTo(n));
    }),
  );
});

it('a map over several arrays keeps every place in its array', () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 1, max: 12 }).chain(permutation),
      fc.integer({ min: 1, max: 4 }),
      (map, times) => {
        const n = map.length * times;
        const whole = mapOver(map, n);
        expect(isPermutation(whole, n)).toBe(true);
        whole.forEach((to, index) => {
          expect(Math.floor((to - 1) / map.length)).toBe(Math.floor(index / map.length));
        });
      },
    ),
  );
});

it('a list is at fault exactly where it is no permutation that goes into the places', () => {
  fc.assert(
    fc.property(
      fc.array(fc.integer({ min: 0, max: 6 }), { minLength: 1, maxLength: 6 }),
      fc.integer({ min: 1, max: 12 }),
      (list, n) => {
        const fits = isPermutation(list, list.length) && n % list.length === 0;
        expect(faultOf(list, n) === undefined).toBe(fits);
      },
    ),
  );
});
