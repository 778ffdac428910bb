/**
 * What an answer about a whole file is made of, kept from one question to the
 * next. An editor asks for all of it after each key, and of a thousand blocks
 * one has changed: the others give the very objects they gave before, so that
 * they need not be made, nor written, again.
 */
import type { BlockView, DocumentView } from '../project/types.ts';

interface OfBlock<Item> {
  readonly edition: number;
  readonly line: number;
  /** In the block's own lines. */
  readonly own: readonly Item[];
  /** In the document's. */
  readonly items: readonly Item[];
}

interface OfDocument<Item> {
  readonly edition: number;
  readonly blocks: readonly BlockView[];
  readonly ofBlocks: readonly OfBlock<Item>[];
  readonly all: readonly Item[];
}

/**
 * A function of a document whose answer is a list of what its blocks give.
 * `make` looks at the block's text and at nothing else, and gives what it finds
 * in the block's own lines; `move` puts that so many lines further down. An
 * answer is never changed, and the same one until the text is another.
 */
export function keptByBlock<Item>(
  make: (document: DocumentView, block: BlockView) => readonly Item[],
  move: (item: Item, lines: number) => Item,
): (document: DocumentView) => readonly Item[] {
  const kept = new WeakMap<DocumentView, OfDocument<Item>>();
  return (document) => {
    const before = kept.get(document);
    if (before?.edition === document.edition) return before.all;
    const blocks = document.blocks();
    const former = formerOf(before, blocks);
    const ofBlocks: OfBlock<Item>[] = [];
    const all: Item[] = [];
    for (const [index, block] of blocks.entries()) {
      const { edition, line } = block;
      let now = former(block, index);
      if (now?.edition !== edition || now.line !== line) {
        const own = now?.edition === edition ? now.own : make(document, block);
        now = { edition, line, own, items: own.map((item) => move(item, line)) };
      }
      ofBlocks.push(now);
      for (const item of now.items) all.push(item);
    }
    kept.set(document, { edition: document.edition, blocks, ofBlocks, all });
    return all;
  };
}

/** What each block gave: found by its place while no block moves, else by the block. */
function formerOf<Item>(
  before: OfDocument<Item> | undefined,
  blocks: readonly BlockView[],
): (block: BlockView, index: number) => OfBlock<Item> | undefined {
  if (!before) return () => undefined;
  if (before.blocks === blocks) return (_, index) => before.ofBlocks[index];
  const byBlock = new Map(before.blocks.map((block, index) => [block, before.ofBlocks[index]!]));
  return (block) => byBlock.get(block);
}
