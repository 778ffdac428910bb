/**
 * How the keys of array pairs lie, against the map of the stretch between two of
 * them. A trunk with straight or flipped pairs has its keys opposed, up to down;
 * a reversed one has them the same, up to up, and so have its adapters: types A,
 * C and B of TIA-568. A and B differ by one turned housing, so that two pairs
 * whose keys lie differently turn the places round once more than the map says.
 *
 * One pair alone decides nothing: which way round its two plugs are made is not
 * said, so that no map is ever made up from a key.
 */
import type { LinkModel, PathElement } from '../model/types.ts';
import type { Doubt } from './result.ts';

type Pair = Extract<PathElement, { kind: 'connector' }>;
type MapKind = 'straight' | 'reversed' | 'with its pairs swapped';

export function* doubtsOfKeys(link: LinkModel): Iterable<Doubt> {
  if (link.kind !== 'link') return;
  let before: Pair | undefined;
  let map: readonly number[] | undefined = [];
  for (const element of link.path) {
    if (element.kind === 'splice') continue;
    if (element.kind === 'segment') {
      map = onward(map, element.map);
      continue;
    }
    const pair = element.kind === 'connector' && element.key ? element : undefined;
    if (before && pair) yield* between(before, pair, map, link);
    before = pair;
    map = [];
  }
}

/** Of two stretches in a row; empty is straight, and two maps that are written are not put together here. */
function onward(
  map: readonly number[] | undefined,
  next: readonly number[] | undefined,
): readonly number[] | undefined {
  if (!next) return map;
  return map?.length === 0 ? next : undefined;
}

function* between(
  a: Pair,
  b: Pair,
  map: readonly number[] | undefined,
  link: LinkModel,
): Iterable<Doubt> {
  const places = a.type?.positions ?? 1;
  if (places < 3 || places !== (b.type?.positions ?? 1)) return;
  const kind = map && kindOf(map, places);
  const fits = kind === 'reversed' ? 'same' : 'opposed';
  const turned = a.key !== b.key;
  if (!turned && (kind === undefined || a.key === fits)) return;
  yield {
    name: 'keys-contradict-map',
    place: b.place,
    related: [{ place: a.place, message: `The pair before it, key ${a.key}.` }],
    details: {
      link: link.name,
      connector: b.name,
      first: a.key ?? '',
      second: b.key ?? '',
      places,
      ...(kind && { map: kind, fits }),
      turned: turned ? 1 : 0,
    },
  };
}

/** What a map does within each array; undefined where it is none of the three. */
function kindOf(map: readonly number[], places: number): MapKind | undefined {
  const holds = (wanted: (place: number) => number) =>
    map.every((to, index) => {
      const base = Math.floor(index / places) * places;
      return to === base + wanted(index - base + 1);
    });
  if (holds((place) => place)) return 'straight';
  if (holds((place) => places + 1 - place)) return 'reversed';
  if (holds((place) => (place % 2 === 1 ? place + 1 : place - 1))) return 'with its pairs swapped';
  return undefined;
}
