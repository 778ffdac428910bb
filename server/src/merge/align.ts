/** Which lines of two lists are the same line, perhaps saying something else: pairs of places, both ascending. */
import { keyOf, type Node, orderedWords } from './nodes.ts';

export type Pair = readonly [number, number];

/** More pairs than this are not weighed one by one. */
const mostWeighed = 250_000;

export function align(a: readonly Node[], b: readonly Node[]): Pair[] {
  const pairs: Pair[] = [];
  alignRange(a, b, [0, a.length], [0, b.length], pairs);
  return pairs;
}

type Stretch = readonly [number, number];

function alignRange(
  a: readonly Node[],
  b: readonly Node[],
  [a0, a1]: Stretch,
  [b0, b1]: Stretch,
  pairs: Pair[],
): void {
  let [from, other, end, otherEnd] = [a0, b0, a1, b1];
  while (from < end && other < otherEnd && a[from]!.content === b[other]!.content) {
    pairs.push([from++, other++]);
  }
  const tail: Pair[] = [];
  while (from < end && other < otherEnd && a[end - 1]!.content === b[otherEnd - 1]!.content) {
    tail.push([--end, --otherEnd]);
  }
  if (from < end && other < otherEnd) {
    const anchors = uniqueInBoth(a, b, [from, end], [other, otherEnd]);
    if (anchors.length > 0) {
      for (const [at, place] of [...anchors, [end, otherEnd] as Pair]) {
        alignRange(a, b, [from, at], [other, place], pairs);
        if (at < end) pairs.push([at, place]);
        [from, other] = [at + 1, place + 1];
      }
    } else if ((end - from) * (otherEnd - other) <= mostWeighed) {
      pairs.push(...weighed(a, b, [from, end], [other, otherEnd]));
    } else {
      pairs.push(...byKey(a, b, [from, end], [other, otherEnd]));
    }
  }
  pairs.push(...tail.reverse());
}

/** Lines that stand once on either side and say the same, as many as keep their order. */
function uniqueInBoth(a: readonly Node[], b: readonly Node[], of: Stretch, other: Stretch): Pair[] {
  return inOrder(pairedBy(a, b, of, other, (node) => node.content, true));
}

function byKey(a: readonly Node[], b: readonly Node[], of: Stretch, other: Stretch): Pair[] {
  return inOrder(pairedBy(a, b, of, other, (node) => keyOf(node) ?? node.content, false));
}

function pairedBy(
  a: readonly Node[],
  b: readonly Node[],
  [a0, a1]: Stretch,
  [b0, b1]: Stretch,
  by: (node: Node) => string,
  onlyUnique: boolean,
): Pair[] {
  const places = (nodes: readonly Node[], from: number, to: number) => {
    const found = new Map<string, number[]>();
    for (let at = from; at < to; at++) {
      const key = by(nodes[at]!);
      const own = found.get(key);
      if (own) own.push(at);
      else found.set(key, [at]);
    }
    return found;
  };
  const others = places(b, b0, b1);
  const pairs: Pair[] = [];
  for (const [key, own] of places(a, a0, a1)) {
    const mates = others.get(key) ?? [];
    if (onlyUnique && (own.length !== 1 || mates.length !== 1)) continue;
    for (let at = 0; at < Math.min(own.length, mates.length); at++) {
      pairs.push([own[at]!, mates[at]!]);
    }
  }
  return pairs.sort((one, two) => one[0] - two[0]);
}

/** The longest run of pairs of which the second places ascend too; the first ones do. */
export function inOrder(pairs: readonly Pair[]): Pair[] {
  const ends: number[] = [];
  const before = new Array<number>(pairs.length).fill(-1);
  for (const [at, [, place]] of pairs.entries()) {
    let low = 0;
    let high = ends.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (pairs[ends[middle]!]![1] < place) low = middle + 1;
      else high = middle;
    }
    if (low > 0) before[at] = ends[low - 1]!;
    ends[low] = at;
  }
  const run: Pair[] = [];
  for (let at = ends.at(-1) ?? -1; at >= 0; at = before[at]!) run.push(pairs[at]!);
  return run.reverse();
}

/** The pairs that weigh most together. */
function weighed(
  a: readonly Node[],
  b: readonly Node[],
  [a0, a1]: Stretch,
  [b0, b1]: Stretch,
): Pair[] {
  const width = b1 - b0 + 1;
  const best = new Float64Array((a1 - a0 + 1) * width);
  const weights = new Float64Array((a1 - a0) * (b1 - b0));
  for (let i = a1 - a0 - 1; i >= 0; i--) {
    for (let j = b1 - b0 - 1; j >= 0; j--) {
      const weight = likeness(a[a0 + i]!, b[b0 + j]!);
      weights[i * (b1 - b0) + j] = weight;
      best[i * width + j] = Math.max(
        best[(i + 1) * width + j]!,
        best[i * width + j + 1]!,
        weight > 0 ? best[(i + 1) * width + j + 1]! + weight : 0,
      );
    }
  }
  const pairs: Pair[] = [];
  for (let i = 0, j = 0; i < a1 - a0 && j < b1 - b0; ) {
    const here = best[i * width + j]!;
    const weight = weights[i * (b1 - b0) + j]!;
    if (weight > 0 && here === best[(i + 1) * width + j + 1]! + weight) {
      pairs.push([a0 + i++, b0 + j++]);
    } else if (here === best[(i + 1) * width + j]!) i++;
    else j++;
  }
  return pairs;
}

/** How surely two nodes are one that was changed: 0 not, 1000 they say the same. */
function likeness(a: Node, b: Node): number {
  if (a.content === b.content) return 1000;
  if (a.kind !== b.kind || a.word !== b.word) return 0;
  if (a.kind === 'leaf' && b.kind === 'leaf' && a.role !== b.role) return 0;
  const [key, other] = [keyOf(a), keyOf(b)];
  if (key !== undefined || other !== undefined) return key === other ? 500 : 0;
  const alike = similarity(a.content, b.content);
  return alike >= 0.5 || orderedWords.has(a.word) || isColumns(a) ? 1 + 100 * alike : 0;
}

const isColumns = (node: Node): boolean => node.kind === 'leaf' && node.role === 'columns';

/** Share of words that two contents have in common: 1 where they have the same. */
export function similarity(a: string, b: string): number {
  const [one, two] = [wordsOf(a), wordsOf(b)];
  const count = new Map<string, number>();
  for (const word of one) count.set(word, (count.get(word) ?? 0) + 1);
  let common = 0;
  for (const word of two) {
    const left = count.get(word) ?? 0;
    if (left === 0) continue;
    count.set(word, left - 1);
    common++;
  }
  return (2 * common) / Math.max(1, one.length + two.length);
}

const wordsOf = (content: string): string[] => content.split(/\s+/u);
