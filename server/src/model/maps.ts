/** Where places come out: maps as they are written, over the places of a link. */
import type { Value } from '../../../grammar/src/bound.ts';
import { C } from '../../../grammar/src/vocabulary/index.ts';
import { nameOf } from './values.ts';

/**
 * Places where 1, 2, 3 … come out, over n places: `reversed` takes p to
 * n + 1 − p, `pairs-swapped` 1 to 2 and 2 to 1. Turned round, the inverse.
 * Undefined where straight, or where n is not known.
 */
export function mapOf(
  value: Value | undefined,
  n: number | undefined,
  turned: boolean,
): readonly number[] | undefined {
  const places = value && placesOf(value, n);
  if (!places) return undefined;
  if (!turned) return places;
  return places.map((_, index) => places.indexOf(index + 1) + 1);
}

function placesOf(value: Value, n: number | undefined): readonly number[] | undefined {
  if (value.kind === 'map' && value.places) return value.places;
  const named = value.kind === 'map' ? value.named : nameOf([value]);
  if (n === undefined) return undefined;
  const places = Array.from({ length: n }, (_, index) => index + 1);
  if (named === C.reversed) return places.toReversed();
  if (named === C.pairsSwapped)
    return places.map((place) => (place % 2 === 0 ? place - 1 : place + 1));
  return undefined;
}
