/**
 * Where two lists of texts differ, as stretches that give way to others, so
 * that what lies between two of them can stay what it is. Equal beginnings and
 * ends are set aside, then texts that stand once on both sides are matched as
 * far as they come in the same order, and the same is done between them.
 */

/** Items `from` to `to` (exclusive) of the old list give way to those from `start` to `end` of the new one. */
export interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
}

/** In order; none of them is empty on both sides. */
export function stretchesBetween(
  before: readonly string[],
  after: readonly string[],
): readonly Stretch[] {
  const found: Stretch[] = [];
  // A list of its own, since a text of ten thousand blocks may nest as deep.
  const open: Stretch[] = [{ from: 0, to: before.length, start: 0, end: after.length }];
  for (let stretch = open.pop(); stretch; stretch = open.pop()) {
    const inner = trimmed(before, after, stretch);
    const { from, to, start, end } = inner;
    if (from === to && start === end) continue;
    const matches = from < to && start < end ? inOrder(before, after, inner) : [];
    if (matches.length === 0) {
      found.push(inner);
      continue;
    }
    let [old, now] = [from, start];
    for (const [place, other] of matches) {
      open.push({ from: old, to: place, start: now, end: other });
      [old, now] = [place + 1, other + 1];
    }
    open.push({ from: old, to, start: now, end });
  }
  return found.sort((a, b) => a.from - b.from || a.start - b.start);
}

function trimmed(before: readonly string[], after: readonly string[], stretch: Stretch): Stretch {
  let { from, to, start, end } = stretch;
  while (from < to && start < end && before[from] === after[start]) {
    from += 1;
    start += 1;
  }
  while (from < to && start < end && before[to - 1] === after[end - 1]) {
    to -= 1;
    end -= 1;
  }
  return { from, to, start, end };
}

/** Places of texts that stand once on both sides, the longest row of them that keeps its order. */
function inOrder(
  before: readonly string[],
  after: readonly string[],
  { from, to, start, end }: Stretch,
): readonly (readonly [number, number])[] {
  const old = placesOf(before, from, to);
  const now = placesOf(after, start, end);
  const pairs: [number, number][] = [];
  for (const [text, place] of old) {
    const other = now.get(text);
    if (place >= 0 && other !== undefined && other >= 0) pairs.push([place, other]);
  }
  return longestRising(pairs.sort((a, b) => a[0] - b[0]));
}

/** By text: its place, or −1 where it stands more than once. */
function placesOf(texts: readonly string[], from: number, to: number): ReadonlyMap<string, number> {
  const places = new Map<string, number>();
  for (let place = from; place < to; place++) {
    const text = texts[place]!;
    places.set(text, places.has(text) ? -1 : place);
  }
  return places;
}

/** Of pairs in order of their first numbers: the longest row in which the second ones rise as well. */
function longestRising(pairs: readonly [number, number][]): readonly [number, number][] {
  const ends: number[] = [];
  const previous: (number | undefined)[] = [];
  for (const [index, pair] of pairs.entries()) {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (pairs[ends[middle]!]![1] < pair[1]) low = middle + 1;
      else high = middle;
    }
    previous.push(low > 0 ? ends[low - 1] : undefined);
    ends[low] = index;
  }
  const row: [number, number][] = [];
  for (let at = ends.at(-1); at !== undefined; at = previous[at]) row.push(pairs[at]!);
  return row.reverse();
}
