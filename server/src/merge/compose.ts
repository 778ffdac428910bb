/** What stands at the margin of three texts to one list: ours in order, theirs behind what they stand behind there. */

import { mergeEvidence } from './evidence.ts';
import { evidenceWords, type Item, matches, measuredWords, movedOf } from './items.ts';
import type { Block, Node } from './nodes.ts';
import { type Merged, mergeLists, mergeNode } from './sequence.ts';
import { either } from './text.ts';

export interface Composed {
  readonly items: readonly { readonly gap: number; readonly merged: readonly Merged[] }[];
  /** Blocks of evidence that stand beside another. */
  readonly beside: number;
}

/** One thing of up to three texts. */
interface Thing {
  base?: Item;
  ours?: Item;
  theirs?: Item;
  readonly moved: { ours: boolean; theirs: boolean };
}

export function compose(
  base: readonly Item[],
  ours: readonly Item[],
  theirs: readonly Item[],
): Composed {
  const [our, their] = [matches(base, ours), matches(base, theirs)];
  const [ourMoves, theirMoves] = [movedOf(our), movedOf(their)];
  const ofOurs = new Map<number, Thing>();
  const ofTheirs = new Map<number, Thing>();
  for (const [at, item] of base.entries()) {
    const [mine, other] = [our.get(at), their.get(at)];
    const thing: Thing = {
      base: item,
      moved: { ours: ourMoves.has(at), theirs: theirMoves.has(at) },
    };
    if (mine !== undefined) {
      thing.ours = ours[mine]!;
      ofOurs.set(mine, thing);
    }
    if (other !== undefined) {
      thing.theirs = theirs[other]!;
      ofTheirs.set(other, thing);
    }
  }
  const fresh = freshOnBothSides(ours, theirs, ofOurs, ofTheirs);
  for (const [at, item] of ours.entries()) {
    if (!ofOurs.has(at)) ofOurs.set(at, { ours: item, moved: { ours: false, theirs: false } });
  }
  for (const [at, item] of theirs.entries()) {
    if (ofTheirs.has(at)) continue;
    const twin = fresh.get(at);
    const thing: Thing = (twin !== undefined && ofOurs.get(twin)) || {
      moved: { ours: false, theirs: false },
    };
    thing.theirs = item;
    ofTheirs.set(at, thing);
  }
  return written(inOrder(ofOurs, ofTheirs, ours.length, theirs.length));
}

/** New things that both sides added: equal ones, and those that declare one name. */
function freshOnBothSides(
  ours: readonly Item[],
  theirs: readonly Item[],
  ofOurs: ReadonlyMap<number, Thing>,
  ofTheirs: ReadonlyMap<number, Thing>,
): ReadonlyMap<number, number> {
  const free = [...ours.keys()].filter((at) => !ofOurs.has(at));
  const twins = new Map<number, number>();
  for (const [at, item] of theirs.entries()) {
    if (ofTheirs.has(at)) continue;
    const place = free.findIndex((mine) => {
      const own = ours[mine]!;
      if (own.content === item.content) return true;
      if (item.key === undefined || own.word !== item.word || own.key !== item.key) return false;
      return !evidenceWords.has(item.word) || sameHead(own.node, item.node);
    });
    if (place < 0) continue;
    twins.set(at, free[place]!);
    free.splice(place, 1);
  }
  return twins;
}

/** Two tables of evidence with the same head are one that both began. */
function sameHead(a: Node | undefined, b: Node | undefined): boolean {
  const head = (block: Block) =>
    [block.head, ...block.body]
      .filter((node) => node.kind !== 'leaf' || (node.role !== 'row' && node.role !== 'comment'))
      .map(({ content }) => content)
      .join('\n');
  if (a?.kind !== 'block' || b?.kind !== 'block' || !measuredWords.has(a.word)) return false;
  return head(a) === head(b);
}

