/**
 * Where places come out: maps as they are written, over the places of a link.
 * A map is the list of places that 1, 2, 3 … go to. A list that is no
 * permutation is kept as it was written, so that whoever composes maps sees
 * that it says nothing.
 */
import type { Value } from '../../../grammar/src/bound.ts';
import { C } from '../../../grammar/src/vocabulary/index.ts';
import type { PlaceMap } from './types.ts';
import { nameOf } from './values.ts';

/**
 * A written map over n places: `reversed` takes p to n + 1 − p, `pairs-swapped`
 * 1 to 2 and 2 to 1. Both hold within each array of the given number of places,
 * as a shorter list holds for each run of its length in turn. Turned round, the
 * inverse. Undefined where straight, or where n is not known.
 */
export function mapOf(
  value: Value | undefined,
  n: number | undefined,
  turned: boolean,
  each?: number,
): readonly number[] | undefined {
  const written = value && writtenMap(value);
  if (written === undefined || n === undefined) return undefined;
  if (written === C.straight) return undefined;
  const map = mapOver(written, n, each);
  return turned ? inverseOf(map) : map;
}

/** The map as it was written; undefined where the value is none. */
export function writtenMap(value: Value): PlaceMap | undefined {
  if (value.kind === 'map' && value.places) return value.places;
  const named = value.kind === 'map' ? value.named : nameOf([value]);
  return named === C.straight || named === C.reversed || named === C.pairsSwapped
    ? named
    : undefined;
}

/** Whether a map is written and says that nothing changes its place. */
export function isStraight(value: Value): boolean {
  return writtenMap(value) === C.straight;
}

/** A map over n places, held in turn for each `each` of them; a list that does not go into n as it is. */
export function mapOver(written: PlaceMap, n: number, each?: number): readonly number[] {
  const size = typeof written === 'string' ? wholeTimes(each, n) : written.length;
  const one = typeof written === 'string' ? namedMap(written, size) : written;
  if (size === 0 || n % size !== 0) return one;
  return upTo(n).map((place) => {
    const base = Math.floor((place - 1) / size) * size;
    return base + (one[place - 1 - base] ?? NaN);
  });
}

function wholeTimes(each: number | undefined, n: number): number {
  return each !== undefined && each > 1 && n % each === 0 ? each : n;
}

function namedMap(named: Extract<PlaceMap, string>, size: number): readonly number[] {
  const places = upTo(size);
  if (named === C.reversed) return places.toReversed();
  if (named === C.pairsSwapped) return pairsSwapped(size);
  return places;
}

/** 1 to 2 and 2 to 1, 3 to 4 and 4 to 3 …: what a crossed cord does with each of its pairs. */
export function pairsSwapped(n: number): readonly number[] {
  return upTo(n).map((place) => (place % 2 === 0 ? place - 1 : place + 1));
}

/** 1 to n. */
export function upTo(n: number): readonly number[] {
  return Array.from({ length: n }, (_, index) => index + 1);
}

/** Whether each of 1 to n is gone to once. */
export function isPermutation(map: readonly number[], n: number): boolean {
  return map.length === n && new Set(map.filter((to) => to >= 1 && to <= n)).size === n;
}

/** The way back; the list itself where it is no permutation. */
export function inverseOf(map: readonly number[]): readonly number[] {
  if (!isPermutation(map, map.length)) return map;
  return map.map((_, index) => map.indexOf(index + 1) + 1);
}

/** Places after one map and then another. */
export function composed(first: readonly number[], second: readonly number[]): readonly number[] {
  return first.map((place) => second[place - 1] ?? NaN);
}

/** What is wrong with a written map that is to hold over n places, in words; undefined if nothing is. */
export function faultOf(written: PlaceMap, n: number | undefined): string | undefined {
  if (typeof written === 'string') {
    const odd = written === C.pairsSwapped && n !== undefined && n % 2 === 1;
    return odd ? `swaps pairs, and ${n} places are no pairs` : undefined;
  }
  const twice = written.find((place, index) => written.indexOf(place) !== index);
  if (twice !== undefined) return `goes to place ${twice} twice`;
  const beyond = written.find((place) => place < 1 || place > written.length);
  if (beyond !== undefined) return `has ${written.length} places and goes to place ${beyond}`;
  if (n === undefined || n % written.length === 0) return undefined;
  return `has ${written.length} places, and there are ${n}`;
}
