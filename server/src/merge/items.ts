/** A text as what stands in it at the margin: declarations with the comments right above them, files taken in, and loose comments. */
import { W } from '../../../grammar/src/vocabulary/index.ts';
import { inOrder, type Pair, similarity } from './align.ts';
import { keyOf, type Leaf, type Node } from './nodes.ts';

export interface Item {
  /** Empty lines before it. */
  readonly gap: number;
  /** Comments right above, or loose ones. */
  readonly lead: readonly Leaf[];
  readonly node: Node | undefined;
  readonly content: string;
  readonly word: string;
  readonly key: string | undefined;
}

/** Evidence and what is decided about it: many may be of one object, and what was measured stays. */
export const evidenceWords: ReadonlySet<string> = new Set([
  W.readings,
  W.events,
  W.inspection,
  W.work,
  W.withdraw,
  W.concession,
]);

/** Blocks that end in a table of what was measured or seen. */
export const measuredWords: ReadonlySet<string> = new Set([W.readings, W.events, W.inspection]);

export function itemsOf(nodes: readonly Node[]): Item[] {
  const items: Item[] = [];
  let lead: Leaf[] = [];
  const end = (node?: Node) => {
    if (lead.length > 0 || node) items.push(item(lead, node));
    lead = [];
  };
  for (const node of nodes) {
    if (node.kind === 'leaf' && node.role === 'comment') {
      if (node.gap > 0) end();
      lead.push(node);
    } else {
      if (node.gap > 0) end();
      end(node);
    }
  }
  end();
  return items;
}

function item(lead: readonly Leaf[], node: Node | undefined): Item {
  return {
    gap: (lead[0] ?? node)?.gap ?? 0,
    lead,
    node,
    content: [...lead, ...(node ? [node] : [])].map(({ content }) => content).join('\n'),
    word: node?.word ?? '',
    key: node && keyOf(node),
  };
}

/** How much of two pieces of evidence must be alike for one to be the other, changed. */
const leastAlike = 0.5;
/** More pairs than this are not compared for a new name. */
const mostCompared = 10_000;

/** Which item of a side is which of the base, by their places. */
export function matches(base: readonly Item[], side: readonly Item[]): Map<number, number> {
  const found = new Map<number, number>();
  const taken = new Set<number>();
  const pair = (at: number, mate: number) => {
    found.set(at, mate);
    taken.add(mate);
  };
  for (const [at, mate] of sameBy(base, side, found, taken, ({ content }) => content)) {
    pair(at, mate);
  }
  const named = ({ word, key }: Item) =>
    key === undefined || evidenceWords.has(word) ? undefined : key;
  for (const [at, mate] of sameBy(base, side, found, taken, named)) pair(at, mate);
  // Evidence of one object, then what has another name, then comments: the most alike first.
  for (const [at, mate] of mostAlike(base, side, found, taken, true)) pair(at, mate);
  for (const [at, mate] of mostAlike(base, side, found, taken, false)) pair(at, mate);
  return found;
}

function sameBy(
  base: readonly Item[],
  side: readonly Item[],
  found: ReadonlyMap<number, number>,
  taken: ReadonlySet<number>,
  by: (item: Item) => string | undefined,
): Pair[] {
  const places = new Map<string, number[]>();
  for (const [place, each] of side.entries()) {
    const key = taken.has(place) ? undefined : by(each);
    if (key === undefined) continue;
    const own = places.get(key);
    if (own) own.push(place);
    else places.set(key, [place]);
  }
  return base.flatMap((each, at): Pair[] => {
    const key = found.has(at) ? undefined : by(each);
    const mate = key === undefined ? undefined : places.get(key)?.shift();
    return mate === undefined ? [] : [[at, mate]];
  });
}

function mostAlike(
  base: readonly Item[],
  side: readonly Item[],
  found: ReadonlyMap<number, number>,
  taken: ReadonlySet<number>,
  sameKey: boolean,
): Pair[] {
  const left = [...base.keys()].filter((at) => !found.has(at));
  const right = [...side.keys()].filter((at) => !taken.has(at));
  if (left.length * right.length > mostCompared) return [];
  const weighed = left.flatMap((at) =>
    right.flatMap((mate): { pair: Pair; alike: number }[] => {
      const [a, b] = [base[at]!, side[mate]!];
      if (a.word !== b.word || (sameKey && a.key !== b.key)) return [];
      const alike = similarity(a.content, b.content);
      return alike < leastAlike ? [] : [{ pair: [at, mate], alike }];
    }),
  );
  weighed.sort((a, b) => b.alike - a.alike);
  const used = [new Set<number>(), new Set<number>()] as const;
  return weighed.flatMap(({ pair }) => {
    if (used[0].has(pair[0]) || used[1].has(pair[1])) return [];
    used[0].add(pair[0]);
    used[1].add(pair[1]);
    return [pair];
  });
}

/** Places of the base that a side has set elsewhere among the others. */
export function movedOf(found: ReadonlyMap<number, number>): ReadonlySet<number> {
  const pairs = [...found].sort(([a], [b]) => a - b) as Pair[];
  const kept = new Set(inOrder(pairs).map(([at]) => at));
  return new Set(pairs.map(([at]) => at).filter((at) => !kept.has(at)));
}