function inOrder(
  ofOurs: ReadonlyMap<number, Thing>,
  ofTheirs: ReadonlyMap<number, Thing>,
  ourCount: number,
  theirCount: number,
): Thing[] {
  const order: Thing[] = [];
  for (let at = 0; at < ourCount; at++) {
    const thing = ofOurs.get(at)!;
    // What they set elsewhere, and we did not, goes where they have it.
    if (!(thing.moved.theirs && !thing.moved.ours && thing.theirs)) order.push(thing);
  }
  const placed = new Set(order);
  let anchor: Thing | undefined;
  for (let at = 0; at < theirCount; at++) {
    const thing = ofTheirs.get(at)!;
    if (!placed.has(thing)) {
      let place = anchor ? order.indexOf(anchor) + 1 : 0;
      while (order[place] && !order[place]!.base && !order[place]!.theirs) place++;
      order.splice(place, 0, thing);
      placed.add(thing);
    }
    anchor = thing;
  }
  return order;
}

function written(things: readonly Thing[]): Composed {
  let beside = 0;
  const items = things.flatMap((thing, at) => {
    const merged = mergeThing(thing);
    if (merged.length === 0) return [];
    const blocks = merged.filter(({ kind }) => kind === 'block' || kind === 'merged');
    if (measuredWords.has(thing.ours?.word ?? '') && blocks.length > 1) beside += blocks.length - 1;
    const gap = gapOf(thing);
    // What was first in its own text has no empty line of its own.
    return [{ gap: at > 0 && gap === 0 && isFirst(thing) ? 1 : gap, merged }];
  });
  return { items, beside };
}

const isFirst = ({ base, ours, theirs }: Thing): boolean =>
  [base, ours, theirs]
    .filter((item) => item !== undefined)
    .every(({ node }) => node?.kind === 'block');

function gapOf({ base, ours, theirs }: Thing): number {
  if (ours && theirs) return either(base?.gap ?? ours.gap, ours.gap, theirs.gap);
  return (ours ?? theirs)?.gap ?? 0;
}

function mergeThing({ base, ours, theirs }: Thing): Merged[] {
  if (!ours && !theirs) return [];
  if (!base) return fresh(ours, theirs);
  if (!ours || !theirs) {
    const left = (ours ?? theirs)!;
    if (left.content === base.content) return [];
    const nodes = nodesIn(left);
    return [
      { kind: 'conflict', gap: left.gap, ours: ours ? nodes : [], theirs: ours ? [] : nodes },
    ];
  }
  const lead = mergeLists(base.lead, ours.lead, theirs.lead, { within: '' });
  if (!base.node || !ours.node || !theirs.node) {
    const node = ours.node ?? theirs.node;
    return node ? [...lead, node] : lead;
  }
  const both = [base.node, ours.node, theirs.node] as const;
  if (measuredWords.has(ours.word) && both.every((node) => node.kind === 'block')) {
    return [...lead, ...mergeEvidence(both[0] as Block, both[1] as Block, both[2] as Block)];
  }
  return [...lead, ...mergeNode(...both, { within: '' })];
}

function fresh(ours: Item | undefined, theirs: Item | undefined): Merged[] {
  if (!ours || !theirs) return nodesIn((ours ?? theirs)!);
  if (ours.content === theirs.content) return nodesIn(ours);
  const lead = mergeLists([], ours.lead, theirs.lead, { within: '' });
  const [own, other] = [ours.node, theirs.node];
  if (!own || !other) return [...lead, ...(own ? [own] : []), ...(other ? [other] : [])];
  // They say the same and differ in the comments above.
  if (own.content === other.content) return [...lead, own];
  const where = measuredWords.has(ours.word) ? { within: '', beside: [] } : { within: '' };
  return [...lead, ...mergeLists([], [own], [other], where)];
}

const nodesIn = ({ lead, node }: Item): Node[] => [...lead, ...(node ? [node] : [])];
