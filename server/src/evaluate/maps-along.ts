/** The product of all maps along a path: where each place at A comes out at B, and what goes astray on the way. */
import { inverseOf, isPermutation, pairsSwapped, upTo } from '../model/maps.ts';
import type { LinkModel, PathElement } from '../model/types.ts';

type Crossing = Extract<PathElement, { kind: 'link' }>;

/** Light that comes out of a link where the channel does not go on from. */
export interface Lost {
  readonly crossing: Crossing;
  /** Numbers of the link's fibres: entered, and where they come out. */
  readonly entered: readonly number[];
  readonly out: readonly number[];
  readonly taken: readonly number[];
}

export interface Through {
  /** By place at A, from 1: the place at B. Undefined: not known, or lost on the way. */
  readonly places: readonly (number | undefined)[];
  readonly lost: readonly Lost[];
  /** Some map stands in the path. */
  readonly mapped: boolean;
}

const known = new WeakMap<LinkModel, Through>();

/** Product of all maps from A to B. */
export function through(link: LinkModel): Through {
  const before = known.get(link);
  if (before) return before;
  const result = throughPath(link.path, link.fibres.length);
  known.set(link, result);
  return result;
}

/** The same along any row of parts over n places: a way round a ring. */
export function throughPath(path: LinkModel['path'], n: number): Through {
  let places: readonly (number | undefined)[] = upTo(n);
  let mapped = false;
  const lost: Lost[] = [];
  for (const element of path) {
    if (element.kind === 'link') {
      const crossed = across(element, n, lost);
      mapped ||= crossed.mapped;
      places = places.map((place) => (place === undefined ? place : crossed.places[place - 1]));
      continue;
    }
    const map = mapAt(element, n);
    if (map === 'straight') continue;
    mapped = true;
    places = places.map((place) => (place === undefined ? place : map?.[place - 1]));
  }
  return { places, lost, mapped };
}

/** Map of one element over n places; undefined where it is not known. */
function mapAt(
  element: Exclude<PathElement, Crossing>,
  n: number,
): 'straight' | readonly number[] | undefined {
  switch (element.kind) {
    case 'segment':
      if (!element.map) return 'straight';
      return isPermutation(element.map, n) ? element.map : undefined;
    case 'component':
      return element.map?.every((to, index) => to === index + 1) ? 'straight' : element.map;
    case 'cord':
      if (element.map === 'straight') return [...upTo(n)];
      if (element.map === 'crossed') return n % 2 === 0 ? pairsSwapped(n) : undefined;
      return element.map && isPermutation(element.map, n) ? element.map : undefined;
    default:
      return 'straight';
  }
}

/** From the places that a channel brings to a link to those it goes on from. */
export function across(crossing: Crossing, n: number, lost: Lost[]): Through {
  const { link, turned } = crossing;
  const nowhere = { places: [], lost: [], mapped: true };
  if (!link || link.ways.length > 0) return nowhere;
  const entered = crossing.fibres ?? link.fibres;
  const taken = crossing.toFibres ?? entered;
  if (entered.length !== n || taken.length !== n) return nowhere;
  const own = through(link);
  const there = own.places;
  const all = there.every((place) => place !== undefined);
  const way = turned && all ? inverseOf(there as readonly number[]) : turned ? [] : there;
  const out = entered.map((fibre) => {
    const place = way[link.fibres.indexOf(fibre)];
    return place === undefined ? undefined : link.fibres[place - 1];
  });
  const places = out.map((fibre) => {
    const index = fibre === undefined ? -1 : taken.indexOf(fibre);
    return index < 0 ? undefined : index + 1;
  });
  const astray = out.flatMap((fibre, index) =>
    fibre !== undefined && places[index] === undefined ? [index] : [],
  );
  if (astray.length > 0) {
    lost.push({
      crossing,
      entered: astray.map((index) => entered[index] ?? NaN),
      out: astray.map((index) => out[index] ?? NaN),
      taken,
    });
  }
  return { places, lost: [], mapped: own.mapped || crossing.toFibres !== undefined };
}

/** Place at B of a place at A, from 1; undefined where it is not known or light goes astray. */
export function placeOut(link: LinkModel, place: number): number | undefined {
  const { mapped, places } = through(link);
  return mapped ? places[place - 1] : place;
}

/**
 * By link crossed, the number of its fibre in which the light of a place at A
 * runs. A map that is not known is taken as straight: which fibre it is then is
 * as good as the plan says.
 */
export function fibresTaken(
  path: LinkModel['path'],
  n: number,
  place: number,
): ReadonlyMap<Crossing, number | undefined> {
  const taken = new Map<Crossing, number | undefined>();
  let at = place;
  for (const element of path) {
    if (element.kind !== 'link') {
      const map = mapAt(element, n);
      at = (map === 'straight' ? at : map?.[at - 1]) ?? at;
      continue;
    }
    const { link, turned } = element;
    const entered = (element.fibres ?? link?.fibres ?? [])[at - 1];
    taken.set(element, turned && link ? enteredAtB(link, entered) : entered);
    at = across(element, n, []).places[at - 1] ?? at;
  }
  return taken;
}

/** A fibre is named by its place at A: the one whose light comes out at a place of B. */
function enteredAtB(link: LinkModel, number: number | undefined): number | undefined {
  const place = number === undefined ? 0 : link.fibres.indexOf(number) + 1;
  const { mapped, places } = through(link);
  return mapped ? link.fibres[places.indexOf(place)] : number;
}
